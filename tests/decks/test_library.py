"""The library: shipped decks and the user's own, and the mark that tells whether anything changed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.decks.samples import ALL, FORMULA, HEAD, RECALL
from tests.decks.test_datafile import SHIP
from trainer.decks import library, standards
from trainer.drills.check_deck import check, everything
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


def test_a_bad_file_costs_its_own_drills_and_one_line(write, home):
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "own/two.toml": recall("two", "two-a", after='"none"') + RECALL.replace("platform", "two-b"),
        "own/three.toml": "[deck\nname = ",
        "own/four.toml": recall("for", "four-a"),
        "own/ships/mine.toml": SHIP.replace("= 9", '= "9"'),
    })  # fmt: skip
    loaded = library.load(home)
    assert list(loaded.drills) == ["one-a", "two-b"]
    decks = home / "decks"
    assert [line.replace(str(decks), "").replace("\\", "/") for line in loaded.told] == [
        '/four.toml:3: "for" must be the name of the file, "four"; one drill rests – `trainer deck check /four.toml`'
        " tells all",
        "/three.toml:1: is not TOML, column 6: Expected ']' at the end of a table declaration; nothing else is touched"
        " – `trainer deck check /three.toml` tells all",
        '/two.toml:16: drill "two-a": "none" is no drill; did you mean "one-a"?; one drill rests –'
        " `trainer deck check /two.toml` tells all",
        '/ships/mine.toml:7: "9" must be a number; nothing else is touched – `trainer deck check /ships/mine.toml`'
        " tells all",
    ]


def test_an_id_that_stands_in_two_decks_stays_with_the_first(write, home):
    write({"shipped/one.toml": recall("one", "one-a"), "own/two.toml": recall("two", "two-a", "one-a")})
    loaded = library.load(home)
    assert [(drill.id, drill.deck) for drill in loaded.drills.values()] == [("one-a", "one"), ("two-a", "two")]
    assert "the id stands in another deck too" in loaded.told[0]


def test_only_drills_that_need_what_a_file_lacks_rest(write, home):
    takes = FORMULA.replace("flow_lb_min = { any_of = [50, 60, 80] }", 'flow_lb_min = "ship.flow_lb_min"')
    write({"shipped/sample.toml": HEAD + takes + RECALL, "own/ships/mine.toml": SHIP})
    loaded = library.load(home)
    assert list(loaded.drills) == ["platform"]
    told = 'there is no value "ship.flow_lb_min" in mine.toml; drill "fuel-minutes" takes it; one drill rests –'
    assert len(loaded.told) == 1 and told in loaded.told[0]
    write({"own/ships/mine.toml": SHIP.replace("speed_kn = 20.5", "flow_lb_min = 60")})
    assert list(library.load(home).drills) == ["fuel-minutes", "platform"]


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


def test_a_bad_stage_or_standard_costs_a_line_and_another_stands_in(write, home):
    good = 'format = 1\nname = "board"\ntitle = "{}"\n[all]\nshare = 0.5\n'
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "shipped/standards/board.toml": good.format("Shipped"),
        "own/standards/board.toml": good.format("Own").replace("0.5", "5"),
        "own/standards/lost.toml": recall("lost", "lost-a"),
        "own/stages/mine.toml": "core = 7",
    })  # fmt: skip
    loaded = library.load(home)
    assert list(loaded.drills) == ["one-a"]
    assert [Path(line.split(".toml")[0]).name for line in loaded.told] == ["mine", "board", "lost"]
    assert standards.find("board", home).title == standards.find("gone", home).title == "Shipped"
    with pytest.raises(DeckError):
        standards.load(home, "board")


STANDS = 'format = 1\nname = "x"\ntitle = "X"\n'


@pytest.mark.parametrize(
    ("place", "text", "belongs"),
    [
        ("x.toml", STANDS + "[values]\nspeed_kn = 20\n", "folder airframes or ships"),
        ("x.toml", STANDS + 'core = ["one-a"]\n', "folder stages"),
        ("airframes/x.toml", recall("x", "x-a"), "the folder decks itself"),
        ("stages/x.toml", STANDS + "[all]\nshare = 0.5\n", "folder standards"),
        ("standards/x.toml", STANDS + 'core = ["one-a"]\n', "folder stages"),
    ],
)
def test_a_file_in_the_wrong_folder_is_told_where_it_belongs(write, home, place, text, belongs):
    write({"shipped/one.toml": recall("one", "one-a"), f"own/{place}": text})
    loaded = library.load(home)
    assert list(loaded.drills) == ["one-a"]
    assert len(loaded.told) == 1 and belongs in loaded.told[0]
    faults = check([home / "decks" / place], home=home)
    assert len(faults) == 1 and belongs in faults[0].message


def test_all_that_would_be_loaded_can_be_checked(write, home, shipped):
    write({
        "shipped/one.toml": recall("one", "one-a"),
        "shipped/two.toml": recall("two", "two-a"),
        "own/two.toml": recall("two", "mine"),
        "own/ships/mine.toml": SHIP.replace("= 9", '= "9"'),
        "own/stages/late.toml": STANDS.replace('"x"', '"late"') + 'core = ["nobody"]\n',
    })  # fmt: skip
    paths = everything(home)
    assert shipped / "two.toml" not in paths and len(paths) == 4
    told = [f"{Path(fault.file).name}: {fault.message}" for fault in check(paths, home=home)]
    assert told == ['mine.toml: "9" must be a number', 'late.toml: there is no drill "nobody"']
