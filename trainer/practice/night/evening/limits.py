"""What must hold between the values of a scenario, so that it can be flown and nothing in it contradicts.

Each limit is a sentence and a test of the scenario's ``Night``.  Limits of the weather and the wind come from
the sources named with the quantities; the ship's greatest speed and the catapult's range are invented.
"""

from trainer.engine.quantities import QUANTITIES
from trainer.errors import DomainError
from trainer.practice.night.evening.into_wind import LESS_KN, MORE_KN
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.numbers import CROSSWIND_LIMIT_KN, POWER_LB
from trainer.practice.night.evening.places import CONTROL_AREA_NM, minutes_to_the_fix
from trainer.practice.night.evening.scenario import MINUTES_PER_DAY

SHIP_SPEED_KN = (5, 30)
ENDSPEED_KN = (60, 170)
HOLD_MIN = (6, 30)
ARC_DEG = (20, 140)
ICLS_MINIMA = (300, 0.75)  # ceiling in ft, visibility in nm: NAVEDTRA 14342A, Table 11-12


def faults(scenario, library, *, given=False):
    """Return the limits that ``scenario`` breaks, as briefed or after any of its disturbances.

    An evening that was ``given`` need not keep those that are only about how evenings are drawn.
    """
    nights = [Night(stage, library) for stage in scenario.stages()]
    found = [_broken(words, holds, night) for night in nights for words, holds in LIMITS]
    found += [_broken(words, holds, scenario, library) for words, holds in (WHOLE if given else (*WHOLE, *DRAWN))]
    return list(dict.fromkeys(filter(None, found)))


def _broken(words, holds, *whole):
    """Return what is wrong by one limit, "" where it holds; a number that can't be had is told as such."""
    try:
        return "" if holds(*whole) else words
    except DomainError as error:
        return str(error)


def sound(scenario, library, *, given=False):
    """Return whether ``scenario`` keeps every limit; leaves off at the first one broken."""
    try:
        nights = [Night(stage, library) for stage in scenario.stages()]
        return all(holds(night) for night in nights for _, holds in LIMITS) and all(
            holds(scenario, library) for _, holds in (WHOLE if given else (*WHOLE, *DRAWN))
        )
    except DomainError:
        return False


def ends_so(scenario, library):
    """Return whether fuel, bolters and tanker of an evening that was given lead to the ending drawn for it."""
    return _bolters_close(scenario, library) and _tanker_cannot_save_it(scenario, library)


def _between(low, value, high):
    return low <= value <= high


def _steams(night):
    return _between(SHIP_SPEED_KN[0], night.scenario.ship.speed_kn, SHIP_SPEED_KN[1])


def _wind_down_the_angle(night):
    off = night.exact("angle_wind") - night.value("ship.recovery_wod_kn")
    return _between(-LESS_KN - 1, off, MORE_KN + 1)


def _case_follows(night):
    return night["case"] == night.scenario.case


def _cases_go_together(night):
    inputs = {"departure_case": night["departure_case"], "recovery_case": night.scenario.case}
    return bool(QUANTITIES["case_pair_legal"].compute(inputs)["legal"])


def _weight(night):
    table = night.library.tables["airframe.trim_steps"]
    most = min(night.value("airframe.max_gross_weight_lb"), table.high)
    return _between(table.low, night["gross_weight"], most)


def _fuel_aboard(night):
    return 0 < night.scenario.load.fuel_lb <= night.value("airframe.fuel_capacity_lb")


def _fuel_closes(night):
    # The fuel on the ball is stated rounded down, which is the safe side for bingo and not for max trap.
    return night["bingo"] < night["ball_fuel"] and night.exact("ball_fuel") <= night["max_trap_fuel"]


def _level(night):
    stack = night.scenario.stack
    if night.scenario.case == 1:
        return _between(2, stack.angels, 6)
    if night.scenario.case == 2:
        legal = QUANTITIES["case_2_altitude_legal"].compute({"altitude_ft": stack.angels * 1000.0})
        return bool(legal["legal"]) and night["fix_distance"] <= CONTROL_AREA_NM
    return stack.lowest_angels >= 6 and night["fix_distance"] <= CONTROL_AREA_NM


