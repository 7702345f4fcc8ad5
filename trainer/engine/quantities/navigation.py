"""Quantities of position and time: fix to fix, time and speed, checks against a station."""

import numpy as np

from trainer.engine import navigation
from trainer.engine.angles import reciprocal, turn_deg
from trainer.engine.picture import FOUND, FRAME
from trainer.engine.quantities.entries import get, give, hdg, num, reckoned, slip
from trainer.engine.quantities.pictures import around
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.model import Source

POINT_TO_POINT = Source(
    text="CNATRA P-801 Instrument Navigation",
    section="TACAN point to point",
    url="http://navyflightmanuals.tpub.com/P-801/Figure-1-P-8010101-101.htm",
    status="published",
)
BASIC = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge",
    section="Navigation, basic calculations",
    url="http://www.flightlearnings.com/2012/07/18/basic-calculations-for-navigation/",
    status="published",
)
CHECK = Source(
    text="CNATRA P-1265 RIFP-01 and P-801 Fig. 36",
    section="computing ground speed",
    url="https://navyflightmanuals.tpub.com/P-1265/Computing-Ground-Speed-Using-Tacan-Vor-Dme-P-12650032-32.htm",
    status="published",
)
STATION = Source(
    text="AFMAN 11-217 vol. 1 (2005)",
    section="p. 121, 7.7",
    url="https://www.yumpu.com/en/document/view/33835091/by-order-of-the-secretary-of-the-air-force-air-force-/121",
    status="published",
)
SPACING = Source(
    text="CNATRA P-801 Instrument Navigation",
    section="radial spacing",
    url="https://navyflightmanuals.tpub.com/P-801/Figure-8-P-8010029-29.htm",
    status="published",
)
DISTANCE = give("distance_nm", "distance", "nm", 0, 6000)
GROUNDSPEED = give("groundspeed_kn", "groundspeed", "kn", 1, 1500)
DME = give("dme_nm", "DME", "nm", 0.5, 250)


def _fix_mental(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm):
    course, distance = navigation.fix_to_fix(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm)
    larger = max(dme_1_nm, dme_2_nm)
    return (
        f"station in the middle, the larger DME ({num(larger, 1)}) at the rim, the smaller at "
        f"{num(min(dme_1_nm, dme_2_nm) / larger, 2)} of the way out",
        f"mark {hdg(radial_1_deg)}/{num(dme_1_nm, 1)} and {hdg(radial_2_deg)}/{num(dme_2_nm, 1)}, join "
        "them, move "
        f"the line to the middle and read it: about {num(round(float(course) / 5) * 5)}°",
        f"its length against the rim: {reckoned(distance / larger, 'x', larger, 0)} nm",
    )


def _fix_exact(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm):
    north = dme_2_nm * np.cos(np.radians(radial_2_deg)) - dme_1_nm * np.cos(np.radians(radial_1_deg))
    east = dme_2_nm * np.sin(np.radians(radial_2_deg)) - dme_1_nm * np.sin(np.radians(radial_1_deg))
    course, distance = navigation.fix_to_fix(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm)
    return (f"{num(north, 2)} nm north, {num(east, 2)} nm east: {num(course, 1)}°, {num(distance, 1)} nm",)


def _fix_picture(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm):
    course, distance = navigation.fix_to_fix(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm)
    return around(
        (("1", radial_1_deg, dme_1_nm), ("2", radial_2_deg, dme_2_nm)), (("+1", FRAME), ("+2", FRAME), ("12", FOUND)),
        title="From fix to fix",
        legend=(f"north up, + station; 1 at {num(dme_1_nm, 1)} nm, 2 at {num(dme_2_nm, 1)} nm",
                f"1 to 2: {hdg(course)}, {num(distance, 1)} nm, no wind"),
    )  # fmt: skip


