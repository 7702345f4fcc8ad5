"""Real terminals: closed, resized, pasted into, narrow, wide, without colour, without Unicode, read aloud."""

import os
import re
import signal
import sqlite3
import time
from contextlib import closing

import pytest

from tests.faults import driving, killing
from tests.faults.conftest import LONG
from trainer.store import schema

pytestmark = pytest.mark.skipif(os.name != "posix", reason="only POSIX has pseudo-terminals; see test_windows_console")

pyte = pytest.importorskip("pyte", reason="the screen of a terminal is read with pyte")


def waits(driven):
    return driven.waiting()


@pytest.fixture
def terminal(home):
    """Start ``trainer`` in a pseudo-terminal; whatever still runs at the end is killed."""
    started = []

    def start(*words, **how):
        driven = driving.OnTerminal(*words, home=home, **how)
        started.append(driven)
        return driven.until(waits)

    yield start
    for driven in started:
        if driven._code is None:
            driven.kill()
            driven.rest() if driven.out is not None else driven.gone()


def one_more(home):
    """Assert that the data are sound and that the next session asks, judges and ends."""
    killing.resumes(home, killing.stored(home), tally := killing.Tally())
    assert tally.faults == []


@pytest.mark.parametrize(
    ("early", "answers"), [(False, 2), (True, 0), (True, 2), (False, 0)][: 4 if LONG else 2], ids=str
)
def test_a_window_that_is_closed_keeps_what_was_judged(terminal, home, early, answers):
    if early:
        one_more(home)
    before = killing.stored(home)
    driven = terminal()
    for line in ["s", ""] * answers:
        driven.send(line)
        driven.until(waits)
    driven.hang_up()
    end = time.monotonic() + 20
    while (gone := os.waitpid(driven.pid, os.WNOHANG)) == (0, 0):
        assert time.monotonic() < end, "it goes on without a terminal"
        time.sleep(0.05)
    driven._code = gone[1]
    after = killing.stored(home)
    assert len(after.reviews) - len(before.reviews) == answers and after.problems == []
    assert "Traceback" not in driven.text()
    one_more(home)


def test_a_newer_database_is_refused_before_a_question_is_asked(home):
    """The question that was kept for today was on the screen, and its answer could not be stored."""
    one_more(home)
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute(f"PRAGMA user_version={schema.SCHEMA + 1}")
    content = (home / "reviews.db").read_bytes()
    driven = driving.OnTerminal(home=home)
    assert driven.rest() == 3
    (line,) = [line for line in driven.text().splitlines() if line]
    assert "newer trainer" in line and "install the newer trainer" in line
    assert (home / "reviews.db").read_bytes() == content


@pytest.mark.parametrize("how", ["SIGTERM", "^C", "q", "^D", "^Z", "SIGINT"][: 6 if LONG else 2])
def test_the_terminal_is_given_back_in_order(terminal, how):
    driven = terminal()
    driven.send("s")
    driven.until(waits)
    assert not driven.echoes()
    if how.startswith("SIG"):
        driven.kill(getattr(signal, how))
    elif how == "q":
        driven.send("q")
    else:
        driven.write(bytes([ord(how[1]) - 64]))
    end = time.monotonic() + 20
    while not driven.echoes():
        driven.listen(0.05)
        assert time.monotonic() < end
    code = driven.rest()
    assert code == {"SIGTERM": 143, "SIGINT": 0}.get(how, 0), driven.text()[-2000:]
    assert "Traceback" not in driven.text()


@pytest.mark.parametrize("columns", [20, 1, 40, 300][: 4 if LONG else 1])
def test_a_window_may_change_its_size_at_any_time(terminal, home, columns):
    driven = terminal("practice", "--questions", "2")
    for width, line in ((columns, "s"), (columns, ""), (80, "s"), (80, ""), (80, "q")):
        driven.resize(width, 24 if width > 1 else 1)
        driven.settle()
        driven.send(line)
    assert driven.rest() == 0
    assert len(killing.judged(driven.text())) == 2 or columns < 80
    assert len(killing.stored(home).reviews) == 2


