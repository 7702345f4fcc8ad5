"""The library: shipped decks and the user's own, and the mark that tells whether anything changed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.decks.samples import ALL, HEAD, RECALL
from tests.decks.test_datafile import SHIP
from trainer.decks import library
from trainer.errors import DeckError, UsageError

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def write(shipped, home):
    """Return a function that writes {path: text}; paths begin with shipped/ or own/."""

    def write(files):
        for name, text in files.items():
            folder, _, rest = name.partition("/")
            path = (shipped if folder == "shipped" else home / "decks") / rest
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")

    return write


def recall(name, *ids, after=""):
    drills = "".join(RECALL.replace("platform", drill_id) for drill_id in ids)
    return HEAD.replace("sample", name) + drills.replace('"sop"\n', f'"sop"\nafter = [{after}]\n')


def test_shipped_and_own_decks(write, home):
    write({"shipped/one.toml": recall("one", "one-a"), "own/two.toml": recall("two", "two-a", after='"one-a"')})
    loaded = library.load(home)
    assert list(loaded.drills) == ["one-a", "two-a"]
    assert (loaded.decks["two"].area, loaded.drills["two-a"].after) == ("marshal", ("one-a",))
    assert list(library.load().drills) == ["one-a"]


def test_an_own_deck_replaces_the_shipped_one_of_its_name(write, home):
    write({"shipped/one.toml": recall("one", "one-a", "one-b"), "own/one.toml": recall("one", "mine")})
    assert list(library.load(home).drills) == ["mine"]


def test_a_replaced_deck_leaves_no_drill_of_others_waiting(write, home):
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "shipped/two.toml": recall("two", "two-a", after='"one-a"'),
        "own/one.toml": recall("one", "mine"),
    })  # fmt: skip
    assert library.load(home).drills["two-a"].after == ()


def test_chosen_files_stand_instead_of_all_decks(write, home, shipped):
    write({"shipped/one.toml": recall("one", "one-a"), "shipped/two.toml": recall("two", "two-a", after='"one-a"')})
    loaded = library.load(home, files=[shipped / "two.toml"])
    assert {drill.id: drill.after for drill in loaded.drills.values()} == {"two-a": ()}


def test_every_fault_is_raised_at_once(write, home):
    write({
        "shipped/one.toml": recall("one", "one-a").replace("5000", "nan"),
        "own/two.toml": recall("two", "two-a", after='"none"'),
        "own/ships/mine.toml": SHIP.replace("= 9", '= "9"'),
    })  # fmt: skip
    with pytest.raises(DeckError) as caught:
        library.load(home)
    assert sorted(fault.message for fault in caught.value.faults) == [
        '"9" must be a number',
        '"none" is no drill; did you mean "one-a"?',
        "nan is not a finite number",
    ]


def test_numbers_of_the_users_files(write, home):
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "shipped/ships/adder.toml": SHIP.replace("mine", "adder").replace("Mine", "Adder"),
        "shipped/airwing.toml": SHIP.replace("mine", "airwing").replace("9", "5"),
    })  # fmt: skip
    loaded = library.load(home)
    assert loaded.values["ship.deck_angle_deg"] == 9
    assert loaded.values["airwing.deck_angle_deg"] == 5
    assert float(loaded.tables["ship.bingo"](40)) == 2050
    assert loaded.notes["ship"] == "It is invented."
    assert (loaded.notes["ship.title"], loaded.notes["ship.name"]) == ("Adder", "adder")
    assert (loaded.units["ship.trim"], loaded.sources["ship.trim"].status) == ("trim", "invented")


def test_the_users_own_ship_is_taken_before_the_shipped_one_unless_one_is_named(write, home):
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "shipped/ships/adder.toml": SHIP.replace("mine", "adder"),
        "own/ships/mine.toml": SHIP.replace("= 9", "= 8"),
        "own/ships/zebra.toml": SHIP.replace("mine", "zebra").replace("= 9", "= 7"),
    })  # fmt: skip

    def angle(home, **chosen):
        return library.load(home, **chosen).values["ship.deck_angle_deg"]

    assert (angle(None), angle(home), angle(home, ship="zebra"), angle(home, ship="adder")) == (9, 8, 7, 9)


@pytest.mark.parametrize("name", ["none", "../mine", "a\x1b[2J"])
def test_a_ship_that_is_not_there(write, home, name):
    write({"shipped/one.toml": recall("one", "one-a"), "shipped/ships/adder.toml": SHIP.replace("mine", "adder")})
    with pytest.raises(UsageError, match="known: adder") as caught:
        library.load(home, ship=name)
    assert str(caught.value).isprintable()


def test_no_decks_at_all_is_an_empty_library(shipped, home):
    assert library.load(home).drills == {}


def test_the_signature_changes_with_every_file(write, home, shipped):
    write({"shipped/one.toml": recall("one", "one-a"), "shipped/ships/adder.toml": SHIP.replace("mine", "adder")})
    seen = [library.signature(home)]
    assert library.signature(home) == seen[0] == library.load(home).signature()
    for change in (
        lambda: write({"own/two.toml": recall("two", "two-a")}),
        lambda: write({"own/two.toml": recall("two", "two-b-longer")}),
        lambda: os.utime(home / "decks" / "two.toml", ns=(1, 1)),
        lambda: write({"own/airframes/jet.toml": "broken"}),
        lambda: (home / "decks" / "two.toml").unlink(),
        lambda: (shipped / "ships" / "adder.toml").unlink(),
    ):
        change()
        seen.append(library.signature(home))
    assert len(set(seen)) == len(seen)
    assert library.signature(home, ship="x") not in seen


def test_the_signature_needs_no_parser_and_no_arrays():
    code = (
        "import sys; from trainer.decks import library; library.signature();"
        "print(sorted({'numpy', 'tomllib', 'difflib', 'decimal'} & set(sys.modules)))"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert shown.stdout.strip() == "[]"


def test_a_whole_deck_loads(write, home):
    write({"shipped/sample.toml": ALL})
    assert len(library.load(home).drills) == 6
