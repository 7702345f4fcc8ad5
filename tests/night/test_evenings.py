"""Fifty evenings of each Case: every answer varies, and every sortie holds together.

Each rule that a sortie keeps is a function that returns what breaks it; each is broken once on purpose.
"""

import re
from collections import Counter, defaultdict
from dataclasses import replace
from pathlib import Path

import pytest

from trainer.practice.night.evening import limits
from trainer.practice.night.evening.disturbing import CASES, course
from trainer.practice.night.evening.draw import draw
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.scenario import Disturbance
from trainer.practice.night.sortie import plan as sortie
from trainer.practice.night.sortie.nights import Nights
from trainer.practice.night.wording import ROMAN

ROOT = Path(__file__).resolve().parents[2]
EVENINGS = [(f"evening {number}", case) for case in (1, 2, 3) for number in range(50)]
MOST_ALIKE = 0.6
# What rules and files fix, whatever the evening: no chance may change these.
FIXED = {
    "tip_over": "the ship's slope and the altitude of the gate",
    "gate_climb": "1,500 ft at 5 nm (NAVEDTRA 14342A Table 11-10) at 300 kt",
    "arc_turn": "a ten-mile arc (the same table) at 300 kt and half standard rate",
    "arc_lead": "the same",
}


@pytest.fixture(scope="module")
def evenings(library):
    """Return [(scenario, its nights, its events)]."""
    found = []
    for seed, case in EVENINGS:
        scenario = draw(seed, library, case=case)
        found.append((scenario, Nights(scenario, library), sortie.plan(scenario, library)[0]))
    return found


# -- they vary -------------------------------------------------------------------------------------------------


def _answers(evenings):
    """Return {what is asked: Counter of answers}; a question asked again counts again."""
    found = defaultdict(Counter)
    for _, _, events in evenings:
        for event in events:
            if event.question and event.question.kind == "computed":
                found[event.number or event.question.drill_id][event.question.truth_text] += 1
    return found


def _too_often(answers):
    """Return the answers given too often; a word out of two gets the room that chance takes (two deviations)."""
    found = {}
    for name, counted in answers.items():
        asked = sum(counted.values())
        room = 2 * (0.25 / asked) ** 0.5 if all(text[0].isalpha() for text in counted) else 0.0
        (answer, times) = counted.most_common(1)[0]
        if times > (MOST_ALIKE + room) * asked:
            found[name] = (answer, times)
    return found


def test_no_answer_is_the_same_in_more_than_six_of_ten(evenings):
    answers = _answers(evenings)
    assert len(answers) >= 40
    assert _too_often(answers).keys() <= FIXED.keys()


def test_an_answer_that_hardly_varies_would_be_found():
    answers = {
        "trim": Counter({"16°": 61, "17°": 39}), "push": Counter({":01": 60, ":02": 40}),
        "side": Counter(left=65, right=35), "way": Counter(left=71, right=29),
    }  # fmt: skip
    assert _too_often(answers) == {"trim": ("16°", 61), "way": ("left", 71)}


def test_trim_covers_the_table_and_the_wind_its_band(evenings, library):
    nights = [briefed for _, nights, _ in evenings for briefed in [nights.briefed]]
    assert {night["trim"] for night in nights} == set(library.tables["airframe.trim_steps"].values)
    felt = Counter(night["wind_over_deck"] for night in nights)
    assert max(felt) - min(felt) >= 7 and felt.most_common(1)[0][1] < len(nights) / 3
    across = [night["angle_crosswind"] for night in nights]
    assert sum(value > 0 for value in across) > len(nights) / 6 < sum(value < 0 for value in across)


def _goes_wrong_too_often(scenarios):
    """Return what goes wrong in more than a third of ``scenarios``, and bolters in more than a half."""
    kinds = Counter(one.kind for scenario in scenarios for one in scenario.disturbances)
    found = {kind: times for kind, times in kinds.items() if times > len(scenarios) / 3}
    bolters = sum(scenario.bolters > 0 for scenario in scenarios)
    return found | ({"bolters": bolters} if bolters > len(scenarios) / 2 else {})


