"""Scenarios drawn from a seed: the same seed gives a whole squadron the same evening.

Drawn backwards where that saves luck: the ship's course follows from the wind, the fuel at launch from the
fuel wanted on the ball.  What does not keep every limit is drawn again.
"""

import math
import random
from dataclasses import replace

from trainer.errors import DomainError, UsageError
from trainer.practice.night.evening.limits import ONLY_DRAWN, faults, sound
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.scenario import (
    Disturbance,
    Divert,
    Flight,
    Load,
    Scenario,
    Ship,
    Stack,
    Times,
    Weather,
)

MOST_DRAWS = 400
CASES = (3, 3, 3, 2, 1)  # the night is what the board is about
FEWEST_DISTURBANCES = 2
NIGHT_AFTER_SUNSET_MIN = 35
SQUADRONS = ("Lantern", "Thistle", "Anvil", "Kestrel")  # invented
FIELDS = ("Marrow Field", "Saltmere", "Port Ellery")  # invented
TYPE_NAME = "Tallowick"  # invented


def draw(seed, library, *, case=None):
    """Return the ``Scenario`` of ``seed`` (a text) for the ship and the airframe of ``library``.

    ``case`` is that of the recovery as briefed, None leaves it to chance.  Raises ``DomainError`` where the
    user's files allow no evening that keeps the limits.
    """
    rng = random.Random(f"night {case or 'any'} {seed}")
    case = case or rng.choice(CASES)
    for _ in range(MOST_DRAWS):
        scenario = _attempt(str(seed), case, rng, library)
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
        flight=replace(_flight(rng), lead_channel=scenario.flight.lead_channel),
        check_in_distance_nm=float(rng.randrange(36, 49)),
        clock_error_s=_clock_error(rng),
        tanker_give_lb=float(rng.randrange(1500, 2501, 100)),
    )
    own = Night(scenario, library)
    load = replace(scenario.load, board_weight_lb=own["gross_weight"])
    radial = _wrapped(own["final_bearing"] + 180 + rng.randrange(-25, 26))
    scenario = replace(scenario, load=load, check_in_radial_deg=radial)
    found = [fault for fault in faults(scenario, library) if fault not in ONLY_DRAWN]
    if found:
        raise UsageError(f"tonight can't be flown: {'; '.join(found)}", hint="`trainer brief` shows the numbers")
    for _ in range(MOST_DRAWS):
        disturbed = replace(_disturbed(scenario, rng, library), check_in_radial_deg=radial)
        if not [fault for fault in faults(disturbed, library) if fault not in ONLY_DRAWN]:
            return disturbed
    return scenario


def _attempt(seed, case, rng, library):
    """Return a scenario that may break limits, None where the wind or the fuel can't be had at all."""
    try:
        weather, launch = _weather(case, rng)
        ship = _ship(weather, library, rng)
        times, stack = _times(launch, case, rng, library)
        divert = _divert(weather, rng)
        scenario = Scenario(
            seed=seed, case=case, ship=ship, weather=weather, times=times, stack=stack, divert=divert,
            load=Load(fuel_lb=0.0, stores_lb=0.0, retained_stores_lb=0.0, board_weight_lb=0.0),
            flight=_flight(rng),
            departure_radial_deg=_wrapped(ship.brc_deg + rng.choice((-1, 1)) * rng.randrange(30, 121, 5)),
            check_in_distance_nm=float(rng.randrange(36, 49)),
            clock_error_s=_clock_error(rng),
            tanker_give_lb=float(rng.randrange(1500, 2501, 100)),
        )  # fmt: skip
        scenario = _disturbed(scenario, rng, library)
        return _loaded(scenario, rng, library)
    except DomainError:
        return None


