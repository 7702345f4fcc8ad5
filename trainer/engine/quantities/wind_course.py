"""Quantities of the ship's course for a wanted wind: both courses that make it, the usable one first."""

from dataclasses import replace

import numpy as np

from trainer.engine import wind
from trainer.engine.angles import turn_deg, wrap_360
from trainer.engine.picture import Spot
from trainer.engine.quantities.entries import get, give, hdg, num, reckoned, slip
from trainer.engine.quantities.pictures import ORIGIN, between, line, moved, triangle
from trainer.engine.quantities.wind import BOARD, DECK_ANGLE, WIND_FROM
from trainer.engine.quantities.wind_words import side, split_line
from trainer.engine.quantity import EXACT, Quantity

WIND_SPEED = give("wind_speed_kn", "true wind", "kn", 1, 60)
WANTED = give("wanted_kn", "wanted wind over deck", "kn", 1, 60, take="ship.recovery_wod_kn", default=25.0)
RESULTS = (
    get("ship_course_deg", "ship's course", "heading", 1, 5),
    get("ship_speed_kn", "ship's speed", "kn", 0.5, 2),
    get("other_course_deg", "the other course", "heading", 1, 5),
    get("other_speed_kn", "speed on the other course", "kn", 0.5, 2),
)


def _mental(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg):
    across = float(wind.ahead_and_across_by_share(wanted_kn, relative_wind_deg)[1])
    ahead = float(wind.ahead_and_across_by_share(wanted_kn, relative_wind_deg)[0])
    course, speed, other, other_speed = wind.wanted_wind(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg)
    off = turn_deg(course, wind_from_deg)
    help_kn = float(wind.ahead_and_across_by_share(wind_speed_kn, off)[0])
    return (
        f"wanted {split_line(wanted_kn, relative_wind_deg)}",
        f"only the true wind gives what comes from the {side(across)}: "
        f"{num(abs(across), 1)} of {num(wind_speed_kn, 1)} kt is a share of "
        f"{num(abs(across) / wind_speed_kn, 2)}, "
        f"so the true wind must stand {num(abs(off), 0)}° {side(off)} of the bow (30° is a half; below "
        "that x 60)",
        f"steer {num(abs(off), 0)}° {side(-off)} of the wind: {hdg(course)}",
        f"there it helps with {reckoned(help_kn / wind_speed_kn, 'x', wind_speed_kn, 1)} kt from ahead: "
        f"{num(ahead, 1)} - {num(help_kn, 1)} = "
        f"{num(ahead - help_kn, 1)} kt for the ship ({num(speed, 1)} exactly)",
        f"the other solution, {hdg(other)} at {num(other_speed, 1)} kt, runs away from the wind: the "
        "ship makes "
        f"up for a wind from astern, so it is dropped",
    )


def _exact(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg):
    course, speed, other, other_speed = wind.wanted_wind(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg)
    return (
        f"sin a = {num(wanted_kn, 1)} x sin({num(relative_wind_deg, 1)}°) / {num(wind_speed_kn, 1)}; "
        f"a = {num(turn_deg(course, wind_from_deg), 2)}°, the true wind's angle off the bow",
        f"speed = {num(wanted_kn, 1)} cos({num(relative_wind_deg, 1)}°) - {num(wind_speed_kn, 1)} cos a = "
        f"{num(speed, 2)} kt on {hdg(course)}",
        f"180° - a has the same sine: {num(other_speed, 2)} kt on {hdg(other)}",
    )


def _picture(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg):
    course, speed, other, other_speed = wind.wanted_wind(wind_from_deg, wind_speed_kn, wanted_kn, relative_wind_deg)
    blown = moved(ORIGIN, wind_from_deg + 180, wind_speed_kn)
    away = moved(blown, float(other) + 180, float(other_speed))
    drawn = triangle(
        (wind_from_deg + 180, wind_speed_kn), (course + 180, speed), letters="W1F",
        more=(line(blown, away), line(ORIGIN, away)), title="True wind and own wind make the wind felt",
        legend=(f"north up; W true wind from {hdg(wind_from_deg)}; F felt, {num(wanted_kn)} kt",
                f"1 own wind: steam {hdg(course)} at {num(speed)} kt, into the wind",
                f"2 or {hdg(other)} at {num(other_speed)} kt, away from it"),
    )  # fmt: skip
    return replace(drawn, spots=(*drawn.spots, Spot(at=between(blown, away), words="2")))


