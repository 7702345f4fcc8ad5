import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.store import invented
from trainer.store.store import Store

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def kept(tmp_path_factory):
    """Return the database that ``fill(store, count)`` makes, as bytes; each is made once."""
    made = {}

    def filled(count):
        if count not in made:
            folder = tmp_path_factory.mktemp("filled")
            with Store.open(folder, clock=invented.clock()) as store:
                invented.fill(store, count)
            made[count] = (folder / "reviews.db").read_bytes()
        return made[count]

    return filled


@pytest.fixture
def filled(home, kept):
    """Make a home with ``count`` reviews that nobody has open."""

    def make(count):
        home.mkdir(exist_ok=True)
        (home / "reviews.db").write_bytes(kept(count))
        return home

    return make


@pytest.fixture
def store(home):
    with Store.open(home, clock=invented.clock()) as opened:
        yield opened


@pytest.fixture
def python():
    """Start a program in a process of its own, with the project's modules at hand."""
    started = []

    def start(code, *arguments, **options):
        environment = os.environ | {"PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error"}
        command = [sys.executable, "-c", code, *map(str, arguments)]
        process = subprocess.Popen(
            command, stdout=subprocess.PIPE, text=True, encoding="utf-8", env=environment, **options
        )
        started.append(process)
        return process

    yield start
    for process in started:
        process.kill()
        process.wait()
        for pipe in (process.stdin, process.stdout):
            if pipe:
                pipe.close()