def _flight(rng):
    return Flight(
        side_number=float(rng.randrange(201, 213)),
        lead_channel=float(rng.randrange(1, 64)),
        call_sign=rng.choice(SQUADRONS),
        type_name=TYPE_NAME,
        approach_button=float(rng.randrange(14, 19)),
    )


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
    weather = Weather(
        wind_from_deg=float(rng.randrange(1, 361)), wind_speed_kn=float(rng.randrange(6, 20)),
        ceiling_ft=float(ceiling), visibility_nm=float(visibility),
        altimeter_inhg=round(rng.randrange(2960, 3031) / 100, 2), sunrise_clock=sunrise, sunset_clock=sunset,
    )  # fmt: skip
    return weather, launch


def _ship(weather, library, rng, catapult=None):
    """Return the ship steering for ``weather``."""
    values = library.values
    steering = Ship(
        title=library.notes.get("ship.title", ""), brc_deg=360.0, speed_kn=0.0,
        deck_angle_deg=values["ship.deck_angle_deg"], glide_slope_deg=values["ship.glide_slope_deg"],
        beacon_channel=values["ship.beacon_channel"],
        catapult=catapult or float(rng.randrange(1, int(values.get("ship.catapults", 4)) + 1)),
    )  # fmt: skip
    return into_the_wind(steering, weather, library)


def into_the_wind(ship, weather, library):
    """Return ``ship`` on the course and speed that bring the wanted wind down the angle in ``weather``."""
    night = Night(_bare(ship, weather), library)
    return replace(ship, brc_deg=night["recovery_course"], speed_kn=night["recovery_speed"])


def _bare(ship, weather):
    """Return a scenario of which only ship and weather are used."""
    nothing = Times(launch_clock=0.0, check_in_clock=0.0, fix_clock=0.0, first_push_clock=0.0)
    return Scenario(
        seed="", case=3, ship=ship, weather=weather, times=nothing,
        load=Load(fuel_lb=0.0, stores_lb=0.0, retained_stores_lb=0.0, board_weight_lb=0.0),
        stack=Stack(lowest_angels=6.0, step_angels=1.0, position=1.0, interval_min=1.0),
        divert=Divert(bearing_deg=360.0, distance_nm=50.0, runway_deg=360.0),
        flight=Flight(side_number=0.0, lead_channel=1.0), departure_radial_deg=360.0,
    )  # fmt: skip


def _times(launch, case, rng, library):
    check_in = launch + rng.randrange(50, 71)
    fix = check_in + rng.randrange(5, 9)
    hold = rng.randrange(8, 21)
    stack = _stack(case, rng, library)
    times = Times(
        launch_clock=launch, check_in_clock=check_in, fix_clock=fix,
        first_push_clock=_first_push(fix + hold, stack),
    )  # fmt: skip
    return times, stack


def _first_push(own_push_clock, stack):
    return own_push_clock - (stack.position - 1) * stack.interval_min


def _stack(case, rng, library):
    interval = library.values.get("airwing.push_interval_min", 1.0)
    lowest, step, most = {1: (2.0, 1.0, 4), 2: (7.0, 2.0, 5), 3: (6.0, 1.0, 8)}[case]
    if case == 1:
        return Stack(lowest_angels=lowest, step_angels=step, position=float(rng.randrange(1, most)), interval_min=0.0)
    position = float(rng.randrange(2, most + 1))
    return Stack(lowest_angels=lowest, step_angels=step, position=position, interval_min=interval)


def _divert(weather, rng):
    runway = _wrapped(round((weather.wind_from_deg + rng.randrange(-60, 61)) / 10) * 10)
    return Divert(
        name=rng.choice(FIELDS), bearing_deg=float(rng.randrange(5, 361, 5)),
        distance_nm=float(rng.randrange(40, 121, 5)), runway_deg=runway,
    )  # fmt: skip


