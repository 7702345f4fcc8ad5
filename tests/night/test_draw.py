"""Every limit of an evening can be broken; what they say is reckoned apart.  Drawn evenings: test_evenings."""

import datetime
from dataclasses import replace

import pytest

from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError, UsageError
from trainer.practice.night.evening import disturbing, limits, tonight
from trainer.practice.night.evening.draw import complete, draw
from trainer.practice.night.evening.night import Night
from trainer.practice.night.sortie import plan as sortie


def _stated(name, result, **inputs):
    quantity = QUANTITIES[name]
    values = quantity.compute(inputs)
    return float(stated(quantity.result(result), values[quantity.result(result).name]))


@pytest.mark.parametrize("case", [1, 2, 3])
def test_what_the_limits_say_holds_when_reckoned_apart_from_them(library, case):
    values = library.values
    for number in range(10):
        briefed = draw(f"apart {number}", library, case=case)
        last = briefed.stages()[-1]
        weather, times = last.weather, last.times
        hold = times.first_push_clock + times.delay_min - times.fix_clock
        hold += (last.stack.position - 1) * last.stack.interval_min
        assert hold >= 6
        burnt = _stated("fuel_burn", "", flow_lb_h=values["airframe.cruise_flow_lb_h"],
                        time_min=times.fix_clock - times.launch_clock)  # fmt: skip
        at_fix = last.load.fuel_lb - values["airframe.taxi_fuel_lb"] - burnt
        ball = at_fix - hold * values["airframe.hold_flow_lb_h"] / 60 - values["airframe.approach_burn_lb"]
        heaviest = values["airframe.max_trap_weight_lb"] - values["airframe.basic_weight_lb"]
        heaviest -= values["airframe.crew_lb"] + last.load.retained_stores_lb
        assert ball <= heaviest
        after = ball - last.bolters * values["airframe.pass_fuel_lb"]
        bingo = _stated("bingo_fuel", "", divert_distance_nm=last.divert.distance_nm,
                        bingo_table=library.tables["airframe.bingo"])  # fmt: skip
        assert (after < bingo + 100) if last.ending == "divert" else (after >= bingo)
        dark = weather.sunset_clock + 30 <= times.fix_clock or times.fix_clock <= weather.sunrise_clock - 30
        good = weather.ceiling_ft >= (3000 if last.case == 1 else 1000) and weather.visibility_nm >= 5
        assert (last.case == 3) == (dark or not good)


def test_the_same_seed_is_the_same_evening(library):
    assert draw("7", library, case=3) == draw("7", library, case=3)
    assert draw("7", library) == draw(7, library)
    assert draw("7", library, case=3) != draw("8", library, case=3)


@pytest.mark.parametrize("case", [1, 2, 3])
def test_at_least_two_things_go_wrong(library, case):
    kinds = set()
    for number in range(300):
        how = disturbing.course(case, f"wrong {number}")
        assert len(set(how.kinds)) == 2 and (how.bolters > 0 or how.ending == "trap")
        kinds |= {*how.kinds, how.ending}
    possible = {kind for kind, cases in disturbing.CASES.items() if case in cases}
    assert kinds == possible | {"tanker sour", "trap", "divert"}
    scenario = draw("wrong", library, case=case)
    assert len(scenario.disturbances) == 2


def _with(scenario, part, **changes):
    return replace(scenario, disturbances=(), **{part: replace(getattr(scenario, part), **changes)})


