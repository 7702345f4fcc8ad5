"""The page of coverage: every drill is counted once, and what is missing is explained."""

import pytest

from tests.decks.coverage import COLUMNS, PAGE, WHY_NOT, counts, page, reasons
from tests.decks.samples import CALL, FLOW, FORMULA, HEAD
from trainer.decks import library
from trainer.decks.deckfile import read_file
from trainer.model import PHASES


def read(tmp_path, text):
    path = tmp_path / "sample.toml"
    path.write_text(text, encoding="utf-8")
    return read_file(path)


def test_a_drill_has_the_phase_of_its_deck_or_its_own(tmp_path):
    head = HEAD.replace('area = "marshal"', 'area = "marshal"\nphase = "marshal"')
    text = head + FLOW + FORMULA.replace('source = "sop"', 'source = "sop"\nphase = "fuel"')
    assert {drill.id: drill.phase for drill in read(tmp_path, text).drills} == {
        "tension": "marshal", "fuel-minutes": "fuel",
    }  # fmt: skip


def test_a_phase_that_is_none_is_told(told):
    head = HEAD.replace('area = "marshal"', 'area = "marshal"\nphase = "taxy"')
    assert told(head + FLOW) == ['6: : "taxy" is no phase; did you mean "taxi"?']
    assert 'flown" is no phase' in told(HEAD + FLOW.replace('source = "sop"', 'source = "sop"\nphase = "flown"', 1))[0]


def test_drills_without_a_phase_are_allowed_and_not_counted(tmp_path):
    drills = read(tmp_path, HEAD + FLOW).drills
    assert drills[0].phase == ""
    assert sum(sum(row.values()) for row in counts(drills).values()) == 0


def test_the_page_counts_each_drill_once(tmp_path):
    head = HEAD.replace('area = "marshal"', 'area = "marshal"\nphase = "lso"')
    drills = read(tmp_path, head + FLOW + FORMULA + CALL).drills
    row = counts(drills)["lso"]
    assert row == {"computed": 1, "flows": 1, "recall": 0, "calls made": 1, "calls heard": 0}
    assert "| lso | 1 | 1 | 0 | 1 | 0 | 3 |" in page(drills)
    assert "| **all** | 1 | 1 | 0 | 1 | 0 | 3 |" in page(drills)
    assert all(f"\n| {phase} |" in page(drills) for phase in PHASES)


def test_an_empty_cell_without_a_reason_is_seen():
    empty = dict.fromkeys(COLUMNS, 0) | {"flows": 2}
    assert set(reasons("taxi", empty, {})) == {*COLUMNS} - {"flows"}
    assert reasons("taxi", empty, {"taxi": {"calls made": "radio silence"}})["calls made"] == "radio silence"


@pytest.fixture(scope="module")
def shelf():
    return library.load().drills.values()


def test_every_kind_that_a_phase_lacks_has_its_reason(shelf):
    lacking = {
        phase: [name for name, why in reasons(phase, row).items() if not why] for phase, row in counts(shelf).items()
    }
    assert {phase: names for phase, names in lacking.items() if names} == {}


def test_no_reason_is_given_for_what_is_there(shelf):
    table = counts(shelf)
    assert [(phase, name) for phase, said in WHY_NOT.items() for name in said if table[phase][name]] == []


def test_every_drill_names_its_phase(shelf):
    assert [drill.id for drill in shelf if not drill.phase] == []


def test_the_page_is_that_of_the_shelf(shelf):
    assert PAGE.read_text(encoding="utf-8") == page(shelf), "python -m tests.decks.coverage"
