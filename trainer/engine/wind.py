"""Wind aboard: what the ship's own way makes of the true wind, and what falls across the landing area.

Conventions: a wind is named by where it comes FROM; an angle off the bow or off the angled deck is right
positive; a calm has direction 360.  The angled deck lies to the LEFT of the bow by its angle.

Sources: NGA Pub. 1310, Radar Navigation and Maneuvering Board Manual (true and desired wind); S. Smith and
others, COAPS, Florida State University (true wind from a moving ship); CNATRA P-1211 (ship-made wind crosses
the angled deck from right to left); the shares for the mental way are common practice.
"""

import numpy as np

from trainer.engine.angles import components, direction_and_size, turn_deg, wrap_360
from trainer.engine.domain import require
from trainer.engine.limits import directions, within

CALM_KN = 1e-9  # what is left of two winds that cancel in floating point
SHARE_ANGLES_DEG = (0.0, 30.0, 45.0, 60.0, 90.0)
SHARES_ACROSS = (0.0, 0.5, 0.7, 0.9, 1.0)  # rounded sines that people remember


def wind_over_deck(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn):
    """Return (speed in knots, degrees off the bow right positive, direction it is felt from) on deck.

    The wind over deck is the true wind and the ship's own way added as vectors.  Floats or arrays; ship
    0-60 kn, wind 0-100 kn.  Source: NGA Pub. 1310.

    >>> [round(float(value)) for value in wind_over_deck(240, 18, 315, 20)]
    [30, 40, 280]
    """
    directions(ship_course_deg=ship_course_deg, wind_from_deg=wind_from_deg)
    within(0, 60, ship_speed_kn=ship_speed_kn)
    within(0, 100, wind_speed_kn=wind_speed_kn)
    way_east, way_north = components(ship_course_deg, ship_speed_kn)
    wind_east, wind_north = components(wind_from_deg, wind_speed_kn)
    felt_from_deg, speed_kn = direction_and_speed(way_east + wind_east, way_north + wind_north)
    relative_deg = np.where(speed_kn == 0, 0.0, turn_deg(ship_course_deg, felt_from_deg))[()]
    return speed_kn, relative_deg, felt_from_deg


def true_wind(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn):
    """Return (direction it comes from, knots) of the true wind, from the wind felt aboard.

    ``relative_wind_deg`` is off the bow, right positive, -180 to 360.  Floats or arrays; ship 0-60 kn, wind
    felt 0-120 kn.  A calm is (360, 0).  Sources: NGA Pub. 1310; COAPS true-wind reference code.

    >>> [round(float(value)) for value in true_wind(270, 3, 90, 4)]
    [37, 5]
    """
    directions(ship_course_deg=ship_course_deg)
    within(0, 60, ship_speed_kn=ship_speed_kn)
    within(-180, 360, relative_wind_deg=relative_wind_deg)
    within(0, 120, wind_over_deck_kn=wind_over_deck_kn)
    felt_from_deg = np.asarray(ship_course_deg, dtype=float) + relative_wind_deg
    felt_east, felt_north = components(felt_from_deg, wind_over_deck_kn)
    way_east, way_north = components(ship_course_deg, ship_speed_kn)
    return direction_and_speed(felt_east - way_east, felt_north - way_north)


def wanted_wind(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg):
    """Return (course, speed, other course, other speed) of the ship that put a wanted wind over the deck.

    ``wanted_kn`` is to be felt ``relative_wind_deg`` off the bow, right positive, -90 to 90.  Two courses
    do it.  The first steams towards the true wind, is the slower one and the one a ship uses; the other
    runs away from it and needs the true wind's share twice over in speed.  Floats or arrays; wind 1-60 kn,
    wanted 1-60 kn.  Raises ``DomainError`` where the true wind is too weak to be brought that far off the
    bow, or so strong that the ship would have to go astern.  Source: NGA Pub. 1310 (desired relative wind).

    >>> [round(float(value), 1) for value in wanted_wind(315, 10, 30, -10)]
    [346.4, 21.0, 103.6, 38.1]
    """
    directions(wind_from_deg=wind_from_deg)
    within(1, 60, wind_speed_kn=wind_speed_kn, wanted_kn=wanted_kn)
    within(-90, 90, relative_wind_deg=relative_wind_deg)
    ahead_kn, across_kn = ahead_and_across(wanted_kn, relative_wind_deg)
    share = across_kn / np.asarray(wind_speed_kn, dtype=float)
    require(np.abs(share) <= 1 + 1e-12, "the true wind is too weak to come from that far off the bow",
            hint="ask for less wind, or for one nearer the bow")  # fmt: skip
    off_bow_deg = np.degrees(np.arcsin(np.clip(share, -1, 1)))
    help_kn = wind_speed_kn * np.cos(np.radians(off_bow_deg))
    require(ahead_kn - help_kn >= -1e-9, "there is more wind than wanted: the ship would have to go astern",
            hint="ask for more wind over the deck")  # fmt: skip
    slow_kn = np.maximum(ahead_kn - help_kn, 0.0)
    slow_deg, fast_deg = wind_from_deg - off_bow_deg, wind_from_deg + off_bow_deg + 180.0
    return wrap_360(slow_deg), slow_kn, wrap_360(fast_deg), ahead_kn + help_kn


