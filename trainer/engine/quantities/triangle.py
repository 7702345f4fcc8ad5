"""Quantities of the wind triangle in the air."""

import math

from trainer.engine import triangle
from trainer.engine.angles import reciprocal, turn_deg, wrap_360
from trainer.engine.quantities import pictures
from trainer.engine.quantities.entries import TURN_SIDE, choose, get, give, hdg, num, slip
from trainer.engine.quantities.wind_words import side, signed, split_line, together, together_lines
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.wind import ahead_and_across_by_share
from trainer.model import Source

CREW = Source(
    text="War Department TM 1-900, Mathematics for Air Crew Trainees (1943)",
    section="Sec. VII, par. 45",
    url="https://transcription.si.edu/view/37385/NASM-NASM.2003.0033-M0000058-00760",
    status="published",
)
PREFLIGHT = Source(
    text="CNATRA P-203 Preflight Navigation, 10% rule",
    section="Fig. 4.5-17",
    url="http://navyflightmanuals.tpub.com/P-203/Figure-4-5-17-Preflight-Wind-Calculation-6-122.htm",
    status="published",
)
SLIDE_RULE = Source(
    text="1940s slide-rule instruction sheet, Smithsonian NASM.XXXX.0136",
    section="par. 39",
    url="https://transcription.si.edu/view/19964/NASM-NASM.XXXX.0136-M0000081-00080",
    status="published",
)

COURSE = give("course_deg", "course", "heading", 0, 360)
HEADING = give("heading_deg", "heading", "heading", 0, 360)
TAS = give("tas_kn", "true airspeed", "kn", 20, 1000)
GROUNDSPEED = give("groundspeed_kn", "groundspeed", "kn", 20, 1000)
WIND_FROM = give("wind_from_deg", "wind from", "heading", 0, 360)
WIND_SPEED = give("wind_speed_kn", "wind", "kn", 0, 250)


def _split(direction_deg, wind_from_deg, wind_speed_kn):
    off = turn_deg(direction_deg, wind_from_deg)
    ahead, across = ahead_and_across_by_share(wind_speed_kn, off)
    return off, ahead, across