def _angled(function):
    """Return ``function`` of a wanted wind off the bow as one of the deck's angle, which lies to the left."""

    def on_the_angle(*, deck_angle_deg, **given):
        return function(relative_wind_deg=-deck_angle_deg, **given)

    return on_the_angle


def _slips(angle_of, wrong_side):
    def slower(**given):
        return wind.wanted_wind(relative_wind_deg=angle_of(given), **_of_the_wind(given))

    def mirrored(**given):
        course = slower(**given)[0]
        return wrap_360(2 * given["wind_from_deg"] - course)

    def scalar(**given):
        return np.maximum(given["wanted_kn"] - given["wind_speed_kn"], 0.0)

    return (
        slip("into the wind's eye", "straight into the wind it comes down the bow, not from where it is "
                                    "wanted",
             lambda wind_from_deg, **_: wind_from_deg),
        slip("wrong side of the wind", wrong_side, mirrored),
        slip("the angle itself", "you turned by the wanted angle; the true wind has to stand further off "
                                 "the bow",
             lambda **given: wrap_360(given["wind_from_deg"] - angle_of(given))),
        slip("the other solution", "true on paper, but it runs from the wind at a speed no ship wants",
             lambda **given: slower(**given)[2]),
        slip("subtracted the speeds", "you took the whole true wind off; only its share from ahead helps",
             scalar, "ship_speed_kn"),
        slip("forgot the true wind", "you let the ship make all of it; the true wind helps from ahead",
             lambda wanted_kn, **_: wanted_kn, "ship_speed_kn"),
        slip("speed of the other solution", "that is the speed for running away from the wind",
             lambda **given: slower(**given)[3], "ship_speed_kn"),
        slip("the first solution", "that is the course into the wind; the other one was asked",
             lambda **given: slower(**given)[0], "other_course_deg"),
        slip("reciprocal course", "the other course is not the first one turned round",
             lambda **given: wrap_360(slower(**given)[0] + 180), "other_course_deg"),
        slip("added the speeds", "only the true wind's share from astern has to be made up for",
             lambda **given: given["wanted_kn"] + given["wind_speed_kn"], "other_speed_kn"),
        slip("speed of the first solution", "running from the wind takes more speed",
             lambda **given: slower(**given)[1], "other_speed_kn"),
    )  # fmt: skip


def _of_the_wind(given):
    return {name: given[name] for name in ("wind_from_deg", "wind_speed_kn", "wanted_kn")}


WANTED_WIND = Quantity(
    name="wanted_wind", title="ship's course and speed for a wanted wind", area="launch",
    words=("desired wind", "relative wind", "launch course", "both solutions", "desired wod", "wind over deck"),
    inputs=(
        WIND_FROM, WIND_SPEED, WANTED,
        give("relative_wind_deg", "wanted off the bow, right positive", "deg", -90, 90),
    ),
    results=RESULTS,
    methods={EXACT: wind.wanted_wind},
    mental=_mental, exact=_exact, picture=_picture,
    slips=_slips(lambda given: given["relative_wind_deg"], "you turned to the wrong side of the wind"),
    source=BOARD,
)  # fmt: skip

RECOVERY_COURSE = Quantity(
    name="recovery_course", title="recovery course and speed: wind straight down the angle", area="pattern",
    words=("BRC", "desired wind", "wind over deck", "angled deck", "both solutions", "desired wod"),
    inputs=(WIND_FROM, WIND_SPEED, WANTED, DECK_ANGLE),
    results=RESULTS,
    methods={EXACT: wind.recovery_course},
    mental=_angled(_mental), exact=_angled(_exact), picture=_angled(_picture),
    slips=_slips(
        lambda given: -given["deck_angle_deg"],
        "you turned left of the wind; the angle is on the left, so the bow goes right of the wind",
    ),
    source=BOARD,
)  # fmt: skip

QUANTITIES = (WANTED_WIND, RECOVERY_COURSE)
