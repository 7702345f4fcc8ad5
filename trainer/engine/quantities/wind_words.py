"""How the mental way with winds is said: shares ahead and across, and putting the two together again."""

import numpy as np

from trainer.engine.angles import turn_deg
from trainer.engine.quantities.entries import as_printed, hdg, num, reckoned
from trainer.engine.wind import ahead_and_across_by_share

RATIOS, RATIO_ANGLES_DEG = (0.0, 0.25, 0.5, 0.75, 1.0), (0.0, 14.0, 27.0, 37.0, 45.0)


def side(value):
    """Return "right" for a positive value, "left" for a negative one."""
    return "right" if value >= 0 else "left"


def signed(off_deg):
    """Return an angle off the bow in words.

    >>> signed(-10), signed(40), signed(350)
    ('10° left', '40° right', '10° left')
    """
    off_deg = float(turn_deg(0.0, off_deg))
    return f"{num(abs(off_deg), 1)}° {side(off_deg)}"


def split_line(wind_kn, off_deg):
    """Return the line that splits a wind into ahead and across with the remembered shares."""
    ahead, across = (float(part) for part in ahead_and_across_by_share(wind_kn, off_deg))
    shares = [float(abs(part)) for part in ahead_and_across_by_share(1.0, off_deg)]
    along = "from ahead" if ahead >= 0 else "from astern"
    return (
        f"{signed(off_deg)}: {reckoned(shares[0], 'x', wind_kn, 1)} kt {along}, "
        f"{reckoned(shares[1], 'x', wind_kn, 1)} kt from the {side(across)}"
    )


def across_and_ahead(wind_kn, off_deg):
    """Return the exact line that splits a wind ``off_deg`` to the right (left: minus) into across and ahead."""
    off_deg, radians = float(off_deg), np.radians(float(off_deg))
    across, ahead = wind_kn * np.sin(radians), wind_kn * np.cos(radians)
    return (
        f"{num(wind_kn, 1)} x sin {num(abs(off_deg), 1)}° = {num(abs(across), 2)} kt from the {side(across)}, "
        f"x cos = {num(abs(ahead), 2)} kt from {'ahead' if ahead >= 0 else 'astern'}"
    )


def added_lines(first_deg, first_kn, second_deg, second_kn):
    """Return the lines that add a second motion to a first, along it and across it, with the remembered shares."""
    off_deg = float(turn_deg(first_deg, second_deg))
    along, across = (float(part) for part in ahead_and_across_by_share(second_kn, off_deg))
    shares = [abs(float(part)) for part in ahead_and_across_by_share(1.0, off_deg)]
    turned_deg, length = together(first_kn + along, across)
    sign, way = ("+", "with") if along >= 0 else ("-", "against")
    return (
        f"{hdg(second_deg)} is {num(abs(off_deg), 1)}° {side(off_deg)} of {hdg(first_deg)}: "
        f"{reckoned(shares[0], 'x', second_kn, 1)} kt {way} it, "
        f"{reckoned(shares[1], 'x', second_kn, 1)} kt to the {side(across)}",
        f"along {hdg(first_deg)}: {num(first_kn, 1)} {sign} {num(abs(along), 1)} = {num(first_kn + along, 1)} kt",
        *together_lines(first_kn + along, across),
        f"from {hdg(first_deg)} that is {hdg(first_deg + turned_deg)}, at {num(length, 1)} kt",
    )


def together(ahead, across):
    """Return (angle off the bow, length) of two sides at right angles, as worked in the head.

    A quarter of the longer side is 14 degrees, a half 27, three quarters 37, equal sides 45; the length is
    the longer side plus 0.4 of the shorter, times the same ratio.
    """
    ahead, across = float(ahead), float(across)
    long, short = max(abs(ahead), abs(across)), min(abs(ahead), abs(across))
    ratio = short / long if long else 0.0
    angle = float(np.interp(ratio, RATIOS, RATIO_ANGLES_DEG))
    off = angle if abs(ahead) >= abs(across) else 90 - angle
    off = off if ahead >= 0 else 180 - off
    return (off if across >= 0 else -off), long + 0.4 * short * ratio


def together_lines(ahead, across):
    """Return the two lines that put a part from ahead and a part across together."""
    ahead, across = float(ahead), float(across)
    off, length = together(ahead, across)
    long, short = max(abs(ahead), abs(across)), min(abs(ahead), abs(across))
    ratio = short / long if long else 0.0
    told, _ = as_printed(lambda long, ratio, short: long + 0.4 * ratio * short, (long, ratio, short), (1, 2, 1), 1)
    return (
        f"the smaller side is {told[1]} of the larger (1/4 is 14°, 1/2 27°, 3/4 37°, equal 45°): {signed(off)}",
        f"length: {told[0]} + 0.4 x {told[1]} x {told[2]} = {num(length, 1)}",
    )
