"""What is said when keys are pressed: a line editor driven by a pipe for a keyboard, and a plain pipe."""

from types import SimpleNamespace

import pytest

from trainer.drills import recitation
from trainer.errors import AnswerError
from trainer.model import OUT_OF_TIME, Grade
from trainer.terminal import rehearsal_screens, screens
from trainer.terminal.look import Look


def test_an_answer_is_judged_and_the_session_ends_with_a_summary(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("approach",)), "5000\r")
    assert said[1:4] == [
        "1 · approach · recall · no clock yet",
        "At what altitude is platform called?",
        "On the number: 5,000 ft.",
    ]
    assert "1 question in an unmeasured time: 1 right." in said
    assert store.count() == 1


def test_unreadable_answers_are_asked_again(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("approach",)), "quite high\r", "5000 lb\r", "\r", "5000\r")
    assert "On the number: 5,000 ft." in said
    assert len(list(store.reviews())) == 1
    complaints = said[3 : said.index("On the number: 5,000 ft.")]
    assert len(complaints) >= 3, "one line at least for each of the three that can't be read"


@pytest.mark.parametrize("screen", [screens, rehearsal_screens])
@pytest.mark.parametrize(
    ("width", "shown"),
    [
        (80, ["there is no line 6 – type 1 to 4"]),
        (60, ["there is no line 6 – type 1 to 4"]),
        (59, ["there is no line 6", "  type 1 to 4"]),
        (20, ["there is no line 6", "  type 1 to 4"]),
    ],
)
def test_what_is_wrong_and_what_to_type_stand_in_one_line_where_there_is_room(screen, width, shown):
    error = AnswerError("there is no line 6", hint="type 1 to 4")
    assert [text for text, _ in screen.unread(error, Look(width=width))] == shown


@pytest.mark.parametrize("screen", [screens, rehearsal_screens])
def test_what_does_not_fit_into_one_line_stands_in_two(screen):
    error = AnswerError("w" * 40, hint="v" * 40)
    assert [text for text, _ in screen.unread(error, Look(width=80))] == ["w" * 40, "  " + "v" * 40]
    whole = [text for text, _ in screen.unread(error, Look(width=84))]
    assert whole == [f"{'w' * 40} – {'v' * 40}"] and len(whole[0]) == 83
    assert [text for text, _ in screen.unread(AnswerError("nothing"), Look(width=84))] == ["nothing"]


@pytest.mark.parametrize("typed", ["?; ?", "? ; ?", "?;?", "x; x", "-; -", "\uff1f;\uff1f", "?, ?"])
def test_a_call_of_which_nothing_was_copied_is_given_up(begin, lines, store, typed):
    """Question marks alone were taken for punctuation, and "nothing was typed" was the answer."""
    session = begin(questions=1, seed="7", drills=("small-reply",))
    text = lines(session, f"{typed}\n")
    (review,) = store.reviews()
    assert (review.score, set(review.parts.values())) == (0.0, {0.0}) and "Not right" in text


@pytest.mark.parametrize("typed", ["?", "; ", "", "?; ?; ?"])
def test_too_little_or_too_much_of_a_call_is_asked_again(begin, lines, store, typed):
    session = begin(questions=1, seed="7", drills=("small-reply",))
    lines(session, f"{typed}\n")
    assert store.count() == 0


def test_a_miss_shows_the_worked_solution_and_waits(begin, drive):
    said = drive(begin(questions=2, seed="7", areas=("approach",)), "4000\r", "\r")
    at = said.index("Outside limits: the answer is 5,000 ft (1,000 ft too low).")
    assert [line.strip() for line in said[at:] if "NAVEDTRA" in line] == ["rule: NAVEDTRA 14342A"]


def test_w_after_a_miss_tells_what_the_answer_rests_on_and_nothing_twice(begin, drive):
    said = drive(begin(questions=2, seed="7", areas=("approach",)), "4000\r", "w\r", "\r")
    rule = said.index("  rule: NAVEDTRA 14342A")
    assert said[rule + 1].strip().startswith("source: NAVEDTRA 14342A") and "published" in " ".join(said[rule:])
    assert sum("answer" in line for line in said) == 1


def test_the_hint_is_shown_and_noted(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("comms",)), "h\r", "popeye\r")
    assert any(line.startswith("Hint: ") for line in said)
    assert [review.hint_used for review in store.reviews()] == [True]


def test_s_shows_the_solution_and_counts_as_not_known(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("comms",)), "s\r", "\r")
    assert "Not known. The answer is popeye." in said
    assert [review.score for review in store.reviews()] == [0.0]


def test_u_at_the_next_question_withdraws_the_last_answer(begin, drive, store):
    said = drive(begin(questions=3, seed="7"), "s\r", "\r", "u\r")
    assert "The last answer is withdrawn; the same drill comes again." in said
    assert store.count() == 0


