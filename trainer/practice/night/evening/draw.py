"""Scenarios drawn from a seed: the same seed gives a whole squadron the same evening.

Drawn backwards where that saves luck: the ship's course follows from the wind, the stores from a row of the
trim table, the fuel at launch from the fuel wanted on the ball.  What does not keep every limit is drawn again.
"""

import math
import random
from dataclasses import replace

from trainer.errors import DomainError, UsageError
from trainer.practice.night.evening import places
from trainer.practice.night.evening.disturbing import course, disturbed, pack
from trainer.practice.night.evening.into_wind import into_the_wind
from trainer.practice.night.evening.limits import ends_so, faults, sound
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.numbers import POWER_LB
from trainer.practice.night.evening.places import whole_direction
from trainer.practice.night.evening.scenario import Flight, Load, Scenario, Ship, Times, Weather

MOST_DRAWS, DRAWS_OF_A_ROW = 600, 80
CASES = (3, 3, 3, 2, 1)  # the night is what the board is about
NIGHT_AFTER_SUNSET_MIN = 35
SQUADRONS = ("Lantern", "Thistle", "Anvil", "Bramble")  # invented
SHORTEST_MIN = 20
TO_THE_FIX_MIN = {1: (6, 7, 8), 2: (3, 4, 5), 3: (3, 4, 5)}
NO_LOAD = Load(fuel_lb=0.0, stores_lb=0.0, retained_stores_lb=0.0, board_weight_lb=1.0)


def draw(seed, library, *, case=None):
    """Return the ``Scenario`` of ``seed`` (a text) for the ship and the airframe of ``library``.

    ``case`` is that of the recovery as briefed, None leaves it to chance.  Raises ``DomainError`` where the
    user's files allow no evening that keeps the limits.
    """
    rng = random.Random(f"night {case or 'any'} {seed}")
    case = case or rng.choice(CASES)
    how = course(case, str(seed))
    row = rng.random()  # of the trim table, from its lightest to its heaviest: luck with the fuel must not choose it
    for number in range(1, MOST_DRAWS):
        if number % DRAWS_OF_A_ROW == 0:
            row = rng.random()
            how = (
                course(case, f"{seed} {number}") if number > MOST_DRAWS / 2 else how
            )  # small tanks do not reach every ending
        scenario = _attempt(str(seed), case, how, row, rng, library)
        if scenario is not None and sound(scenario, library):
            return scenario
    raise DomainError(
        f"no Case {case} evening can be drawn from your airframe, ship and air wing",
        hint="`trainer brief` shows which number is out of reach",
    )


def complete(scenario, library, seed):
    """Return a ``scenario`` that was given with what nobody gave drawn from ``seed``: who you are, what goes wrong.

    Raises ``UsageError`` with the limits that the given values break.
    """
    rng = random.Random(f"given {seed}")
    scenario = replace(
        scenario,
        seed=str(seed),
        flight=replace(_flight(rng, library), lead_channel=scenario.flight.lead_channel),
        clock_error_s=_clock_error(rng),
        tanker_give_lb=_tanker_give(rng, library),
    )
    load = replace(scenario.load, board_weight_lb=Night(scenario, library)["gross_weight"])
    scenario = replace(scenario, load=load)
    found = faults(scenario, library, given=True)
    if found:
        raise UsageError(f"tonight can't be flown: {'; '.join(found)}", hint="`trainer brief` shows the numbers")
    for _ in range(MOST_DRAWS):
        try:
            tried = disturbed(scenario, pack(scenario.case, rng)[0], rng, library)
            tried = replace(tried, inbound=_checked_in(tried, library, rng))
            if sound(tried, library, given=True) and ends_so(tried, library):
                return tried
        except DomainError:
            continue
    return scenario


def _attempt(seed, case, how, row, rng, library):
    """Return a scenario that may break limits, None where the wind, the place or the fuel can't be had at all."""
    try:
        weather, launch = _weather(case, rng)
        ship = _ship(weather, library, rng)
        scenario = Scenario(
            seed=seed, case=case, ship=ship, weather=weather, load=NO_LOAD, flight=_flight(rng, library),
            divert=places.divert(weather, rng),
            **_times_and_stack(launch, case, row, rng, library),
            departure_radial_deg=whole_direction(ship.brc_deg + rng.choice((-1, 1)) * rng.randrange(30, 121, 5)),
            clock_error_s=_clock_error(rng),
            tanker_give_lb=_tanker_give(rng, library),
        )  # fmt: skip
        scenario = _loaded(disturbed(scenario, how, rng, library), row, rng, library)
        return scenario and replace(scenario, inbound=_checked_in(scenario, library, rng))
    except DomainError:
        return None


def _checked_in(scenario, library, rng):
    """Return the place of the check-in from which every fix assigned before the approach is reached in time."""
    nights = [Night(stage, library) for stage in dict.fromkeys((scenario.once("case"), scenario.once("level")))]
    return places.inbound(nights, scenario.times.fix_clock - scenario.times.check_in_clock, rng)


def _flight(rng, library):
    return Flight(
        side_number=float(rng.randrange(201, 213)),
        lead_channel=float(rng.randrange(1, 64)),
        call_sign=rng.choice(SQUADRONS),
        type_name=library.notes.get("airframe.called", ""),
        approach_button=float(rng.randrange(14, 19)),
        break_interval_s=float(rng.choice((12, 15, 18, 20))),
        break_airspeed_kn=float(rng.choice((300, 320, 340, 350))),
    )