def recovery_course(wind_from_deg, wind_speed_kn, wanted_kn, deck_angle_deg):
    """Return ``wanted_wind`` for a wind straight down an area angled left by ``deck_angle_deg`` (0-20)."""
    within(0, 20, deck_angle_deg=deck_angle_deg)
    return wanted_wind(wind_from_deg, wind_speed_kn, wanted_kn, -np.asarray(deck_angle_deg, dtype=float))


def ahead_and_across(wind_kn, relative_wind_deg):
    """Return (from ahead, from the right) in knots of a wind ``relative_wind_deg`` off the bow, exact."""
    across_kn, ahead_kn = components(relative_wind_deg, np.asarray(wind_kn, dtype=float))
    return ahead_kn, across_kn


def ahead_and_across_by_share(wind_kn, relative_wind_deg):
    """Return (from ahead, from the right) in knots with the remembered shares: 30 a half, 45 0.7, 60 0.9."""
    wind_kn = np.asarray(wind_kn, dtype=float)
    off_deg = np.abs(turn_deg(0.0, relative_wind_deg))
    fold_deg = np.where(off_deg > 90, 180 - off_deg, off_deg)
    across = np.interp(fold_deg, SHARE_ANGLES_DEG, SHARES_ACROSS)
    ahead = np.interp(90 - fold_deg, SHARE_ANGLES_DEG, SHARES_ACROSS)
    side = np.sign(turn_deg(0.0, relative_wind_deg))
    return wind_kn * np.where(off_deg > 90, -ahead, ahead), wind_kn * across * side


def wind_down_the_bow(wind_over_deck_kn, relative_wind_deg):
    """Return (down the bow, across from the right) in knots, exact; 0-120 kn, angle -180 to 360."""
    _felt(wind_over_deck_kn, relative_wind_deg)
    return ahead_and_across(wind_over_deck_kn, relative_wind_deg)


def wind_down_the_bow_by_share(wind_over_deck_kn, relative_wind_deg):
    """Return what ``wind_down_the_bow`` returns, with the remembered shares."""
    _felt(wind_over_deck_kn, relative_wind_deg)
    return ahead_and_across_by_share(wind_over_deck_kn, relative_wind_deg)


def angle_wind(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    """Return (crosswind from the right, wind down the angle, 1 inside the limit or -1 over it), exact.

    The angle between the wind and the landing area is the one off the bow PLUS the deck angle, because the
    area points left of the bow.  Floats or arrays; deck angle 0-20, limit 1-40 kn.  Sources: CNATRA P-1211;
    CNATRAINST 3740.9D Table II-3 (7 kn for carrier qualification).

    >>> round(float(angle_wind(25, 0, 9, 7)[0]), 1)
    3.9
    """
    return _on_the_angle(ahead_and_across, wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn)


def angle_wind_by_share(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    """Return what ``angle_wind`` returns, with the remembered shares."""
    split = ahead_and_across_by_share
    return _on_the_angle(split, wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn)


def runway_wind(runway_deg, wind_from_deg, wind_speed_kn):
    """Return (crosswind from the right, headwind) in knots on a runway, exact; 0-120 kn.  Source: geometry.

    >>> [round(float(value)) for value in runway_wind(180, 220, 30)]
    [19, 23]
    """
    return _on_the_runway(ahead_and_across, runway_deg, wind_from_deg, wind_speed_kn)


def runway_wind_by_share(runway_deg, wind_from_deg, wind_speed_kn):
    """Return what ``runway_wind`` returns, with the remembered shares."""
    return _on_the_runway(ahead_and_across_by_share, runway_deg, wind_from_deg, wind_speed_kn)


def direction_and_speed(east_kn, north_kn):
    """Return (direction, speed) of a velocity; one that is only rounding error is (360, 0)."""
    direction_deg, speed_kn = direction_and_size(east_kn, north_kn)
    still = speed_kn < CALM_KN
    return np.where(still, 360.0, direction_deg)[()], np.where(still, 0.0, speed_kn)[()]


def _felt(wind_over_deck_kn, relative_wind_deg):
    within(0, 120, wind_over_deck_kn=wind_over_deck_kn)
    within(-180, 360, relative_wind_deg=relative_wind_deg)


def _on_the_angle(split, wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    _felt(wind_over_deck_kn, relative_wind_deg)
    within(0, 20, deck_angle_deg=deck_angle_deg)
    within(1, 40, limit_kn=limit_kn)
    off_angle_deg = np.asarray(relative_wind_deg, dtype=float) + deck_angle_deg
    down_kn, crosswind_kn = split(wind_over_deck_kn, off_angle_deg)
    inside = np.abs(crosswind_kn) <= np.asarray(limit_kn) + CALM_KN
    return crosswind_kn, down_kn, np.where(inside, 1, -1)[()]


def _on_the_runway(split, runway_deg, wind_from_deg, wind_speed_kn):
    directions(runway_deg=runway_deg, wind_from_deg=wind_from_deg)
    within(0, 120, wind_speed_kn=wind_speed_kn)
    headwind_kn, crosswind_kn = split(wind_speed_kn, turn_deg(runway_deg, wind_from_deg))
    return crosswind_kn, headwind_kn
