"""Quantities of the descent and the altimeter: top of descent, crossing rate, cloud base, cold air, QFE."""

import numpy as np

from trainer.engine import descent
from trainer.engine.quantities.air_sources import SIXTY_TO_ONE
from trainer.engine.quantities.carrier_sources import practice
from trainer.engine.quantities.entries import get, give, num, reckoned, slip
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.model import Source

CLOUD = Source(
    text="FAA-H-8083-25B, Pilot's Handbook of Aeronautical Knowledge, as quoted by a study page",
    section="p. 12-13, cloud base from temperature and dew point",
    url="https://studyflying.com/how-can-we-know-calc-the-estimated-cloud-bases-dew-point-application/",
    status="secondary",
)
COLD = Source(
    text="FAA Aeronautical Information Manual (3 April 2014)",
    section="table 7-2-3, ICAO cold temperature error table",
    url="http://www.faraim.org.s3-website-us-east-1.amazonaws.com/aim/aim-4-03-14-504.html",
    status="published",
)
FROM = give("from_altitude_ft", "altitude now", "ft", 0, 60_000)
TO = give("to_altitude_ft", "altitude wanted", "ft", 0, 60_000)
ELEVATION = give("elevation_ft", "elevation of the field", "ft", -1_000, 10_000)
QNH = give("qnh_hpa", "QNH", "hpa", 900, 1_080)
HEIGHT = give("height_ft", "height above the station", "ft", 0, 10_000)
REPORTED = give("temperature_c", "temperature reported", "c", descent.COLDEST_C, descent.WARMEST_C)


def _lose(from_altitude_ft, to_altitude_ft):
    lose = from_altitude_ft - to_altitude_ft
    return f"to lose: {num(from_altitude_ft)} - {num(to_altitude_ft)} = {num(lose)} ft"


