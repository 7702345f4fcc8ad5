"""Quantities of the earth: magnetic variation, true against magnetic, bearing and distance."""

import numpy as np

from trainer.engine import geodesy, magnetic
from trainer.engine.angles import wrap_360
from trainer.engine.quantities.air_sources import GEODESIC, PIGEONS, VARIATION_RULE, WORLD_MODEL
from trainer.engine.quantities.entries import choose, get, give, hdg, num, slip
from trainer.engine.quantity import EXACT, RULE, Quantity

VARIATION = give("variation_deg", "variation, east positive", "deg", -180, 180, take="ship.variation_deg")
FROM = (
    give("from_latitude_deg", "your latitude, north positive", "latlon", -90, 90, take="ship.latitude_deg"),
    give("from_longitude_deg", "your longitude, east positive", "latlon", -360, 360, take="ship.longitude_deg"),
)
TO = (
    give("to_latitude_deg", "latitude there, north positive", "latlon", -90, 90),
    give("to_longitude_deg", "longitude there, east positive", "latlon", -360, 360),
)


def east_or_west(variation_deg):
    """Return a variation as it is spoken: its size and side."""
    return f"{num(abs(variation_deg), 1)}° {'east' if variation_deg >= 0 else 'west'}"


def _field_lines(year, latitude_deg, longitude_deg, height_km, model):
    variation, dip, total, horizontal = magnetic.field(year, latitude_deg, longitude_deg, height_km, model)
    reliable = (
        "" if horizontal >= magnetic.UNRELIABLE_NT else "; the field lies too steep here for a compass to be trusted"
    )
    return (
        f"{magnetic.MODELS[int(model)]} world magnetic model, {year:g}: variation {variation:.2f}°, dip {dip:.2f}°",
        f"total field {total:,.1f} nT, horizontal {horizontal:,.1f} nT{reliable}",
    )


def _field_in_the_head(**place):
    variation = float(magnetic.field(**place)[0])
    return (
        "it is read from the chart's lines of equal variation; east is least, west is best",
        f"variation {east_or_west(variation)}, so a true 360 is a magnetic {hdg(-variation)}",
    )


FIELD = Quantity(
    name="magnetic_variation",
    title="magnetic variation of a place and year",
    area="navigation",
    words=("declination", "compass", "wmm", "dip", "inclination", "true", "magnetic",
           "magvar", "magvar hr", "wmmhr", "high resolution"),
    inputs=(
        give("year", "year with its decimal part", "year", magnetic.FIRST_YEAR, magnetic.LAST_YEAR),
        give("latitude_deg", "latitude, north positive", "latlon", -90, 90, take="ship.latitude_deg"),
        give("longitude_deg", "longitude, east positive", "latlon", -360, 360, take="ship.longitude_deg"),
        give("height_km", "height above the ellipsoid", "km", -1, 850, default=0),
        choose("model", "model", magnetic.MODELS, default=magnetic.STANDARD),
    ),
    results=(
        get("variation_deg", "variation, east positive", "deg", 0.5, 1, round_to=0.1),
        get("inclination_deg", "dip, down positive", "deg", 0.5, 1, round_to=0.1),
        get("total_field_nt", "total field", "nt", 50, 500),
        get("horizontal_field_nt", "horizontal field", "nt", 50, 500),
    ),
    methods={EXACT: magnetic.field},
    mental=_field_in_the_head,
    exact=_field_lines,
    slips=(
        slip("east for west", "the sign is turned round: east is positive, west negative",
             lambda **place: -magnetic.field(**place)[0]),
        slip("gave the dip", "that is the dip; variation is the angle between true and magnetic north",
             lambda **place: magnetic.field(**place)[1]),
    ),
    source=WORLD_MODEL,
)  # fmt: skip


def _turn_line(first, sign, variation_deg, second):
    return f"{hdg(first)} {sign} {num(abs(variation_deg), 1)} = {hdg(second)}"


