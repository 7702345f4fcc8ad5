"""Quantities of holding: patterns, legs, the last turn, the speed to the fix."""

import numpy as np

from trainer.engine import holding
from trainer.engine.quantities.carrier_sources import HOLDING, HOLDING_LEG, practice
from trainer.engine.quantities.entries import get, give, min_s, num, reckoned, slip
from trainer.engine.quantity import EXACT, RULE, Quantity

TURN = give("turn_s", "time of one turn", "s", 20, 180, default=120)
LEGS = (
    give("outbound_s", "outbound leg flown", "s", 5, 600),
    give("inbound_s", "inbound leg it gave", "s", 5, 600),
    give("wanted_inbound_s", "inbound leg wanted", "s", 5, 600, default=60),
)


def _split_lines(hold_s, turn_s, pattern_s):
    patterns, leg = (float(value) for value in holding.equal_patterns(hold_s, turn_s, pattern_s))
    return (
        f"{min_s(hold_s)} in patterns as near as can be to {min_s(pattern_s)}: {num(patterns)} "
        f"pattern{'s' if patterns > 1 else ''} of {min_s(hold_s / patterns)}",
        f"two turns take {min_s(2 * turn_s)}; {min_s(hold_s / patterns)} less {min_s(2 * turn_s)} leaves "
        f"{num(2 * leg)} s for two legs: {num(leg)} s each",
    )


SPLIT = Quantity(
    name="hold_split",
    title="holding time in equal patterns",
    area="marshal",
    words=("holding", "racetrack", "push", "time to lose", "legs"),
    inputs=(
        give("hold_s", "time to hold", "s", 60, 7_200),
        TURN,
        give("pattern_s", "usual pattern", "s", 60, 900, default=360),
    ),
    results=(
        get("patterns", "patterns", "count", 0, 0),
        get("leg_s", "each leg", "s", 2.5, 10, round_to=5),
    ),
    methods={EXACT: holding.equal_patterns},
    mental=_split_lines,
    slips=(
        slip("one pattern more", "that many patterns would be shorter than need be, or than their own turns",
             lambda **hold: holding.equal_patterns(**hold)[0] + 1),
        slip("left a rest", "what is left after whole usual patterns is no pattern: make all of them equal",
             lambda hold_s, turn_s, pattern_s: np.ceil(np.asarray(hold_s, dtype=float) / pattern_s - 1e-9) + 0.0),
        slip("patterns without legs", "you counted patterns of two turns only",
             lambda hold_s, turn_s, pattern_s: np.floor(np.asarray(hold_s, dtype=float) / turn_s / 2)),
        slip("whole rest on one leg", "the time left after the turns is shared by two legs",
             lambda **hold: holding.equal_patterns(**hold)[1] * 2, "leg_s"),
        slip("counted one turn", "a racetrack has two turns",
             lambda hold_s, turn_s, pattern_s:
             holding.equal_patterns(hold_s, turn_s, pattern_s)[1] + np.asarray(turn_s) / 2, "leg_s"),
    ),
    source=practice("two-minute turns; a six-minute pattern cannot be shorter than its turns"),
)  # fmt: skip

LAST_LEG = Quantity(
    name="last_leg_change",
    title="change of the last outbound leg to be on time",
    area="marshal",
    words=("holding", "early", "late", "push", "leg"),
    inputs=(give("early_s", "early (late: minus)", "s", -600, 600),),
    results=(get("change_s", "added to the outbound leg", "s", 2.5, 5),),
    methods={EXACT: holding.last_outbound_change_s},
    mental=lambda early_s: (
        "what you add outbound you fly back inbound: half of the error on the leg",
        f"{num(abs(early_s))} s {'early' if early_s >= 0 else 'late'}: {num(abs(early_s) / 2, 1)} s "
        f"{'longer' if early_s >= 0 else 'shorter'}",
    ),
    slips=(
        slip("whole error on one leg", "you fly it twice, out and back: half is enough", lambda early_s: early_s * 1.0),
        slip("wrong sign", "early means longer, late means shorter", lambda early_s: np.asarray(early_s) / -2.0),
        slip("a quarter", "two legs share the error, not four", lambda early_s: np.asarray(early_s) / 4.0),
    ),
    source=practice("half the error on the outbound leg; no wind"),
)  # fmt: skip