def test_u_before_anything_was_answered_says_so(begin, drive):
    assert "There is no answer in this session to undo." in drive(begin(questions=1, seed="7"), "u\r")


def test_w_before_anything_was_answered_says_so(begin, drive):
    said = drive(begin(questions=1, seed="7"), "w\r")
    assert any(line.startswith("There is nothing to explain yet") for line in said)


def only(session, form):
    """Return ``session`` with its questions to flows asked in ``form``."""
    from trainer.drills import questions

    make = session._make

    def made(drill_id, seed):
        question = make(drill_id, seed)
        if question.kind != "flow":
            return question
        return questions.make(session._library.drills[drill_id], session._library, seed, form=form)

    session._make = made
    return session


@pytest.fixture
def flow(begin):
    """Return a session over the flow alone."""
    return only(begin(questions=1, seed="7", drills=("small-push",)), "recite")


def test_a_flow_is_recited_a_line_a_step_until_an_empty_line(flow, drive, store):
    said = drive(flow, "fix\r", "commencing\r", "brake\r", "platform\r", "\r")
    assert any(line.startswith("Right: ") for line in said)
    assert [review.form for review in store.reviews()] == ["recite"]


def test_a_flow_may_be_recited_in_one_line(flow, lines, store):
    lines(flow, "fix; brake; commencing; platform\n")
    assert [review.score for review in store.reviews()] == [1.0]


def test_a_forgotten_step_is_named_with_what_goes_wrong(flow, drive, store):
    said = " ".join(drive(flow, "fix\r", "commencing\r", "platform\r", "\r", "\r"))
    assert "speed brake out" in said and "the descent is too shallow" in said
    (review,) = store.reviews()
    assert 0 < review.score < 1


def test_an_empty_recitation_is_asked_again(flow, drive, store):
    drive(flow, "\r", "\r")
    assert store.count() == 0


def test_a_call_is_shown_before_its_items_are_asked(begin, drive, store):
    session = begin(questions=1, seed="7", drills=("small-reply",))
    said = drive(session, "010; 14\r", "\r")
    heard = next(at for at, line in enumerate(said) if line.startswith("(Two zero four, marshal."))
    asked = next(at for at, line in enumerate(said) if "Expected final bearing?" in line)
    assert heard < asked
    assert store.count() == 1


def test_did_you_mean_is_answered_by_y_and_never_graded_before(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("approach",)), "5000\r")
    assert said
    from trainer.practice.session import Session
    from trainer.reading.freetext.asking_back import Unsure

    session = begin(questions=1, seed="7", areas=("approach",))
    submit = Session.submit
    typed = []

    def unsure(self, line, seconds, *, hint_used=False, asked_back=""):
        typed.append((line, asked_back))
        if line == "fifty hundred" and not asked_back:
            raise Unsure(["5000"], meant="5000")
        return submit(self, line, seconds, hint_used=hint_used, asked_back=asked_back)

    session.submit = unsure.__get__(session)
    before = store.count()
    said = drive(session, "fifty hundred\r", "y\r")
    assert typed == [("fifty hundred", ""), ("fifty hundred", "5000")]
    assert any(line.startswith('did you mean "5000"?') for line in said)
    review = next(iter(store.reviews(newest_first=True)))
    assert (review.typed, review.asked_back, review.score) == ("fifty hundred", "5000", 0.5)
    assert store.count() == before + 1


def test_the_clock_stands_while_an_answer_is_asked_again():
    """A person who typed 'fifty hundred' lost the seconds in which it was asked again."""
    from trainer.terminal import loop

    asked, given = [], []
    lines = iter([("what?", 4.0), ("quite high", 30.0), ("5000", 9.0)])
    prompt = SimpleNamespace(ask=lambda status: (asked.append(status(0.0)), next(lines))[1], say=print, person=True)
    prompt.look = Look(width=80)

    def submit(typed, spent, **helped):
        if typed != "5000":
            raise AnswerError("can't read that", hint="type it like 1,200 ft")
        given.append(spent)
        return SimpleNamespace(clean=True)

    session = SimpleNamespace(
        submit=submit, remaining_s=lambda: 100.0, is_an_answer=lambda word: False, timed=lambda: True
    )
    question = SimpleNamespace(form="recall", limit_s=10.0, choices=())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(loop, "_judge", lambda session, prompt, outcome: outcome)
        loop._answer(session, prompt, question)
    assert given == [4.0]


@pytest.mark.parametrize("leave", ["q\r", "\x04", "\x03"])
def test_every_way_out_keeps_what_was_answered(begin, drive, store, leave):
    drive(begin(questions=5, seed="7", areas=("approach",)), "5000\r", leave)
    assert store.count() == 1


def test_a_pasted_block_is_one_answer_that_cannot_be_read(begin, drive, store):
    pasted = "\x1b[200~5000\n6000\n7000\x1b[201~\r"
    drive(begin(questions=1, seed="7", areas=("approach",)), pasted)
    assert store.count() == 0


