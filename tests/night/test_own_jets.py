"""A light jet and a heavy one, whose trim is told in units, flown through practice, card, sortie and debrief."""

import re

import pytest

from tests.decks import jets
from tests.test_cli import run
from trainer.decks import library
from trainer.drills import computed, grading, questions, worked_solution
from trainer.drills.check_deck import check
from trainer.practice.night import debrief

WAY = {jets.LIGHT: "units nose down", jets.HEAVY: "units nose up"}
# jet -> (gross weight, its take-off trim), read by eye from the rows in tests/decks/jets.py
READ = {jets.LIGHT: (12_700, "3.2 units nose down"), jets.HEAVY: (55_100, "7.5 units nose up")}
EITHER = pytest.mark.parametrize("jet", [jets.LIGHT, jets.HEAVY])
OTHERS_TRIM = re.compile(r"° nose (?:up|down)")


@pytest.fixture
def own(jet, home):
    """Return the library of a home in which the jet is the only airframe."""
    path = jets.put(jet, home)
    assert check([path], home=home) == []
    return library.load(home)


@EITHER
def test_every_computed_drill_can_be_asked_of_it(jet, own):
    drills = [drill for drill in own.drills.values() if drill.kind == "computed"]
    assert (own.told, own.notes["airframe.name"]) == ((), jet) and len(drills) > 250
    for drill in drills:
        question = questions.make(drill, own, "1")
        shown = "\n".join((question.text, question.hint, *worked_solution.worked(question, drill, own)))
        assert "Tallowick" not in shown and not OTHERS_TRIM.search(shown), drill.id


@EITHER
def test_the_trim_is_asked_read_and_judged_as_the_jet_tells_it(jet, own):
    drill = own.drills["trim-step-odd"]
    question = questions.make(drill, own, "1")
    number, _, unit = question.truth_text.partition(" ")
    assert unit == WAY[jet] == question.unit
    for typed in (number, f"{number} units", f"{number} {unit}", f"{number} {unit.split()[-1]}"):
        assert grading.grade(question, drill, own, typed, 1.0).score == 1.0, typed
    other = "up" if unit.endswith("down") else "down"
    wrong = grading.grade(question, drill, own, f"{number} units nose {other}", 1.0)
    assert wrong.slip.name == "nose down"
    far = grading.grade(question, drill, own, f"{float(number) + 20:g}", 1.0)
    assert far.said == ("20 units too high",)


@EITHER
def test_a_value_of_the_table_is_told_as_it_stands_there(jet, own):
    weight, trim = READ[jet]
    drill = own.drills["trim-step-odd"]
    inputs = {"gross_weight_lb": float(weight), "trim_table": "airframe.trim_steps"}
    assert computed.truth_text(computed.solve(drill, own, inputs)) == trim


@EITHER
def test_practice_brief_and_calculator_tell_its_trim(jet, home):
    jets.put(jet, home)
    weight, trim = READ[jet]
    asked = run("practice", "--questions", "4", "trim", home=home, typed="s\n\n" * 8)
    assert WAY[jet] in asked.stdout and not OTHERS_TRIM.search(asked.stdout) and asked.stderr == ""
    assert f"take-off trim: {trim}" in run("compute", "trim", f"{weight}", home=home).stdout
    card = run("brief", home=home)
    assert (card.returncode, card.stderr) == (0, "")
    assert re.search(rf"trim +[\d.]+ {WAY[jet]}", card.stdout) and not OTHERS_TRIM.search(card.stdout)
    why = run("brief", "--why", "trim", home=home).stdout
    assert WAY[jet] in why and not OTHERS_TRIM.search(why)


@EITHER
@pytest.mark.parametrize("case", ["1", "3"])
def test_a_sortie_is_flown_with_it(jet, case, home):
    jets.put(jet, home)
    done = run("rehearse", "--seed", "7", "--case", case, home=home, typed="s\n" * 200)
    assert (done.returncode, done.stderr) == (0, "")
    shown = " ".join(done.stdout.split())
    assert WAY[jet] in shown and "RESULT SHEET" in shown
    assert not OTHERS_TRIM.search(shown) and "Tallowick" not in shown


@EITHER
def test_a_debrief_tells_a_trim_that_was_off_in_units(jet, own):
    items = debrief.items_of("deck", 3, own)
    trim = next(item for item in items if item.words == "take-off trim")
    (told,) = debrief.read(f"{items.index(trim) + 1}o0.2", items)[items.index(trim) :][:1]
    assert told.text == "take-off trim: off by 0.2 units"
    assert debrief._inside(own.drills[trim.drill_id], told, own)
