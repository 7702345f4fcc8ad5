"""The sortie asks what follows from its scenario, in the order of a sortie."""

import random
from dataclasses import replace

import pytest

from trainer.drills import computed, grading
from trainer.errors import AnswerError, UsageError
from trainer.model import DeckSlip
from trainer.practice.night.evening.draw import draw
from trainer.practice.night.evening.numbers import NUMBERS
from trainer.practice.night.sortie import plan as sortie
from trainer.practice.night.sortie.log import PHASES
from trainer.practice.night.sortie.nights import Nights

SEEDS = [f"sortie {number}" for number in range(8)]
EVERY = [(seed, case) for case in (1, 2, 3) for seed in SEEDS]


@pytest.fixture(scope="module")
def flown(library):
    """Return {(seed, case): (scenario, events)}."""
    found = {}
    for seed, case in EVERY:
        scenario = draw(seed, library, case=case)
        found[seed, case] = (scenario, sortie.plan(scenario, library)[0])
    return found


@pytest.mark.parametrize("key", EVERY)
def test_every_number_asked_is_the_one_that_follows_from_the_scenario(library, flown, key):
    scenario, events = flown[key]
    nights = Nights(scenario, library)
    asked = [event for event in events if event.number]
    assert len(asked) >= 15
    for event in asked:
        assert event.question.truth in {night[event.number] for night in nights.all() if _has(night, event.number)}


def _has(night, name):
    return night.scenario.case in NUMBERS[name].cases


@pytest.mark.parametrize("key", EVERY)
def test_every_truth_is_solved_again_from_its_inputs(library, flown, key):
    for event in flown[key][1]:
        if event.question and event.question.kind == "computed":
            drill = library.drills[event.question.drill_id]
            again = computed.solve(drill, library, event.question.inputs)
            assert float(again.value) == pytest.approx(event.question.truth, abs=1e-6)


@pytest.mark.parametrize("key", EVERY)
def test_every_text_is_filled(flown, key):
    for event in flown[key][1]:
        assert "{" not in (event.question.text if event.question else "")
        assert all("{" not in line and "nan" not in line for line in event.story)


@pytest.mark.parametrize("key", EVERY)
def test_the_clock_only_goes_forward(flown, key):
    scenario, events = flown[key]
    start = scenario.times.launch_clock - 90
    clocks = [(event.clock_min - start) % 1440 for event in events]
    assert clocks == sorted(clocks)
    assert clocks[-1] < 300


@pytest.mark.parametrize("key", EVERY)
def test_the_phases_come_in_order_and_the_sortie_ends(flown, key):
    scenario, events = flown[key]
    phases = [event.phase for event in events]
    assert phases == sorted(phases, key=PHASES.index)
    ending = {"trap": "shutdown", "divert": "divert"}[scenario.ending]
    assert phases[-1] == ending
    assert set(phases) == set(PHASES) - {"divert", "shutdown"} | {ending}


# trade.md section 12: flows in the order in which they are flown.
FLOWS = {
    1: ["man-up", "break-down-taxi", "take-off-checks", "weight-board", "hook-up-catapult", "tension",
        "departure-case-1", "check-in-controllers-list", "overhead-to-break", "fleet-pattern", "ball-call"],
    2: ["man-up", "break-down-taxi", "take-off-checks", "weight-board", "hook-up-catapult", "tension",
        "departure-case-2", "check-in-controllers-list", "hold-and-push", "penetration", "recovery-case-2",
        "fleet-pattern", "ball-call"],
    3: ["man-up", "break-down-taxi", "take-off-checks", "weight-board", "hook-up-catapult", "tension",
        "departure-case-3", "marshal-check-in", "hold-and-push", "penetration", "dirty-up-final", "ball-call"],
}  # fmt: skip


@pytest.mark.parametrize("key", [key for key in EVERY])
def test_flows_come_in_the_order_of_a_sortie(flown, key):
    scenario, events = flown[key]
    if scenario.disturbance("case"):
        return  # it begins in one Case and ends in the next
    asked = [event.question.drill_id for event in events if event.question and event.question.kind == "flow"]
    asked = ["tension" if drill_id.startswith("tension-") else drill_id for drill_id in asked]
    wanted = FLOWS[key[1]]
    assert [drill_id for drill_id in asked if drill_id in wanted] == wanted
    assert asked[-1] == ("bingo" if scenario.ending == "divert" else "wires-to-chocks")


@pytest.mark.parametrize("key", EVERY)
def test_no_drill_is_missing_from_the_shipped_decks(library, flown, key):
    assert sortie.plan(flown[key][0], library)[1] == ()


@pytest.mark.parametrize("kind", ["case", "foul deck", "brc", "tanker sour", "divert field", "interval", "level"])
def test_a_disturbance_changes_a_number_that_was_asked_before(library, kind):
    for number in range(60):
        scenario = draw(f"changes {number}", library, case=2)
        if scenario.disturbance(kind) is None:
            continue
        events, _ = sortie.plan(scenario, library)
        told = next(at for at, event in enumerate(events) if event.changes and WORDS[kind] in event.story[0])
        before = {event.question.drill_id: event.question.truth for event in events[:told] if event.question}
        after = {event.question.drill_id: event.question.truth for event in reversed(events[told:]) if event.question}
        assert any(
            before[drill_id] != after[drill_id] for drill_id in before.keys() & after.keys() if DRILLS[kind] == drill_id
        )
        return
    pytest.fail(f"no {kind} in sixty evenings")


