"""A rehearsal flown by the tests as a person flies it."""

import io

import pytest

from tests.night.keys import right, wrong
from trainer.errors import AnswerError
from trainer.practice.knowledge import after_review
from trainer.reading.numbers import spoken
from trainer.terminal import rehearsal as loop
from trainer.terminal.look import Look
from trainer.terminal.plain import PlainPrompt


def fly(rehearsal, flown, clock, lines, look=None):
    """Return (sheet, transcript) of a rehearsal to which ``lines`` are typed."""
    out = io.StringIO()
    typed = io.StringIO("".join(f"{line}\n" for line in lines))
    prompt = PlainPrompt(look or Look(width=80), clock=clock, stream=typed, out=out)
    sheet = loop.run(rehearsal, flown, prompt)
    return sheet, out.getvalue()


@pytest.mark.parametrize("case", [1, 2, 3])
@pytest.mark.parametrize("seed", ["1", "2", "3", "4"])
def test_everything_right_is_passed(library, ready, begin, store, clock, case, seed):
    flown = ready(seed, case)
    typed = [right(event.question, library) for event in flown.events if event.question]
    sheet, text = fly(begin(flown), flown, clock, typed)
    missed = [(answer.event.question.text, answer.typed, answer.grade) for answer in sheet.answers if not answer.clean]
    assert missed == []
    assert sheet.complete and sheet.passed
    assert "\nPASSED\n" in text and "Missed" not in text
    reviews = list(store.reviews())
    assert len(reviews) == flown.questions == len(typed)
    assert {review.mode for review in reviews} == {"rehearsal"}
    assert store.verify(after_review) == []


def test_a_wrong_number_is_told_and_the_true_one_goes_on(library, ready, begin, clock):
    flown = ready("7", 3, first="marshal", last="marshal")
    push = [event for event in flown.events if event.number == "push"][-1]
    typed = [
        wrong(event.question, library) if event is push else right(event.question, library)
        for event in flown.events
        if event.question
    ]
    sheet, text = fly(begin(flown), flown, clock, typed)
    assert [answer.drill_id for answer in sheet.answers if not answer.clean] == ["push-easy"]
    assert f"Not right. It is {push.question.truth_text}; you go on with that." in text
    lose = next(event for event in flown.events if event.question and event.question.drill_id == "time-to-lose-easy")
    assert push.question.truth_text in lose.question.text, "the next question starts from the true push"
    assert sum(not answer.clean for answer in sheet.answers) == 1, "one error is counted once"


def test_of_many_misses_five_are_named_at_the_end(library, ready, begin, clock):
    flown = ready("7", 3, first="marshal", last="marshal")
    sheet, text = fly(begin(flown), flown, clock, ["s"] * flown.questions)
    missed = text.partition("Missed:")[2]
    assert len(sheet.answers) == flown.questions > 6
    assert missed.count("not known") == 5 and f"and {flown.questions - 5} more" in missed


def test_a_wrong_answer_goes_to_the_scheduler(library, ready, begin, store, clock):
    flown = ready("7", 3, first="marshal", last="marshal")
    typed = [wrong(event.question, library) for event in flown.events if event.question]
    fly(begin(flown), flown, clock, typed)
    scores = {review.drill_id: review.score for review in store.reviews()}
    assert scores["push-easy"] == scores["fix-from-angels"] == 0.0
    assert set(store.states()) == set(scores)


@pytest.mark.parametrize("leave", ["q", None])
def test_a_sortie_broken_off_is_never_passed(library, ready, begin, store, clock, leave):
    flown = ready("7", 3)
    typed = [right(event.question, library) for event in flown.events if event.question][:5]
    sheet, text = fly(begin(flown), flown, clock, [*typed, leave] if leave else typed)
    assert (sheet.complete, sheet.passed, sheet.unanswered) == (False, False, flown.questions - 5)
    assert "not flown to its end" in text
    assert store.count() == 5


def test_there_are_no_hints_and_no_way_back(library, ready, begin, store, clock):
    flown = ready("7", 3, first="marshal", last="marshal")
    _, text = fly(begin(flown), flown, clock, ["h", "w", "u", "f", "s", "q"])
    assert text.count("Not on the night") == 4
    assert [review.score for review in store.reviews()] == [0.0]
    assert "shows the solution" not in text


def test_what_cannot_be_read_is_asked_again_and_not_stored(ready, begin, store, clock):
    flown = ready("7", 3, first="marshal", last="marshal")
    rehearsal = begin(flown)
    while rehearsal.next().question is None:
        pass
    with pytest.raises(AnswerError):
        rehearsal.submit("perhaps", 1.0)
    assert store.count() == 0
    _, text = fly(begin(flown), flown, clock, ["perhaps", "233", "q"])
    assert text.count(f"  1 of {flown.questions} ·") == 1 and "I can't read" in text


def test_every_line_fits_the_screen(library, ready, begin, clock):
    flown = ready("7", 3)
    typed = [wrong(event.question, library) for event in flown.events if event.question]
    for width in (40, 80):
        _, text = fly(begin(flown), flown, clock, typed, Look(width=width))
        assert max(len(line) for line in text.splitlines() if not line.startswith("> ")) <= width


def test_an_ascii_screen_gets_ascii(library, ready, begin, clock):
    flown = ready("7", 3, first="marshal")
    typed = ["s"] * flown.questions
    _, text = fly(begin(flown), flown, clock, typed, Look(width=80, unicode=False))
    assert text.isascii()


def test_what_is_heard_is_copied(library, ready, begin, clock):
    flown = ready("7", 3, first="check-in", last="check-in")
    heard = next(event.question for event in flown.events if event.question and event.question.form == "listen")
    typed = [right(event.question, library) for event in flown.events if event.question]
    sheet, text = fly(begin(flown), flown, clock, typed)
    shown = " ".join(text.split())
    assert heard.inputs["hear"] in shown and shown.index(heard.inputs["hear"]) < shown.index("Copy marshal's answer")
    assert all(answer.clean for answer in sheet.answers)
    assert spoken.said(heard.inputs["bearing_deg"], "heading") in heard.inputs["hear"]