def _approach_possible(night):
    weather = night.scenario.weather
    return weather.ceiling_ft >= ICLS_MINIMA[0] and weather.visibility_nm >= ICLS_MINIMA[1]


def _times_in_order(night):
    times = night.scenario.times
    return (
        times.launch_clock
        < times.check_in_clock
        < times.fix_clock
        < night.push_clock
        < (times.launch_clock + MINUTES_PER_DAY / 2)
    )


def _push_on_the_minute(night):
    return night.scenario.case == 1 or night["push"] == night.push_clock % 60


def _pattern_holds(night):
    try:
        return night.scenario.case == 1 or min(night["leg_out"], night["leg_in"]) >= 0
    except DomainError:
        return False


LIMITS = (
    ("the ship's speed is not one she can steam", _steams),
    ("the wind down the angle is not the one wanted", _wind_down_the_angle),
    ("the crosswind on the angle is over the limit", lambda n: abs(n["angle_crosswind"]) <= CROSSWIND_LIMIT_KN),
    ("the catapult can't give the end speed", lambda n: _between(ENDSPEED_KN[0], n["endspeed"], ENDSPEED_KN[1])),
    ("the Case is not that of ceiling, visibility and sun", _case_follows),
    ("these Cases of departure and recovery do not go together", _cases_go_together),
    ("the weight is outside the trim table or over the limit", _weight),
    ("there is more fuel than the tanks hold", _fuel_aboard),
    ("the fuel on the ball is not between bingo and max trap", _fuel_closes),
    ("the marshal level is not one of this Case", _level),
    ("the weather is below the minima of the approach", _approach_possible),
    ("the times are not in order", _times_in_order),
    ("the push can't be made from the time at the fix", lambda n: _between(HOLD_MIN[0], n.hold_min, HOLD_MIN[1])),
    ("the wind is too strong for the holding pattern", _pattern_holds),
    ("the push by the stack is not the push by the clock", _push_on_the_minute),
)  # fmt: skip


def _arc(scenario, library):
    nights = [Night(stage, library) for stage in (scenario, scenario.once("radial"))]
    return scenario.case == 1 or all(_between(ARC_DEG[0], night["arc_degrees"], ARC_DEG[1]) for night in nights)


def _departure_case(scenario, library):
    return Night(scenario, library)["departure_case"] == scenario.case


def _bolters_close(scenario, library):
    """Return whether the bolters lead to the ending: to another ball above bingo, or to the divert while above it."""
    night = Night(scenario.stages()[-1], library)
    pattern, bingo = night.value("airframe.pass_fuel_lb"), night["bingo"]
    next_ball = night["ball_fuel"] - scenario.bolters * pattern
    if scenario.ending == "divert":
        return scenario.bolters > 0 and next_ball <= bingo < next_ball + pattern - POWER_LB
    return next_ball > bingo


def _tanker_cannot_save_it(scenario, library):
    return scenario.ending == "trap" or scenario.disturbance("tanker sour") is not None


def _fix_in_time(scenario, library):
    """Return whether the fix (Case I: the ship) is reached from the check-in when the clock says so."""
    night = Night(scenario.once("level"), library)
    times = scenario.times
    place = scenario.inbound
    needed = minutes_to_the_fix(night, place.radial_deg, place.distance_nm, place.angels)
    spare = times.fix_clock - times.check_in_clock - needed
    return -0.01 <= spare <= 1.5 and scenario.inbound.distance_nm <= CONTROL_AREA_NM


def _no_night_by_day(scenario, library):
    """Return whether the evening is day, or night, from the launch to the recovery."""
    night = Night(scenario.stages()[-1], library)
    return night.is_dark(scenario.times.launch_clock) == night.is_dark(night.push_clock)


WHOLE = (
    ("the arc to the departure radial is too short or too long", _arc),
    ("the departure is not flown in the Case of the recovery", _departure_case),
)
DRAWN = (
    ("the fuel after the bolters does not lead to this ending", _bolters_close),
    ("a divert although there is a tanker", _tanker_cannot_save_it),
    ("the fix is not reached at its time", _fix_in_time),
    ("it is day at the one end and night at the other", _no_night_by_day),
)