SPEED_TO_FIX = Quantity(
    name="speed_to_fix",
    title="ground speed to be over the fix on time",
    area="marshal",
    words=("ground speed", "push", "on time", "fix"),
    inputs=(give("distance_nm", "distance to the fix", "nm", 1, 200), give("time_s", "time left", "s", 10, 7_200)),
    results=(get("groundspeed_kn", "ground speed", "kn", 2, 5),),
    methods={EXACT: holding.speed_to_fix_kn},
    mental=lambda distance_nm, time_s: (
        f"{min_s(time_s)} in minutes: {reckoned(distance_nm, '/', time_s / 60, 2, places=(1, 2))} nm a minute",
        f"x 60 = {num(distance_nm * 3600 / time_s)} kt",
    ),
    slips=(
        slip("divided the wrong way", "miles over minutes, not minutes over miles",
             lambda distance_nm, time_s: np.asarray(time_s) / 60 / np.asarray(distance_nm) * 60),
        slip("seconds read as hundredths", "thirty seconds are half a minute, not three tenths",
             lambda distance_nm, time_s:
             distance_nm * 60.0 / (np.floor(np.asarray(time_s) / 60) + np.mod(time_s, 60) / 100)),
        slip("forgot the seconds", "the seconds count as well",
             lambda distance_nm, time_s: distance_nm * 60.0 / np.maximum(np.floor(np.asarray(time_s) / 60), 1)),
    ),
    source=practice("distance over time"),
)  # fmt: skip

NEXT_OUTBOUND = Quantity(
    name="next_outbound_leg",
    title="next outbound leg from the inbound leg it gave",
    area="marshal",
    words=("holding", "correction", "outbound", "inbound", "timing"),
    inputs=LEGS,
    results=(get("next_outbound_s", "next outbound leg", "s", 2.5, 5),),
    methods={EXACT: holding.next_outbound_s, RULE: holding.next_outbound_rule_s},
    mental=lambda outbound_s, inbound_s, wanted_inbound_s: (
        "the inbound error goes on the outbound leg, the other way round: too short inbound, longer outbound",
        f"inbound {num(inbound_s)} s for {num(wanted_inbound_s)} s: {num(abs(wanted_inbound_s - inbound_s))} s too "
        f"{'short' if inbound_s < wanted_inbound_s else 'long'}; {num(outbound_s)} "
        f"{'+' if inbound_s < wanted_inbound_s else '-'} {num(abs(wanted_inbound_s - inbound_s))} = "
        f"{num(outbound_s + wanted_inbound_s - inbound_s)} s",
    ),
    exact=lambda outbound_s, inbound_s, wanted_inbound_s: (
        f"in proportion, {num(outbound_s)} x {num(wanted_inbound_s)} / {num(inbound_s)} = "
        f"{num(outbound_s * wanted_inbound_s / inbound_s)} s",
    ),
    slips=(
        slip("corrected the wrong way", "an inbound leg that was too short wants a longer outbound leg",
             lambda outbound_s, inbound_s, wanted_inbound_s: outbound_s + inbound_s - np.asarray(wanted_inbound_s)),
        slip("no correction", "that is the leg you flew; it gave the wrong inbound time",
             lambda outbound_s, inbound_s, wanted_inbound_s: outbound_s),
        slip("twice the error", "the error goes on the leg once",
             lambda outbound_s, inbound_s, wanted_inbound_s:
             outbound_s + 2 * (np.asarray(wanted_inbound_s) - inbound_s)),
    ),
    source=HOLDING,
)  # fmt: skip

