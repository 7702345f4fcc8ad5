"""What goes wrong on a drawn evening: which things, and what each makes of the scenario."""

import random
from dataclasses import dataclass, replace

from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.places import divert, stack, whole_direction
from trainer.practice.night.evening.scenario import KINDS, Disturbance

AT_A_TIME = 2
DIVERTED, BOLTERS_BEFORE_A_TRAP = 0.25, (0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 2)
TANKER_SOUR = 0.05  # of the evenings that end in a wire; without a wire it always is, or one would tank
# kind: the Cases of the recovery, as briefed, in which it can happen
CASES = {
    "suspend": (1, 2, 3), "catapult": (1, 2), "radial": (2, 3), "divert field": (1, 2, 3), "case": (1, 2),
    "interval": (2, 3), "level": (2, 3), "foul deck": (1, 2, 3), "brc": (1, 2, 3),
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Course:
    """How an evening goes: what goes wrong, in order, how often there is no wire, and how it ends."""

    kinds: tuple[str, ...]
    bolters: int
    ending: str


def course(case: int, rng: random.Random) -> Course:
    """Return how an evening of that Case goes: two things go wrong, whatever the numbers turn out to be."""
    ending = "divert" if rng.random() < DIVERTED else "trap"
    bolters = rng.choice((1, 1, 1, 2)) if ending == "divert" else rng.choice(BOLTERS_BEFORE_A_TRAP)
    sour = ending == "divert" or rng.random() < TANKER_SOUR
    kinds = rng.sample([kind for kind, cases in CASES.items() if case in cases], AT_A_TIME - sour)
    return Course(
        kinds=tuple(sorted([*kinds, *["tanker sour"] * sour], key=KINDS.index)), bolters=bolters, ending=ending
    )


def disturbed(scenario, how, rng, library):
    """Return ``scenario`` as it goes by the ``Course`` ``how``."""
    scenario = replace(scenario, bolters=how.bolters, ending=how.ending)
    for kind in how.kinds:
        made = _MAKERS[kind](scenario.stages()[-1], rng, library)
        scenario = replace(scenario, disturbances=(*scenario.disturbances, made))
    return scenario


def _nothing_else(kind):
    return lambda scenario, rng, library: Disturbance(kind=kind)


def _catapult(scenario, rng, library):
    """Return being taken to a catapult on the other side: the clearing turn goes the other way."""
    most = int(library.values.get("ship.catapults", 4))
    bow = scenario.ship.catapult <= 2
    others = [number for number in range(1, most + 1) if (number <= 2) != bow] or [scenario.ship.catapult]
    return Disturbance(kind="catapult", ship=replace(scenario.ship, catapult=float(rng.choice(others))))


def _radial(scenario, rng, library):
    """Return another departure radial, called before the stroke."""
    turned = scenario.departure_radial_deg + rng.choice((-1, 1)) * rng.randrange(20, 61, 5)
    return Disturbance(kind="radial", departure_radial_deg=whole_direction(turned))


def _divert_field(scenario, rng, library):
    """Return the field closing, and the next one."""
    return Disturbance(kind="divert field", divert=divert(scenario.weather, rng, instead_of=scenario.divert))


def _case_change(scenario, rng, library):
    """Return the weather going down to the next Case, and the stack that goes with it."""
    case = scenario.case + 1
    ceiling = rng.randrange(1000, 2901, 100) if case == 2 else rng.randrange(500, 1000, 100)
    weather = replace(scenario.weather, ceiling_ft=float(ceiling))
    if case == 3:
        weather = replace(weather, visibility_nm=float(rng.randrange(2, 5)))
    levels = stack(case, rng, library)
    return Disturbance(
        kind="case", case=case, weather=weather, stack=levels,
        first_push_clock=Night(scenario, library).push_clock - (levels.position - 1) * levels.interval_min,
    )  # fmt: skip


def _interval(scenario, rng, library):
    """Return a longer interval between pushes."""
    longer = scenario.stack.interval_min + rng.choice((0.5, 1.0))
    return Disturbance(kind="interval", stack=replace(scenario.stack, interval_min=longer))


def _level(scenario, rng, library):
    """Return another level of the stack."""
    places = [place for place in (-2, -1, 1, 2) if scenario.stack.position + place >= 1]
    place = scenario.stack.position + rng.choice(places)
    return Disturbance(kind="level", stack=replace(scenario.stack, position=place))


def _foul_deck(scenario, rng, library):
    return Disturbance(kind="foul deck", delay_min=float(rng.randrange(3, 9)))


def _brc_change(scenario, rng, library):
    """Return the wind veering or backing, and the ship turning with it."""
    turned = rng.choice((-1, 1)) * rng.randrange(3, 20)
    weather, ship = scenario.weather, scenario.ship
    weather = replace(
        weather,
        wind_from_deg=whole_direction(weather.wind_from_deg + turned),
        aloft_from_deg=whole_direction(weather.aloft_from_deg + turned),
    )
    return Disturbance(kind="brc", weather=weather, ship=replace(ship, brc_deg=whole_direction(ship.brc_deg + turned)))


_MAKERS = {
    "suspend": _nothing_else("suspend"), "catapult": _catapult, "radial": _radial, "divert field": _divert_field,
    "case": _case_change, "interval": _interval, "level": _level, "foul deck": _foul_deck,
    "tanker sour": _nothing_else("tanker sour"), "brc": _brc_change,
}  # fmt: skip
