"""Turns: radius, rate, time and bank of a level turn, and where it puts an aircraft.

Convention: speeds are through the air for the turn itself; without wind they are groundspeeds as well.

Sources: FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge (rate and radius of turn); CNATRA P-340
and P-1215 (standard-rate turns); CNATRA P-869 (effect of turns on a section); USAF instrument-school
handout, 60-to-1 rules (radius at 30 degrees of bank, bank for a standard rate).
"""

import numpy as np

from trainer.engine.domain import require
from trainer.engine.limits import within
from trainer.engine.units import FT_PER_NM

GRAVITY_M_S2 = 9.80665  # standard gravity, by definition
M_PER_NM = 1852.0
M_S_PER_KN = M_PER_NM / 3600
RULE_BANK_DEG = 30.0  # both radius rules are for this bank
STANDARD_RATE_DEG_S = 3.0


def turn(speed_kn, bank_deg):
    """Return (radius nm, rate deg/s, diameter nm, seconds for a full turn) of a level turn, exact.

    Floats or arrays; 40-1,000 kn, bank 1-80 degrees.  Source: FAA-H-8083-25, with standard gravity and the
    international nautical mile instead of its rounded constants.

    >>> [round(float(value), 2) for value in turn(250, 30)]
    [1.58, 2.52, 3.15, 142.72]
    """
    within(40, 1000, speed_kn=speed_kn)
    within(1, 80, bank_deg=bank_deg)
    speed_m_s = np.asarray(speed_kn, dtype=float) * M_S_PER_KN
    return _turn_of(speed_kn, speed_m_s**2 / (GRAVITY_M_S2 * np.tan(np.radians(bank_deg))) / M_PER_NM)


def turn_by_square(speed_kn, bank_deg):
    """Return what ``turn`` returns with radius = (miles per minute) squared / 10; 30 degrees of bank only."""
    _rule_bank(speed_kn, bank_deg)
    return _turn_of(speed_kn, (np.asarray(speed_kn, dtype=float) / 60) ** 2 / 10)


def turn_less_two(speed_kn, bank_deg):
    """Return what ``turn`` returns with radius = miles per minute - 2; 30 degrees of bank, 150 kn or more."""
    _rule_bank(speed_kn, bank_deg)
    within(150, 1000, speed_kn=speed_kn)
    return _turn_of(speed_kn, np.asarray(speed_kn, dtype=float) / 60 - 2)


HALF_RULE_FROM_KN = 200.0


def bank_for_rate(tas_kn, turn_rate_deg_s):
    """Return the bank in degrees that turns at ``turn_rate_deg_s``, exact.

    Floats or arrays; 40-600 kn, 0.5-6 deg/s (standard rate is 3).  Source: mechanics of the level turn.

    >>> round(float(bank_for_rate(152, 3)), 1)
    22.7
    """
    _rate(tas_kn, turn_rate_deg_s)
    speed_m_s = np.asarray(tas_kn, dtype=float) * M_S_PER_KN
    return np.degrees(np.arctan(speed_m_s * np.radians(turn_rate_deg_s) / GRAVITY_M_S2))


def bank_by_rule(tas_kn, turn_rate_deg_s):
    """Return airspeed/10 + 7 for a standard-rate turn (3 deg/s), airspeed/20 + 7 for half of it (1.5).

    The second is within two degrees from 200 kn on (4 too much at 120), so it is refused below.
    """
    _rate(tas_kn, turn_rate_deg_s)
    rate = np.asarray(turn_rate_deg_s, dtype=float)
    slow = (rate == 1.5) & (np.asarray(tas_kn, dtype=float) < HALF_RULE_FROM_KN)
    require(~slow, "the rule for half standard rate is for 200 kt and more", hint="below, take the exact method")
    require((rate == 3.0) | (rate == 1.5), "the rule is for the standard rate and half of it only")
    return np.asarray(tas_kn, dtype=float) * rate / 30 + 7


def turn_time_s(turn_deg, turn_rate_deg_s):
    """Return the seconds to turn through ``turn_deg`` (0-1,080) at ``turn_rate_deg_s`` (0.5-30)."""
    within(0, 1080, turn_deg=turn_deg)
    within(0.5, 30, turn_rate_deg_s=turn_rate_deg_s)
    return np.asarray(turn_deg, dtype=float)[()] / turn_rate_deg_s


