"""A home of an earlier version opens as it is: reviews, flags and files stay, and stages begin beside them."""

import sqlite3
from contextlib import closing

import pytest

from tests.store.test_store_schema import SAVED
from trainer.clock import StillClock
from trainer.decks import library
from trainer.practice import left_out
from trainer.practice.knowledge import after_review
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store import schema
from trainer.store.store import Store


@pytest.mark.parametrize("path", SAVED, ids=lambda path: path.stem)
def test_an_older_home_is_practised_on(path, home, clock):
    home.mkdir()
    with closing(sqlite3.connect(home / "reviews.db")) as old:
        old.executescript(path.read_text(encoding="utf-8"))
        old.execute(f"PRAGMA user_version={path.stem.split('-')[1]}")
        old.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
    shelf = library.load()
    with Store.open(home, clock=StillClock(clock.instant)) as store:
        before, flags = list(store.reviews()), store.flags()
        assert before and flags
        assert {flag.id for flag in left_out.flags(store)} == {flag.id for flag in flags}
        session = Session(
            store=store, clock=store.clock, wish=Wish(questions=3), load_library=lambda: shelf, signature="shipped"
        )  # fmt: skip
        while session.next() is not None:
            session.give_up(3.0)
        summary = session.finish()
        assert summary.standing.name == "day-departure"
        assert list(store.reviews())[: len(before)] == before
        assert store.count() == len(before) + 3
        assert store.flags() == flags
        assert store.verify(after_review) == []
