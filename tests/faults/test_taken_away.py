"""The whole program when its data are taken away while it runs: in a pipe, and on a terminal."""

import os
import shutil

import pytest

from tests.faults import driving, killing
from tests.faults.driving import OnTerminal, Piped

pytestmark = pytest.mark.skipif(os.name != "posix", reason="Windows lets nobody take away a file that is open")


def delete_home(home, copy):
    shutil.rmtree(home)


def move_home(home, copy):
    home.rename(home.with_name("elsewhere"))


def replace(home, copy):
    os.replace(copy, home / "reviews.db")


def overwrite(home, copy):
    shutil.copyfile(copy, home / "reviews.db")


def begun(home, terminal):
    """Return a session that waits for its third answer."""
    words = ("practice", "--seed", "3", "--questions", "4")
    if not terminal:
        session = Piped(*words, home=home)
        for count in (1, 2):
            session.until(driving.Driven.waiting).send("s")
            session.until(lambda driven: len(killing.judged(driven.text())) == count)  # noqa: B023
        return session.until(driving.Driven.waiting)
    session = OnTerminal(*words, home=home)
    for _ in range(2):
        session.until(driving.Driven.waiting).send("s")
        session.until("Enter goes on").settle()
        session.send("")
    return session.until(driving.Driven.waiting)


@pytest.mark.parametrize(
    ("take", "terminal"),
    [(delete_home, False), (move_home, True), (replace, True), (overwrite, False)],
    ids=lambda value: getattr(value, "__name__", "terminal" if value else "pipe"),
)
def test_no_verdict_is_shown_that_is_not_stored(home, tmp_path, take, terminal):
    driving.run("practice", "--questions", "1", home=home, typed="s\n")
    copy = shutil.copy(home / "reviews.db", tmp_path / "copy.db")
    session = begun(home, terminal)
    take(home, copy)
    session.send("s")
    code, text = session.rest(), session.text()
    assert code == 3 and "Traceback" not in text, text
    told = " ".join(text.split())
    assert "3 answers of this session are kept in" in told and "the next start takes them in" in told
    shown = killing.judged(text)
    assert len(shown) == 2, "the third was not judged"
    after = driving.run("practice", "--questions", "1", home=home, typed="s\n")
    assert "3 answers kept beside were taken in" in after.stderr and after.returncode == 0
    stored = killing.stored(home)
    assert stored.problems == []
    whole = 1 if take in (replace, overwrite) else 0
    assert len(stored.reviews) == whole + 3 + 1
    assert all(any(killing.bare(review.question) in asked for review in stored.reviews) for asked in shown)
