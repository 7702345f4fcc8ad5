"""What is kept as JSON either has its shape or counts as absent, with one line that says so."""

import sqlite3
from contextlib import closing
from datetime import UTC, datetime

import pytest

from tests.store import invented
from trainer.store import cold_read, shapes
from trainer.store.records import Debrief, Event
from trainer.store.store import Store

ANY = [None, True, 0, -1, 2.5, "x", "", [], [1], ["a"], [["a", 1]], [[]], {}, {"a": 1}, {"a": "b"}, {"a": []}]
SOUND = {
    "asked first": [["a", "missed"]], "chosen files": {"ship": "hollenmere"}, "daily prices": [1.0, 2],
    "last card": {"given": {"fuel": 9500.0}}, "left sortie": {"seconds": 3.0},
    "exports": [["2026-12-04T20:00:00.000Z", 7]], "pilot call sign": "Wren", "pilot name": "A", "put back": "2026",
    "standing by day": {"fuel": [["2026-12-04", 3]]}, "merged": [{"at": "2026"}],
}  # fmt: skip
NIGHT = Event(name="CQ", at=datetime(2026, 12, 11, tzinfo=UTC), offset_min=0, minutes_per_day=20, areas=("fuel",))


@pytest.mark.parametrize("key", shapes.SETTINGS)
def test_a_setting_has_its_shape_or_is_none(home, key):
    told = []
    with Store.open(home, clock=invented.clock(), tell=told.append) as store:
        store.set_setting(key, SOUND[key])
        assert store.setting(key) == cold_read.setting(home, key) == SOUND[key] and not told
        passed = 0
        for value in ANY:
            store.set_setting(key, value)
            found = store.setting(key, "default")
            assert found == "default" or found == value
            assert cold_read.setting(home, key) == (None if found == "default" else value)
            passed += found != "default"
        assert passed < len(ANY) / 2, "most are of another shape"
        assert len(told) == (0 if key in shapes.MADE_ANEW else 1), "it is told once"
        store.set_setting(key, SOUND[key])
        assert store.setting(key) == SOUND[key], "making it anew repairs it"


@pytest.mark.parametrize(
    "text", ["NaN", "[Infinity]", "-Infinity", "[1e999]", '{"a": NaN}', "[" * 9000, "", "{", "1 2"]
)
def test_what_is_no_json_or_no_number_is_refused(text):
    for shape in (object, list[float], dict[str, object], float):
        with pytest.raises(shapes.Misshapen):
            shapes.loaded(text, shape)


DAMAGED = [
    ("event", "at", "9999-12-31T00:00:00.000Z"), ("event", "offset_min", 99999), ("event", "areas", '{"a": 1}'),
    ("event", "areas", "[1]"), ("event", "minutes_per_day", 1e300), ("event", "at", "2026-12-11T00:00:00.000+"),
    ("debrief", "phases", "[]"), ("debrief", "phases", '{"case": NaN}'),
    ("debrief", "phases", '{"marshal": {"a": [null]}}'), ("debrief", "phases", '{"marshal": {"a": {"how": 1}}}'),
    ("debrief", "flown", "2026-13-99"),
    ("flag", "question", "5"), ("flag", "at", "x" * 24),
]  # fmt: skip


@pytest.mark.parametrize(("table", "column", "value"), DAMAGED)
def test_a_damaged_row_is_named_and_the_others_are_read(home, table, column, value):
    told = []
    with Store.open(home, clock=invented.clock(), tell=told.append) as store:
        read = {"event": store.events, "debrief": store.debriefs, "flag": store.flags}[table]
        for _ in range(2):
            store.add_event(NIGHT)
            store.add_debrief(Debrief(flown="2026-12-05", remarks="", phases={"case": 1}))
            store.flag({"text": "?"}, drill_id="a", deck="d", deck_hash="h", at=NIGHT.at)
        with closing(sqlite3.connect(store.path, isolation_level=None)) as other:
            other.execute(f"DROP TRIGGER IF EXISTS {table}_stays_update")
            other.execute(f"UPDATE {table} SET {column} = ? WHERE id = 1", (value,))
        assert [row.id for row in read()] == [2]
        assert len(told) == 1 and told[0].startswith(f"{table} 1 is damaged and passed over")
        if table == "event":
            assert "cram --cancel 1" in told[0] and store.remove_event(1) and not store.remove_event(1)
