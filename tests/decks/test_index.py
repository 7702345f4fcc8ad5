"""The library index: the same drills with it as without, and never trusted further than the decks themselves."""

import json
import os

import pytest

from tests.decks.samples import ALL, HEAD, QUANTITY, RECALL
from trainer import paths
from trainer.decks import deckfile, index, library
from trainer.model import ComputedDrill, Drill, FlowDrill, Outline


@pytest.fixture
def reads(monkeypatch):
    """Return the list of names of decks that were read from their text."""
    seen = []

    read_file = deckfile.read_file

    def counting(path):
        seen.append(path.name)
        return read_file(path)

    monkeypatch.setattr(deckfile, "read_file", counting)
    return seen


@pytest.fixture
def decks(shipped, home, reads):
    """Return the places of the indexes of a shipped and an own deck that were read once."""
    (shipped / "sample.toml").write_text(ALL, encoding="utf-8")
    own = home / "decks" / "mine.toml"
    own.parent.mkdir(parents=True)
    own.write_text(HEAD.replace("sample", "mine") + RECALL.replace("platform", "mine-a"), encoding="utf-8")
    library.load(home)
    assert reads == ["sample.toml", "mine.toml"]
    reads.clear()
    return index.places(home)


def test_with_the_index_nothing_is_read_and_everything_is_the_same(decks, shipped, home, reads):
    loaded = library.load(home)
    assert reads == []
    fresh = deckfile.read_file(shipped / "sample.toml")
    assert [loaded.drills[drill.id] for drill in fresh.drills] == fresh.drills
    assert [loaded.outlines[drill.id] for drill in fresh.drills] == [Outline.of(drill) for drill in fresh.drills]
    assert loaded.decks["sample"] == fresh.deck
    assert (loaded.outlines["tension"].step_count, loaded.outlines["fix-distance"].quantity) == (
        3,
        "marshal_fix_distance",
    )


def test_the_shipped_library_is_the_same_with_its_index_as_without(tmp_path, monkeypatch, reads):
    monkeypatch.setattr(index, "places", lambda home=None: [tmp_path / ".index"])
    first, second = library.load(), library.load()
    count = len(first.decks)
    assert len(reads) == count and not first.told
    assert dict(first.outlines) == dict(second.outlines)
    assert all(first.drills[name] == second.drills[name] for name in first.drills)
    assert {type(second.drills[name]) for name in second.drills} > {ComputedDrill, FlowDrill}


def test_a_drill_is_built_when_it_is_asked_for(decks, home, monkeypatch):
    loaded = library.load(home)
    monkeypatch.setattr(deckfile, "reader_of", lambda kind: pytest.fail("built too soon"))
    assert len(loaded.drills) == 7 and "tension" in loaded.drills and list(loaded.drills)[0] == "fix-distance"
    assert loaded.outlines["platform"].label == "At what altitude is platform called?"


def test_a_changed_deck_is_read_again_at_once_and_alone(decks, shipped, home, reads):
    path = home / "decks" / "mine.toml"
    before = path.stat()
    path.write_text(path.read_text(encoding="utf-8").replace("5000", "6000"), encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))  # neither its size nor its time tells
    assert library.load(home).drills["mine-a"].value == 6000
    assert reads == ["mine.toml"]
    assert library.load(home).drills["mine-a"].value == 6000
    assert reads == ["mine.toml"]


def test_faults_are_kept_as_well(decks, home, reads):
    path = home / "decks" / "mine.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("5000", "nan"), encoding="utf-8")
    first, second = library.load(home), library.load(home)
    assert reads == ["mine.toml"]
    assert first.told == second.told and "mine.toml:14" in second.told[0]
    assert "mine-a" not in second.drills


def test_a_deck_that_stands_alone_leaves_the_index_as_it_is(decks, home, reads, tmp_path):
    other = tmp_path / "other.toml"
    other.write_text(HEAD.replace("sample", "other") + RECALL, encoding="utf-8")
    before = [place.read_bytes() for place in decks]
    library.load(home, files=[other])
    assert [place.read_bytes() for place in decks] == before