FIX_TO_FIX = Quantity(
    name="fix_to_fix", title="course and distance from fix to fix", area="navigation",
    words=("point to point", "radial", "DME", "TACAN"),
    inputs=(
        give("radial_1_deg", "radial you are on", "heading", 0, 360),
        give("dme_1_nm", "your DME", "nm", 0.1, 200),
        give("radial_2_deg", "radial of the fix", "heading", 0, 360),
        give("dme_2_nm", "DME of the fix", "nm", 0.1, 200),
    ),
    results=(
        get("course_deg", "course", "heading", 2, 10),
        get("distance_nm", "distance", "nm", 0.5, 2, round_to=0.1),
    ),
    methods={EXACT: navigation.fix_to_fix},
    mental=_fix_mental, exact=_fix_exact, picture=_fix_picture,
    slips=(
        slip("the way back", "that is the course from the fix to you",
             lambda **given: reciprocal(navigation.fix_to_fix(**given)[0])),
        slip("larger DME not at the rim", "you swapped the distances: the larger one goes to the rim",
             lambda radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm: navigation.fix_to_fix(
                 radial_1_deg, dme_2_nm, radial_2_deg, dme_1_nm)[0]),
        slip("radial of the fix", "that is the radial of the fix; it is a course from the station only",
             lambda radial_2_deg, **_: radial_2_deg),
        slip("subtracted the distances", "the difference of the DMEs is the distance on one radial only",
             lambda dme_1_nm, dme_2_nm, **_: np.abs(np.asarray(dme_1_nm) - dme_2_nm), "distance_nm"),
        slip("added the distances", "the sum of the DMEs is the way over the station",
             lambda dme_1_nm, dme_2_nm, **_: dme_1_nm + dme_2_nm, "distance_nm"),
    ),
    source=POINT_TO_POINT,
)  # fmt: skip

TIME_TO_GO = Quantity(
    name="time_to_go", title="time to cover a distance", area="navigation",
    words=("time speed distance", "ETA", "minutes", "tsd", "leg time"),
    inputs=(DISTANCE, GROUNDSPEED),
    results=(get("time_min", "time", "min", 0.1, 0.5, round_to=0.1),),
    methods={EXACT: navigation.time_to_go_min},
    mental=lambda distance_nm, groundspeed_kn: (
        f"{num(groundspeed_kn)} kt is {num(groundspeed_kn / 60, 2)} nm a minute",
        f"{reckoned(distance_nm, '/', groundspeed_kn / 60, 1, places=(1, 2))} min",
    ),
    slips=(
        slip("divided the wrong way", "speed over distance; time is distance over speed",
             lambda distance_nm, groundspeed_kn: groundspeed_kn / 60 / np.maximum(distance_nm, 0.01)),
        slip("hours as minutes", "that is decimal hours times 100; an hour has 60 minutes",
             lambda distance_nm, groundspeed_kn: distance_nm / groundspeed_kn * 100),
        slip("one mile a minute", "you flew a mile a minute, which is 60 kt",
             lambda distance_nm, **_: distance_nm),
    ),
    source=BASIC,
)  # fmt: skip

DISTANCE_COVERED = Quantity(
    name="distance_covered", title="distance covered in a time", area="navigation",
    words=("time speed distance", "tsd", "distance run"),
    inputs=(GROUNDSPEED, give("time_min", "time", "min", 0, 1440)),
    results=(get("distance_nm", "distance", "nm", 0.2, 1, round_to=0.1),),
    methods={EXACT: navigation.distance_covered_nm},
    mental=lambda groundspeed_kn, time_min: (
        f"{num(groundspeed_kn)} kt is {num(groundspeed_kn / 60, 2)} nm a minute, 6 minutes are a tenth "
        "of the speed",
        f"{reckoned(groundspeed_kn / 60, 'x', time_min, 1)} nm",
    ),
    slips=(
        slip("minutes as hundredths", "you took the minutes as hundredths of an hour",
             lambda groundspeed_kn, time_min: groundspeed_kn * time_min / 100),
        slip("one mile a minute", "you flew a mile a minute, which is 60 kt",
             lambda time_min, **_: time_min),
        slip("speed over time", "distance is speed times time",
             lambda groundspeed_kn, time_min: groundspeed_kn / np.maximum(time_min, 0.01)),
    ),
    source=BASIC,
)  # fmt: skip

GROUNDSPEED_NEEDED = Quantity(
    name="groundspeed_needed", title="groundspeed to be on time", area="navigation",
    words=("time speed distance", "push", "on time", "tsd", "ground speed"),
    inputs=(DISTANCE, give("time_min", "time", "min", 0.1, 1440)),
    results=(get("groundspeed_kn", "groundspeed", "kn", 2, 5),),
    methods={EXACT: navigation.groundspeed_needed_kn},
    mental=lambda distance_nm, time_min: (
        f"{num(distance_nm, 1)} nm in {num(time_min, 1)} min is {num(distance_nm / time_min, 2)} nm a minute",
        f"x 60 = {num(distance_nm / time_min * 60)} kt",
    ),
    slips=(
        slip("divided the wrong way", "you divided the time by the distance",
             lambda distance_nm, time_min: time_min / np.maximum(distance_nm, 0.01) * 60),
        slip("miles a minute", "that is miles a minute; times 60 for knots",
             lambda distance_nm, time_min: distance_nm / time_min),
        slip("minutes as hundredths", "you took the minutes as hundredths of an hour",
             lambda distance_nm, time_min: distance_nm / time_min * 100),
    ),
    source=BASIC,
)  # fmt: skip