BREAKS = {
    "the ship's speed is not one she can steam": lambda s: _with(s, "ship", speed_kn=34.0),
    "the wind down the angle is not the one wanted": lambda s: _with(s, "ship", speed_kn=s.ship.speed_kn + 12),
    "the crosswind on the angle is over the limit": lambda s: _with(
        s, "weather", wind_from_deg=(s.ship.brc_deg + 89) % 360 + 1
    ),
    "the Case is not that of ceiling, visibility and sun": lambda s: replace(s, case=2, disturbances=()),
    "the weight is outside the trim table or over the limit": lambda s: _with(s, "load", stores_lb=20_000.0),
    "there is more fuel than the tanks hold": lambda s: _with(s, "load", fuel_lb=25_000.0),
    "the fuel on the ball is not between bingo and max trap": lambda s: _with(
        s, "load", fuel_lb=s.load.fuel_lb + 4_000.0
    ),
    "the marshal level is not one of this Case": lambda s: _with(s, "stack", lowest_angels=5.0, position=2.0),
    "the weather is below the minima of the approach": lambda s: _with(s, "weather", ceiling_ft=200.0),
    "the times are not in order": lambda s: _with(s, "times", check_in_clock=s.times.launch_clock),
    "the push can't be made from the time at the fix": lambda s: _with(
        s, "times", fix_clock=s.times.fix_clock - 40, check_in_clock=s.times.check_in_clock - 40
    ),
    "the wind is too strong for the holding pattern": lambda s: _with(
        _with(s, "weather", aloft_speed_kn=80.0, aloft_from_deg=s.ship.brc_deg),
        "times",
        first_push_clock=s.times.fix_clock + 9 - (s.stack.position - 1) * s.stack.interval_min,
    ),
    "the push by the stack is not the push by the clock": lambda s: _with(s, "stack", position=float("nan")),
    "these Cases of departure and recovery do not go together": lambda s: replace(s, case=1, disturbances=()),
    "the arc to the departure radial is too short or too long": lambda s: replace(
        s, departure_radial_deg=(s.ship.brc_deg + 4) % 360 + 1, disturbances=()
    ),
    "the departure is not flown in the Case of the recovery": lambda s: replace(s, case=2, disturbances=()),
    "the fuel after the bolters does not lead to this ending": lambda s: replace(s, bolters=9),
    "a divert although there is a tanker": lambda s: replace(s, ending="divert", disturbances=()),
    "the fix is not reached at its time": lambda s: _with(
        s, "times", fix_clock=s.times.fix_clock - 2, first_push_clock=s.times.first_push_clock - 2
    ),
    "it is day at the one end and night at the other": lambda s: _with(
        s, "weather", sunset_clock=s.times.launch_clock - 15
    ),
}


@pytest.mark.parametrize("words", [words for words, _ in (*limits.LIMITS, *limits.WHOLE, *limits.DRAWN)])
def test_every_limit_can_be_broken(library, words):
    scenario = draw("breaks 1", library, case=3)
    if words == "the push by the stack is not the push by the clock":
        night = Night(scenario, library)
        night._stated["push"] = (night["push"] + 1) % 60
        assert not dict(limits.LIMITS)[words](night)
        return
    assert limits.faults(scenario, library) == []
    if words == "the catapult can't give the end speed":
        library = replace(library, values={**library.values, "airframe.min_end_airspeed_kn": 230.0})
        assert words in limits.faults(scenario, library)
        return
    broken = BREAKS[words](scenario)
    assert words in limits.faults(broken, library)
    assert not limits.sound(broken, library)


def test_an_airframe_that_cannot_fly_it_is_refused(library):
    heavy = replace(library, values={**library.values, "airframe.fuel_capacity_lb": 2000.0})
    with pytest.raises(DomainError, match="no Case 3 evening"):
        draw("1", heavy, case=3)


GIVEN = {
    "wind-from": 330.0, "wind-speed": 12.0, "launch": 1230.0, "push": 1305.0, "divert-distance": 75.0,
}  # fmt: skip


def _given(library, **more):
    found = tonight.filled({**GIVEN, **more}, library, datetime.date(2026, 12, 4))
    return tonight.scenario_of(found.values, library)


def test_an_evening_that_was_given_is_flown_as_it_was_given(library):
    briefed = complete(_given(library), library, "5")
    assert briefed == complete(_given(library), library, "5")
    assert (briefed.weather.wind_from_deg, briefed.times.launch_clock, briefed.divert.distance_nm) == (330, 1230, 75)
    assert limits.faults(briefed, library, given=True) == []
    assert len({complete(_given(library), library, str(seed)).disturbances for seed in range(8)}) > 3
    events, left = sortie.plan(briefed, library)
    assert left == () and len(events) > 60


def test_an_evening_that_cannot_be_flown_says_why(library):
    with pytest.raises(UsageError, match="between bingo and max trap"):
        complete(_given(library, fuel=7_500.0), library, "5")