def _course_mental(course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    off, ahead, across = _split(course_deg, wind_from_deg, wind_speed_kn)
    crab = 60 * across / tas_kn
    return (
        f"wind {hdg(wind_from_deg)} on course {hdg(course_deg)}",
        split_line(wind_speed_kn, off),
        f"correction 60 x {num(abs(across), 1)} / {num(tas_kn)} = {num(abs(crab), 1)}° into the wind, "
        f"{side(crab)}: "
        f"heading {hdg(course_deg + crab)}",
        f"groundspeed {num(tas_kn)} {'-' if ahead >= 0 else '+'} {num(abs(ahead), 1)} = {num(tas_kn - ahead)} kt",
    )


def _course_exact(course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    heading, speed, crab = triangle.heading_and_groundspeed(course_deg, tas_kn, wind_from_deg, wind_speed_kn)
    return (
        f"sin(correction) = {num(wind_speed_kn, 1)} sin({num(turn_deg(course_deg, wind_from_deg), 1)}°) / "
        f"{num(tas_kn, 1)}: {num(abs(crab), 2)}° {side(crab)}, heading {num(heading, 2)}°",
        f"groundspeed = {num(tas_kn, 1)} cos({num(abs(crab), 2)}°) less the headwind = {num(speed, 2)} kt",
    )


LEAST_WIND = 0.25  # of the airspeed: a weaker wind is drawn stronger, else it is a line and no triangle


def _course_picture(course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    heading, groundspeed, _ = triangle.heading_and_groundspeed(course_deg, tas_kn, wind_from_deg, wind_speed_kn)
    times = _times(tas_kn, wind_speed_kn)
    drawn = triangle.heading_and_groundspeed(course_deg, tas_kn, wind_from_deg, times * wind_speed_kn)[0]
    return _picture(drawn, tas_kn, wind_from_deg, wind_speed_kn, (
        f"H heading {hdg(heading)}",
        f"C course {hdg(course_deg)} at {num(groundspeed)} kt: the nose goes towards the wind",
    ))  # fmt: skip


def _track_picture(heading_deg, tas_kn, wind_from_deg, wind_speed_kn):
    track, groundspeed, _ = triangle.track_and_groundspeed(heading_deg, tas_kn, wind_from_deg, wind_speed_kn)
    return _picture(heading_deg, tas_kn, wind_from_deg, wind_speed_kn, (
        f"H heading {hdg(heading_deg)}", f"C track {hdg(track)} at {num(groundspeed)} kt: the wind carries you off",
    ))  # fmt: skip


def _picture(heading_deg, tas_kn, wind_from_deg, wind_speed_kn, words):
    times = _times(tas_kn, wind_speed_kn)
    stronger = f", drawn {times} times" if times > 1 else ""
    return pictures.triangle(
        (heading_deg, tas_kn), (wind_from_deg + 180, times * wind_speed_kn), letters="HWC", title="The wind triangle",
        legend=(f"north up; {words[0]}, W wind from {hdg(wind_from_deg)}{stronger}", words[1]),
    )  # fmt: skip


def _times(tas_kn, wind_speed_kn):
    """Return how many times too strong a wind is drawn so that its triangle can be seen."""
    return max(1, math.floor(LEAST_WIND * tas_kn / wind_speed_kn)) if wind_speed_kn else 1


HEADING_FOR_COURSE = Quantity(
    name="heading_for_course", title="heading and groundspeed for a course", area="navigation",
    words=("wind triangle", "wind correction", "drift", "groundspeed", "gs", "wca"),
    inputs=(COURSE, TAS, WIND_FROM, WIND_SPEED),
    results=(
        get("heading_deg", "heading", "heading", 0.5, 2),
        get("groundspeed_kn", "groundspeed", "kn", 1, 5),
        get("correction_deg", "correction, right positive", "deg", 0.5, 2),
    ),
    methods={EXACT: triangle.heading_and_groundspeed, RULE: triangle.heading_and_groundspeed_by_rule},
    mental=_course_mental, exact=_course_exact, picture=_course_picture,
    slips=(
        slip("corrected downwind", "you turned away from the wind; the nose goes towards it",
             lambda **given: wrap_360(given["course_deg"] - triangle.heading_and_groundspeed(**given)[2])),
        slip("flew the course", "that is the course; with a wind across the heading differs",
             lambda course_deg, **_: course_deg),
        slip("added the headwind", "a wind from ahead slows you over the ground; one from astern helps",
             lambda **given: 2 * given["tas_kn"] - triangle.heading_and_groundspeed(**given)[1],
             "groundspeed_kn"),
        slip("gave the airspeed", "that is the airspeed; take the wind's share along the course into account",
             lambda tas_kn, **_: tas_kn, "groundspeed_kn"),
        slip("whole wind", "you took the whole wind; only its share along the course counts",
             lambda tas_kn, wind_speed_kn, **_: tas_kn - wind_speed_kn, "groundspeed_kn"),
        slip("correction away from the wind", "right size, wrong side: correct towards the wind",
             lambda **given: -triangle.heading_and_groundspeed(**given)[2], "correction_deg"),
        slip("share ahead for share across", "you used the part along the course for the correction",
             lambda course_deg, tas_kn, wind_from_deg, wind_speed_kn: 60 * _split(
                 course_deg, wind_from_deg, wind_speed_kn)[1] / tas_kn, "correction_deg"),
    ),
    source=CREW,
)  # fmt: skip


def _track_mental(heading_deg, tas_kn, wind_from_deg, wind_speed_kn):
    off, ahead, across = _split(heading_deg, wind_from_deg, wind_speed_kn)
    angle, speed = together(tas_kn - ahead, -across)
    return (
        f"wind {hdg(wind_from_deg)} on heading {hdg(heading_deg)}",
        split_line(wind_speed_kn, off),
        f"along the nose {num(tas_kn)} {'-' if ahead >= 0 else '+'} {num(abs(ahead), 1)} = "
        f"{num(tas_kn - ahead)} kt; "
        f"the part across pushes you {side(-across)}",
        *together_lines(tas_kn - ahead, -across),
        f"track {hdg(heading_deg)} and {signed(angle)} = {hdg(heading_deg + angle)}, groundspeed {num(speed)} kt",
    )


def _track_exact(heading_deg, tas_kn, wind_from_deg, wind_speed_kn):
    track, speed, drift = triangle.track_and_groundspeed(heading_deg, tas_kn, wind_from_deg, wind_speed_kn)
    return (
        f"air vector {hdg(heading_deg)}/{num(tas_kn, 1)} plus wind towards {hdg(reciprocal(wind_from_deg))}/"
        f"{num(wind_speed_kn, 1)} = {num(track, 2)}°/{num(speed, 2)} kt, drift {num(drift, 2)}°",
    )


TRACK_MADE_GOOD = Quantity(
    name="track_made_good", title="track and groundspeed on a heading", area="navigation",
    words=("wind triangle", "drift", "dead reckoning", "gs", "tmg"),
    inputs=(HEADING, TAS, WIND_FROM, WIND_SPEED),
    results=(
        get("track_deg", "track", "heading", 0.5, 2),
        get("groundspeed_kn", "groundspeed", "kn", 1, 5),
        get("drift_deg", "drift, right positive", "deg", 0.5, 2),
    ),
    methods={EXACT: triangle.track_and_groundspeed},
    mental=_track_mental, exact=_track_exact, picture=_track_picture,
    slips=(
        slip("drifted into the wind", "the wind pushes you away from where it comes from",
             lambda **given: wrap_360(given["heading_deg"] - triangle.track_and_groundspeed(**given)[2])),
        slip("track is the heading", "that is the heading; the wind across carries you off it",
             lambda heading_deg, **_: heading_deg),
        slip("added the headwind", "a wind from ahead slows you; one from astern helps",
             lambda heading_deg, tas_kn, wind_from_deg, wind_speed_kn: tas_kn + _split(
                 heading_deg, wind_from_deg, wind_speed_kn)[1], "groundspeed_kn"),
        slip("whole wind", "only the wind's share along the nose counts in full",
             lambda tas_kn, wind_speed_kn, **_: tas_kn - wind_speed_kn, "groundspeed_kn"),
        slip("knots as degrees", "sixty times the wind across over the airspeed, not the knots themselves",
             lambda heading_deg, wind_from_deg, wind_speed_kn, **_: -_split(
                 heading_deg, wind_from_deg, wind_speed_kn)[2], "drift_deg"),
        slip("drift into the wind", "drift goes downwind",
             lambda **given: -triangle.track_and_groundspeed(**given)[2], "drift_deg"),
    ),
    source=CREW,
)  # fmt: skip


def _schedule_mental(course_deg, groundspeed_kn, wind_from_deg, wind_speed_kn):
    off, ahead, across = _split(course_deg, wind_from_deg, wind_speed_kn)
    angle, tas = together(groundspeed_kn + ahead, across)
    return (
        split_line(wind_speed_kn, off),
        f"through the air along the course: {num(groundspeed_kn)} {'+' if ahead >= 0 else '-'} "
        f"{num(abs(ahead), 1)} "
        f"= {num(groundspeed_kn + ahead)} kt",
        *together_lines(groundspeed_kn + ahead, across),
        f"heading {hdg(course_deg)} and {signed(angle)} = {hdg(course_deg + angle)}, true airspeed {num(tas)} kt",
    )


def _schedule_exact(course_deg, groundspeed_kn, wind_from_deg, wind_speed_kn):
    heading, tas, _ = triangle.heading_and_airspeed(course_deg, groundspeed_kn, wind_from_deg, wind_speed_kn)
    return (
        f"ground vector {hdg(course_deg)}/{num(groundspeed_kn, 1)} plus {hdg(wind_from_deg)}/"
        f"{num(wind_speed_kn, 1)} (where the wind comes from) = {num(heading, 2)}°/{num(tas, 2)} kt",
    )


AIRSPEED_FOR_SCHEDULE = Quantity(
    name="airspeed_for_schedule", title="heading and airspeed for a scheduled groundspeed", area="navigation",
    words=("wind triangle", "on time", "true airspeed"),
    inputs=(COURSE, GROUNDSPEED, WIND_FROM, WIND_SPEED),
    results=(
        get("heading_deg", "heading", "heading", 0.5, 2),
        get("tas_kn", "true airspeed", "kn", 1, 5),
        get("correction_deg", "correction, right positive", "deg", 0.5, 2),
    ),
    methods={EXACT: triangle.heading_and_airspeed},
    mental=_schedule_mental, exact=_schedule_exact,
    slips=(
        slip("corrected downwind", "you turned away from the wind; the nose goes towards it",
             lambda **given: wrap_360(given["course_deg"] - triangle.heading_and_airspeed(**given)[2])),
        slip("flew the course", "that is the course; with a wind across the heading differs",
             lambda course_deg, **_: course_deg),
        slip("took the headwind off", "to keep the groundspeed against a headwind you fly faster, not slower",
             lambda course_deg, groundspeed_kn, wind_from_deg, wind_speed_kn: groundspeed_kn - _split(
                 course_deg, wind_from_deg, wind_speed_kn)[1], "tas_kn"),
        slip("gave the groundspeed", "that is the groundspeed; the wind's share goes on top",
             lambda groundspeed_kn, **_: groundspeed_kn, "tas_kn"),
        slip("knots as degrees", "sixty times the wind across over the airspeed, not the knots themselves",
             lambda course_deg, wind_from_deg, wind_speed_kn, **_: _split(
                 course_deg, wind_from_deg, wind_speed_kn)[2], "correction_deg"),
        slip("correction away from the wind", "right size, wrong side",
             lambda **given: -triangle.heading_and_airspeed(**given)[2], "correction_deg"),
    ),
    source=CREW,
)  # fmt: skip


def _found_mental(course_deg, heading_deg, tas_kn, groundspeed_kn):
    crab = float(turn_deg(course_deg, heading_deg))
    across = tas_kn * crab / 60
    off, _ = together(tas_kn - groundspeed_kn, across)
    return (
        f"airspeed less groundspeed: {num(tas_kn)} - {num(groundspeed_kn)} = "
        f"{num(tas_kn - groundspeed_kn)} kt "
        f"from ahead",
        f"correction {signed(crab)}: {num(abs(crab), 1)} / 60 x {num(tas_kn)} = {num(abs(across), 1)} kt "
        "from the "
        f"{side(across)}",
        *together_lines(tas_kn - groundspeed_kn, across),
        f"from course {hdg(course_deg)} that is {hdg(course_deg + off)}",
    )


def _found_exact(course_deg, heading_deg, tas_kn, groundspeed_kn):
    direction, speed = triangle.wind_found(course_deg, heading_deg, tas_kn, groundspeed_kn)
    return (
        f"air vector {hdg(heading_deg)}/{num(tas_kn, 1)} less ground vector {hdg(course_deg)}/"
        f"{num(groundspeed_kn, 1)} = wind from {num(direction, 1)}° at {num(speed, 2)} kt",
    )


WIND_FOUND = Quantity(
    name="wind_found", title="wind found from drift and groundspeed", area="navigation",
    words=("wind triangle", "drift", "spot wind"),
    inputs=(COURSE, HEADING, TAS, GROUNDSPEED),
    results=(
        get("wind_from_deg", "wind from", "heading", 1, 10),
        get("wind_kn", "wind", "kn", 0.5, 3),
    ),
    methods={EXACT: triangle.wind_found},
    mental=_found_mental, exact=_found_exact,
    slips=(
        slip("where the wind goes", "that is where it blows to; a wind is named by where it comes from",
             lambda **given: reciprocal(triangle.wind_found(**given)[0])),
        slip("wrong side", "the nose points towards the wind: it is on the side you correct to",
             lambda **given: wrap_360(2 * given["course_deg"] - triangle.wind_found(**given)[0])),
        slip("speeds only", "you took only the difference of the speeds; the part across belongs to it",
             lambda tas_kn, groundspeed_kn, **_: abs(tas_kn - groundspeed_kn), "wind_kn"),
        slip("across only", "you took only the part across; the difference of the speeds belongs to it",
             lambda course_deg, heading_deg, tas_kn, **_: abs(
                 tas_kn * turn_deg(course_deg, heading_deg) / 60),
             "wind_kn"),
    ),
    source=SLIDE_RULE,
)  # fmt: skip


CRAB = Quantity(
    name="crab", title="crab angle", area="navigation",
    words=("ten per cent rule", "wind correction", "crosswind"),
    inputs=(
        COURSE,
        give("crosswind_kn", "wind across", "kn", 0, 150),
        choose("side", "wind from the", TURN_SIDE),
        give("tas_kn", "true airspeed", "kn", 60, 1000),
    ),
    results=(
        get("crab_deg", "crab", "deg", 0.5, 1),
        get("heading_deg", "heading", "heading", 0.5, 1),
    ),
    methods={EXACT: triangle.crab, RULE: triangle.crab_by_rule},
    mental=lambda course_deg, crosswind_kn, side, tas_kn: (
        f"ten per cent of {num(tas_kn)} is {num(tas_kn / 10, 1)} kt, and that is 6°",
        f"60 x {num(crosswind_kn, 1)} / {num(tas_kn)} = {num(60 * crosswind_kn / tas_kn, 1)}° to the "
        f"{TURN_SIDE[int(side)]}: {hdg(course_deg + side * 60 * crosswind_kn / tas_kn)}",
    ),
    exact=lambda course_deg, crosswind_kn, side, tas_kn: (
        f"sin(crab) = {num(crosswind_kn, 1)} / {num(tas_kn, 1)}: "
        f"{num(triangle.crab(course_deg, crosswind_kn, side, tas_kn)[0], 2)}°",
    ),
    slips=(
        slip("ten per cent as ten degrees", "ten per cent of the airspeed is six degrees, not ten",
             lambda crosswind_kn, tas_kn, **_: 100 * crosswind_kn / tas_kn),
        slip("knots as degrees", "you gave the knots as degrees; the airspeed counts as well",
             lambda crosswind_kn, **_: crosswind_kn),
        slip("half of it", "sixty, not thirty: six degrees for ten per cent",
             lambda crosswind_kn, tas_kn, **_: 30 * crosswind_kn / tas_kn),
        slip("wrong side", "you turned away from the wind; the nose goes towards it",
             lambda **given: wrap_360(given["course_deg"] - given["side"] * triangle.crab(**given)[0]),
             "heading_deg"),
        slip("no correction", "that is the course; crab into the wind",
             lambda course_deg, **_: course_deg, "heading_deg"),
    ),
    source=PREFLIGHT,
)  # fmt: skip

QUANTITIES = (HEADING_FOR_COURSE, TRACK_MADE_GOOD, AIRSPEED_FOR_SCHEDULE, WIND_FOUND, CRAB)
