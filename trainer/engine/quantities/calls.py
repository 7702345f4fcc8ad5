"""Quantities inside calls: state, angels, position, EAT, time hack, Charlie."""

import numpy as np

from trainer.engine import calls
from trainer.engine.angles import wrap_360
from trainer.engine.quantities.carrier_sources import (
    CQ_GLOSSARY,
    EXPECTED_TIMES,
    TERMS_CHARLIE,
    memory,
    practice,
)
from trainer.engine.quantities.entries import clock, get, give, num, past, slip
from trainer.engine.quantities.marshal import reciprocal_in_the_head
from trainer.engine.quantity import EXACT, Quantity

NOW = give("now_min", "time now", "clock", 0, 1_439)

STATE = Quantity(
    name="state_spoken",
    title="state as you say it",
    area="comms",
    words=("state", "fuel", "ball call", "check in", "low state"),
    inputs=(give("fuel_lb", "fuel on the gauge", "lb", 0, 40_000),),
    results=(get("state_klb", "state, thousands and tenths", "klb", 0.01, 0.01, round_to=0.1, rounding="down"),),
    methods={EXACT: calls.spoken_state},
    mental=lambda fuel_lb: (
        "thousands, point, hundreds; what is left over is dropped, never rounded up",
        f"{num(fuel_lb)} lb: {float(calls.spoken_state(fuel_lb)):.1f}",
    ),
    slips=(
        slip("rounded up", "the state is rounded down: say what you have for certain",
             lambda fuel_lb: np.ceil(np.asarray(fuel_lb, dtype=float) / 100) / 10),
        slip("said hundreds", "say thousands and tenths, not hundreds",
             lambda fuel_lb: np.floor(np.asarray(fuel_lb) / 100)),
        slip("dropped the tenths", "the tenth belongs to the state",
             lambda fuel_lb: np.floor(np.asarray(fuel_lb) / 1000)),
    ),
    source=memory("trade usage: 5,400 lb is five point four"),
)  # fmt: skip

ANGELS = Quantity(
    name="angels_spoken",
    title="altitude in angels",
    area="comms",
    words=("angels", "altitude", "check in"),
    inputs=(give("altitude_ft", "altitude", "ft", 0, 60_000),),
    results=(get("angels", "angels", "angels", 0.01, 0.1, round_to=0.1),),
    methods={EXACT: calls.angels},
    mental=lambda altitude_ft: (
        "angels are thousands of feet, with a tenth where there is one",
        f"{num(altitude_ft)} ft is angels {num(altitude_ft / 1000, 1)}",
    ),
    slips=(
        slip("hundreds", "angels are thousands, not hundreds", lambda altitude_ft: altitude_ft / 100),
        slip("dropped the tenths", "1,500 ft is angels one point five",
             lambda altitude_ft: np.floor(np.asarray(altitude_ft) / 1000)),
    ),
    source=CQ_GLOSSARY,
)  # fmt: skip

POSITION = Quantity(
    name="position_radial",
    title="radial to report from the bearing to the ship",
    area="comms",
    words=("position", "check in", "radial", "bearing", "mother"),
    inputs=(give("bearing_to_ship_deg", "bearing to the ship", "heading", 0, 360),),
    results=(get("radial_deg", "radial to report", "heading", 0.5, 1),),
    methods={EXACT: calls.position_radial_deg},
    mental=lambda bearing_to_ship_deg: (
        "the position is given from the ship: turn the bearing to it round",
        reciprocal_in_the_head(bearing_to_ship_deg),
    ),
    slips=(
        slip("bearing to the ship", "a position is a bearing from the ship, not to it",
             lambda bearing_to_ship_deg: wrap_360(bearing_to_ship_deg)),
        slip("stopped half way", "you moved 200 and left it there; 20 goes back again",
             lambda bearing_to_ship_deg:
             np.where(np.asarray(bearing_to_ship_deg) <= 180, bearing_to_ship_deg + 200,
                      bearing_to_ship_deg - 200)[()]),
    ),
    source=practice("positions are radial and distance from the ship"),
)  # fmt: skip