TOP_OF_DESCENT = Quantity(
    name="top_of_descent", title="top of descent: how far out the descent begins", area="navigation",
    words=("descent", "three to one", "altitude to lose", "divert"),
    inputs=(FROM, TO, give("glide_slope_deg", "angle of descent", "deg", 1, 10, default=3.0)),
    results=(get("distance_nm", "begin at", "nm", 1, 3, round_to=1),),
    methods={EXACT: descent.top_of_descent_nm, RULE: descent.top_of_descent_by_rule_nm},
    mental=lambda from_altitude_ft, to_altitude_ft, glide_slope_deg: (
        _lose(from_altitude_ft, to_altitude_ft),
        f"three miles for each thousand: 3 x {num((from_altitude_ft - to_altitude_ft) / 1_000, 1)} = "
        f"{num((from_altitude_ft - to_altitude_ft) * 3 / 1_000, 1)} nm",
    ),
    exact=lambda from_altitude_ft, to_altitude_ft, glide_slope_deg: (
        f"{num(from_altitude_ft - to_altitude_ft)} / (6,076 x tan {num(glide_slope_deg, 2)}°) = "
        f"{num(descent.top_of_descent_nm(from_altitude_ft, to_altitude_ft, glide_slope_deg), 1)} nm",
    ),
    slips=(
        slip("all of the altitude", "only what is to be lost counts, not the altitude itself",
             lambda from_altitude_ft, **_: np.asarray(from_altitude_ft) / 1_000 * 3),
        slip("two miles a thousand", "two miles a thousand is nearly five degrees; three miles are three",
             lambda from_altitude_ft, to_altitude_ft, **_:
             descent.altitude_to_lose_ft(from_altitude_ft, to_altitude_ft) / 1_000 * 2),
        slip("divided by three", "three miles for each thousand feet: times three",
             lambda from_altitude_ft, to_altitude_ft, **_:
             descent.altitude_to_lose_ft(from_altitude_ft, to_altitude_ft) / 3_000),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

CROSSING_RATE = Quantity(
    name="crossing_rate", title="rate of descent for a crossing restriction", area="navigation",
    words=("descent", "cross at", "restriction", "rate of descent", "vvi"),
    inputs=(FROM, TO, give("distance_nm", "distance to the fix", "nm", 0.5, 300),
            give("groundspeed_kn", "groundspeed", "kn", 40, 1_000)),
    results=(get("rate_ft_min", "rate of descent", "ft/min", 100, 200, round_to=100),),
    methods={EXACT: descent.crossing_rate_ft_min},
    mental=lambda from_altitude_ft, to_altitude_ft, distance_nm, groundspeed_kn: (
        _lose(from_altitude_ft, to_altitude_ft),
        f"minutes to the fix: {num(distance_nm, 1)} nm at {num(groundspeed_kn / 60, 1)} nm a minute = "
        f"{num(distance_nm * 60 / groundspeed_kn, 1)} min",
        reckoned(from_altitude_ft - to_altitude_ft, "/", distance_nm * 60 / groundspeed_kn, 0, places=(0, 1))
        + " ft/min",
    ),
    slips=(
        slip("feet a mile as the rate", "that is feet for each mile; times miles a minute makes it a rate",
             lambda from_altitude_ft, to_altitude_ft, distance_nm, **_:
             descent.altitude_to_lose_ft(from_altitude_ft, to_altitude_ft) / distance_nm),
        slip("all of the altitude", "only what is to be lost counts",
             lambda from_altitude_ft, distance_nm, groundspeed_kn, **_:
             np.asarray(from_altitude_ft) * groundspeed_kn / 60 / distance_nm),
        slip("the rate of three degrees", "five times the groundspeed holds three degrees, whatever the restriction",
             lambda groundspeed_kn, **_: np.asarray(groundspeed_kn) * 5.0),
    ),
    source=practice("altitude to lose over the minutes to the fix"),
)  # fmt: skip

CLOUD_BASE = Quantity(
    name="cloud_base", title="height of convective cloud from temperature and dew point", area="navigation",
    words=("dew point", "ceiling", "spread", "weather", "cumulus"),
    inputs=(give("temperature_c", "temperature", "c", -40, 55), give("dew_point_c", "dew point", "c", -60, 40)),
    results=(get("base_ft", "cloud base above the ground", "ft", 100, 300, round_to=100),),
    methods={EXACT: descent.cloud_base_ft},
    mental=lambda temperature_c, dew_point_c: (
        "400 ft for each degree between temperature and dew point",
        f"{num(temperature_c, 1)} - {num(dew_point_c, 1)} = {num(temperature_c - dew_point_c, 1)}; "
        f"x 400 = {num((temperature_c - dew_point_c) * 400)} ft",
    ),
    slips=(
        slip("a thousand feet a degree", "air rises 400 ft for each degree of spread, not a thousand",
             lambda temperature_c, dew_point_c: (np.asarray(temperature_c) - dew_point_c) * 1_000.0),
        slip("two degrees a thousand feet", "two degrees is the standard lapse; the spread closes by two and a half",
             lambda temperature_c, dew_point_c: (np.asarray(temperature_c) - dew_point_c) * 500.0),
        slip("the temperature alone", "it is the spread that counts",
             lambda temperature_c, **_: np.asarray(temperature_c) * 400.0),
    ),
    source=CLOUD,
)  # fmt: skip

COLD_ERROR = Quantity(
    name="cold_error", title="how far below the altimeter cold air puts you", area="navigation",
    words=("cold temperature", "correction", "altimeter", "altimetry", "true altitude"),
    inputs=(HEIGHT, REPORTED, give("elevation_ft", "elevation of the station", "ft", 0, 10_000, default=0.0)),
    results=(get("error_ft", "lower than shown by", "ft", 10, 30, round_to=10),),
    methods={EXACT: descent.cold_error_ft, RULE: descent.cold_error_by_rule_ft},
    mental=lambda height_ft, temperature_c, elevation_ft: (
        f"standard there is {num(15 - 2 * elevation_ft / 1_000)} °C; it is "
        f"{num(max(0.0, 15 - 2 * elevation_ft / 1_000 - temperature_c))} degrees colder",
        f"four feet a degree and thousand feet: 4 x {num(max(0.0, 15 - 2 * elevation_ft / 1_000 - temperature_c))} x "
        f"{num(height_ft / 1_000, 1)} = "
        f"{num(descent.cold_error_by_rule_ft(height_ft, temperature_c, elevation_ft))} ft;"
        " you are lower than the altimeter says",
    ),
    slips=(
        slip("from nought, not from standard", "count the degrees below standard, 15 °C at sea level, not below 0",
             lambda height_ft, temperature_c, **_:
             np.maximum(0.0, -np.asarray(temperature_c, dtype=float)) * 4 * np.asarray(height_ft) / 1_000),
        slip("one foot a degree", "four feet for each degree and thousand feet",
             lambda height_ft, temperature_c, elevation_ft:
             descent.cold_error_by_rule_ft(height_ft, temperature_c, elevation_ft) / 4),
        slip("higher than shown", "cold air is dense: you are lower than the altimeter says",
             lambda height_ft, temperature_c, elevation_ft:
             -descent.cold_error_by_rule_ft(height_ft, temperature_c, elevation_ft)),
    ),
    source=COLD,
)  # fmt: skip

QFE = Quantity(
    name="qfe", title="QFE of a field from QNH and elevation", area="navigation",
    words=("qnh", "altimeter", "setting", "altimetry", "divert"),
    inputs=(QNH, ELEVATION),
    results=(get("qfe_hpa", "QFE", "hpa", 0.6, 2, round_to=1),),
    methods={EXACT: descent.qfe_hpa, RULE: descent.qfe_by_rule_hpa},
    mental=lambda qnh_hpa, elevation_ft: (
        "a hectopascal for each 28 feet of elevation, off the QNH",
        f"{num(elevation_ft)} / 28 = {num(elevation_ft / 28, 1)}; {num(qnh_hpa)} - {num(elevation_ft / 28, 1)} = "
        f"{num(descent.qfe_by_rule_hpa(qnh_hpa, elevation_ft))} hPa",
    ),
    slips=(
        slip("added", "pressure falls as you go up: the field above the sea has less",
             lambda qnh_hpa, elevation_ft: np.asarray(qnh_hpa) + np.asarray(elevation_ft) / 28.0),
        slip("a hectopascal for ten feet", "28 feet a hectopascal, not ten",
             lambda qnh_hpa, elevation_ft: np.asarray(qnh_hpa) - np.asarray(elevation_ft) / 10.0),
    ),
    source=practice("a hectopascal for 28 feet; exactly, the altimeter's own law of the standard atmosphere"),
)  # fmt: skip

QUANTITIES = (TOP_OF_DESCENT, CROSSING_RATE, CLOUD_BASE, COLD_ERROR, QFE)
