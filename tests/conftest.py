"""Every test has a home of its own below tmp_path, and a clock that stands still unless it is moved."""

import itertools
import tempfile
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path

import hypothesis
import pytest

from trainer.clock import StillClock
from trainer.reading.freetext import judge
from trainer.terminal import last_net

# Tests write only below tmp_path; the examples that hypothesis keeps would lie in the checkout.
hypothesis.settings.register_profile("trainer", database=None, deadline=None)
hypothesis.settings.load_profile("trainer")

HERE = Path(__file__).parent
_NUMBERS = itertools.count()
ONE_FIXTURE = ("pages",)  # folders whose files share a fixture that takes its time


def pytest_collection_modifyitems(items):
    """Keep together, when several processes share the tests (-n), what would otherwise be made ready in each."""
    for item in items:
        folder = item.path.relative_to(HERE).parts[0]
        together = folder if folder in ONE_FIXTURE else item.path.relative_to(HERE).as_posix()
        item.add_marker(pytest.mark.xdist_group(together))


@pytest.fixture(autouse=True, scope="session")
def _flows_are_made_ready_once():
    """Keep what was read of how people say steps: making all flows ready takes as long as judging thousands of texts.

    A session keeps a few (``judge.KEPT_READY``); some twenty tests go through all of them, one after the other.
    """
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(judge, "_heard", lru_cache(maxsize=None)(judge._heard.__wrapped__))
        yield


@pytest.fixture(autouse=True, scope="session")
def _last_net_stays_unused(tmp_path_factory):
    """Temporary files of all tests and of the programs they start lie in one folder, where the last net would write."""
    folder = tmp_path_factory.mktemp("temporary")
    with pytest.MonkeyPatch.context() as patched:
        for name in ("TMPDIR", "TEMP", "TMP"):
            patched.setenv(name, str(folder))
        patched.setattr(tempfile, "tempdir", None)
        yield folder
    caught = sorted(folder.glob(f"{last_net.PREFIX}*"))
    assert not caught, caught[0].read_text(encoding="utf-8")


@pytest.fixture(autouse=True)
def _away_from_the_users_data(request, tmp_path_factory, monkeypatch):
    # A folder for each of ten thousand tests takes its time; only those get one that ask for it, or that
    # run commands, whose words they read: what one pilot chose must not be there for the next.
    asks = {"tmp_path", "capsys"} & set(request.fixturenames)
    own = request.getfixturevalue("tmp_path") if asks else None
    nowhere = tmp_path_factory.getbasetemp() / f"nobody's {next(_NUMBERS)}"
    monkeypatch.setenv("TRAINER_HOME", str((own or nowhere) / "home"))
    for name in ("TRAINER_NOW", "NO_COLOR", "TRAINER_ASCII"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def home(tmp_path):
    """Return a folder for the user's data that does not exist yet."""
    return tmp_path / "home"


@pytest.fixture
def clock():
    """Return a clock that stands at noon on 1 March 2030 until a test moves it."""
    return StillClock(datetime(2030, 3, 1, 12, 0, tzinfo=UTC))
