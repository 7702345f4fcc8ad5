"""The logbook: days, weeks, areas, what became solid, what was flown; on the screen and as a page."""

import re
from datetime import UTC, date, datetime, timedelta

import pytest

from tests.store import invented
from trainer import cli
from trainer.decks import library
from trainer.pages import logbook_page
from trainer.practice import events, logbook
from trainer.terminal import logbook as screens
from trainer.terminal.look import Look

MONDAY = datetime(2030, 3, 4, 19, tzinfo=UTC)
TODAY = date(2030, 3, 20)


@pytest.fixture(scope="module")
def outlines():
    return library.load().outlines


@pytest.fixture
def answered(store):
    """Return a function that stores answers: ``answered("push-easy", 0, 1, wrong=(0,))`` by days from a Monday."""

    def answer(drill_id, *days, wrong=(), **more):
        for day in days:
            at = MONDAY + timedelta(days=day)
            how = {"score": 0.0, "verdict": "outside limits"} if day in wrong else {"score": 1.0}
            given = dict(drill_id=drill_id, at=at, offset_min=0, seconds=30.0) | how | more
            store.record(invented.review(**given), invented.update)

    return answer


def test_days_weeks_areas_and_minutes_are_counted(store, answered, outlines):
    answered("push-easy", 0, 2, 15, wrong=(15,))
    answered("ball-call", 2, 15)
    book = logbook.of(store, outlines)
    assert (book.days, book.answers, book.minutes) == (3, 5, 2.5)
    assert [(one.monday, one.answers, one.right, one.minutes) for one in book.weeks] == [
        (date(2030, 3, 4), 3, 3, 1.5), (date(2030, 3, 11), 0, 0, 0.0), (date(2030, 3, 18), 2, 1, 1.0),
    ]  # fmt: skip
    assert book.weeks[0].days == (True, False, True, False, False, False, False)
    marshal = next(one for one in book.areas if one.area == outlines["push-easy"].area)
    assert (marshal.answers, marshal.right, marshal.met) == (3, 2, 1)


@pytest.mark.parametrize(
    ("days", "wrong", "solid_on"),
    [
        ((0, 1), (), 1),  # known from the start, and again the next day
        ((0, 1, 2), (0,), 2),  # missed, then right on two later days
        ((0, 1), (0,), None),
        ((0, 1, 5), (5,), None),  # and lost again
        ((0, 1, 5, 6, 9), (5,), 9),
    ],
)
def test_solid_is_what_was_right_on_later_days_running(store, answered, outlines, days, wrong, solid_on):
    answered("push-easy", *days, wrong=wrong)
    found = [day for day, _ in logbook.of(store, outlines).solid]
    assert found == ([] if solid_on is None else [(MONDAY + timedelta(days=solid_on)).date()])


def test_right_again_on_the_same_day_makes_nothing_solid(store, answered, outlines):
    answered("push-easy", 0, 0, 0)
    assert logbook.of(store, outlines).solid == ()


def test_rehearsals_flights_and_events_stand_in_it_the_latest_first(store, answered, outlines, clock):
    answered("push-easy", 3, 3, mode="rehearsal")
    answered("push-easy", 8, wrong=(8,), mode="rehearsal")
    events.set_event(store, clock, at=MONDAY + timedelta(days=20), minutes_per_day=10, name="night traps")
    told = [(one.day, one.text) for one in logbook.of(store, outlines).entries]
    assert told == [
        (date(2030, 3, 24), "event: night traps"),
        (date(2030, 3, 12), "rehearsal: 0 of 1 right"),
        (date(2030, 3, 7), "rehearsal: 2 of 2 right"),
    ]


def test_the_screen_is_calm(store, answered, outlines):
    for at, one in enumerate(list(outlines)[:8]):
        answered(one, at, at + 7, at + 14, at + 40)
    said = [text for text, _ in screens.lines(logbook.of(store, outlines), Look(width=80), TODAY)]
    assert max(map(len, said)) <= 80
    assert "4 Mar" in "\n".join(said) and "█" in "\n".join(said)
    assert "and 3 more" in "\n".join(said), "of eight that became solid"
    assert "and 2 weeks before" in " ".join(said)
    for part in "\n".join(said).split("\n\n"):
        assert len(part.splitlines()) <= 7, "a heading, five lines and how many more"
    plain = "\n".join(text for text, _ in screens.lines(logbook.of(store, outlines), Look(drawings=False), TODAY))
    assert "▪" not in plain and "█" not in plain and "of 7" in plain


def test_an_empty_logbook_says_how_to_begin(store, outlines):
    (line,) = screens.lines(logbook.of(store, outlines), Look(width=80), TODAY)
    assert line[0].endswith("Start: trainer")


def test_the_page_holds_every_week_and_title(store, answered, outlines):
    for at, one in enumerate(list(outlines)[:8]):
        answered(one, at, at + 7, at + 40)
    book = logbook.of(store, outlines)
    html = logbook_page.html(book, day=TODAY, caution="Not for real flight.")
    text = re.sub(r"<[^>]*>", " ", html)
    assert all(title in text.replace("&#39;", "'").replace("&amp;", "&") for _, title in book.solid)
    assert html.count("<rect") == len(book.weeks) and "Not for real flight." in text
    assert "<script" not in html and "style=" not in html


def test_the_command_shows_it_and_writes_the_page(home, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("TRAINER_NOW", "2030-03-01T19:00:00+00:00")
    monkeypatch.chdir(tmp_path)
    assert cli.main(["logbook"]) == 0 and not home.exists()
    assert "Start: trainer" in capsys.readouterr().out
    assert cli.main(["logbook", "--out", "logbook.html"]) == 0
    assert "Nothing was answered yet" in (tmp_path / "logbook.html").read_text("utf-8")
