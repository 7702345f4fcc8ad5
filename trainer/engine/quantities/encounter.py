"""Quantities of two moving bodies: closest approach and a target's motion."""

import numpy as np

from trainer.engine import encounter
from trainer.engine.angles import reciprocal, turn_deg
from trainer.engine.picture import FOUND, FRAME, GIVEN
from trainer.engine.quantities.entries import get, give, hdg, num, reckoned, slip
from trainer.engine.quantities.pictures import around
from trainer.engine.quantities.wind_words import added_lines, side
from trainer.engine.quantity import EXACT, Quantity
from trainer.engine.wind import ahead_and_across
from trainer.model import Source

BOARD = Source(
    text="NGA Pub. 1310, Radar Navigation and Maneuvering Board Manual",
    section="ch. 6",
    url="https://scribd.com/doc/146903705/Ship-Maouver-Manual",
    status="published",
)
TRACKING = Source(
    text="IMO performance standard for automatic radar plotting aids, tracking scenarios",
    url="https://www.imorules.com/GUID-8A345595-A1F8-477D-B9AB-CDE810E906CA.html",
    status="published",
)
OWN = (
    give("own_course_deg", "own course", "heading", 0, 360),
    give("own_speed_kn", "own speed", "kn", 0, 1000),
)
APPROACH = (
    get("cpa_nm", "closest approach", "nm", 0.1, 0.5, round_to=0.1),
    get("cpa_bearing_deg", "bearing at closest approach", "heading", 1, 5),
    get("cpa_min", "time to it, negative when past", "min", 0.2, 1, round_to=0.1),
)


def _from_rates(bearing_deg, range_nm, course_deg, speed_kn):
    """Return the lines that find the closest approach from the direction and speed of relative motion."""
    off = float(turn_deg(reciprocal(bearing_deg), course_deg))
    ahead, across = (float(part) for part in ahead_and_across(1.0, off))
    return (
        f"it moves {hdg(course_deg)} at {num(speed_kn, 1)} kt relative to you; the line from it to you is "
        f"{hdg(reciprocal(bearing_deg))}: {num(abs(off), 1)}° off, to the {side(off)}",
        f"it passes at {num(range_nm, 2)} x {num(abs(across), 2)} (the share across) = "
        f"{num(range_nm * abs(across), 2)} nm",
        f"it has {reckoned(range_nm, 'x', ahead, 2, places=(2, 2))} nm to run at "
        f"{num(speed_kn, 1)} kt: {num(range_nm * ahead / speed_kn * 60, 1)} min",
    )


def _motion(own_course_deg, own_speed_kn, target_course_deg, target_speed_kn):
    """Return (direction, speed) of a target's motion relative to own ship."""
    return encounter.target_motion(
        reciprocal(own_course_deg), own_speed_kn, target_course_deg, target_speed_kn
    )  # the same sum of vectors, with own motion turned round


def _approach_mental(target_bearing_deg, target_range_nm, **motion):
    course, speed = _motion(**motion)
    turned = reciprocal(motion["own_course_deg"])
    return (
        f"turn your own motion round and add the target's: {hdg(turned)}/{num(motion['own_speed_kn'])} and "
        f"{hdg(motion['target_course_deg'])}/{num(motion['target_speed_kn'])}",
        *added_lines(turned, motion["own_speed_kn"], motion["target_course_deg"], motion["target_speed_kn"]),
        *_from_rates(target_bearing_deg, target_range_nm, course, speed),
    )


def _approach_exact(**given):
    miles, bearing, minutes = encounter.closest_approach(**given)
    return (f"closest {num(miles, 2)} nm on {num(bearing, 1)}° in {num(minutes, 1)} min",)


def _approach_picture(target_bearing_deg, target_range_nm, **motion):
    miles, bearing, _ = encounter.closest_approach(
        target_bearing_deg=target_bearing_deg, target_range_nm=target_range_nm, **motion
    )
    course = _motion(**motion)[0]
    return around(
        (("C", bearing, miles), ("T", target_bearing_deg, target_range_nm)), (("+C", FOUND), ("TC", GIVEN)),
        title="The closest point of approach",
        legend=(f"north up, + you; T target, moves {hdg(course)} relative to you", f"C closest, {num(miles, 1)} nm"),
    )  # fmt: skip