def test_a_pipe_gets_a_clean_transcript_without_waiting(begin, lines, store):
    text = lines(begin(questions=2, seed="7", areas=("approach",)), "4000\n5000\n")
    assert "> 4000\nOutside limits" in text
    assert "Enter goes on" not in text
    assert "\x1b" not in text
    assert store.count() == 2


def test_a_pipe_that_ends_early_ends_the_session(begin, lines, store):
    text = lines(begin(questions=5, seed="7", areas=("approach",)), "5000")
    assert store.count() == 1
    assert "1 question in an unmeasured time: 1 right." in text


def test_carriage_returns_of_windows_are_no_answers(begin, lines, store):
    lines(begin(questions=2, seed="7", areas=("approach",)), "5000\r\n5000\r\n")
    assert [review.typed for review in store.reviews()] == ["5000", "5000"]


def test_nothing_typed_can_steer_the_terminal(begin, lines):
    assert "\x1b" not in lines(begin(questions=1, seed="7"), "\x1b[2J\x1b]0;x\x07\n")


@pytest.mark.parametrize("width", [20, 40, 60, 200])
def test_no_line_is_wider_than_the_screen(begin, lines, width):
    text = lines(begin(questions=4, seed="7"), "s\ns\ns\ns\n", look=Look(width=width))
    long = [line for line in text.splitlines() if len(line) > max(width, 44)]
    assert long == [], "only a diagram may be wider than a very narrow screen"


def test_a_screen_without_unicode_gets_ascii(begin, lines):
    assert lines(begin(questions=4, seed="7"), "s\ns\ns\ns\n", look=Look(unicode=False)).isascii()


def test_examples_are_read_while_a_person_types_but_not_at_the_first_question(begin, drive, lines, monkeypatch):
    began = []
    session = begin(questions=3, seed="7")
    monkeypatch.setattr(session, "get_ready", lambda: began.append(session.number()))
    drive(session, "s\r", "\r", "s\r", "\r", "s\r", "\r")
    assert began == [2, 3]
    piped = begin(questions=3, seed="7")
    monkeypatch.setattr(piped, "get_ready", lambda: began.append(0))
    lines(piped, "s\ns\ns\n")
    assert 0 not in began


def test_getting_ready_reads_the_examples_of_a_flow_and_nothing_else(begin, monkeypatch):
    read = []
    monkeypatch.setattr(recitation, "get_ready", lambda drill: read.append(drill.kind))
    session = begin(questions=9, seed="7")
    kinds = []
    while (question := session.next()) is not None:
        kinds.append(question.kind)
        session.get_ready()
        session.give_up(1.0)
    assert read == [kind for kind in kinds if kind == "flow"] and read and len(kinds) > len(read)


def test_how_late_an_answer_was_is_said_once_beside_it():
    """It was said twice for words, and 8.4 s of 8 s read "8 s of 8 s"."""
    grade = Grade(verdict=OUT_OF_TIME, score=1.0, said=("9 s, the limit is 8 s",))
    outcome = SimpleNamespace(grade=grade, gave_up=False, is_number=False, truth_text="left")
    (line,) = screens.verdict(outcome, Look(width=80))
    assert line[0] == "Right, but out of time: the answer is left (9 s, the limit is 8 s)."


def test_enter_asks_what_was_missed_once_more(begin, drive, store):
    session = begin(questions=2, seed="7", drills=("small-radial", "small-popeye"))
    said = drive(session, "s\r", "\r", "s\r", "\r", "\r", "s\r", "\r", "popeye\r", "popeye\r")
    asked = [review.drill_id for review in store.reviews()]
    assert len(asked) >= 3 and asked[2:] == asked[: len(asked) - 2]
    assert sum(line.startswith("2 questions in") for line in said) == 1, "the summary is told once"


def test_who_leaves_or_wants_no_more_is_not_asked_again(begin, drive, store):
    drive(begin(questions=1, seed="7"), "s\r", "\r", "q\r", "s\r")
    assert store.count() == 1
    drive(begin(questions=5, seed="8"), "s\r", "q\r", "s\r")
    assert store.count() == 2


def test_a_pipe_is_not_offered_what_was_missed(begin, lines, store):
    assert "once more" not in lines(begin(questions=1, seed="7"), "s\ns\n")
    assert store.count() == 1


def test_enter_asks_what_was_missed_once_more_and_says_how_it_went(begin, drive, store):
    said = drive(begin(questions=1, seed="7", areas=("approach",)), "4000\r", "\r", "\r", "5000\r")
    assert said.count("At what altitude is platform called?") == 2
    assert "1 of 1 right this time." in said and store.count() == 2


def test_whoever_was_right_is_offered_nothing_more(begin, drive):
    said = drive(begin(questions=1, seed="7", areas=("approach",)), "5000\r", "\r")
    assert said.count("At what altitude is platform called?") == 1 and "this time" not in " ".join(said)
