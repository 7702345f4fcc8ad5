"""What goes wrong on a drawn evening: which things, and what each makes of the scenario."""

import random
import re
from dataclasses import replace

from trainer.frozen import frozen
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.places import divert, stack, whole_direction
from trainer.practice.night.evening.scenario import KINDS, Disturbance

AT_A_TIME, PACK = 2, 10
DIVERTS, DIVERTS_AND_SOUR_TANKERS = (2, 3), 3  # in a pack; without a wire it always is sour, or one would tank
BOLTERS_BEFORE_A_DIVERT, BOLTERS_BEFORE_A_TRAP = (1, 1, 1, 2), (1, 1, 1, 2)
TRAPS_AFTER_A_BOLTER = 2  # in a pack
# kind: the Cases of the recovery, as briefed, in which it can happen
CASES = {
    "suspend": (1, 2, 3), "catapult": (1, 2), "radial": (2, 3), "divert field": (1, 2, 3), "case": (1, 2),
    "interval": (2, 3), "level": (2, 3), "foul deck": (1, 2, 3), "brc": (1, 2, 3),
}  # fmt: skip


@frozen
class Course:
    """How an evening goes: what goes wrong, in order, how often there is no wire, and how it ends."""

    kinds: tuple[str, ...]
    bolters: int
    ending: str


def course(case: int, seed: str) -> Course:
    """Return how the evening of ``seed`` goes: two things go wrong, whatever the numbers turn out to be.

    Seeds that end in a number are dealt from packs (0-9, 10-19 …): a squadron that flies one after the other meets
    everything about as often.
    """
    found = re.search(r"[0-9]{0,9}$", seed)
    digits = found[0] if found else ""
    number = int(digits or 0)
    rng = random.Random(f"pack {case} {seed.removesuffix(digits)} {number // PACK}")
    return pack(case, rng)[number % PACK]


def pack(case: int, rng: random.Random) -> list[Course]:
    """Return ten evenings among which everything that can go wrong does so about as often."""
    endings = ["divert"] * rng.choice(DIVERTS)
    bolters = [rng.choice(BOLTERS_BEFORE_A_DIVERT) for _ in endings]
    bolters += [rng.choice(BOLTERS_BEFORE_A_TRAP) for _ in range(TRAPS_AFTER_A_BOLTER)]
    endings += ["trap"] * (PACK - len(endings))
    bolters += [0] * (PACK - len(bolters))
    # The sour tanker of an evening that ends in a wire comes to one without a bolter: from the end.
    sour = [ending == "divert" for ending in endings]
    sour[-1] = sum(sour) < DIVERTS_AND_SOUR_TANKERS
    evenings = rng.sample(list(zip(endings, bolters, sour, strict=True)), PACK)
    names, rest = [kind for kind, cases in CASES.items() if case in cases], []
    return [
        Course(kinds=_in_order(_dealt(rest, names, AT_A_TIME - spoilt, rng), spoilt), bolters=times, ending=ending)
        for ending, times, spoilt in evenings
    ]


def _dealt(rest, names, count, rng):
    """Return ``count`` different ``names``: dealt from the ``rest`` of a shuffled round, then from a new one."""
    taken = []
    for _ in range(count):
        if not set(rest) - set(taken):
            rest.extend(rng.sample(names, len(names)))
        taken.append(next(name for name in rest if name not in taken))
        rest.remove(taken[-1])
    return taken


def _in_order(kinds, spoilt):
    return tuple(sorted([*kinds, *["tanker sour"] * spoilt], key=KINDS.index))


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