MAGNETIC = Quantity(
    name="magnetic_from_true",
    title="magnetic direction from true",
    area="navigation",
    words=("variation", "compass", "heading", "wind", "heading conversion", "magvar"),
    inputs=(give("true_deg", "true direction", "heading", 0, 360), VARIATION),
    results=(get("magnetic_deg", "magnetic direction", "heading", 0.5, 1),),
    methods={EXACT: magnetic.magnetic_from_true_deg},
    mental=lambda true_deg, variation_deg: (
        "going from true to magnetic, east comes off and west goes on",
        _turn_line(true_deg, "-" if variation_deg >= 0 else "+", variation_deg, true_deg - variation_deg),
    ),
    slips=(
        slip("wrong way", "east comes off on the way to magnetic, west goes on",
             lambda true_deg, variation_deg: wrap_360(np.asarray(true_deg, dtype=float) + variation_deg)),
        slip("left the variation out", "that is the true direction still",
             lambda true_deg, variation_deg: true_deg),
        slip("twice the variation", "the variation was applied twice",
             lambda true_deg, variation_deg: wrap_360(
                 np.asarray(true_deg, dtype=float) - 2 * np.asarray(variation_deg, dtype=float))),
    ),
    source=VARIATION_RULE,
)  # fmt: skip

TRUE = Quantity(
    name="true_from_magnetic",
    title="true direction from magnetic",
    area="navigation",
    words=("variation", "compass", "heading", "wind", "heading conversion", "magvar"),
    inputs=(give("magnetic_deg", "magnetic direction", "heading", 0, 360), VARIATION),
    results=(get("true_deg", "true direction", "heading", 0.5, 1),),
    methods={EXACT: magnetic.true_from_magnetic_deg},
    mental=lambda magnetic_deg, variation_deg: (
        "going from magnetic to true, east goes on and west comes off",
        _turn_line(magnetic_deg, "+" if variation_deg >= 0 else "-", variation_deg,
        magnetic_deg + variation_deg),
    ),
    slips=(
        slip("wrong way", "east goes on on the way to true, west comes off",
             lambda magnetic_deg, variation_deg: wrap_360(np.asarray(magnetic_deg,
             dtype=float) - variation_deg)),
        slip("left the variation out", "that is the magnetic direction still",
             lambda magnetic_deg, variation_deg: magnetic_deg),
        slip("twice the variation", "the variation was applied twice",
             lambda magnetic_deg, variation_deg: wrap_360(
                 np.asarray(magnetic_deg, dtype=float) + 2 * np.asarray(variation_deg, dtype=float))),
    ),
    source=VARIATION_RULE,
)  # fmt: skip


