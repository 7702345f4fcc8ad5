"""Without answers, nothing is handed out from which an answer follows: somebody with the same decks tries it.

The attacker knows the program, the decks and every file handed out.  Each way found to a typed value is tried on the
files with answers as well, where it must succeed: so the test can fail.
"""

import itertools
import json
import re
from dataclasses import replace

import pytest

from tests.pages import pilots
from trainer.commands import report
from trainer.commands.world import World
from trainer.drills import computed, worked_solution
from trainer.practice import knowledge
from trainer.practice.evidence import record as evidence
from trainer.practice.evidence import retold
from trainer.store import rows
from trainer.store.records import Debrief
from trainer.store.store import Store

REMARK = "Number two said my lineup was left of the moon"
TAKEN = "did you mean the fuel on the ball"


@pytest.fixture(scope="module")
def handed_out(tmp_path_factory):
    """Return (shelf, reviews, {answers or not: {file: text}}) of a weak pilot's week."""
    home = tmp_path_factory.mktemp("pilot") / "home"
    clock = pilots.weak(home, 1)
    world = World(home=home, clock=clock, plain=True)
    with Store.open(home, clock=clock) as store:
        helped = next(one for one in store.reviews() if one.kind == "recall" and one.typed)
        given = replace(helped, typed="moonlit words", asked_back=TAKEN, score=0.5, at=clock.now())
        store.record(given, knowledge.after_review, model=knowledge.model())
        store.add_debrief(Debrief(flown="2031-03-06", remarks=REMARK))
        reviews = list(store.reviews())
        files = {
            answers: report.made(store, world, evidence.Wish(call_sign="Weak", answers=answers), report.FORMATS)[1]
            for answers in (True, False)
        }
    return world.library(), reviews, files


def wrong_numbers(reviews):
    return [one for one in reviews if one.kind == "computed" and one.score < 0.5 and one.typed]


def by_reading(text, shelf, reviews):
    """What was typed, what was asked back and what was remarked stands there."""
    # What is right stands in the worked solutions, whoever typed it.
    words = {one.typed for one in reviews if one.score < 1.0 and len(one.typed) > 8 and one.typed.count(" ") > 1}
    return {word for word in words | {REMARK, TAKEN} if word in text and not word.replace(" ", "").isdigit()}


def by_the_slip(text, shelf, reviews):
    """The question stands there and so does its slip: the value that the slip leads to was typed."""
    found = set()
    for one in wrong_numbers(reviews):
        drill, question = shelf.drills[one.drill_id], _question(one, shelf)
        asked = question.text in text or any(
            line in text for line in worked_solution.worked(question, drill, shelf) if line.startswith("given: ")
        )
        slips = dict(computed.slip_values(drill, shelf, one.inputs)) if asked and one.slip else {}
        named = next((value for slip, value in slips.items() if slip.name == one.slip), None)
        if named is not None and (one.slip in text or retold.slip_words(one.slip, question, drill) in text):
            found.add(one.typed)
    return found


def by_the_error(text, shelf, reviews):
    """How far off an answer was stands beside it: with the right answer it is what was typed."""
    far = {retold.deviation_text(one.deviation, one.unit) for one in wrong_numbers(reviews) if one.deviation}
    return {words for words in far if words and f"({words})" in text}


def by_trying(text, shelf, reviews):
    """A digest of an answer stands there, so a guess can be tried until it fits."""
    previous, found = rows.FIRST_DIGEST, set()
    for number, one in enumerate(reviews, 1):
        row = rows.to_row(one, (one.drill_id,))
        digest = rows.digest(previous, number, row)
        if digest.hex() in text and number < len(reviews):  # the last one is the end of the chain, which is quoted
            guesses = (rows.to_row(replace(one, typed=guess), (one.drill_id,)) for guess in ("no", one.typed))
            if [rows.digest(previous, number, guess) == digest for guess in guesses] == [False, True]:
                found.add(one.typed)
        previous = digest
    return found


def by_the_points(text, shelf, reviews):
    """A page or a list holds every single error."""
    return set(re.findall(r'"off": -?\d|<tr><th scope="row">\d{4}-\d\d-\d\d</th><td class="n">[+-]', text))


WAYS = (by_reading, by_the_slip, by_the_error, by_trying, by_the_points)


def _question(review, shelf):
    try:
        return retold.question_of(review, shelf.drills[review.drill_id])
    except (KeyError, ValueError, TypeError):
        return None


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_nothing_is_recovered_without_answers(handed_out, way):
    shelf, reviews, files = handed_out
    text = {answers: "\n".join(map(_unescaped, made.values())) for answers, made in files.items()}
    assert way(text[True], shelf, reviews), "with answers this way leads somewhere, or it tests nothing"
    assert way(text[False], shelf, reviews) == set()


def _unescaped(text):
    """Return the text of a file as a person sees it: entities and the escapes of Markdown taken back."""
    import html

    return re.sub(r"\\([\\`*_\[\]<>#|~&$])", r"\1", html.unescape(text))


def test_what_is_left_still_says_what_is_weak_and_why(handed_out):
    _, _, files = handed_out
    record = json.loads(
        next(text for name, text in files[False].items() if name.endswith("report-weak-2031-03-07.json"))
    )
    assert record["weakest"] and any(drill["slip"] for drill in record["weakest"]) and record["slips"]
    assert any(drill["worked"] for drill in record["weakest"] if drill["kind"] == "computed")
    assert all(one["points"] == [] and one["outside"] > 0 for one in record["deviations"]) and record["deviations"]


def test_that_something_was_asked_back_is_told_in_every_format(handed_out):
    _, _, files = handed_out
    for answers, made in files.items():
        kinds = {name.rsplit("-", 1)[-1] if name.endswith(("csv", "xapi.json")) else name.rsplit(".", 1)[-1]: text
                 for name, text in made.items()}  # fmt: skip
        assert "1 after asking back (half)" in kinds["html"] and "1 after asking back" in kinds["md"]
        assert json.loads(kinds["json"])["period"]["asked_back"] == 1
        assert sum(one["context"]["extensions"]["https://trainer.invalid/extensions/asked-back"]
                   for one in json.loads(kinds["xapi.json"])) == 1  # fmt: skip
        assert (TAKEN in kinds["reviews.csv"]) == (TAKEN in kinds["xapi.json"]) == answers
        assert all(kinds.values()) and len(list(itertools.chain(kinds))) == 6
