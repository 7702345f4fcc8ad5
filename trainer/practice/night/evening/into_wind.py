"""The ship steering into the wind: the course and speed that bring the wanted wind down the landing area."""

from dataclasses import replace

from trainer.engine.angles import wrap_360
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated

LESS_KN, MORE_KN = 3, 5  # the wind down the angle may differ this much from the one wanted
OFF_COURSE_DEG = 14  # she is seldom dead into the wind


def into_the_wind(ship, weather, library, rng=None):
    """Return ``ship`` on a course and speed for ``weather``; with ``rng`` a little off, as ships are.

    Raises ``DomainError`` where the wanted wind can't be had.
    """
    wanted = library.values["ship.recovery_wod_kn"]
    off = 0
    if rng is not None:
        wanted += rng.randrange(-LESS_KN, MORE_KN + 1)
        off = rng.randrange(-OFF_COURSE_DEG, OFF_COURSE_DEG + 1)
    quantity = QUANTITIES["recovery_course"]
    values = quantity.compute({
        "wind_from_deg": weather.wind_from_deg, "wind_speed_kn": weather.wind_speed_kn,
        "wanted_kn": wanted, "deck_angle_deg": ship.deck_angle_deg,
    })  # fmt: skip
    course, speed = (
        float(stated(quantity.result(name), values[name])) for name in ("ship_course_deg", "ship_speed_kn")
    )
    return replace(ship, brc_deg=float(wrap_360(course + off)), speed_kn=speed)