GROUNDSPEED_CHECK = Quantity(
    name="groundspeed_check", title="ground-speed check on a station", area="navigation",
    words=("TACAN", "DME", "3 minutes", "ground speed", "gs"),
    inputs=(
        give("dme_1_nm", "first DME", "nm", 0, 300),
        give("dme_2_nm", "second DME", "nm", 0, 300),
        give("time_min", "minutes between", "min", 0.5, 10),
        give("altitude_ft", "altitude", "ft", 0, 60_000),
    ),
    results=(get("groundspeed_kn", "groundspeed", "kn", 3, 10),),
    methods={EXACT: navigation.groundspeed_check_kn},
    mental=lambda dme_1_nm, dme_2_nm, time_min, altitude_ft: (
        f"allowed from {num(altitude_ft / 1000, 1)} DME out (altitude in thousands)",
        f"{num(abs(dme_2_nm - dme_1_nm), 1)} nm in {num(time_min, 1)} min; 60 / {num(time_min, 1)} = "
        f"{num(60 / time_min, 1)} (one minute x 60, three minutes x 20)",
        f"{num(abs(dme_2_nm - dme_1_nm), 1)} x {num(60 / time_min, 1)} = "
        f"{num(abs(dme_2_nm - dme_1_nm) / time_min * 60)} kt",
    ),
    slips=(
        slip("factor of one minute", "times 60 is for one minute; three minutes take 20",
             lambda dme_1_nm, dme_2_nm, **_: np.abs(np.asarray(dme_2_nm) - dme_1_nm) * 60),
        slip("times the minutes", "you multiplied by the minutes and ten; it is 60 over the minutes",
             lambda dme_1_nm, dme_2_nm, time_min, **_: np.abs(
                 np.asarray(dme_2_nm) - dme_1_nm) * time_min * 10),
        slip("factor of three minutes", "times 20 is for three minutes",
             lambda dme_1_nm, dme_2_nm, **_: np.abs(np.asarray(dme_2_nm) - dme_1_nm) * 20),
        slip("second DME", "you took the DME, not its change",
             lambda dme_2_nm, time_min, **_: dme_2_nm / time_min * 60),
    ),
    source=CHECK,
)  # fmt: skip

TIME_TO_STATION = Quantity(
    name="time_to_station", title="time and distance to a station by bearing change", area="navigation",
    words=("wing tip", "bearing change", "seconds over degrees"),
    inputs=(
        give("seconds", "time of the bearing change", "s", 1, 1800),
        give("bearing_change_deg", "bearing change", "deg", 1, 30, default=10.0),
        give("groundspeed_kn", "groundspeed", "kn", 40, 1000),
    ),
    results=(
        get("time_min", "time to the station", "min", 0.1, 0.5, round_to=0.1),
        get("distance_nm", "distance to the station", "nm", 0.5, 2, round_to=0.1),
    ),
    methods={EXACT: navigation.time_to_station_exact, RULE: navigation.time_to_station},
    mental=lambda seconds, bearing_change_deg, groundspeed_kn: (
        f"seconds over degrees are minutes: {num(seconds)} / {num(bearing_change_deg, 1)} = "
        f"{num(seconds / bearing_change_deg, 1)} min",
        f"x {num(groundspeed_kn / 60, 2)} nm a minute = "
        f"{num(seconds / bearing_change_deg * groundspeed_kn / 60, 1)} nm",
    ),
    exact=lambda seconds, bearing_change_deg, groundspeed_kn: (
        f"flown {num(seconds * groundspeed_kn / 3600, 2)} nm / tan {num(bearing_change_deg, 1)}° = "
        f"{num(navigation.time_to_station_exact(seconds, bearing_change_deg, groundspeed_kn)[1], 1)} nm",
    ),
    slips=(
        slip("degrees over seconds", "seconds over degrees, not the other way round",
             lambda seconds, bearing_change_deg, **_: bearing_change_deg / seconds),
        slip("seconds as minutes", "you divided by 60 as well: seconds over degrees are minutes already",
             lambda seconds, bearing_change_deg, **_: seconds / bearing_change_deg / 60),
        slip("time of the change", "that is the time the change took",
             lambda seconds, **_: seconds / 60),
        slip("flown for the distance", "that is how far you flew during the change",
             lambda seconds, groundspeed_kn, **_: seconds * groundspeed_kn / 3600, "distance_nm"),
        slip("minutes for miles", "that is the time; miles a minute turn it into distance",
             lambda seconds, bearing_change_deg, **_: seconds / bearing_change_deg, "distance_nm"),
    ),
    source=STATION,
)  # fmt: skip


