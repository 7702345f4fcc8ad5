"""Right wordings and opposites for shipped steps, each set written before the matcher was run on it.

The first-run figures stand in the head of each file; here every set must stay as good as it was made since.
The steps of the whole flow compete, as they do in a session.
"""

import tomllib
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from multiprocessing import get_context
from pathlib import Path

import pytest

from trainer.decks import library as libraries
from trainer.drills import recitation
from trainer.errors import AnswerError
from trainer.reading.freetext import judge

SETS = sorted(Path(__file__).parent.glob("unseen_*.toml"))
MOST_WRONG_PERCENT = 8  # of one set; what is left is nearly always asked back
# Sets 24 to 43 are what is promised: 300 typed variants (right, too little, opposite) over 60 steps each, by twenty
# authors.  The last four were first read by the reading as it is: 98 % of 720, none of 240 opposites.
LATE, MOST_WRONG_PERCENT_LATE = 24, 3
MOST_CALLED_OPPOSITE = 1


@cache
def library():
    """Return the shipped library, read once in each process."""
    return libraries.load()


@pytest.fixture(scope="module")
def shipped():
    return library()


def number_of(path):
    return int(path.stem.removeprefix("unseen_"))


def cases(path, kind, library):
    """Yield ((the wordings of the flow, what it says by itself, the flow), the step that is meant, text)."""
    for flow, steps in tomllib.loads(path.read_text(encoding="utf-8")).items():
        drill = library.drills[flow]
        asked = (recitation.wordings(drill), recitation.about(drill), drill)
        for step, texts in steps.items():
            for text in texts.get(kind, ()):
                yield asked, step, text


def meant(asked, text):
    """Return the step that ``text`` is accepted as, "opposite", or "" where it is no step or asked back."""
    return judged()[asked[-1].id, text]


@cache
def judged():
    """Return {(flow, text): what it is taken for} of all sets; flow by flow, for the examples of one are many."""
    texts = {}
    for path in SETS:
        for kind in ("right", "opposite"):
            for asked, _, text in cases(path, kind, library()):
                texts.setdefault(asked[-1].id, {})[text] = None
    with ProcessPoolExecutor(mp_context=get_context("spawn")) as pool:
        return {key: found for part in pool.map(judged_of, texts.items()) for key, found in part.items()}


def judged_of(of_flow):
    """Return {(flow, text): what it is taken for} of the texts of one flow; ``of_flow`` is (its id, texts)."""
    flow, texts = of_flow
    drill = library().drills[flow]
    asked = recitation.wordings(drill), recitation.about(drill), drill
    return {(flow, text): taken_for(asked, text) for text in texts}


def taken_for(asked, text):
    """Return what ``text`` is taken for; see ``meant``."""
    try:
        found = judge.find(text, *asked)
    except AnswerError:
        return ""
    return found.key or ("opposite" if found.opposite else "")


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_right_wordings_are_accepted(path, shipped):
    tried = [(step, text, meant(asked, text)) for asked, step, text in cases(path, "right", shipped)]
    wrong = [case for case in tried if case[2] != case[0]]
    assert len(tried) > 60 and 100 * len(wrong) <= MOST_WRONG_PERCENT * len(tried), wrong


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_right_wording_is_called_the_opposite(path, shipped):
    called = [text for asked, _, text in cases(path, "right", shipped) if meant(asked, text) == "opposite"]
    assert len(called) <= MOST_CALLED_OPPOSITE, called


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_opposite_is_accepted(path, shipped):
    tried = [(step, text, meant(asked, text)) for asked, step, text in cases(path, "opposite", shipped)]
    assert len(tried) > 30 and [text for step, text, got in tried if got == step] == []


def test_all_late_sets_together_keep_what_is_promised(shipped):
    late = [path for path in SETS if number_of(path) >= LATE]
    tried = [(step, text, meant(asked, text)) for path in late for asked, step, text in cases(path, "right", shipped)]
    wrong = [case for case in tried if case[2] != case[0]]
    assert len(tried) > 3_500 and 100 * len(wrong) <= MOST_WRONG_PERCENT_LATE * len(tried), wrong


def test_the_same_text_is_judged_alike_whatever_the_order_of_sets(shipped):
    # Sums over sets differ in the last digit from run to run; one such tie let an exchanged number through.
    drill = shipped.drills["departure-case-3"]
    asked = (recitation.wordings(drill), recitation.about(drill), drill)
    assert taken_for(asked, "at 10 nm turn for the 7 nm arc") != "seven"