STANDARD_LEG = Quantity(
    name="standard_inbound_leg",
    title="standard inbound leg by altitude",
    area="marshal",
    words=("holding", "inbound", "14,000", "timing"),
    inputs=(give("altitude_ft", "altitude", "ft", 0, 60_000),),
    results=(get("inbound_s", "inbound leg", "s", 0, 0),),
    methods={EXACT: holding.standard_inbound_s},
    mental=lambda altitude_ft: (
        "one minute up to and including 14,000 ft, a minute and a half above",
        f"{num(altitude_ft)} ft: {num(holding.standard_inbound_s(altitude_ft))} s",
    ),
    slips=(
        slip("the other leg", "one minute low, a minute and a half high",
             lambda altitude_ft: 150.0 - holding.standard_inbound_s(altitude_ft)),
        slip("two minutes", "two minutes is a turn in marshal, not this leg",
             lambda altitude_ft: np.asarray(altitude_ft) * 0.0 + 120),
    ),
    source=HOLDING_LEG,
)  # fmt: skip


def _wind_lines(pattern_s, turn_s, airspeed_kn, headwind_inbound_kn):
    out, back = (float(v) for v in holding.legs_in_wind(pattern_s, turn_s, airspeed_kn, headwind_inbound_kn))
    calm = pattern_s / 2 - turn_s
    share = abs(headwind_inbound_kn) / airspeed_kn
    against = headwind_inbound_kn >= 0
    return (
        f"in calm air each leg is {min_s(pattern_s / 2)} less one turn of {min_s(turn_s)}: {num(calm)} s",
        f"wind {num(abs(headwind_inbound_kn))} of {num(airspeed_kn)} kt is {num(share * 100, 1)} per cent; of half the "
        f"pattern, {num(pattern_s / 2)} s, that is {num(share * pattern_s / 2)} s",
        f"{'against' if against else 'behind'} you inbound: outbound {'less' if against else 'more'}, {num(out)} s, "
        f"inbound {num(back)} s",
    )


LEGS_IN_WIND = Quantity(
    name="hold_legs_in_wind",
    title="legs of a pattern that ends on time in wind",
    area="marshal",
    words=("holding", "wind", "push", "outbound", "racetrack"),
    inputs=(
        give("pattern_s", "time of the pattern", "s", 60, 900, default=360),
        TURN,
        give("airspeed_kn", "true airspeed", "kn", 100, 600),
        give("headwind_inbound_kn",
             "wind against the inbound leg, a moving fix adding the ship's own way (behind: minus)", "kn", -100, 100),
    ),
    results=(
        get("outbound_s", "outbound leg", "s", 2.5, 5),
        get("inbound_s", "inbound leg", "s", 2.5, 5),
    ),
    methods={EXACT: holding.legs_in_wind},
    mental=_wind_lines,
    slips=(
        slip("corrected the wrong way", "wind against you inbound makes the outbound leg shorter",
             lambda pattern_s, turn_s, airspeed_kn, headwind_inbound_kn:
             pattern_s / 2 - turn_s + np.asarray(headwind_inbound_kn) / airspeed_kn * pattern_s / 2),
        slip("forgot the drift in the turns", "the turns drift too: take the share of half the pattern, not of the leg",
             lambda pattern_s, turn_s, airspeed_kn, headwind_inbound_kn:
             (pattern_s / 2 - turn_s) * (1 - np.asarray(headwind_inbound_kn) / airspeed_kn)),
        slip("no wind", "those are the legs in calm air",
             lambda pattern_s, turn_s, airspeed_kn, headwind_inbound_kn: pattern_s / 2 - turn_s),
        slip("corrected the wrong way", "wind against you inbound makes the inbound leg longer",
             lambda pattern_s, turn_s, airspeed_kn, headwind_inbound_kn:
             pattern_s / 2 - turn_s - np.asarray(headwind_inbound_kn) / airspeed_kn * pattern_s / 2, "inbound_s"),
        slip("no wind", "those are the legs in calm air",
             lambda pattern_s, turn_s, airspeed_kn, headwind_inbound_kn: pattern_s / 2 - turn_s, "inbound_s"),
    ),
    source=practice("plane geometry of a racetrack with drift in the turns"),
)  # fmt: skip

QUANTITIES = (SPLIT, LAST_LEG, SPEED_TO_FIX, NEXT_OUTBOUND, STANDARD_LEG, LEGS_IN_WIND)