@pytest.mark.parametrize("marked", [True, False], ids=["marked as pasted", "as keys"])
def test_a_megabyte_pasted_is_no_answer_and_no_end(terminal, home, marked):
    """As keys it comes a line at a time, like answers; none of these can be read, so none is graded."""
    size = 1_000_000 if marked else 300_000 if LONG else 30_000
    driven = terminal("practice", "--questions", "2")
    block = ("never mind\t\x1b[31m" * 4 + ("\n" if marked else "\r")).encode() * (size // 65)
    started = time.monotonic()
    sender = b"\x1b[200~" + block + b"\x1b[201~\r" if marked else block + b"\r"
    os.set_blocking(driven.out, False)
    while sender:
        try:
            sender = sender[os.write(driven.out, sender[:4096]) :]
        except BlockingIOError:
            pass
        driven.listen(0.0 if sender else 0.2)
        assert time.monotonic() - started < 100
    os.set_blocking(driven.out, True)
    driven.settle()
    driven.send("\x15s")  # Ctrl-U clears what stands in the line
    driven.until("Not known.").settle()
    driven.send("q")
    driven.rest()
    assert "Unhandled" not in driven.text() and "Press ENTER" not in driven.text()
    after = killing.stored(home)
    assert [review.typed for review in after.reviews] == [""] and after.problems == []


def screen_of(driven, columns, rows=200):
    """Return the lines that a terminal of this width shows, with ``rows`` enough for all of it."""
    screen = pyte.Screen(columns, rows)
    stream = pyte.ByteStream(screen)
    stream.feed(driven._raw)
    return [line.rstrip() for line in screen.display]


@pytest.mark.parametrize(
    ("columns", "term"),
    [(40, "xterm-16color"), (200, "xterm-256color"), (80, "xterm"), (60, "linux")][: 4 if LONG else 2],
)
def test_every_width_and_kind_of_terminal(terminal, home, columns, term):
    driven = terminal("practice", "--questions", "2", columns=columns, rows=24, TERM=term)
    for line in ("s", "", "s", "", "q"):
        driven.until(waits).send(line)
    assert driven.rest() == 0
    lines = [line for line in screen_of(driven, columns) if line]
    reviews = killing.stored(home).reviews
    shown = killing.bare("".join(lines))
    for review in reviews:
        assert killing.bare(review.question) in shown
    assert any(line.startswith("Not known. The answer is") for line in lines)
    assert b"\x1b[6n" not in driven._raw, "a terminal that can't tell where the cursor is would be complained about"
    codes = set(re.findall(r"\x1b\[([0-9;]*)m", driven.seen))
    assert codes and all(code in ("", "0", "1", "2", "0;1", "0;2", "0;31", "0;32", "0;33") for code in codes), codes


@pytest.mark.parametrize("why", ["NO_COLOR", "--plain", "TERM"][: 3 if LONG else 1])
def test_a_plain_terminal_is_read_in_order_and_nothing_moves(terminal, home, why):
    more = {"NO_COLOR": {"NO_COLOR": "1"}, "TERM": {"TERM": "dumb"}}.get(why, {})
    words = ("--plain",) if why == "--plain" else ()
    driven = terminal("practice", "--questions", "2", *words, plain=True, **more)
    for line in ("s", "", "s", "", "q"):
        driven.until(waits).send(line)
    assert driven.rest() == 0
    text = driven.seen.replace("\r\n", "\n")
    assert "\x1b" not in text and "\r" not in text and "\b" not in text
    reviews = killing.stored(home).reviews
    places = [killing.bare(text).index(killing.bare(review.question)) for review in reviews]
    answers = [match.start() for match in re.finditer("Notknown.Theansweris", killing.bare(text))]
    assert places[0] < answers[0] < places[1] < answers[1] < killing.bare(text).index("2questionsin")
    assert text.count("1 · ") == 1, "each question is said once"


@pytest.mark.parametrize(
    "how", [{"TRAINER_ASCII": "1"}, {"PYTHONIOENCODING": "ascii"}, {"PYTHONIOENCODING": "cp437"}][: 3 if LONG else 1]
)
def test_a_terminal_without_unicode(terminal, home, how):
    driven = terminal("practice", "--questions", "3", "--area", "marshal", **how)
    for line in ("s", "", "w", "s", "", "s", "", "q"):
        driven.until(waits).send(line)
    driven.rest()
    # The mark before the cursor comes from the line editor, which writes in the encoding of the terminal.
    assert driven._raw.isascii(), re.findall(rb"[^\x00-\x7f]+", driven._raw)[:5]
    assert len(killing.stored(home).reviews) == 3


def test_bytes_that_are_no_text_are_no_end(terminal, home):
    """A key of another encoding ended a plain session with a traceback."""
    driven = terminal("practice", "--questions", "1", "--plain", plain=True)
    driven.write(b"\xff\xfe\x80\n")
    driven.until(lambda d: d.seen.count("> ") >= 2)
    driven.send("s")
    driven.until("Enter goes on").send("")
    driven.until("q stops").send("q")
    assert driven.rest() == 0 and "Traceback" not in driven.seen
    assert len(killing.stored(home).reviews) == 1