def _parts(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    """Return (miles north, miles of longitude unshrunk, shrink factor) of the way."""
    north = 60 * (to_latitude_deg - from_latitude_deg)
    unshrunk = 60 * ((to_longitude_deg - from_longitude_deg + 180) % 360 - 180)
    return north, unshrunk, np.cos(np.radians((from_latitude_deg + to_latitude_deg) / 2))


def _way_in_the_head(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    north, unshrunk, shrink = _parts(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg)
    east = unshrunk * shrink
    return (
        "a minute of latitude is a mile; a minute of longitude is a mile times the cosine of the middle latitude",
        f"{num(abs(north), 1)} nm {'north' if north >= 0 else 'south'}; {num(abs(unshrunk), 1)} minutes × "
        f"{shrink:.2f} = {num(abs(east), 1)} nm {'east' if east >= 0 else 'west'}",
        f"√({num(abs(north), 1)}² + {num(abs(east), 1)}²) = {num(np.hypot(north, east), 1)} nm, "
        f"bearing {hdg(np.degrees(np.arctan2(east, north)))} true",
    )


def _way_exact(**where):
    distance, first, last, metres = geodesy.inverse(**where)
    return (
        f"geodesic on WGS 84: {metres:,.1f} m = {distance:,.2f} nm",
        f"leaving on {first:.2f}°, arriving on {last:.2f}° true",
    )


def _without_shrink(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    north = 60 * (np.asarray(to_latitude_deg, dtype=float) - from_latitude_deg)
    east = 60 * (np.mod(np.asarray(to_longitude_deg, dtype=float) - from_longitude_deg + 180, 360) - 180)
    return np.hypot(north, east)


WAY = Quantity(
    name="geodesic",
    title="bearing and distance between two positions",
    area="navigation",
    words=("great circle", "bearing", "distance", "position", "latitude", "divert", "geodesy", "azimuth"),
    inputs=(*FROM, *TO),
    results=(
        get("distance_nm", "distance", "nm", 1, 10, round_to=0.1),
        get("bearing_deg", "true bearing there", "heading", 1, 5),
        get("final_bearing_deg", "true bearing on arrival", "heading", 1, 5),
        get("distance_m", "distance", "m", 2_000, 20_000),
    ),
    methods={EXACT: geodesy.inverse, RULE: geodesy.middle_latitude},
    mental=_way_in_the_head,
    exact=_way_exact,
    slips=(
        slip("longitude not shrunk",
             "minutes of longitude are shorter than miles: times the cosine of the latitude",
             _without_shrink),
        slip("in kilometres", "that is kilometres; a mile has 1.852",
             lambda **where: geodesy.inverse(**where)[3] / 1000),
        slip("bearing back", "that is the bearing back to you", result="bearing_deg",
             wrong=lambda **where: wrap_360(geodesy.inverse(**where)[1] + 180)),
    ),
    source=GEODESIC,
)  # fmt: skip


def _reach_lines(from_latitude_deg, from_longitude_deg, bearing_deg, distance_nm):
    north = distance_nm * np.cos(np.radians(bearing_deg))
    east = distance_nm * np.sin(np.radians(bearing_deg))
    return (
        f"{num(distance_nm, 1)} nm × cosine of {hdg(bearing_deg)} = {num(north, 1)} nm north, "
        f"a sixtieth of it degrees of latitude: {num(north / 60, 2)}",
        f"× sine = {num(east, 1)} nm east; "
        f"over the cosine of latitude {num(abs(from_latitude_deg))} and sixty: "
        f"{num(east / 60 / max(0.01, np.cos(np.radians(from_latitude_deg))), 2)} degrees of longitude",
    )


REACH = Quantity(
    name="geodesic_destination",
    title="position after a bearing and distance",
    area="navigation",
    words=("great circle", "position", "latitude", "longitude", "fix", "geodesy"),
    inputs=(
        *FROM,
        give("bearing_deg", "true bearing", "heading", -360, 360),
        give("distance_nm", "distance", "nm", 0, geodesy.LONGEST_NM),
    ),
    results=(
        get("latitude_deg", "latitude, north positive", "latlon", 0.02, 0.1, round_to=0.0001),
        get("longitude_deg", "longitude, east positive", "latlon", 0.02, 0.1, round_to=0.0001),
        get("final_bearing_deg", "true bearing on arrival", "heading", 1, 5),
    ),
    methods={EXACT: geodesy.direct},
    mental=_reach_lines,
    slips=(
        slip("the other way", "you went away from the bearing: north and south are turned round",
             lambda **where: geodesy.direct(**{**where, "bearing_deg": wrap_360(
                 np.asarray(where["bearing_deg"], dtype=float) + 180)})[0]),
        slip("sine for cosine", "the cosine of the bearing gives the miles north, the sine the miles east",
             lambda from_latitude_deg, from_longitude_deg, bearing_deg, distance_nm:
             from_latitude_deg + np.asarray(distance_nm, dtype=float) / 60 * np.sin(np.radians(bearing_deg))),
    ),
    source=GEODESIC,
)  # fmt: skip


def _pigeons_in_the_head(variation_deg, **where):
    north, unshrunk, shrink = _parts(**where)
    bearing = np.degrees(np.arctan2(unshrunk * shrink, north))
    return (
        *_way_in_the_head(**where),
        "east comes off, west goes on: "
        + _turn_line(bearing, "-" if variation_deg >= 0 else "+", variation_deg, bearing - variation_deg),
    )


def _true_bearing(variation_deg, **where):
    return geodesy.inverse(**where)[1]


PIGEONS_TO = Quantity(
    name="pigeons",
    title="magnetic bearing and distance to the field",
    area="navigation",
    words=("bingo", "divert", "bearing", "distance", "home"),
    inputs=(*FROM, *TO, VARIATION),
    results=(
        get("magnetic_bearing_deg", "magnetic bearing", "heading", 1, 5),
        get("distance_nm", "distance", "nm", 1, 5, round_to=1),
    ),
    methods={EXACT: geodesy.pigeons, RULE: geodesy.pigeons_in_the_head},
    mental=_pigeons_in_the_head,
    slips=(
        slip("gave the true bearing", "pigeons are magnetic; the variation is missing", _true_bearing),
        slip("variation the wrong way", "east comes off on the way to magnetic, west goes on",
             lambda variation_deg, **where: wrap_360(_true_bearing(variation_deg, **where) + variation_deg)),
        slip("bearing back", "that is the bearing from the field to you",
             lambda **where: wrap_360(geodesy.pigeons(**where)[0] + 180)),
    ),
    source=PIGEONS,
)  # fmt: skip

QUANTITIES = (FIELD, MAGNETIC, TRUE, WAY, REACH, PIGEONS_TO)