EAT = Quantity(
    name="eat_on_the_clock",
    title="clock time of an EAT given as a minute",
    area="comms",
    words=("eat", "marshal", "expected approach time", "push", "clock"),
    inputs=(NOW, give("eat_minute", "EAT", "minute", 0, 59)),
    results=(
        get("eat_min", "EAT on the clock", "clock", 0.1, 0.5),
        get("ahead_min", "minutes from now", "min", 0.1, 0.5),
    ),
    methods={EXACT: calls.eat_clock_min},
    mental=lambda now_min, eat_minute: (
        "a minute that is past already belongs to the next hour",
        f"now {clock(now_min)}, EAT {past(eat_minute)}: {clock(calls.eat_clock_min(now_min, eat_minute)[0])}, "
        f"{num(calls.eat_clock_min(now_min, eat_minute)[1])} min from now",
    ),
    slips=(
        slip("stayed in this hour", "that minute is past: it belongs to the next hour",
             lambda now_min, eat_minute: np.floor(np.asarray(now_min) / 60) * 60 + eat_minute),
        slip("always the next hour", "that minute is still to come in this hour",
             lambda now_min, eat_minute: np.mod(np.floor(np.asarray(now_min) / 60) * 60 + 60 + eat_minute, 1440)),
        slip("an hour of a hundred minutes", "past the hour add sixty minutes, not a hundred",
             lambda now_min, eat_minute:
             calls.eat_clock_min(now_min, eat_minute)[1]
             + np.where(np.mod(now_min, 60) > np.asarray(eat_minute), 40.0, 0.0), "ahead_min"),
        slip("counted from the hour", "count from now, not from the full hour",
             lambda now_min, eat_minute: np.asarray(eat_minute, dtype=float), "ahead_min"),
    ),
    source=practice("an EAT is spoken as a minute of the hour"),
)  # fmt: skip

EXPECTED = Quantity(
    name="eat_22_52",
    title="next expected time at :22 or :52 (amphibious ships)",
    area="comms",
    words=("eat", "expected approach time", "emergency", "helicopter", "lost communication"),
    inputs=(NOW,),
    results=(get("expected_min", "expected time", "clock", 0.1, 0.5),),
    methods={EXACT: calls.expected_22_52_min},
    mental=lambda now_min: (
        "the next :22 or :52 that is not past",
        f"{clock(now_min)} -> {clock(calls.expected_22_52_min(now_min))}",
    ),
    slips=(
        slip("the one before", "that time is past; take the next one",
             lambda now_min: np.mod(calls.expected_22_52_min(now_min) - 30, 1440)),
        slip("one too late", "an earlier one is still to come",
             lambda now_min: np.mod(calls.expected_22_52_min(now_min) + 30, 1440)),
    ),
    source=EXPECTED_TIMES,
)  # fmt: skip

HACK = Quantity(
    name="time_hack",
    title="correction of your clock to the ship's time",
    area="comms",
    words=("time hack", "clock", "ship's time", "marshal"),
    inputs=(
        give("own_minute", "your minute", "minute", 0, 59),
        give("own_second", "your second", "s", 0, 59),
        give("ship_minute", "ship's minute", "minute", 0, 59),
        give("ship_second", "ship's second", "s", 0, 59, default=0),
    ),
    results=(get("add_s", "add to your clock", "s", 0.5, 1),),
    methods={EXACT: calls.hack_correction_s},
    mental=lambda own_minute, own_second, ship_minute, ship_second: (
        "ship less own: plus means your clock is slow and time is added",
        f"{past(ship_minute)} and {num(ship_second)} s, less {past(own_minute)} and {num(own_second)} s: "
        f"{num(calls.hack_correction_s(own_minute, own_second, ship_minute, ship_second))} s",
    ),
    slips=(
        slip("wrong sign", "ship less own, not own less ship",
             lambda own_minute, own_second, ship_minute, ship_second:
             -calls.hack_correction_s(own_minute, own_second, ship_minute, ship_second)),
        slip("seconds only", "the minutes differ as well",
             lambda own_minute, own_second, ship_minute, ship_second:
             np.asarray(ship_second, dtype=float) - own_second),
        slip("a minute of a hundred seconds", "a minute has sixty seconds",
             lambda own_minute, own_second, ship_minute, ship_second:
             (np.asarray(ship_minute, dtype=float) - own_minute) * 100 + ship_second - own_second),
    ),
    source=practice("ship's time less your own"),
)  # fmt: skip

CHARLIE = Quantity(
    name="charlie_time",
    title="time to land for a Charlie with a number",
    area="comms",
    words=("charlie", "signal", "recovery", "delay"),
    inputs=(NOW, give("charlie", "number of the Charlie", "count", 0, 60)),
    results=(get("land_min", "time to land", "clock", 0.1, 0.5),),
    methods={EXACT: calls.charlie_min},
    mental=lambda now_min, charlie: (
        "the number is the delay in minutes",
        f"{clock(now_min)} + {num(charlie)} min = {clock(now_min + charlie)}",
    ),
    slips=(
        slip("number as the minute of the hour", "the number counts minutes from now, not past the hour",
             lambda now_min, charlie: np.floor(np.asarray(now_min) / 60) * 60 + charlie),
        slip("took it off", "the number is a delay: add it",
             lambda now_min, charlie: np.mod(np.asarray(now_min) - charlie, 1440)),
        slip("an hour of a hundred minutes", "past the hour take sixty off, not a hundred",
             lambda now_min, charlie:
             np.mod(now_min + np.asarray(charlie)
                    - np.where(np.mod(now_min, 60) + np.asarray(charlie) >= 60, 40.0, 0.0), 1440)),
    ),
    source=TERMS_CHARLIE,
)  # fmt: skip

QUANTITIES = (STATE, ANGELS, POSITION, EAT, EXPECTED, HACK, CHARLIE)