OFF_COURSE = Quantity(
    name="off_course", title="distance off a radial", area="navigation",
    words=("60-to-1", "radial", "cross track"),
    inputs=(give("error_deg", "radials off", "deg", 0, 60), DME),
    results=(get("off_course_nm", "off course", "nm", 0.1, 0.2, round_to=0.1),),
    methods={EXACT: navigation.off_course_nm, RULE: navigation.off_course_by_rule},
    mental=lambda error_deg, dme_nm: (
        f"one degree at 60 nm is one mile: {num(error_deg, 1)} x {num(dme_nm, 1)} / 60 = "
        f"{num(error_deg * dme_nm / 60, 1)} nm",
    ),
    exact=lambda error_deg, dme_nm: (
        f"{num(dme_nm, 1)} x sin {num(error_deg, 1)}° = "
        f"{num(navigation.off_course_nm(error_deg, dme_nm), 2)} nm",
    ),
    slips=(
        slip("sixty over DME", "60 over DME are the radials to a mile; miles to a radial are DME over 60",
             lambda error_deg, dme_nm: error_deg * 60 / dme_nm),
        slip("degrees as miles", "a degree is a mile at 60 DME only",
             lambda error_deg, **_: error_deg),
        slip("ten degrees to the mile", "divide by 60, not by 100",
             lambda error_deg, dme_nm: error_deg * dme_nm / 100),
    ),
    source=SPACING,
)  # fmt: skip

RADIAL_SPACING = Quantity(
    name="radial_spacing", title="distance between two radials", area="navigation",
    words=("60-to-1", "radials", "separation"),
    inputs=(
        give("radial_1_deg", "one radial", "heading", 0, 360),
        give("radial_2_deg", "the other radial", "heading", 0, 360),
        DME,
    ),
    results=(
        get("spacing_nm", "distance between", "nm", 0.1, 0.3, round_to=0.1),
        get("apart_deg", "radials apart", "radials", 0.5, 0.5),
    ),
    methods={EXACT: navigation.radial_spacing, RULE: navigation.radial_spacing_by_rule},
    mental=lambda radial_1_deg, radial_2_deg, dme_nm: (
        f"{hdg(radial_1_deg)} and {hdg(radial_2_deg)} are "
        f"{num(abs(turn_deg(radial_1_deg, radial_2_deg)))} apart, "
        f"the short way",
        f"{num(abs(turn_deg(radial_1_deg, radial_2_deg)))} x {num(dme_nm, 1)} / 60 = "
        f"{num(abs(turn_deg(radial_1_deg, radial_2_deg)) * dme_nm / 60, 1)} nm",
    ),
    exact=lambda radial_1_deg, radial_2_deg, dme_nm: (
        f"straight across 2 x {num(dme_nm, 1)} x sin(half the angle) = "
        f"{num(navigation.radial_spacing(radial_1_deg, radial_2_deg, dme_nm)[0], 2)} nm",
    ),
    slips=(
        slip("forgot the wrap", "the short way goes through north",
             lambda radial_1_deg, radial_2_deg, dme_nm: np.abs(
                 np.asarray(radial_1_deg) - radial_2_deg) * dme_nm / 60),
        slip("sixty over DME", "60 over DME are the radials to a mile",
             lambda radial_1_deg, radial_2_deg, dme_nm: np.abs(
                 turn_deg(radial_1_deg, radial_2_deg)) * 60 / dme_nm),
        slip("degrees as miles", "a degree is a mile at 60 DME only",
             lambda radial_1_deg, radial_2_deg, **_: np.abs(turn_deg(radial_1_deg, radial_2_deg))),
        slip("numbers subtracted", "across north the numbers do not tell the gap",
             lambda radial_1_deg, radial_2_deg, **_: np.abs(np.asarray(radial_1_deg) - radial_2_deg), "apart_deg"),
        slip("the long way", "take the gap from 360 when it is more than 180",
             lambda radial_1_deg, radial_2_deg, **_: 360 - np.abs(turn_deg(radial_1_deg, radial_2_deg)),
             "apart_deg"),
    ),
    source=SPACING,
)  # fmt: skip

QUANTITIES = (
    FIX_TO_FIX, TIME_TO_GO, DISTANCE_COVERED, GROUNDSPEED_NEEDED, GROUNDSPEED_CHECK, TIME_TO_STATION,
    OFF_COURSE, RADIAL_SPACING,
)  # fmt: skip
