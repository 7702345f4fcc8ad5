"""A session over the small deck: real files, a real store, a clock that stands still."""

from pathlib import Path

import pytest

from trainer.decks import library
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.store import Store

SMALL = Path(__file__).with_name("small.toml")


@pytest.fixture
def store(home, clock):
    with Store.open(home, clock=clock) as opened:
        yield opened


@pytest.fixture
def begin(store, clock):
    """Return a function that begins a session, ``begin(questions=5, seed="7")``."""

    def start(**wish):
        wish = Wish(**{"decks": (SMALL,), **wish})
        return Session(
            store=store,
            clock=clock,
            wish=wish,
            load_library=lambda: library.load(files=wish.decks or (SMALL,)),
            signature="small",
        )

    return start
