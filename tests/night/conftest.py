"""The shipped library, and rehearsals over it with a real store and a clock that stands still."""

import pytest

from trainer.decks import library as shelf
from trainer.decks import standards
from trainer.practice.night.prepare import make_ready
from trainer.practice.night.rehearsal import Rehearsal
from trainer.store.store import Store


@pytest.fixture(scope="session")
def library():
    return shelf.load()


@pytest.fixture(scope="session")
def standard(library):
    return standards.load(name="night-board", drills=library.drills)


@pytest.fixture
def store(home, clock):
    with Store.open(home, clock=clock) as opened:
        yield opened


@pytest.fixture
def ready(library, standard):
    """Return a function that makes a rehearsal ready, ``ready(seed="7", case=3)``."""

    def make(seed="7", case=3, **phases):
        return make_ready(library, standard, seed=seed, case=case, **phases)

    return make


@pytest.fixture
def begin(library, store, clock):
    """Return a function that begins to fly what was made ready."""

    def start(flown):
        return Rehearsal(flown=flown, library=library, store=store, clock=clock)

    return start
