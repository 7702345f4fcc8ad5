"""A deck is read whole; every fault is told with its line, the drill, and what is allowed."""

import hashlib

import pytest

from tests.decks.samples import ALL, FORMULA, HEAD, QUANTITY, RECALL
from trainer.decks.deckfile import read
from trainer.model import CallDrill, ComputedDrill, FlowDrill, RecallDrill, Tolerance


def test_a_sound_deck(deck):
    file = deck(ALL)
    assert file.faults == []
    assert [type(drill) for drill in file.drills] == [
        ComputedDrill, ComputedDrill, RecallDrill, FlowDrill, CallDrill, CallDrill,
    ]  # fmt: skip
    assert file.deck.name == "sample"
    assert file.deck.hash == hashlib.sha256(ALL.encode()).hexdigest()
    lines = ALL.split("\n")
    assert all(lines[drill.line - 1].startswith("[[") for drill in file.drills)
    assert [lines[drill.line].split('"')[1] for drill in file.drills] == [drill.id for drill in file.drills]


def test_defaults(deck):
    computed, formula, recall, flow, *_ = deck(ALL).drills
    assert (computed.area, computed.worth, computed.limit_s, computed.group) == (
        "marshal",
        2,
        30,
        "marshal_fix_distance",
    )
    assert (formula.group, formula.tolerance) == ("fuel-minutes", Tolerance(on=0.1, inside=0.5))
    assert (recall.worth, recall.limit_s, recall.level, recall.tolerance) == (1, 10, 1, Tolerance(on=0, inside=0))
    assert (flow.worth, flow.limit_s, flow.steps[0].actor) == (4, 45, "pilot")
    assert recall.source.text == "invented procedures"


def test_a_drill_may_state_its_own(deck):
    text = HEAD.replace('area = "marshal"', 'area = "fuel"\nworth = { recall = 3 }') + RECALL.replace(
        'source = "sop"',
        'source = "sop"\nsection = "p. 3"\nstatus = "memory"\narea = "comms"\nlimit_s = 7\nlevel = 3\n'
        'group = "heights"\n'
        'hint = "a round\\n number"\nwhy = "{{braces}}"',
    )
    drill = deck(text).drills[0]
    assert (drill.area, drill.worth, drill.limit_s, drill.level, drill.group) == ("comms", 3, 7, 3, "heights")
    assert (drill.source.section, drill.source.status) == ("p. 3", "memory")
    assert (drill.hint, drill.why) == ("a round number", "{braces}")


def test_read_gives_deck_drills_and_faults(tmp_path):
    path = tmp_path / "sample.toml"
    path.write_text(HEAD + RECALL + QUANTITY.replace("angels =", "angel ="), encoding="utf-8")
    deck, drills, faults = read(path)
    assert (deck.title, [drill.id for drill in drills], len(faults)) == ("A sample", ["platform"], 2)


def test_a_fault_says_where_it_stands(deck):
    fault = deck(HEAD + RECALL.replace("answer =", "answr ="), "sample").faults[-1]
    assert str(fault).endswith('sample.toml:14: drill "platform": unknown key "answr"; did you mean "answer"?')


# (what stands in the sample, what is put in its place, the faults that follow)
HEAD_FAULTS = [
    ("format = 1", "format = 2", ["2: : format 2 is not known; this trainer reads format 1"]),
    ("format = 1", "format = true", ["2: : format true is not known; this trainer reads format 1"]),
    ("format = 1\n", "", ['1: : "format" is missing']),
    ('name = "sample"', 'name = "simple"', ['3: : "simple" must be the name of the file, "sample"']),
    ('title = "A sample"', "title = 7", ["4: : 7 must be a text in quotes"]),
    ('title = "A sample"', 'title = " "', ["4: : the text is empty"]),
    ('title = "A sample"', 'titel = "A"', ['1: : "title" is missing', '4: : unknown key "titel"; did you mean']),
    ('area = "marshal"', 'area = "marshall"', ['did you mean "marshal"?']),
    ('area = "marshal"', 'area = "m"\nworth = { flow = -1 }', ["5: : ", "6: : -1 must be from 0.01 to 100"]),
    ('area = "marshal"', 'area = "fuel"\nworth = 3', ["6: : 3 must be a table"]),
    ('status = "invented"', 'status = "invent"', ['9: : "invent" is no status; did you mean "invented"?']),
    ('status = "invented"\n', "", ['7: : "status" is missing']),
    ("[source.sop]\n", "[source.sop]\npage = 3\n", ['8: : unknown key "page"']),
    ("[source.sop]", "source = 3\n[so.sop]", ['7: : unknown key "source"', '8: : unknown key "so"']),
    ("[deck]\n", "[deck]\ncolour = 1\n", ['2: : unknown key "colour" (allowed: area, format, invented, name,']),
    ("[deck]", "[dek]", ['0: : "deck" is missing', '1: : unknown key "dek"; did you mean "deck"?']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), HEAD_FAULTS)
def test_faults_of_the_head(told, old, new, expected):
    assert old in HEAD
    faults = told(HEAD.replace(old, new))
    assert len(faults) == len(expected), faults
    for fault, part in zip(faults, expected, strict=True):
        assert part in fault


