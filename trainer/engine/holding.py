"""Holding so that the push comes out on the second: number of patterns, legs, wind, last turn, speed.

A racetrack is two turns and two legs.  Turn time, pattern and limits are inputs.  Sources: NAVEDTRA 14342A
p. 11-33 (6-minute left-hand pattern), CNATRA P-801 and P-871 (leg correction), leg by height as in its deck.
"""

import numpy as np

from trainer.engine.domain import inside, require

LEG_CHANGE_FT = 14_000.0


def equal_patterns(hold_s, turn_s, pattern_s):
    """Return (patterns, seconds of each leg) that use up ``hold_s`` in equal racetracks.

    Of all numbers of patterns the one whose length lies nearest to the usual ``pattern_s``, but never
    shorter than two turns of ``turn_s`` (of two equally near the longer pattern).  Raises ``DomainError``
    where the time is too short for a single pattern without legs.
    """
    inside("time to hold", hold_s, 60, 7_200)
    inside("time of a turn", turn_s, 20, 180)
    inside("usual pattern", pattern_s, 60, 900)
    hold, turns = np.asarray(hold_s, dtype=float), 2.0 * np.asarray(turn_s)
    require(np.asarray(pattern_s) >= turns, "the usual pattern is shorter than its two turns")
    require(hold >= turns, "the time is shorter than two turns", hint="arrive later: slow down, or make a dogleg")
    fewer = np.maximum(np.floor(hold / pattern_s), 1.0)
    more = fewer + 1.0
    nearer = np.abs(hold / more - pattern_s) < np.abs(hold / fewer - pattern_s)
    patterns = np.where(nearer & (hold / more >= turns), more, fewer)
    return patterns[()], ((hold / patterns - turns) / 2.0)[()]


def last_outbound_change_s(early_s):
    """Return the seconds to add to the last outbound leg for being ``early_s`` early (late: negative), no wind.

    What is added outbound is flown once more inbound, so half of the error goes on the leg.
    """
    inside("early", early_s, -600, 600)
    return np.asarray(early_s, dtype=float)[()] / 2.0


def speed_to_fix_kn(distance_nm, time_s):
    """Return the ground speed in knots that covers ``distance_nm`` in ``time_s``."""
    inside("distance", distance_nm, 0, 200)
    inside("time", time_s, 10, 7_200)
    return (np.asarray(distance_nm, dtype=float) * 3600.0 / time_s)[()]


def next_outbound_s(outbound_s, inbound_s, wanted_inbound_s):
    """Return the next outbound leg in proportion: the inbound leg scales with the outbound one."""
    _check_legs(outbound_s, inbound_s, wanted_inbound_s)
    return (np.asarray(outbound_s, dtype=float) * wanted_inbound_s / inbound_s)[()]


def next_outbound_rule_s(outbound_s, inbound_s, wanted_inbound_s):
    """Return the next outbound leg by the published rule: the inbound error off, or onto, the outbound leg."""
    _check_legs(outbound_s, inbound_s, wanted_inbound_s)
    return (np.asarray(outbound_s, dtype=float) + wanted_inbound_s - inbound_s)[()]


def standard_inbound_s(altitude_ft):
    """Return the standard inbound leg: 60 s up to and including 14,000 ft, 90 s above."""
    inside("altitude", altitude_ft, 0, 60_000)
    return np.where(np.asarray(altitude_ft, dtype=float) <= LEG_CHANGE_FT, 60.0, 90.0)[()]


def legs_in_wind(pattern_s, turn_s, airspeed_kn, headwind_inbound_kn):
    """Return (outbound, inbound leg in seconds) of a pattern of ``pattern_s`` that ends over the fix in wind.

    ``headwind_inbound_kn`` is positive when the wind blows against the inbound leg.  During both turns the
    aircraft drifts downwind, which the legs make up.  ``airspeed_kn`` is true airspeed.  The cross-track part
    is left to the drift correction.
    """
    inside("pattern", pattern_s, 60, 900)
    inside("time of a turn", turn_s, 20, 180)
    inside("airspeed", airspeed_kn, 100, 600)
    inside("headwind inbound", headwind_inbound_kn, -100, 100)
    straight = np.asarray(pattern_s, dtype=float) - 2.0 * np.asarray(turn_s)
    share = np.asarray(headwind_inbound_kn, dtype=float) / airspeed_kn
    outbound = straight / 2.0 - share * pattern_s / 2.0
    inbound = straight - outbound
    require((outbound >= 0) & (inbound >= 0), "the wind is too strong for a pattern this short")
    return outbound[()], inbound[()]


def _check_legs(outbound_s, inbound_s, wanted_inbound_s):
    inside("outbound leg", outbound_s, 5, 600)
    inside("inbound leg", inbound_s, 5, 600)
    inside("wanted inbound leg", wanted_inbound_s, 5, 600)
    changed = np.asarray(outbound_s, dtype=float) + wanted_inbound_s - inbound_s
    require(changed >= 0, "the correction is larger than the leg", hint="fly a new pattern, not a correction")