def _tanker_give(rng, library):
    """Return pounds: a sixth to a quarter of what the tanks hold."""
    return math.ceil(rng.randrange(15, 26) * library.values["airframe.fuel_capacity_lb"] / 1e4) * 100.0


def _clock_error(rng):
    return float(rng.choice([seconds for seconds in range(-20, 21) if seconds]))


def _weather(case, rng):
    """Return the weather and the launch time."""
    sunrise, sunset = float(rng.randrange(360, 451)), float(rng.randrange(1020, 1171))
    night = case == 3 and rng.random() < 0.8
    first, last = (sunset + NIGHT_AFTER_SUNSET_MIN, sunset + 150) if night else (sunrise + 60, sunset - 150)
    launch = float(math.ceil(rng.uniform(first, last) / 5) * 5)
    if case == 1:
        ceiling, visibility = rng.randrange(3000, 9001, 500), rng.randrange(6, 11)
    elif case == 2:
        ceiling, visibility = rng.randrange(1000, 3000, 100), rng.randrange(5, 10)
    else:
        ceiling = rng.randrange(400, 6001 if night else 901, 100)
        visibility = rng.randrange(1, 11 if night else 5)
    wind_from, wind_speed = rng.randrange(1, 361), rng.randrange(6, 20)
    weather = Weather(
        wind_from_deg=float(wind_from), wind_speed_kn=float(wind_speed),
        aloft_from_deg=whole_direction(wind_from + rng.randrange(-10, 41)),
        aloft_speed_kn=float(round(wind_speed * rng.uniform(1.5, 3.0) / 5) * 5),
        ceiling_ft=float(ceiling), visibility_nm=float(visibility),
        altimeter_inhg=round(rng.randrange(2960, 3031) / 100, 2), sunrise_clock=sunrise, sunset_clock=sunset,
    )  # fmt: skip
    return weather, launch


def _ship(weather, library, rng):
    """Return the ship steering for ``weather``."""
    values = library.values
    steering = Ship(
        title=library.notes.get("ship.title", ""), brc_deg=360.0, speed_kn=0.0,
        deck_angle_deg=values["ship.deck_angle_deg"], glide_slope_deg=values["ship.glide_slope_deg"],
        beacon_channel=values["ship.beacon_channel"],
        catapult=float(rng.randrange(1, int(values.get("ship.catapults", 4)) + 1)),
    )  # fmt: skip
    return into_the_wind(steering, weather, library, rng)


def _times_and_stack(launch, case, row, rng, library):
    check_in = launch + rng.randrange(SHORTEST_MIN, SHORTEST_MIN + 15 + int(row * 30))  # the lighter, the shorter
    fix = check_in + rng.choice(TO_THE_FIX_MIN[case])
    stack = places.stack(case, rng, library)
    own_push = fix + rng.randrange(8, 21)
    times = Times(
        launch_clock=launch, check_in_clock=check_in, fix_clock=fix,
        first_push_clock=own_push - (stack.position - 1) * stack.interval_min,
    )  # fmt: skip
    return {"times": times, "stack": stack}


def _loaded(scenario, row, rng, library):
    """Return ``scenario`` with the fuel that leads to its ending, and stores for a weight in that ``row`` of trims.

    None where the fuel alone is heavier than that row.
    """
    values = library.values
    usual = values["airframe.retained_stores_lb"]
    load = replace(NO_LOAD, retained_stores_lb=rng.randrange(2, 2 + max(1, int(usual * 1.6 / 100))) * 100.0)
    last = Night(replace(scenario.stages()[-1], load=load), library)
    hold = last.hold_min * values["airframe.hold_flow_lb_h"] / 60
    aboard = _on_the_ball(scenario, last, rng) + values["airframe.approach_burn_lb"] + hold + last["fix_burn"]
    load = replace(load, fuel_lb=float(math.ceil((aboard + values["airframe.taxi_fuel_lb"]) / 100) * 100))
    empty = Night(replace(scenario, load=load), library)["gross_weight"]
    stores = _weight_in_the_row(library.tables["airframe.trim_steps"], row, rng) - empty
    if stores < 0:
        return None
    load = replace(load, stores_lb=float(stores), retained_stores_lb=min(load.retained_stores_lb, stores))
    own = empty + stores
    tolerance = values["airframe.board_tolerance_lb"]
    off = rng.choice((0, 0, 1, -1, 2, -2, 3, -3)) * tolerance
    board = own + (off if abs(off) > tolerance else off * 0.4)
    return replace(scenario, load=replace(load, board_weight_lb=float(round(board / 100) * 100)))


def _on_the_ball(scenario, last, rng):
    """Return the fuel on the ball that leads to the ending: in pounds."""
    bingo, pattern = last["bingo"], last.value("airframe.pass_fuel_lb")
    if scenario.ending == "divert":
        least = (scenario.bolters - 1) * pattern + POWER_LB
        return bingo + rng.uniform(least, scenario.bolters * pattern)
    return rng.uniform(bingo + scenario.bolters * pattern, last["max_trap_fuel"])


def _weight_in_the_row(table, row, rng):
    """Return a weight of whole hundreds in the row (0 to 1, lightest to heaviest) of a step table."""
    place = min(int(row * len(table.upto)), len(table.upto) - 1)
    least = table.upto[place - 1] if place else max(table.low, table.upto[0] - 2000)
    return rng.randrange(int(least // 100) + 1, int(table.upto[place] // 100) + 1) * 100
