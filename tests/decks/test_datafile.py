"""Airframes, ships and the air wing."""

import pytest

from trainer.decks.datafile import kind_of, read_data

SHIP = """\
format = 1
name = "mine"
title = "Mine"
invented = "It is invented."

[values]
deck_angle_deg = 9
speed_kn = 20.5

[table.trim]
kind = "step"
low = 30000
rows = [[41000, 6.5], [46000, 8]]
unit = "trim"
source = "invented"
status = "invented"

[table.bingo]
kind = "interpolated"
rows = [[30, 1900], [50, 2200]]
unit = "lb"
source = "invented"
status = "invented"
"""


@pytest.fixture
def ship(tmp_path):
    """Return a function that writes a ship and reads it."""

    def write(text, name="mine"):
        folder = tmp_path / "ships"
        folder.mkdir(exist_ok=True)
        path = folder / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        return read_data(path)

    return write


def test_a_sound_file(ship):
    file = ship(SHIP)
    assert file.faults == []
    assert (file.kind, file.title, file.invented) == ("ship", "Mine", "It is invented.")
    assert file.values == {"deck_angle_deg": 9.0, "speed_kn": 20.5}
    assert [float(file.tables["trim"](weight)) for weight in (30_000, 41_000, 41_001)] == [6.5, 6.5, 8]
    assert float(file.tables["bingo"](40)) == 2050
    assert file.tables["trim"].name == "ship.trim"
    assert file.units == {"trim": "trim", "bingo": "lb"}
    assert file.sources["bingo"].status == "invented"


FAULTS = [
    ("format = 1", "format = 3", ["1: : format 3 is not known"]),
    ("format = 1\n", "", ['0: : "format" is missing']),
    ('"mine"', '"thine"', ['2: : "thine" must be the name of the file, "mine"']),
    ("deck_angle_deg = 9", 'deck_angle_deg = "9"', ['7: : "9" must be a number']),
    ("deck_angle_deg = 9", "deck_angle_deg = nan", ["nan is not a finite number"]),
    ("deck_angle_deg = 9", "Deck-Angle = 9", ['"Deck-Angle" is no name']),
    ("deck_angle_deg = 9", "trim = 9", ['"trim" is a value already']),
    ('kind = "step"', 'kind = "steps"', ['11: : "steps" is no kind; did you mean "step"?']),
    ("low = 30000\n", "", ['"low" is missing']),
    ("low = 30000", "low = 45000", ["must rise from row to row"]),
    ("[[41000, 6.5], [46000, 8]]", "[[46000, 6.5], [41000, 8]]", ["must rise from row to row"]),
    ("[[41000, 6.5], [46000, 8]]", "[]", ["there is no row"]),
    ("[[41000, 6.5], [46000, 8]]", "[[41000, 6.5],\n[48000]]", ["14: : row 2 must be two numbers"]),
    ("[[41000, 6.5], [46000, 8]]", "[[24,600, 6]]", ["value]; a number has no comma: write 24600"]),
    ("[[41000, 6.5], [46000, 8]]", "[[41,000, 6]]", ["a number has no comma; write 41000"]),
    ("[[41000, 6.5], [46000, 8]]", "[7, [46000, 8]]", ["13: : row 1 must be two numbers"]),
    ("[[41000, 6.5], [46000, 8]]", '[[41000, "6"]]', ['"6" must be a number']),
    ("[[41000, 6.5], [46000, 8]]", "[[41000, inf]]", ["inf is not a finite number"]),
    ('unit = "lb"', 'unit = "pounds"', ['"pounds" is no unit; did you mean "lb"?']),
    ('status = "invented"\n\n[table.bingo]', "\n[table.bingo]", ['"status" is missing']),
    ('kind = "interpolated"', 'kind = "interpolated"\nlow = 3', ['unknown key "low"']),
    ('[values]', 'colour = "x"\n[values]', ['unknown key "colour"']),
    ('title = "Mine"', 'title = "Mine\\u0007"', ["may not reach a screen: <U+0007>"]),
    ('title = "Mine"', 'title = "Mine', ["is not TOML"]),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), FAULTS)
def test_faults(ship, old, new, expected):
    assert old in SHIP
    faults = [f"{fault.line}: {fault.drill}: {fault.message}" for fault in ship(SHIP.replace(old, new, 1)).faults]
    assert len(faults) == len(expected), faults
    assert all(part in fault for fault, part in zip(faults, expected, strict=True)), faults


def test_the_folder_tells_the_kind(tmp_path, monkeypatch):
    assert kind_of(tmp_path / "ships" / "a.toml") == "ship"
    assert kind_of(tmp_path / "airframes" / "a.toml") == "airframe"
    assert kind_of(tmp_path / "airwing.toml") == "airwing"
    assert kind_of(tmp_path / "a.toml") == ""
    (tmp_path / "ships").mkdir()
    monkeypatch.chdir(tmp_path / "ships")
    assert kind_of("a.toml") == "ship"


def test_a_file_tells_what_it_is_called_on_the_radio(ship):
    assert ship(SHIP).called == "Mine"
    assert ship(SHIP.replace("format = 1", 'format = 1\ncalled = "Old Ferry"')).called == "Old Ferry"


@pytest.mark.parametrize("unit", ["trim", "deg nose down", "units nose up", "units nose down"])
def test_a_trim_table_hands_its_unit_to_what_is_read_from_it(ship, unit):
    file = ship(SHIP.replace('unit = "trim"', f'unit = "{unit}"'))
    assert (file.faults, file.units["trim"], file.tables["trim"].unit) == ([], unit, unit)


def test_an_airframe_among_the_ships_is_told_where_it_belongs(ship):
    (fault,) = ship(SHIP.replace("deck_angle_deg = 9", "basic_weight_lb = 9000")).faults
    assert fault.message == "this is an airframe, not a ship; it belongs into the folder airframes"


def test_a_weight_that_can_not_be_beside_another_is_told(ship):
    text = SHIP.replace("deck_angle_deg = 9", "basic_weight_lb = 30000\nmax_trap_weight_lb = 3600\ndeck_angle_deg = 9")
    assert [f"{fault.line}: {fault.message}" for fault in ship(text).faults] == [
        "8: 3,600 is not more than basic_weight_lb = 30,000"
    ]
