"""Every test has a home of its own below tmp_path, and a clock that stands still unless it is moved."""

from datetime import UTC, datetime
from pathlib import Path

import hypothesis
import pytest

from trainer.clock import StillClock

# Tests write only below tmp_path; the examples that hypothesis keeps would lie in the checkout.
hypothesis.settings.register_profile("trainer", database=None, deadline=None)
hypothesis.settings.load_profile("trainer")

HERE = Path(__file__).parent
ONE_FIXTURE = ("pages",)  # folders whose files share a fixture that takes its time


def pytest_collection_modifyitems(items):
    """Keep together, when several processes share the tests (-n), what would otherwise be made ready in each."""
    for item in items:
        folder = item.path.relative_to(HERE).parts[0]
        together = folder if folder in ONE_FIXTURE else item.path.relative_to(HERE).as_posix()
        item.add_marker(pytest.mark.xdist_group(together))


@pytest.fixture(autouse=True)
def _away_from_the_users_data(tmp_path, monkeypatch):
    monkeypatch.setenv("TRAINER_HOME", str(tmp_path / "home"))
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
