"""The engine against every published value, and every quantity against at least one."""

import pytest

from tests.authorities import table
from tests.authorities.published import form_faults, misses, rows
from trainer.engine.quantities import QUANTITIES

ROWS = rows()


def test_the_folder_holds_rows():
    assert len(ROWS) >= 100


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['file']}:{row.get('id')}" for row in ROWS])
def test_engine_gives_what_the_page_prints(row):
    assert form_faults(row) == []
    found = misses(row)
    if row.get("refute"):
        reproduced = f"the engine reproduces a known misprint or trap: {row['note']}"
        assert len(found) == len(row["outputs"]), reproduced
    else:
        assert found == []


def test_ids_are_unique():
    ids = [row["id"] for row in ROWS]
    assert sorted(ids) == sorted(set(ids))


@pytest.mark.parametrize("name", QUANTITIES)
def test_every_quantity_has_a_check_that_confirms_it(name):
    """A row that is refuted, or one whose source the project made up, does not count."""
    confirmed = [
        row
        for row in ROWS
        if row["quantity"] == name and not row.get("refute") and row["source"]["status"] != "invented"
    ]
    assert confirmed, f"{name} has no row under tests/authorities/"


def test_a_wrong_value_is_noticed():
    """The comparison itself can fail: a row that is off by a little more than its tolerance."""
    row = next(row for row in ROWS if row["quantity"] == "isa" and not row.get("refute"))
    wrong = {name: [values[0] + 3 * values[1] + 1e-3, *values[1:]] for name, values in row["outputs"].items()}
    assert len(misses({**row, "outputs": wrong})) == len(wrong)


def test_the_short_way_round_the_compass():
    row = {"quantity": "marshal_radial", "inputs": {"final_bearing_deg": 180}, "outputs": {}}
    assert misses({**row, "outputs": {"marshal_radial_deg": [1, 1]}}) == []
    assert misses({**row, "outputs": {"marshal_radial_deg": [2, 1]}}) != []


def test_the_printed_list_of_checks_is_up_to_date():
    assert table.PAGE.read_text(encoding="utf-8") == table.page(), "run `python -m tests.authorities.table`"


def test_what_has_no_outside_value_is_listed_by_name():
    from tests.authorities import table

    named = table.by_hand()
    assert "cold_error" not in named and "marshal_fix_distance" not in named  # their pages print values
    assert "tanking" in named and f"`{named[0]}`" in table.page().split("## ")[1]
    assert f"the {len(named)} quantities for which nobody prints one" in " ".join(
        (table.FOLDER.parents[1] / "README.md").read_text(encoding="utf-8").split()
    )