CLOSEST_APPROACH = Quantity(
    name="closest_approach", title="closest point of approach from courses and speeds", area="navigation",
    words=("CPA", "TCPA", "collision", "tcpa"),
    inputs=(
        *OWN,
        give("target_bearing_deg", "bearing of the target", "heading", 0, 360),
        give("target_range_nm", "range", "nm", 0.01, 300),
        give("target_course_deg", "target's course", "heading", 0, 360),
        give("target_speed_kn", "target's speed", "kn", 0, 1000),
    ),
    results=APPROACH,
    methods={EXACT: encounter.closest_approach},
    mental=_approach_mental, exact=_approach_exact, picture=_approach_picture,
    slips=(
        slip("forgot your own motion", "you took the target's motion alone; your own turned round "
                                       "belongs to it",
             lambda own_speed_kn, target_speed_kn, **given: encounter.closest_approach(
                 own_speed_kn=0.0, target_speed_kn=np.maximum(target_speed_kn, 0.01), **given)[0]),
        slip("range for closest approach", "that is the range now; on an opening or crossing course it "
                                           "changes",
             lambda target_range_nm, **_: target_range_nm),
        slip("bearing now", "that is the bearing now; it stays so only on a collision course",
             lambda target_bearing_deg, **_: target_bearing_deg, "cpa_bearing_deg"),
        slip("reciprocal bearing", "that is your bearing from the target",
             lambda **given: reciprocal(encounter.closest_approach(**given)[1]), "cpa_bearing_deg"),
        slip("range over the sum of the speeds", "the speeds add in full head-on only",
             lambda own_speed_kn, target_speed_kn, target_range_nm, **_: 60 * target_range_nm / np.maximum(
                 np.asarray(own_speed_kn) + target_speed_kn, 0.01), "cpa_min"),
        slip("hundredths of an hour", "you took hundredths of an hour for minutes",
             lambda **given: encounter.closest_approach(**given)[2] / 0.6, "cpa_min"),
    ),
    source=TRACKING,
)  # fmt: skip


def _plot_mental(bearing_1_deg, range_1_nm, bearing_2_deg, range_2_nm, interval_min):
    *_, course, speed = encounter.plotted_approach(bearing_1_deg, range_1_nm, bearing_2_deg, range_2_nm, interval_min)
    return (
        f"from plot 1 to plot 2 it moved {num(speed * interval_min / 60, 2)} nm towards {hdg(course)} in "
        f"{num(interval_min, 1)} min: x {num(60 / interval_min, 1)} = {num(speed, 1)} kt",
        *_from_rates(bearing_2_deg, range_2_nm, course, speed),
    )


def _plot_exact(**given):
    miles, bearing, minutes, course, speed = encounter.plotted_approach(**given)
    return (
        f"relative motion {num(course, 1)}° at {num(speed, 2)} kt",
        f"closest {num(miles, 2)} nm on {num(bearing, 1)}°, {num(minutes, 1)} min after plot 2",
    )


def _plot_picture(bearing_1_deg, range_1_nm, bearing_2_deg, range_2_nm, interval_min):
    miles, bearing, minutes, *_ = encounter.plotted_approach(
        bearing_1_deg, range_1_nm, bearing_2_deg, range_2_nm, interval_min
    )
    return around(
        (("C", bearing, miles), ("1", bearing_1_deg, range_1_nm), ("2", bearing_2_deg, range_2_nm)),
        (("2C", FRAME), ("+C", FOUND), ("12", GIVEN)), title="The closest point of approach from two plots",
        legend=("north up, + you; 1 and 2 the plots",
                f"C closest, {num(miles, 1)} nm, {num(minutes, 1)} min after plot 2"),
    )  # fmt: skip


