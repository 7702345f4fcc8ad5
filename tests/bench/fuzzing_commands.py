"""What is fuzzed of whole commands: command lines, and a home whose every setting, column and table may be anything.

Each runs inside this process over a small shelf; a finding is a last net that was needed, an exit code that is none
of ours, or more than one line of complaint where the command could not be carried out.
"""

import contextlib
import io
import json
import os
import random
import shutil
import sqlite3
import sys
import time
from functools import cache

from tests.bench.fuzzing import FOLDER, ROOT, Finding
from trainer.commands import COMMANDS

ANY = [
    None, True, 0, -1, 2**70, 2.5, 1e308, "", "x", "\x1b[2J", "9999-12-31", "a" * 5_000, [], [1], [[]], ["a", "b"],
    [["a", 1]], [["2026-12-04T20:00:00.000Z", 1]], [["a", "b"]], {}, {"a": 1}, {"airframe": 5}, {"airframe": "x" * 300},
    {"ship": "../../x"}, {"fuel": [["2026-12-04", 3]]}, {"fuel": [5]}, {"a": {"b": [None]}},
]  # fmt: skip
TEXTS = [json.dumps(one) for one in ANY] + ["NaN", "[1e999]", "{", "[" * 3_000, '{"a": NaN}', "\x00", "2" * 4_400]
INSTANTS = ["9999-12-31T23:59:59.999Z", "0001-01-01T00:00:00.000Z", "2026-12-04T20:00:00.000Z", "x" * 24]
SETTINGS = [
    "asked first", "chosen files", "daily prices", "exports", "last card", "left sortie",
    "merged", "pilot call sign", "pilot name", "put back",
    "standing by day", "chosen stage", "left sortie", "stage", "rests", "lifted flags", "known already", "not for me",
]  # fmt: skip
TABLES = {
    "event": ("name", "at", "offset_min", "minutes_per_day", "areas", "standard", "created"),
    "debrief": ("flown", "remarks", "phases", "created"),
    "flag": ("drill_id", "deck", "question", "review_id", "at", "note"),
    "belief": ("item", "state", "last_review"), "learner": ("state", "model"), "opening": ("record",),
    "review": ("items", "drill_id", "kind", "area", "inputs", "typed", "value", "truth", "unit", "deviation", "score",
               "parts", "seconds", "limit_s", "mode", "predicted", "guess", "at", "offset_min", "digest", "asked_back"),
    "withdrawal": ("review_id", "at", "digest"), "before": ("item", "state", "learner"),
}  # fmt: skip
FOREIGN = [
    "CREATE TRIGGER x AFTER INSERT ON review BEGIN UPDATE belief SET state = x'00'; END",
    "CREATE TRIGGER x BEFORE INSERT ON belief BEGIN SELECT RAISE(ROLLBACK, 'x'); END",
    "CREATE VIEW x AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n",
    "CREATE TABLE x (id INTEGER PRIMARY KEY)", "CREATE INDEX x ON review (typed)",
    "ALTER TABLE belief ADD COLUMN x TEXT", "DROP TABLE opening", "DROP TABLE setting", "DROP INDEX review_by_drill",
    "ALTER TABLE setting RENAME TO x",
]  # fmt: skip
USED = [
    ["practice", "--questions", "2"], [], ["outlook"], ["outlook", "--json"], ["cram", "--list"], ["cram"],
    ["cram", "--on", "in 9 days"], ["cram", "--cancel", "1"], ["report", "--dry-run"], ["report", "--out", "out"],
    ["report", "--format", "csv,xapi,md,json", "--out", "out"], ["deck", "list"], ["deck", "use"], ["deck", "flags"],
    ["data", "verify"], ["data", "where"], ["data", "backup", "copy.db"], ["data", "salvage"], ["stage"],
    ["stage", "--list"], ["brief", "--out", "card.html"], ["rehearse", "--sheet"], ["debrief"],
]  # fmt: skip
VALUES = [
    "", "x", ".", "..", "/", "-1", "0", "1", "2", "3", "nan", "1e400", "9" * 5_000, "a" * 300, "\udcff",
    "\x1b[2J", "in 9 days", "in " + "9" * 4_400 + " days", "9999-12-31", "0001-01-01", "2030-03-09 20:00", "today",
    "1,2",
    "html,json", "marshal", "fuel", "small-fix", "small.toml", "copy.db", "out", "brief", "day-board", "٣", "360", "--",
    "--home", "hollenmere", "🛩",
]  # fmt: skip
OPTIONS = [
    "--on", "--area", "--name", "--standard", "--start", "--calendar", "--list", "--cancel", "--minutes", "--questions",
    "--seed", "--deck", "--case", "--from", "--to", "--file", "--sheet", "--out", "--format", "--since", "--call-sign",
    "--without-answers", "--dry-run", "--check", "--json", "--plain", "--home", "--help", "--version", "--yes",
    "--flown", "--remarks", "--export", "--minutes-per-day", "--find-out", "--why", "--template", "--same-pilot",
    "--gross-weight", "--brc", "--lift", "--stage-out",
]  # fmt: skip
WORDS = [
    "verify", "where", "backup", "restore", "salvage", "merge", "check", "list", "show", "find", "new", "use", "on",
    "off", "flags", "wind", "trim", "flow", "airframe", "bash",
]  # fmt: skip

