"""Slant range, and how far one sees or hears over the horizon.

Sources: CNATRA P-801 Instrument Navigation (slant range, 6,000 ft taken as a mile); NGA Pub. 9, Bowditch
(visible horizon 1.17 sqrt h); ATPL radio-navigation theory (radio line of sight 1.23 sqrt h); a Navy
electronics school's 1.25 sqrt h as the rule of thumb.
"""

import numpy as np

from trainer.engine.domain import require
from trainer.engine.limits import within
from trainer.engine.units import FT_PER_NM

RULE_FT_PER_NM = 6000.0
RADIO_FACTOR = 1.23  # nm per square root of a foot, four-thirds earth
RADIO_RULE_FACTOR = 1.25
VISIBLE_FACTOR = 1.17  # light is bent less than radio


def ground_range_nm(slant_nm, altitude_ft):
    """Return the miles over the ground for a DME reading at ``altitude_ft`` above the station, exact.

    Floats or arrays; DME 0.1-300 nm, 0-60,000 ft.  Refuses an altitude above the DME reading.

    >>> round(float(ground_range_nm(10, 36_000)), 2)
    8.06
    """
    return _ground(slant_nm, altitude_ft, FT_PER_NM)


def ground_range_by_rule(slant_nm, altitude_ft):
    """Return the miles over the ground with 6,000 ft taken as a mile.  Source: CNATRA P-801 Fig. 7."""
    return _ground(slant_nm, altitude_ft, RULE_FT_PER_NM)


def slant_range_nm(ground_nm, altitude_ft):
    """Return the DME reading for ``ground_nm`` (0-300) over the ground at ``altitude_ft``, exact.

    >>> round(float(slant_range_nm(8, 36_000)), 2)
    9.96
    """
    return _slant(ground_nm, altitude_ft, FT_PER_NM)


def slant_range_by_rule(ground_nm, altitude_ft):
    """Return the DME reading with 6,000 ft taken as a mile."""
    return _slant(ground_nm, altitude_ft, RULE_FT_PER_NM)


def radio_horizon_nm(height_ft, other_height_ft):
    """Return the radio line of sight in miles between two heights in feet (0-100,000).

    Floats or arrays.  The factor is for a standard atmosphere; on the day it may be 5 % off.

    >>> round(float(radio_horizon_nm(625, 25)), 1)
    36.9
    """
    return RADIO_FACTOR * _roots(height_ft, other_height_ft)


def radio_horizon_by_rule(height_ft, other_height_ft):
    """Return the radio line of sight with a root and a quarter of it."""
    return RADIO_RULE_FACTOR * _roots(height_ft, other_height_ft)


def visible_horizon_nm(height_ft, other_height_ft):
    """Return the miles at which two heights in feet (0-100,000) come in sight of each other.

    >>> round(float(visible_horizon_nm(16, 125)), 1)
    17.8
    """
    return VISIBLE_FACTOR * _roots(height_ft, other_height_ft)


def _ground(slant_nm, altitude_ft, ft_per_nm):
    within(0.1, 300, slant_nm=slant_nm)
    within(0, 60_000, altitude_ft=altitude_ft)
    height_nm = np.asarray(altitude_ft, dtype=float) / ft_per_nm
    slant_nm = np.asarray(slant_nm, dtype=float)
    require(height_nm <= slant_nm, "the aircraft is higher than its DME reading",
            hint="the DME reading can't be smaller than the height")  # fmt: skip
    return np.sqrt(slant_nm**2 - height_nm**2)


def _slant(ground_nm, altitude_ft, ft_per_nm):
    within(0, 300, ground_nm=ground_nm)
    within(0, 60_000, altitude_ft=altitude_ft)
    return np.hypot(ground_nm, np.asarray(altitude_ft, dtype=float) / ft_per_nm)


def _roots(height_ft, other_height_ft):
    within(0, 100_000, height_ft=height_ft, other_height_ft=other_height_ft)
    return np.sqrt(np.asarray(height_ft, dtype=float)) + np.sqrt(np.asarray(other_height_ft, dtype=float))