@pytest.mark.parametrize("case", [1, 2, 3])
def test_nothing_goes_wrong_every_time(evenings, case):
    scenarios = [scenario for scenario, _, _ in evenings if scenario.case == case]
    assert len(scenarios) == 50 and _goes_wrong_too_often(scenarios) == {}
    assert {scenario.ending for scenario in scenarios} == {"trap", "divert"}
    assert {one.kind for scenario in scenarios for one in scenario.disturbances} == {
        "tanker sour", *(kind for kind, cases in CASES.items() if case in cases)
    }  # fmt: skip


def test_what_goes_wrong_too_often_would_be_found(evenings):
    scenarios = [scenario for scenario, _, _ in evenings if scenario.case == 1]
    late = [replace(one, disturbances=(Disturbance(kind="suspend"),)) for one in scenarios[:17]]
    assert _goes_wrong_too_often([*late, *scenarios[17:]])["suspend"] >= 17
    assert _goes_wrong_too_often([replace(one, bolters=1) for one in scenarios])["bolters"] == 50


@pytest.mark.parametrize("words", ["evening ", "", "Lantern 2026-12-"])
def test_fifty_seeds_from_a_ten_are_even(words):
    """Whatever the squadron calls its evenings: packs are dealt, so that luck has little room."""
    for case in (1, 2, 3):
        for first in (0, 10, 140):
            courses = [course(case, f"{words}{number}") for number in range(first, first + 50)]
            kinds = Counter(kind for one in courses for kind in one.kinds)
            assert max(kinds.values()) <= 50 / 3, (case, first, kinds)
            assert sum(one.bolters > 0 for one in courses) <= 25
            assert all(len(set(one.kinds)) == 2 for one in courses)


# -- they hold together ----------------------------------------------------------------------------------------


def _asked(events):
    return [event for event in events if event.question]


def decided_before_it_is_flown(nights, events):
    """After a bolter the decision comes before the next ball; after "divert" there is none; no ball is below bingo."""
    found, waiting, bingo = [], False, nights.last["bingo"]
    for event in events:
        if any("bolter." in line or "No wire again" in line for line in event.story):
            waiting = True
        drill_id = event.question.drill_id if event.question else ""
        if drill_id == "bingo-or-continue":
            waiting = event.question.truth_text == "divert"
            if event.question.inputs["state_lb"] <= bingo and not waiting:
                found.append("another pattern although it ends at bingo")
        if drill_id == "call-the-ball":
            if waiting:
                found.append("a ball before the decision, or against it")
            if event.question.inputs["state_klb"] * 1000 <= bingo - 100:
                found.append("a ball below bingo")
    return found


def of_its_hour(nights, events):
    """By day nothing of the night is asked, and by night nothing of the day."""
    dark = nights.briefed.is_dark(nights.scenario.times.launch_clock)  # and so is the recovery, by the limits
    other = r"(?i)\bby day\b|, day\b" if dark else r"(?i)\bnight\b|\bwands?\b"
    flows = {"tension-day", "ready-day"} if dark else {"tension-night", "ready-night", "lost-communications-push"}
    return [
        event.question.text for event in _asked(events)
        if event.question.drill_id in flows or re.search(other, event.question.text)
    ]  # fmt: skip


def of_its_case(nights, events):
    """A question speaks of no other Case than the one that is flown then; the pattern of Case II is that of Case I."""
    found, case = [], nights.briefed.scenario.case
    for event in events:
        if any("gone down" in line for line in event.story):
            case = nights.once("case").scenario.case
        if event.question and event.number != "case":
            named = set(re.findall(r"\bCase (I{1,3})\b", event.question.text))
            visual = {"I"} if case == 2 and event.phase in ("approach", "recovery") else set()
            found += [event.question.text] if named - {ROMAN[case]} - visual else []
    return found