def section_after_turn(groundspeed_kn, abeam_nm, turn_deg):
    """Return (seconds out of line abreast, miles abeam after) when two aircraft abreast turn together.

    The line between them keeps its direction while the heading turns, so it is no longer abeam.  Negative
    miles abeam: the wingman is now on the other side.  Floats or arrays; 60-1,000 kn, 0.1-10 nm, 0-180
    degrees.  Source: CNATRA P-869.

    >>> [round(float(value), 2) for value in section_after_turn(180, 1, 60)]
    [17.32, 0.5]
    """
    within(60, 1000, groundspeed_kn=groundspeed_kn)
    within(0.1, 10, abeam_nm=abeam_nm)
    within(0, 180, turn_deg=turn_deg)
    angle = np.radians(turn_deg)
    trail_nm = np.asarray(abeam_nm, dtype=float) * np.sin(angle)
    return trail_nm / groundspeed_kn * 3600, abeam_nm * np.cos(angle)


def clearing_turn(speed_kn, bank_deg, turn_deg, hold_s):
    """Return (feet off the ship's track, miles along it) after turn out, hold and turn back, exact.

    Floats or arrays; 80-400 kn, bank 5-60, turn 1-45 degrees, hold 0-60 s.  No wind, and the ship's own way
    is not counted.  Source: geometry of two equal arcs; the turn itself CNATRAINST 3740.9D.

    >>> round(float(clearing_turn(150, 20, 20, 5)[0]))
    1093
    """
    _clearing(speed_kn, bank_deg, turn_deg, hold_s)
    radius_nm = turn(speed_kn, bank_deg)[0]
    angle = np.radians(turn_deg)
    held_nm = np.asarray(speed_kn, dtype=float) * hold_s / 3600
    offset_nm = 2 * radius_nm * (1 - np.cos(angle)) + held_nm * np.sin(angle)
    along_nm = 2 * radius_nm * np.sin(angle) + held_nm * np.cos(angle)
    return offset_nm * FT_PER_NM, along_nm


def clearing_turn_by_rule(speed_kn, bank_deg, turn_deg, hold_s):
    """Return what ``clearing_turn`` returns by one in sixty.

    In each turn the heading is half the angle off on average, so both turns together count as one turn
    flown at the full angle: distance of (one turn + hold) x angle / 60.
    """
    _clearing(speed_kn, bank_deg, turn_deg, hold_s)
    turning_s = np.asarray(turn_deg, dtype=float) / turn(speed_kn, bank_deg)[1]
    miles_per_s = np.asarray(speed_kn, dtype=float) / 3600
    offset_nm = miles_per_s * (turning_s + hold_s) * turn_deg / 60
    return offset_nm * 6000, miles_per_s * (2 * turning_s + hold_s)


def radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s):
    """Return the radius in miles of a turn at ``turn_rate_deg_s`` (0.5-6); 40-1,000 kn."""
    within(40, 1000, groundspeed_kn=groundspeed_kn)
    within(0.5, 6, turn_rate_deg_s=turn_rate_deg_s)
    return np.asarray(groundspeed_kn, dtype=float) / 3600 / np.radians(turn_rate_deg_s)


def radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s):
    """Return the radius by rule: 1 % of groundspeed at half standard rate (1.5 deg/s), 0.5 % at standard."""
    within(40, 1000, groundspeed_kn=groundspeed_kn)
    within(0.5, 6, turn_rate_deg_s=turn_rate_deg_s)
    return np.asarray(groundspeed_kn, dtype=float) / 100 * 1.5 / turn_rate_deg_s


def _turn_of(speed_kn, radius_nm):
    rate_deg_s = np.degrees(np.asarray(speed_kn, dtype=float) / 3600 / radius_nm)
    return radius_nm, rate_deg_s, 2 * radius_nm, 360 / rate_deg_s


def _rule_bank(speed_kn, bank_deg):
    within(40, 1000, speed_kn=speed_kn)
    require(np.asarray(bank_deg) == RULE_BANK_DEG, "the radius rules are for 30 degrees of bank only")


def _rate(tas_kn, turn_rate_deg_s):
    within(40, 600, tas_kn=tas_kn)
    within(0.5, 6, turn_rate_deg_s=turn_rate_deg_s)


def _clearing(speed_kn, bank_deg, turn_deg, hold_s):
    within(80, 400, speed_kn=speed_kn)
    within(5, 60, bank_deg=bank_deg)
    within(1, 45, turn_deg=turn_deg)
    within(0, 60, hold_s=hold_s)
