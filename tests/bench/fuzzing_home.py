"""What is fuzzed of a person's own files: a database that was damaged, tonight's values, what is told of a flight."""

import contextlib
import datetime
import shutil
import sqlite3
from functools import cache

from tests.bench.fuzzing import FOLDER, ROOT, Finding, file_of, shelf, shown


@cache
def sound():
    """Return a sound database as bytes: the same every time, so that what was found is found again."""
    from trainer.clock import StillClock
    from trainer.practice import knowledge
    from trainer.store import schema
    from trainer.store.store import Store

    home = FOLDER / "sound"
    shutil.rmtree(home, ignore_errors=True)
    home.mkdir(parents=True)
    with contextlib.closing(sqlite3.connect(home / "reviews.db")) as connection:
        connection.executescript((ROOT / "tests" / "store" / "schema-1.sql").read_text(encoding="utf-8"))
        connection.execute("PRAGMA user_version=1")
        connection.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
    with Store.open(home, clock=StillClock(datetime.datetime(2030, 3, 1, tzinfo=datetime.UTC))) as opened:
        knowledge.known(opened)
    return (home / "reviews.db").read_bytes()


def patched(whole, patches):
    """Return ``whole`` with bytes changed: three bytes of ``patches`` are a place, the fourth what stands there."""
    changed = bytearray(whole)
    for at in range(0, len(patches) - 3, 4):
        changed[int.from_bytes(patches[at : at + 3], "big") % len(changed)] = patches[at + 3]
    return bytes(changed)


def store(patches):
    """A damaged database: looked at, practised on, copied; only errors that a person can act on, never a bad copy."""
    from trainer.clock import SystemClock
    from trainer.errors import StorageError
    from trainer.practice import knowledge
    from trainer.store import backup
    from trainer.store.store import Store

    home, clock = FOLDER / "patched", SystemClock()
    shutil.rmtree(home, ignore_errors=True)
    home.mkdir(parents=True)
    (home / "reviews.db").write_bytes(patched(sound(), patches))
    with contextlib.suppress(StorageError), Store.open(home, clock=clock, create=False) as opened:
        for sentence in opened.verify(knowledge.after_review, knowledge.model()):
            shown(sentence)
    with contextlib.suppress(StorageError), Store.open(home, clock=clock) as opened:
        knowledge.known(opened)
        opened.opening(), opened.flags(), opened.events(), opened.debriefs()
        newest = opened.last_review()
        if newest is not None:
            recorded = opened.record(newest[1], knowledge.after_review, model=knowledge.model())
            opened.withdraw(recorded.id, knowledge.after_review, knowledge.model())
    with contextlib.suppress(StorageError):
        made = backup.daily(home, clock=clock)
        if made is not None:
            _sound_copy(made, clock)


def _sound_copy(made, clock):
    from trainer.store.store import Store

    home = FOLDER / "copied"
    shutil.rmtree(home, ignore_errors=True)
    home.mkdir()
    shutil.copyfile(made, home / "reviews.db")
    with Store.open(home, clock=clock, create=False) as opened:
        faults = opened.chain_faults(10**9)
    if faults:
        raise Finding(f"a damaged copy: {faults[:3]}")


def tonight(data):
    """Values of tonight from a file, as for ``brief`` and ``rehearse``."""
    from trainer.errors import TrainerError
    from trainer.practice.night.evening import tonight as values
    from trainer.practice.night.evening import tonight_file

    try:
        given = tonight_file.read(file_of(data, "tonight.toml")).values
        values.scenario_of(values.filled(given, shelf(), datetime.date(2026, 12, 4)).values, shelf())
    except TrainerError as error:
        shown(str(error))


def flight(data):
    """What is told of one phase of a flight."""
    from trainer.errors import AnswerError
    from trainer.practice.night import debrief
    from trainer.practice.night.flight_items import PHASES

    number, text = (data[0] if data else 0), data[1:].decode("utf-8", "replace")
    items = debrief.items_of(list(PHASES)[number % len(PHASES)], number % 3 + 1, shelf())
    try:
        for one in debrief.read(text, items):
            shown(one.text)
    except AnswerError as error:
        shown(str(error))


TONIGHT = [
    'wind-from = 330\nwind-speed = 12\nlaunch = "20:30"\n', "fuel = 9\n",
    'buttons = ["1 tower"]\nnotes = 3\n', 'case = 3\nbutton = 16\npush = ":24"\n',
    'launch = "24:00"\n', "wind-from = 360.5\n", "wind-from = nan\n", "[a]\nb = 1\n",
]  # fmt: skip
FLIGHTS = ["", "-", "2m 4l 5o200 6-", "1o-4.5,2m", "1o 5 ; 5 -", "12r", "1o+.5", "1o5.5.5", "2mm", "99m", "٣m", "1o1e9"]
TARGETS = {
    "store": (store, lambda: [bytes(4), bytes(range(64)), b"\x00\x10\x00\xff" * 9, b"\x01\x20\x07\x00"]),
    "tonight": (tonight, lambda: [text.encode() for text in TONIGHT]),
    "flight": (flight, lambda: [bytes([n]) + text.encode() for n, text in enumerate(FLIGHTS)]),
}