COMMON_FAULTS = [
    ('id = "platform"', 'id = "Platform"', ['12: : "Platform" is no id']),
    ('id = "platform"', 'id = "ab"', ['12: ab: "ab" is no id: 3 to 60']),
    ('id = "platform"', 'id = "a--b-"', ['"a--b-" is no id']),
    ('id = "platform"', 'id = "' + "a" * 61 + '"', ["is no id"]),
    ('id = "platform"', "id = 7", ["12: : 7 is no id"]),
    ('id = "platform"\n', "", ['11: : "id" is missing']),
    ('source = "sop"', 'source = "spo"', ['15: platform: "spo" is no [source.…] of this deck; did you mean "sop"?']),
    ('source = "sop"', "source = [1]", ["a list is no [source.…] of this deck"]),
    ('source = "sop"\n', "", ['11: platform: "source" is missing']),
    ('source = "sop"', 'source = "sop"\nstatus = "sure"', ['"sure" is no status']),
    ('source = "sop"', 'source = "sop"\nlimit_s = 0', ["16: platform: 0 must be from 1 to 900"]),
    ('source = "sop"', 'source = "sop"\nlimit_s = "10"', ['16: platform: "10" must be a number']),
    ('source = "sop"', 'source = "sop"\nlimit_s = nan', ["nan is not a finite number"]),
    ('source = "sop"', 'source = "sop"\nworth = inf', ["inf is not a finite number"]),
    ('source = "sop"', 'source = "sop"\nworth = true', ["true must be a number"]),
    ('source = "sop"', 'source = "sop"\nworth = 1979-05-27', ["1979-05-27 must be a number"]),
    ('source = "sop"', 'source = "sop"\nlevel = 4', ["4 must be 1, 2 or 3"]),
    ('source = "sop"', 'source = "sop"\nlevel = 1.0', ["1.0 must be 1, 2 or 3"]),
    ('source = "sop"', 'source = "sop"\nafter = "x"', ['"x" must be a list in [ ]']),
    ('source = "sop"', 'source = "sop"\nafter = ["platform"]', ["a drill can't come before itself"]),
    ('source = "sop"', 'source = "sop"\nafter = [7]', ["7 must be a text"]),
    ('source = "sop"', 'source = "sop"\nhint = "{angels}"', ["{angels} names no input"]),
    ('source = "sop"', 'source = "sop"\nwhy = "{"', ["the brace at character 1"]),
    ('source = "sop"', 'source = "sop"\nhint = "\\u001b[2J"', ["may not reach a screen: <U+001B>"]),
    ('source = "sop"', 'source = "sop"\nhint = "a\\u202eb"', ["<U+202E>"]),
    ('source = "sop"', 'source = "sop"\n"\\u001b[2J" = 1', ['unknown key "<U+001B>[2J"']),
    ('source = "sop"', 'source = "sop"\narea = "Fuel"', ['"Fuel" is no area; did you mean "fuel"?']),
    ('ask = "At', 'ask = "' + "x" * 2001 + '"\nak = "At', ["longer than 2,000", 'unknown key "ak"']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), COMMON_FAULTS)
def test_faults_that_every_kind_can_have(told, old, new, expected):
    assert old in RECALL
    faults = told(HEAD + RECALL.replace(old, new))
    assert len(faults) == len(expected), faults
    for fault, part in zip(faults, expected, strict=True):
        assert part in fault


def test_an_id_twice_in_one_deck(told):
    assert told(HEAD + RECALL + RECALL) == ["18: platform: the id stands twice; the first is in line 11"]


def test_tables_that_are_no_tables(told):
    assert told(HEAD.replace("[deck]", "recall = 3\nflow = [1, 2]\n[deck]")) == [
        "1: : 3 must be a list in [ ]",
        "2: : 1 must be a table, written under [[…flow]]",
        "2: : 2 must be a table, written under [[…flow]]",
    ]


def test_ten_planted_faults_are_ten(told):
    text = HEAD.replace('status = "invented"', 'status = "invent"')
    text += QUANTITY.replace("from = 6", "from = 2").replace("{angels}", "{angles}") + FORMULA.replace(
        "fuel_lb > 2000", "fuel_lb >"
    ).replace('unit = "min"', 'unit = "mins"').replace('name = "hours"\n', "")
    text += RECALL.replace("5000", "nan") + RECALL.replace('"platform"', '"other"').replace("ask =", "akk =")
    text += RECALL.replace('"platform"', '"third"').replace('ft" }', "ft }")
    faults = told(text)
    assert [fault.split(":")[0] for fault in faults] == sorted((f.split(":")[0] for f in faults), key=int)
    assert len(faults) == 10, faults


def test_very_many_faults_are_counted_and_not_all_told(told):
    faults = told(HEAD + RECALL + "".join(f"key-{i} = 1\n" for i in range(1000)))
    assert len(faults) == 200
    assert faults[-1] == "215: : and 801 more faults from here on"


def test_a_line_that_toml_refuses_hides_no_other_fault_and_brings_no_new_one(told):
    text = HEAD + RECALL.replace('ask = "At', "ask = At") + RECALL.replace("platform", "other").replace("5000", "-inf")
    faults = told(text)
    assert len(faults) == 2, faults
    assert faults[0].startswith("13: : is not TOML")
    assert "-inf is not a finite number" in faults[1]


def test_a_key_that_stands_twice_is_told_with_its_real_line(told):
    text = HEAD + RECALL.replace("source =", 'ask = "again"\nsource =') + RECALL.replace("platform", "other")
    assert told(text) == ['15: : "recall.ask" stands twice; the first is in line 13']