PLOTTED_APPROACH = Quantity(
    name="plotted_approach", title="closest point of approach from two plots", area="navigation",
    words=("CPA", "radar", "relative motion", "maneuvering board", "tcpa", "drm", "srm"),
    inputs=(
        give("bearing_1_deg", "first bearing", "heading", 0, 360),
        give("range_1_nm", "first range", "nm", 0.01, 300),
        give("bearing_2_deg", "second bearing", "heading", 0, 360),
        give("range_2_nm", "second range", "nm", 0.01, 300),
        give("interval_min", "minutes between", "min", 0.1, 120),
    ),
    results=(
        *APPROACH,
        get("relative_course_deg", "direction of relative motion", "heading", 1, 5),
        get("relative_speed_kn", "speed of relative motion", "kn", 0.5, 2, round_to=0.1),
    ),
    methods={EXACT: encounter.plotted_approach},
    mental=_plot_mental, exact=_plot_exact, picture=_plot_picture,
    slips=(
        slip("last range", "that is the last range; it may still close or pass",
             lambda range_2_nm, **_: range_2_nm),
        slip("range drop", "that is how much the range fell",
             lambda range_1_nm, range_2_nm, **_: np.abs(np.asarray(range_1_nm) - range_2_nm)),
        slip("last bearing", "that is the last bearing; it goes on changing",
             lambda bearing_2_deg, **_: bearing_2_deg, "cpa_bearing_deg"),
        slip("bearing on the wrong side", "it passes on the other side",
             lambda **given: reciprocal(encounter.plotted_approach(**given)[1]), "cpa_bearing_deg"),
        slip("counted from the first plot", "the time runs from the second plot",
             lambda **given: encounter.plotted_approach(**given)[2] + given["interval_min"], "cpa_min"),
        slip("hundredths of an hour", "you took hundredths of an hour for minutes",
             lambda **given: encounter.plotted_approach(**given)[2] / 0.6, "cpa_min"),
        slip("last bearing for the motion", "that is the bearing of plot 2, not the way from plot 1 to it",
             lambda bearing_2_deg, **_: bearing_2_deg, "relative_course_deg"),
        slip("range rate", "you took the drop in range alone; it moved across as well",
             lambda range_1_nm, range_2_nm, interval_min, **_: np.abs(
                 np.asarray(range_1_nm) - range_2_nm) / interval_min * 60, "relative_speed_kn"),
        slip("plotted backwards", "you went from plot 2 to plot 1",
             lambda **given: reciprocal(encounter.plotted_approach(**given)[3]), "relative_course_deg"),
        slip("miles for knots", "that is miles in the interval; times 60 over the minutes",
             lambda **given: encounter.plotted_approach(**given)[4] * given["interval_min"] / 60,
             "relative_speed_kn"),
    ),
    source=BOARD,
)  # fmt: skip


def _target_mental(own_course_deg, own_speed_kn, relative_course_deg, relative_speed_kn):
    course, speed = encounter.target_motion(own_course_deg, own_speed_kn, relative_course_deg, relative_speed_kn)
    return (
        f"add your own motion to the relative one: {hdg(own_course_deg)}/{num(own_speed_kn)} and "
        f"{hdg(relative_course_deg)}/{num(relative_speed_kn)}",
        *added_lines(own_course_deg, own_speed_kn, relative_course_deg, relative_speed_kn),
        f"(exactly {hdg(course)} at {num(speed, 1)} kt)",
    )


TARGET_MOTION = Quantity(
    name="target_motion", title="true motion of a target from its relative motion", area="navigation",
    words=("relative motion", "radar", "speed triangle", "cpa", "true course and speed"),
    inputs=(
        *OWN,
        give("relative_course_deg", "direction of relative motion", "heading", 0, 360),
        give("relative_speed_kn", "speed of relative motion", "kn", 0, 1000),
    ),
    results=(
        get("target_course_deg", "target's course", "heading", 1, 5),
        get("target_speed_kn", "target's speed", "kn", 0.5, 2, round_to=0.1),
    ),
    methods={EXACT: encounter.target_motion},
    mental=_target_mental,
    slips=(
        slip("subtracted your own motion", "own motion is added to the relative one to give the true one",
             lambda own_course_deg, **given: encounter.target_motion(
                 own_course_deg=reciprocal(own_course_deg), **given)[0]),
        slip("relative for true", "that is the motion on your scope; you move as well",
             lambda relative_course_deg, **_: relative_course_deg),
        slip("speed on the scope", "that is the speed on your scope; you move as well",
             lambda relative_speed_kn, **_: relative_speed_kn, "target_speed_kn"),
        slip("added the speeds", "speeds add in full in one direction only",
             lambda own_speed_kn, relative_speed_kn, **_: own_speed_kn + relative_speed_kn,
             "target_speed_kn"),
    ),
    source=TRACKING,
)  # fmt: skip

QUANTITIES = (CLOSEST_APPROACH, PLOTTED_APPROACH, TARGET_MOTION)
