"""Two short weeks of the sample pilot, practised once for all tests of this folder."""

import copy

import pytest

from tests import sample
from trainer.commands import report
from trainer.commands.world import World
from trainer.practice.evidence.record import Wish
from trainer.store.store import Store

FORMATS = report.FORMATS


@pytest.fixture(scope="session")
def practised(tmp_path_factory):
    """Return (home, clock) after two weeks of practice; tests only read it."""
    home = tmp_path_factory.mktemp("practised") / "home"
    return home, sample.practise(home, weeks=2, minutes=5.0)


@pytest.fixture(scope="session")
def made(practised):
    """Return (record, {file name: text}) of the report in every format."""
    home, clock = practised
    with Store.open(home, clock=clock, create=False) as store:
        wish = Wish(call_sign=sample.NAME)
        return report.made(store, World(home=home, clock=clock, plain=True), wish, FORMATS, stem="sample")


@pytest.fixture
def record(made):
    """Return the report's record, a copy for each test."""
    return copy.deepcopy(made[0])


@pytest.fixture
def files(made):
    """Return the texts by the ending of the file's name: "html", "json", "md", "areas.csv", …"""
    return {name.removeprefix("sample").lstrip(".-"): text for name, text in made[1].items()}


@pytest.fixture
def empty_record(home, clock):
    """Return the record of somebody who has not answered anything."""
    from trainer.pages.tidy import tidy
    from trainer.practice.evidence import record as evidence

    world = World(home=home, clock=clock, plain=True)
    with Store.open(home, clock=clock, create=False) as store:
        return tidy(evidence.gather(store, world.library(), clock, Wish(), caution="Caution."))