def fuel_follows(nights, events):
    """Every state that is called is the one before it less what was burnt since, summed up here by hand."""
    scenario, value = nights.scenario, nights.briefed.value
    minutes = scenario.times.check_in_clock - scenario.times.launch_clock
    at_check_in = scenario.load.fuel_lb - value("airframe.taxi_fuel_lb")
    at_check_in -= -(-value("airframe.cruise_flow_lb_h") / 60 * minutes // 10) * 10
    ball = nights.last["ball_fuel"]
    pattern, push = value("airframe.pass_fuel_lb"), nights.once("foul deck")["ball_fuel"]
    wanted = {
        "call-check-in": [at_check_in],
        "call-commencing": [push + value("airframe.approach_burn_lb")],
        "call-the-ball": [ball - number * pattern for number in range(4)],
    }
    calls = defaultdict(list)
    for event in _asked(events):
        if event.question.drill_id in wanted:
            calls[event.question.drill_id].append(event.question.inputs["state_klb"])
    return [
        (drill_id, said, pounds)
        for drill_id, states in calls.items()
        for said, pounds in zip(states, wanted[drill_id], strict=False)
        if said != pytest.approx(pounds // 100 / 10)
    ]


def clock_follows(nights, events):
    """The check-in, the push and the ball come when the scenario says; nothing goes back in time."""
    scenario, found = nights.scenario, []
    start = scenario.times.launch_clock - 90
    clocks = [(event.clock_min - start) % 1440 for event in events]
    found += ["the clock goes back"] if clocks != sorted(clocks) else []
    first = {}
    for event in events:
        first.setdefault(event.phase, event.clock_min)
    wanted = {
        "departure": scenario.times.launch_clock, "check-in": scenario.times.check_in_clock - 2,
        "approach": nights.once("foul deck").push_clock, "recovery": nights.last.ball_clock,
    }  # fmt: skip
    return found + [
        phase for phase, clock in wanted.items() if phase in first and abs(first[phase] - clock % 1440) > 0.01
    ]


RULES = (decided_before_it_is_flown, of_its_hour, of_its_case, fuel_follows, clock_follows)


@pytest.mark.parametrize("rule", RULES)
def test_every_sortie_holds_together(evenings, rule):
    broken = {(scenario.seed, scenario.case): rule(nights, events) for scenario, nights, events in evenings}
    assert {evening: found for evening, found in broken.items() if found} == {}


def _with(events, at, **changes):
    """Return ``events`` with the question at ``at`` changed."""
    changed = list(events)
    changed[at] = replace(events[at], question=replace(events[at].question, **changes))
    return changed


def _place(events, drill_id):
    return next(at for at, event in enumerate(events) if event.question and event.question.drill_id == drill_id)


def _without_decision(events):
    at = _place(events, "bingo-or-continue")
    return [*events[:at], *events[at + 1 :]]


def _later(events):
    at = _place(events, "call-the-ball")
    return [*events[:at], replace(events[at], clock_min=(events[at].clock_min + 300) % 1440), *events[at + 1 :]]


BREAKS = {
    decided_before_it_is_flown: _without_decision,
    of_its_hour: lambda events: _with(events, _place(events, "ball-call"), text="Night, in marshal, radios dead"),
    of_its_case: lambda events: _with(events, _place(events, "ball-call"), text="Check in with marshal, Case III"),
    fuel_follows: lambda events: _with(events, _place(events, "call-the-ball"), inputs={"state_klb": 9.9}),
    clock_follows: _later,
}


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_can_be_broken(evenings, rule):
    _, nights, events = next(
        (scenario, nights, events) for scenario, nights, events in evenings
        if scenario.bolters and scenario.ending == "trap" and scenario.case == 2 and nights.last.scenario.case == 2
    )  # fmt: skip
    assert rule(nights, events) == []
    assert rule(nights, BREAKS[rule](events))


def test_evenings_keep_every_limit(evenings, library):
    assert [limits.faults(scenario, library) for scenario, _, _ in evenings if limits.faults(scenario, library)] == []


def test_the_readmes_example_is_a_night(library):
    found = re.findall(
        r"trainer rehearse .*?--seed (\w+) .*?--case (\d)", (ROOT / "README.md").read_text(encoding="utf-8")
    )
    assert found
    for seed, case in found:
        scenario = draw(seed, library, case=int(case))
        assert Night(scenario, library).is_dark(scenario.times.launch_clock), (seed, case)
