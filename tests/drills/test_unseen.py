"""Right wordings and opposites for shipped steps, each set written before the matcher was run on it.

The first-run figures stand in the head of each file; here every set must stay as good as it was made since.
The steps of the whole flow compete, as they do in a session.
"""

import tomllib
from pathlib import Path

import pytest

from trainer.decks import library as libraries
from trainer.drills import matching, recitation
from trainer.errors import AnswerError

SETS = sorted(Path(__file__).parent.glob("unseen_*.toml"))
MOST_WRONG_PERCENT = 8  # what is left are mostly texts that a person might ask back as well


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def cases(path, kind, library):
    """Yield (the wordings of the flow, the step that is meant, text)."""
    for flow, steps in tomllib.loads(path.read_text(encoding="utf-8")).items():
        wordings = recitation.wordings(library.drills[flow])
        for step, texts in steps.items():
            for text in texts.get(kind, ()):
                yield wordings, step, text


def meant(wordings, text):
    """Return the step that ``text`` is accepted as, "opposite", or "" where it is no step or asked back."""
    try:
        found = matching.find(text, wordings)
    except AnswerError:
        return ""
    return found.key or ("opposite" if found.opposite else "")


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_right_wordings_are_accepted(path, shipped):
    tried = [(step, text, meant(wordings, text)) for wordings, step, text in cases(path, "right", shipped)]
    wrong = [case for case in tried if case[2] != case[0]]
    assert len(tried) > 60 and 100 * len(wrong) <= MOST_WRONG_PERCENT * len(tried), wrong


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_right_wording_is_called_the_opposite(path, shipped):
    called = [text for wordings, _, text in cases(path, "right", shipped) if meant(wordings, text) == "opposite"]
    assert len(called) <= 1, called


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_opposite_is_accepted(path, shipped):
    tried = [(step, text, meant(wordings, text)) for wordings, step, text in cases(path, "opposite", shipped)]
    assert len(tried) > 30 and [case for case in tried if case[2] == case[0]] == []


def test_the_same_text_is_judged_alike_whatever_the_order_of_sets(shipped):
    # Sums over sets differ in the last digit from run to run; one such tie let an exchanged number through.
    wordings = recitation.wordings(shipped.drills["departure-case-3"])
    assert meant(wordings, "at 10 nm turn for the 7 nm arc") != "seven"