ENVIRONMENT = {
    "TRAINER_HOME": ["", "~nobody-of-that-name/x", "a" * 300, "a/" * 2_000 + "b", "x/y", "\udcff", "/dev/null", "."],
    "TRAINER_NOW": ["", "x", "9999-12-31T23:59:59+00:00", "0001-01-01T00:00:00+14:00", "2030-03-01", "9" * 5_000],
    "TZ": ["", "UTC+99", "Nowhere/Else", "Asia/Kathmandu", "XXX-24:59:59", "\x1b[2J", ":"],
    "HOME": ["", "/dev/null", "relative", "\udcff"], "XDG_DATA_HOME": ["", "relative", "a" * 5_000],
    "COLUMNS": ["", "0", "-1", "1", "x", "9" * 30], "LINES": ["0", "x"], "TERM": ["", "dumb", "\udcff"],
    "NO_COLOR": ["", "1"], "TRAINER_ASCII": ["", "1"], "LANG": ["", "C", "\udcff"],
}  # fmt: skip
ENCODINGS = ["utf-8", "utf-8", "ascii", "cp437", "cp1252", "utf-16", "latin-1"]


@cache
def practised():
    """Return the folder of a home that was used in every way."""
    home = FOLDER / "used"
    shutil.rmtree(home, ignore_errors=True)
    for words in (["practice", "--questions", "4"], ["cram", "--on", "in 9 days"], ["practice", "--questions", "1"]):
        run(words, home, typed="s\nf\ns\n27\nu\ns\ns\n")
    with contextlib.closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute(
            "INSERT INTO debrief VALUES (1, '2030-02-01', '', '{\"case\": 3}', '2030-02-01T00:00:00.000Z')"
        )
        for key in SETTINGS:
            connection.execute("INSERT OR IGNORE INTO setting VALUES (?, 'null')", (key,))
    return home


@cache
def small_shelf():
    """Return a folder of few decks, which are read in no time."""
    from trainer import paths

    shelf, whole = FOLDER / "shelf", paths.shipped_decks()
    shutil.rmtree(shelf, ignore_errors=True)
    shelf.mkdir(parents=True)
    shutil.copyfile(ROOT / "tests" / "practice" / "small.toml", shelf / "small.toml")
    for name in ("standards", "airframes", "ships", "stages"):
        shutil.copytree(whole / name, shelf / name)
    return shelf


