"""The Case I pattern: break, downwind, check points, groove, on-speed; and the grades of the passes.

Sources: CNATRA P-1211 pattern figure (600, 450, 325-375 ft; groove 15-18 s), CNATRAINST 3740.9D para 314
(grade average 2.5, boarding rate 60 %).  The points of the grades differ between sources and are inputs.
"""

import numpy as np

from trainer.engine.angles import reciprocal
from trainer.engine.domain import inside, require

ABEAM, NINETY, FORTY_FIVE = 180, 90, 45
CHECK_ALTITUDES_FT = {ABEAM: (600, 600), NINETY: (450, 450), FORTY_FIVE: (325, 375)}


def break_spacing_nm(interval_s, airspeed_kn):
    """Return the miles between two aircraft that break ``interval_s`` apart at ``airspeed_kn``."""
    inside("interval", interval_s, 0, 120)
    inside("airspeed", airspeed_kn, 60, 600)
    return (np.asarray(interval_s, dtype=float) * airspeed_kn / 3600.0)[()]


def last_break_s(aircraft, interval_s):
    """Return the seconds from the lead's break to the break of the last of ``aircraft``."""
    inside("aircraft", aircraft, 1, 12)
    inside("interval", interval_s, 0, 120)
    require(np.asarray(aircraft) == np.floor(aircraft), "aircraft are whole")
    return ((np.asarray(aircraft, dtype=float) - 1) * interval_s)[()]


def downwind_deg(brc_deg):
    """Return the downwind heading: the reciprocal of the BRC (not of the final bearing)."""
    inside("BRC", brc_deg, 0, 360)
    return reciprocal(brc_deg)


def check_altitude_ft(position):
    """Return (lowest, highest) altitude in feet at the 180, the 90 or the 45."""
    require(np.isin(position, tuple(CHECK_ALTITUDES_FT)), "the check points are the 180, the 90 and the 45")
    positions = np.asarray(position, dtype=float)
    lowest, highest = np.zeros(positions.shape), np.zeros(positions.shape)
    for point, (low_ft, high_ft) in CHECK_ALTITUDES_FT.items():
        lowest[positions == point], highest[positions == point] = low_ft, high_ft
    return lowest[()], highest[()]


def groove_nm(groove_s, closure_kn):
    """Return the length of the groove in miles for its time, at the closure (not the airspeed)."""
    inside("time in the groove", groove_s, 1, 60)
    inside("closure", closure_kn, 30, 250)
    return (np.asarray(groove_s, dtype=float) * closure_kn / 3600.0)[()]


def groove_s(groove_nm, closure_kn):
    """Return the seconds in the groove for its length in miles, at the closure."""
    inside("length of the groove", groove_nm, 0.05, 3)
    inside("closure", closure_kn, 30, 250)
    return (np.asarray(groove_nm, dtype=float) * 3600.0 / closure_kn)[()]


def on_speed_kn(landing_weight_lb, speed_table):
    """Return the on-speed airspeed in knots at the landing weight from the type's ``speed_table``."""
    return np.asarray(speed_table(landing_weight_lb), dtype=float)[()]


def grade_average(ok, fair, bolter, no_grade, waveoff, cut,
                  points_ok, points_fair, points_bolter, points_no_grade, points_waveoff, points_cut,
                  underlined=0, points_underlined=5):  # fmt: skip
    """Return the average of the grades: the points of every pass over the number of passes.

    Counts of each grade (at least one pass in all), and the points of each, 0 to 5.
    """
    counts = (underlined, ok, fair, bolter, no_grade, waveoff, cut)
    points = (points_underlined, points_ok, points_fair, points_bolter, points_no_grade, points_waveoff, points_cut)
    for count, point in zip(counts, points, strict=True):
        inside("count of a grade", count, 0, 50)
        inside("points of a grade", point, 0, 5)
        require(np.asarray(count) == np.floor(count), "passes are whole")
    passes = sum(np.asarray(count, dtype=float) for count in counts)
    require(passes >= 1, "there is no pass to grade")
    total = sum(np.asarray(count, dtype=float) * point for count, point in zip(counts, points, strict=True))
    return np.divide(total, passes)[()]


def boarding_rate_percent(traps, passes):
    """Return the share of passes that ended in a trap, in per cent."""
    inside("traps", traps, 0, 500)
    inside("passes", passes, 1, 500)
    require(np.asarray(traps) <= passes, "there are more traps than passes")
    return (np.asarray(traps, dtype=float) * 100.0 / passes)[()]


def qualified(gpa, traps, passes, least_gpa, least_boarding_percent):
    """Return (1 qualified or 0 not, boarding rate in per cent): both the average and the rate must suffice."""
    inside("grade average", gpa, 0, 5)
    inside("least grade average", least_gpa, 0, 5)
    inside("least boarding rate", least_boarding_percent, 0, 100)
    rate = boarding_rate_percent(traps, passes)
    enough = (np.asarray(gpa) >= least_gpa) & (np.round(rate, 9) >= least_boarding_percent)
    return np.where(enough, 1.0, 0.0)[()], rate


def stage_grade(field_gpa, ship_gpa):
    """Return the grade of the qualification stage: the mean of the field and the ship average."""
    inside("field average", field_gpa, 0, 5)
    inside("ship average", ship_gpa, 0, 5)
    return ((np.asarray(field_gpa, dtype=float) + ship_gpa) / 2.0)[()]