WORDS = {
    "case": "gone down", "foul deck": "oul deck", "brc": "New BRC", "tanker sour": "sour", "divert field": "has closed",
    "interval": "the interval is", "level": "take angels",
}  # fmt: skip
DRILLS = {
    "case": "case-by-the-clock",
    "foul deck": "push-easy",
    "brc": "final-bearing-easy",
    "tanker sour": "passes-left",
    "divert field": "bingo-fuel-table",
    "interval": "push-easy",
    "level": "fix-from-angels",
}


@pytest.mark.parametrize("key", EVERY)
def test_every_wrong_answer_can_be_graded_and_its_slip_told(library, flown, key):
    """A slip's words may name inputs that only the deck's own draws have; then they can't be filled."""
    told = 0
    for event in flown[key][1]:
        question = event.question
        if question is None or question.kind != "computed":
            continue
        drill = library.drills[question.drill_id]
        for _, value in computed.slip_values(drill, library, question.inputs):
            try:
                graded = grading.grade(question, drill, library, _typed(drill, value), None)
            except AnswerError:
                continue
            if graded.slip is not None:
                assert graded.slip.words and "{" not in graded.slip.words
                told += 1
    assert told >= 10


def _typed(drill, value):
    words = computed.result_of(drill).words
    return words[int(value)] if words else f"{value:g}"


def test_the_same_seed_asks_the_same_questions(library):
    scenario = draw("7", library, case=3)
    random.seed(1)
    one = sortie.plan(scenario, library)[0]
    random.seed(2)
    assert sortie.plan(scenario, library)[0] == one


def test_part_of_a_sortie_begins_with_what_must_be_known(library):
    scenario = draw("7", library, case=3)
    events, _ = sortie.plan(scenario, library, first="marshal", last="approach")
    assert [event.phase for event in events if event.question][0] == "marshal"
    assert {event.phase for event in events} == {"marshal", "approach"}
    assert events[0].question is None
    told = " ".join(events[0].story)
    assert "BRC" in told and "Marshal angels" in told and "Divert" in told


@pytest.mark.parametrize(
    ("first", "last", "says"),
    [("lunch", "", "'lunch' is no phase"), ("approach", "brief", "brief comes before approach")],
)
def test_phases_that_are_none_are_refused(library, first, last, says):
    with pytest.raises(UsageError, match=says):
        sortie.plan(draw("7", library, case=3), library, first=first, last=last)


def test_a_phase_that_tonight_has_not_is_refused(library):
    scenario = next(s for s in (draw(str(n), library, case=3) for n in range(20)) if s.ending == "trap")
    with pytest.raises(UsageError, match="has no divert"):
        sortie.plan(scenario, library, first="divert", last="divert")


def test_a_drill_that_the_decks_lack_is_left_out_and_noted(library):
    drills = {one: drill for one, drill in library.drills.items() if one not in ("push-easy", "man-up")}
    drills["fix-from-angels"] = replace(drills["fix-from-angels"], quantity="marshal_angels")
    events, left = sortie.plan(draw("7", library, case=3), replace(library, drills=drills))
    assert set(left) == {"push-easy", "man-up", "fix-from-angels"}
    assert not any(event.question and event.question.drill_id in left for event in events)


@pytest.mark.parametrize("key", EVERY)
def test_the_fuel_after_each_bolter_leads_to_the_ending(flown, key):
    scenario, events = flown[key]
    decisions = [
        event.question.truth_text
        for event in events
        if event.question and event.question.drill_id == "bingo-or-continue"
    ]
    assert len(decisions) == scenario.bolters
    last = ["divert"] if scenario.ending == "divert" else ["continue"] * (scenario.bolters > 0)
    assert decisions == ["continue"] * (scenario.bolters - len(last)) + last


@pytest.mark.parametrize("key", EVERY)
def test_the_ball_is_called_with_the_fuel_that_is_left(library, flown, key):
    scenario, events = flown[key]
    balls = [
        event.question.inputs["state_klb"]
        for event in events
        if event.question and event.question.drill_id == "call-the-ball"
    ]
    assert len(balls) == scenario.bolters + (scenario.ending == "trap")
    pattern = library.values["airframe.pass_fuel_lb"] / 1000
    assert [round(a - b, 1) for a, b in zip(balls, balls[1:], strict=False)] == [pattern] * (len(balls) - 1)


def test_a_deck_that_asks_for_more_than_the_evening_holds_is_left_out(library):
    """A user's own deck of the same id may have other slots, or slips that speak of its own draws."""
    call, push = library.drills["call-the-ball"], library.drills["push-easy"]
    more = replace(call.draws[0], name="approach_light")
    slip = DeckSlip(name="x", words="you took {levels}", formula="1")
    drills = {
        **library.drills,
        call.id: replace(call, draws=(*call.draws, more)),
        push.id: replace(push, slips=(slip,)),
    }
    _, left = sortie.plan(draw("7", library, case=3), replace(library, drills=drills))
    assert set(left) == {"call-the-ball", "push-easy"}