def run(words, home, typed="s\ns\n", environment=None, encoding="utf-8"):
    """Run ``trainer WORDS`` in this process; raise ``Finding`` for what must not happen.

    ``environment`` is set beside the usual one, and taken back; ``encoding`` is that of what is printed.
    """
    from trainer import cli, paths
    from trainer.terminal import last_net

    shelf, caught = small_shelf(), []
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="\n") for _ in range(2))
    kept = sys.stdin, sys.stdout, sys.stderr, os.getcwd(), paths.shipped_decks, last_net.caught
    place = FOLDER / "cwd"
    place.mkdir(parents=True, exist_ok=True)
    before = dict(os.environ)
    os.environ |= {"TRAINER_HOME": str(home), "TRAINER_NOW": "2030-03-01T12:00:00+00:00"} | (environment or {})
    try:
        os.chdir(place)
        _zone_as_told()
        sys.stdin, sys.stdout, sys.stderr = io.StringIO(typed), out, err
        paths.shipped_decks = lambda: shelf
        last_net.caught = lambda error: caught.append(error) or 1
        code = cli.main(words)
    finally:
        sys.stdin, sys.stdout, sys.stderr, back, paths.shipped_decks, last_net.caught = kept
        os.chdir(back)
        for name in os.environ.keys() - before.keys():
            del os.environ[name]
        os.environ.update(before)
        _zone_as_told()
    if caught:
        raise caught[0]
    err.flush()
    said = err.buffer.getvalue().decode(encoding, "replace").splitlines()
    if code not in (0, 1, 2, 3) or (code and len(said) > 6):
        raise Finding(f"{words!r}: {code}, {said[:4]}")


def _zone_as_told():
    if hasattr(time, "tzset"):
        time.tzset()


def shapes(data):
    """A home in which one thing is not what it should be, and one command that meets it."""
    rng, home = random.Random(data), FOLDER / "misshapen"
    shutil.rmtree(home, ignore_errors=True)
    shutil.copytree(practised(), home)
    with contextlib.closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        with contextlib.suppress(sqlite3.Error):  # some are refused by the tables themselves
            _spoil(connection, rng)
    run(list(rng.choice(USED)), home)


def _spoil(connection, rng):
    if rng.random() < 0.1:
        connection.execute(rng.choice(FOREIGN))
        return
    if rng.random() < 0.4:
        connection.execute("UPDATE setting SET value = ? WHERE key = ?", (rng.choice(TEXTS), rng.choice(SETTINGS)))
        return
    table = rng.choice(list(TABLES))
    column = rng.choice(TABLES[table])
    triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    connection.execute("PRAGMA ignore_check_constraints=ON")
    for name, _ in triggers:
        connection.execute(f"DROP TRIGGER {name}")
    value = rng.choice([*TEXTS, *INSTANTS, 5, -1, 2.5, 1e308, 2**62, b"", b"\xff" * 32])
    with contextlib.suppress(sqlite3.Error):
        connection.execute(f"UPDATE {table} SET {column} = ?", (value,))
    for _, sql in triggers:
        connection.execute(sql)


def line(data):
    """A command line of commands, options and values that nobody would put together, now and then in an odd world."""
    rng, home = random.Random(data), FOLDER / "odd"
    if not home.exists() or rng.random() < 0.02:
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(practised(), home)
    words = [rng.choice(list(COMMANDS))] if rng.random() < 0.95 else []
    words += [rng.choice(rng.choice((OPTIONS, OPTIONS, WORDS, VALUES))) for _ in range(rng.randint(0, 5))]
    odd = rng.random() < 0.4
    run(
        [word for word in words if word not in ("/", "..")],
        home,
        typed=rng.choice(("", "s\ns\n", "-\n" * 9, "y\n27\n")),
        environment=_odd_world(rng) if odd else None,
        encoding=rng.choice(ENCODINGS) if odd else "utf-8",
    )


def _odd_world(rng):
    return {name: rng.choice(ENVIRONMENT[name]) for name in rng.sample(sorted(ENVIRONMENT), rng.randint(1, 3))}


TARGETS = {
    "shapes": (shapes, lambda: [bytes([number]) for number in range(64)]),
    "line": (line, lambda: [bytes([number]) for number in range(64)]),
}
