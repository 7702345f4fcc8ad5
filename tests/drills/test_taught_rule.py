"""Whoever reckons by the rule that a drill teaches is right in every question of it."""

import math

import pytest

from trainer.decks import library as shelves
from trainer.drills import computed, questions
from trainer.drills.slips import HAIR, deviation
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import RULE, stated

DRAWS = 25
# These ask for the rule WITH the correction that a close arc needs: the plain rule is their first slip.
CORRECTED = {"arc-onto-close", "lead-off-close-arc"}


def _share(degrees):
    """Return the part of a wind along a line, to a tenth, as it is known by heart."""
    return round(math.cos(math.radians(degrees)), 1)


# What a hint says where the quantity has no rule of thumb of its own, reckoned here as a pilot does.
TAUGHT = {
    "angle-axial": lambda i: round(i["deck_angle_deg"] / 60 * i["wind_over_deck_kn"]),
    "triangle-groundspeed": lambda i: i["tas_kn"] - _share(i["wind_from_deg"] - i["course_deg"]) * i["wind_speed_kn"],
    "moonrise-after-full": lambda i: (i["sunset_clock"] + 50 * i["days_after_full"]) % 1440,
}


@pytest.fixture(scope="module")
def shelf():
    return shelves.load()


def off_limits(drill, shelf, rule, draws=DRAWS):
    """Return the questions in which what the ``rule`` gives lies outside limits."""
    result, found = computed.result_of(drill), []
    for seed in range(draws):
        question = questions.make(drill, shelf, f"taught {seed}")
        given = rule(question.inputs)
        accepted = (question.truth, *computed.other_values(drill, shelf, question.inputs))
        if min(abs(deviation(given, one, question.unit)) for one in accepted) > result.tolerance.inside + HAIR:
            found.append((question.text, given, accepted))
    return found


def _by_rule(drill, shelf):
    quantity = QUANTITIES[drill.quantity]
    result = quantity.result(drill.result)

    def rule(inputs):
        known = {spec.name: inputs[spec.name] for spec in quantity.inputs}
        tables = {name: shelf.tables[value] for name, value in known.items() if isinstance(value, str)}
        return float(stated(result, quantity.compute(known | tables, method=RULE)[result.name]))

    return rule


def _with_a_rule(shelf):
    return [
        drill
        for drill in shelf.drills.values()
        if drill.kind == "computed" and drill.quantity and RULE in QUANTITIES[drill.quantity].methods
    ]


def test_the_rule_of_thumb_is_right_in_every_draw(shelf):
    drills = [drill for drill in _with_a_rule(shelf) if drill.id not in CORRECTED | {"turn-diameter"}]
    assert len(drills) > 80
    wrong = {drill.id: off_limits(drill, shelf, _by_rule(drill, shelf)) for drill in drills}
    assert {drill_id: found[:1] for drill_id, found in wrong.items() if found} == {}


@pytest.mark.parametrize("drill_id", list(TAUGHT))
def test_what_the_hint_teaches_is_right_in_every_draw(shelf, drill_id):
    assert off_limits(shelf.drills[drill_id], shelf, TAUGHT[drill_id], 300) == []


def test_a_rule_that_is_off_would_be_found(shelf):
    drill = shelf.drills["angle-axial"]
    assert off_limits(drill, shelf, lambda inputs: TAUGHT["angle-axial"](inputs) + 2)


def test_turns_at_thirty_degrees_are_not_asked_where_their_rule_is_too_wide(shelf):
    """The rule for the radius is one for thirty degrees of bank; the drill asks other banks, by their own ratio."""
    banks = {questions.make(shelf.drills["turn-diameter"], shelf, f"{seed}").inputs["bank_deg"] for seed in range(60)}
    assert 30 not in banks
