"""Leaving is instant and certain, while the library loads too; `tests.bench.leaving` does it a thousand times."""

import threading

import pytest

from tests.faults.driving import OnTerminal, run

pytest.importorskip("pty", reason="pseudo-terminals are a thing of POSIX; on Windows tests/bench/leaving has no twin")
from tests.bench import leaving
from trainer.commands.early import InBackground


@pytest.fixture(scope="module")
def known(tmp_path_factory):
    """Return a home in which a question waits."""
    home = tmp_path_factory.mktemp("leaving")
    assert run("practice", "--questions", "1", home=home, typed="1\n").returncode == 0
    return home


@pytest.mark.parametrize("way", ["Ctrl-D, then a closed window", "SIGTERM", leaving.CTRL_D, leaving.CTRL_C])
def test_a_person_who_leaves_while_the_library_loads_is_not_held(known, way):
    # Just after the keys are live the library begins to load.
    driven = OnTerminal(home=known).until(lambda driven: driven.waiting())
    seconds = leaving.left(driven, way, 0.0, typed=0)
    assert seconds is not None and seconds < 2.0  # on a machine that has other things to do


def test_work_in_the_background_is_never_waited_for():
    begun, ever = threading.Event(), threading.Event()
    work = InBackground(lambda: (begun.set(), ever.wait()))
    assert begun.wait(5)
    assert all(thread.daemon for thread in threading.enumerate() if thread is not threading.main_thread())
    ever.set()
    assert work.result() == (None, True)


def test_what_went_wrong_in_the_background_is_raised_where_it_is_wanted():
    with pytest.raises(ZeroDivisionError):
        InBackground(lambda: 1 / 0).result()