def _disturbed(scenario, rng, library):
    """Return ``scenario`` with its disturbances, its bolters and its ending; at least two things go wrong."""
    ending = rng.choice(("trap", "trap", "divert"))
    bolters = rng.choice((0, 1, 1)) if ending == "trap" else rng.choice((1, 2))
    sour = ending == "divert" or (bolters > 0 and rng.random() < 0.5)
    kinds = [kind for kind in ("case", "foul deck", "brc") if rng.random() < (0.3 if kind == "case" else 0.6)]
    if scenario.case == 3 and "case" in kinds:
        kinds.remove("case")  # at night, or in this weather, it can't become another
    spare = [kind for kind in ("brc", "foul deck") if kind not in kinds]
    while len(kinds) + sour + (bolters > 0) < FEWEST_DISTURBANCES:
        kinds.append(spare.pop(rng.randrange(len(spare))))
    kinds = [kind for kind in ("case", "foul deck", "brc") if kind in kinds]
    for kind in kinds:
        now = scenario.stages()[-1]
        scenario = replace(scenario, disturbances=(*scenario.disturbances, _MAKERS[kind](now, rng, library)))
    if sour:
        scenario = replace(scenario, disturbances=(*scenario.disturbances, Disturbance(kind="tanker sour")))
    radial = Night(scenario.after("case"), library)["final_bearing"] + 180 + rng.randrange(-25, 26)
    return replace(scenario, bolters=bolters, ending=ending, check_in_radial_deg=_wrapped(radial))


def _case_change(scenario, rng, library):
    """Return the weather going down to the next Case, and the stack that goes with it."""
    case = scenario.case + 1
    ceiling = rng.randrange(1000, 2901, 100) if case == 2 else rng.randrange(500, 1000, 100)
    weather = replace(scenario.weather, ceiling_ft=float(ceiling))
    if case == 3:
        weather = replace(weather, visibility_nm=float(rng.randrange(2, 5)))
    stack = _stack(case, rng, library)
    push = Night(scenario, library).push_clock
    return Disturbance(kind="case", case=case, weather=weather, stack=stack, first_push_clock=_first_push(push, stack))


def _foul_deck(scenario, rng, library):
    return Disturbance(kind="foul deck", delay_min=float(rng.randrange(3, 9)))


def _brc_change(scenario, rng, library):
    """Return the wind veering or backing, and the ship following it."""
    turned = rng.choice((-1, 1)) * rng.randrange(8, 31)
    weather = replace(scenario.weather, wind_from_deg=_wrapped(scenario.weather.wind_from_deg + turned))
    return Disturbance(kind="brc", weather=weather, ship=into_the_wind(scenario.ship, weather, library))


_MAKERS = {"case": _case_change, "foul deck": _foul_deck, "brc": _brc_change}


def _loaded(scenario, rng, library):
    """Return ``scenario`` with the fuel that leads to its ending, and the stores."""
    values = library.values
    retained = values["airframe.retained_stores_lb"]
    load = Load(
        fuel_lb=0.0, retained_stores_lb=retained, board_weight_lb=1.0,
        stores_lb=retained + rng.randrange(1000, 5001, 100),
    )  # fmt: skip
    last = Night(replace(scenario.stages()[-1], load=load), library)
    pattern, bingo = values["airframe.pass_fuel_lb"], last["bingo"]
    spare = last["max_trap_fuel"] - bingo
    if scenario.ending == "divert":
        above = scenario.bolters * pattern - rng.uniform(0.1, 0.8) * pattern
    else:
        above = rng.uniform(scenario.bolters * pattern, spare)
    ball = bingo + above
    hold = last.hold_min * values["airframe.hold_flow_lb_h"] / 60
    aboard = ball + values["airframe.approach_burn_lb"] + hold + last["fix_burn"] + values["airframe.taxi_fuel_lb"]
    load = replace(load, fuel_lb=float(math.ceil(aboard / 100) * 100))
    own = Night(replace(scenario, load=load), library)["gross_weight"]
    tolerance = values["airframe.board_tolerance_lb"]
    off = rng.choice((0, 0, 1, -1, 2, -2, 3, -3)) * tolerance
    board = own + (off if abs(off) > tolerance else off * 0.4)
    return replace(scenario, load=replace(load, board_weight_lb=float(round(board / 100) * 100)))


def _wrapped(direction):
    """Return a whole direction from 1 to 360."""
    return float((round(direction) - 1) % 360 + 1)
