"""Two windows at once, and a process that is killed at any instant."""

import subprocess

import pytest

from tests.store import invented
from tests.store.invented import fill, update
from trainer.store.connection import reading
from trainer.store.store import Store

WRITER = """
import sys
from pathlib import Path
from tests.store import invented
from trainer.store.store import Store

home, start, count = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
print("ready", flush=True)
sys.stdin.readline()
with Store.open(home, clock=invented.clock()) as store:
    for number in range(start, start + count):
        print(store.record(invented.review(number), invented.update).id, flush=True)
"""


def together(python, home, count, starts):
    """Let one process per start record ``count`` reviews, all at the same time; return what each printed."""
    writers = [python(WRITER, home, start, count, stdin=subprocess.PIPE) for start in starts]
    for writer in writers:
        assert writer.stdout.readline() == "ready\n"
    for writer in writers:
        writer.stdin.write("go\n")
        writer.stdin.flush()
    said = [writer.communicate(timeout=100)[0].split() for writer in writers]
    assert [writer.returncode for writer in writers] == [0] * len(writers)
    return said


def test_two_windows_write_at_once(python, home):
    Store.open(home, clock=invented.clock()).close()
    said = together(python, home, 150, (0, 1000))
    assert sorted(int(number) for numbers in said for number in numbers) == list(range(1, 301))
    with Store.open(home, clock=invented.clock()) as store:
        seeds = [review.seed for review in store.reviews()]
        assert sorted(seeds) == sorted(f"s{start + n}" for start in (0, 1000) for n in range(150))
        assert store.verify(update) == []


def test_three_windows_start_on_a_new_home(python, home):
    """Each made the tables; the last to finish put its empty file in the place of the others' answers."""
    said = together(python, home, 5, (0, 100, 200))
    assert sorted(int(number) for numbers in said for number in numbers) == list(range(1, 16))
    assert sorted(path.name for path in home.iterdir()) == ["reviews.db"]
    with Store.open(home, clock=invented.clock()) as store:
        assert store.count() == 15 and store.verify(update) == []


@pytest.mark.parametrize("answers", [1, 7, 40])
def test_a_killed_process_loses_nothing_that_was_returned(python, home, answers):
    writer = python(WRITER, home, 0, 100_000, stdin=subprocess.PIPE)
    writer.stdin.write("go\n")
    writer.stdin.flush()
    assert writer.stdout.readline() == "ready\n"
    said = [writer.stdout.readline() for _ in range(answers)]
    writer.kill()
    said += writer.stdout.readlines()
    writer.wait()
    whole = [int(line) for line in said if line.endswith("\n")]
    with Store.open(home, clock=invented.clock()) as store:
        assert len(whole) <= store.count() <= len(whole) + 1
        assert [review.seed for review in store.reviews()] == [f"s{n}" for n in range(store.count())]
        assert store.verify(update) == []


def test_a_process_killed_at_its_first_start_leaves_no_half_made_file(python, home):
    """A file without tables was left, and every later start refused it as damaged."""
    code = """
import os, sys
from pathlib import Path
from trainer.store import files, schema
from trainer.store.store import Store

def die(*_):
    os._exit(9)

if sys.argv[2] == "tables":
    schema.writing = die
else:
    files.publish = die
Store.open(Path(sys.argv[1]), clock=None)
"""
    for moment in ("tables", "publish"):
        process = python(code, home, moment)
        process.communicate()
        assert process.returncode == 9 and not (home / "reviews.db").exists()
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)


def test_a_bare_copy_of_the_file_is_whole_while_a_window_is_open(store, tmp_path):
    """A person copies reviews.db alone, without the log beside it, after every answer."""
    fill(store, 30)
    other = tmp_path / "other"
    other.mkdir()
    (other / "reviews.db").write_bytes(store.path.read_bytes())
    with Store.open(other, clock=invented.clock()) as copy:
        assert copy.count() == 30 and copy.verify(update) == []


@pytest.mark.timeout(15)
def test_a_window_closes_while_another_one_reads(home, filled):
    """The end of a session stood still for five seconds because a report was being written elsewhere."""
    with Store.open(filled(60), clock=invented.clock()) as report:
        window = Store.open(home, clock=invented.clock(), wait_s=20)
        with reading(report._connection):
            assert report.count() == 60
            fill(window, 1)
            window.close()
            assert report.count() == 60
    with Store.open(home, clock=invented.clock()) as store:
        assert store.count() == 61


HOT = """
import sys
from pathlib import Path
from tests.store import invented
from trainer.store.store import Store

with Store.open(Path(sys.argv[1]), clock=invented.clock()) as store:
    store.states(), store.learner(), store.opening(), store.setting("x"), store.count()
    list(store.last_inputs("fix-1"))
    store.record(invented.review(), invented.update)
slow = {"numpy", "sqlite_utils", "jinja2", "click", "prompt_toolkit", "importlib.metadata", "asyncio"}
print(sorted(slow & set(sys.modules)))
"""


def test_nothing_slow_is_imported_to_open_and_to_record(python, home):
    first = python(HOT, home).communicate()[0].strip()
    assert "sqlite_utils" in first  # the tables were due, and this test can fail
    assert python(HOT, home).communicate()[0].strip() == "[]"