DAMAGES = {
    "empty": lambda data: b"",
    "cut": lambda data: data[: len(data) // 2],
    "a bit": lambda data: data[:-9] + bytes([data[-9] ^ 1]) + data[-8:],
    "foreign": lambda data: b"\x00\xff" * 500,
    "another trainer's": lambda data: data.replace(data.split(b"\n")[0], index.FIRST_LINE + b"0" * 64),
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_index_is_made_anew_without_a_word(decks, home, reads, damage, capfd):
    for place in decks:
        place.write_bytes(DAMAGES[damage](place.read_bytes()))
    assert len(library.load(home).drills) == 7
    assert sorted(reads) == ["mine.toml", "sample.toml"]
    reads.clear()
    library.load(home)
    assert reads == [] and capfd.readouterr() == ("", "")


def forged(place, change):
    """Rewrite the index at ``place`` with its entries and texts changed, and sealed as if it were ours."""
    entries, sound = index._read(place, index.stamp())
    assert entries.pop(index.SMALL)
    changed = {}
    for key, (entry, bodies) in entries.items():
        entry = json.loads(json.dumps(entry))
        changed[key] = (entry, change(entry, bodies) or bodies)
    assert index._write(place, changed, sound, index.stamp())


FORGERIES = {
    "no rows": lambda entry, bodies: entry.pop("rows") and None,
    "rows of another shape": lambda entry, bodies: [row.__setitem__(4, "much") for row in entry["rows"]] and None,
    "ids that are no text": lambda entry, bodies: [row[6].append(7) for row in entry["rows"]] and None,
    "no deck": lambda entry, bodies: entry.update(deck=[1]),
    "no end": lambda entry, bodies: entry.update(rest=[0]),
    "other places": lambda entry, bodies: bodies.replace(b'"places":', b'"spaces":'),
    "places of another kind": lambda entry, bodies: bodies.replace(b'["recall",0]', b'["flow",0]'),
    "other text": lambda entry, bodies: bodies.replace(b"altitude", b"\\u001b[2J"),
    "another id": lambda entry, bodies: bodies.replace(b'"id":"', b'"id":"x'),
    "no JSON": lambda entry, bodies: bodies.replace(b'"', b"'"),
    "no table": lambda entry, bodies: b"7" * len(bodies),
}


@pytest.mark.parametrize("forgery", FORGERIES)
@pytest.mark.parametrize("alone", [False, True])
def test_a_forged_index_gives_what_the_decks_say(decks, home, forgery, alone):
    for place in decks:
        forged(place, FORGERIES[forgery])
    if not alone:  # with a new neighbour they are also checked with each other again
        third = home / "decks" / "third.toml"
        third.write_text(HEAD.replace("sample", "third") + RECALL.replace("platform", "third-a"), encoding="utf-8")
    loaded = library.load(home)
    assert [drill.id for drill in loaded.drills.values()] == list(loaded.outlines)
    assert loaded.drills["platform"].ask == "At what altitude is platform called?"
    assert len(library.load(home).drills) == 7 + (not alone)


def test_small_files_are_kept_too_and_their_changes_seen(decks, shipped, home, monkeypatch):
    from trainer.decks import stages, tables

    stage = shipped / "stages" / "first.toml"
    stage.parent.mkdir()
    stage.write_text('format = 1\nname = "first"\ntitle = "First"\ncore = ["tension"]\n', encoding="utf-8")
    for place in decks:
        place.unlink()
    library.load(home)
    monkeypatch.setattr(tables, "KNOWN", {})
    monkeypatch.setattr(index, "KNOWN", tables.KNOWN)
    library.load(home)
    assert len(tables.KNOWN) == 1 and stages.read(stage)[0].core == ("tension",)
    stage.write_text(stage.read_text(encoding="utf-8").replace("tension", "platform"), encoding="utf-8")
    assert stages.read(stage)[0].core == ("platform",)


@pytest.mark.parametrize("small", [b"[1]", b'{"a": 1}', b'{"a": "[1]"}', b"nonsense", b'{"a": "{"}'])
def test_forged_small_files_are_none(small):
    assert index._texts(small) == {}


def test_a_home_that_can_only_be_read_works_without(decks, home, reads, monkeypatch):
    for place in decks:
        place.unlink()

    def refused(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(index.os, "replace", refused)
    assert len(library.load(home).drills) == len(library.load(home).drills) == 7
    assert len(reads) == 4 and not any(paths.own_decks(home).parent.glob(".index*"))


def test_where_the_shipped_folder_can_only_be_read_the_home_keeps_all(decks, home, reads, monkeypatch):
    for place in decks:
        place.unlink()
    write, refusing = index._write, decks[0]
    monkeypatch.setattr(index, "_write", lambda place, *rest: place != refusing and write(place, *rest))
    library.load(home)
    assert len(reads) == 2
    library.load(home)
    assert len(reads) == 2


def test_two_that_make_it_at_once_leave_a_whole_one(decks, home, reads):
    one, two = index.Index(decks), index.Index(decks)
    for place in decks:
        place.unlink()
    for made in (index.Index(decks), index.Index(decks), one, two):
        for path in (decks[0].parent / "sample.toml", home / "decks" / "mine.toml"):
            made.deck(path)
        made.keep()
    reads.clear()
    library.load(home)
    assert reads == []


def test_an_outline_tells_all_that_the_head_of_a_drill_has(deck):
    drill = deck(HEAD + QUANTITY).drills[0]
    told = {name: getattr(drill, name) for name in Outline._fields}
    assert Outline.of(drill)._asdict() == told
    left_out = {"source", "hint", "why"}
    head = set(Drill.__dataclass_fields__)
    assert head - left_out <= set(Outline._fields)
