"""What the numbers of an evening are reckoned with at their moment: fuel, weight, altitude, wind, the ship's way.

Every function takes a ``Night`` and returns the inputs of a quantity, or the value as it is really flown.
"""

import numpy as np

from trainer.engine import over_ship, wind
from trainer.engine.angles import turn_deg, wrap_360
from trainer.engine.atmosphere import standard_temperature_c

# Where the files say nothing: a figure of ours, and common practice without a source.
DIVERT_FT, ON_SPEED_NM = 20_000.0, 8.0
BALL_NM = 0.75
TURN_RATE_DEG_S = 1.5  # half standard rate


def surface_wind(night):
    """Return the wind on deck and in the departure as inputs."""
    weather = night.scenario.weather
    return {"wind_from_deg": weather.wind_from_deg, "wind_speed_kn": weather.wind_speed_kn}


def wind_aloft(night):
    """Return the wind above platform as inputs."""
    weather = night.scenario.weather
    return {"wind_from_deg": weather.aloft_from_deg, "wind_speed_kn": weather.aloft_speed_kn}


def over_the_ship(night, air):
    """Return the wind ``air`` as it is felt in the frame of the moving ship, exact."""
    ship = night.scenario.ship
    felt, _, felt_from = wind.wind_over_deck(ship.brc_deg, ship.speed_kn, **air)
    return {"wind_from_deg": float(felt_from), "wind_speed_kn": float(felt)}


def true_airspeed(indicated, altitude_ft):
    """Return the inputs of a true airspeed on a standard day; both arguments are functions of the night."""

    def give(night):
        feet = altitude_ft(night)
        oat_c = float(standard_temperature_c(feet))
        return {"cas_kn": night.value(indicated), "pressure_altitude_ft": feet, "oat_c": oat_c}

    return give


def arc_altitude_ft(night):
    """Return the altitude at the arc: the first gate's gradient held on to it."""
    gradient = night.value("airwing.first_gate_ft") / night.value("airwing.first_gate_nm")
    return gradient * night.value("airwing.departure_arc_nm")


def divert_altitude_ft(night):
    """Return the altitude at which the way to the divert field is flown."""
    return night.library.values.get("airframe.divert_altitude_ft", DIVERT_FT)


def half_way_to_platform_ft(night):
    """Return the mean altitude of the descent to platform."""
    return (night.scenario.stack.angels * 1000 + night.value("airwing.platform_ft")) / 2


def half_way_to_the_gate_ft(night):
    """Return the mean altitude of the descent below platform."""
    return (night.value("airwing.gate_ft") + night.value("airwing.platform_ft")) / 2


def along(course, tas, air):
    """Return the inputs of a wind triangle along a course; the arguments are functions of the night."""

    def give(night):
        return {"course_deg": course(night), "tas_kn": night[tas], **air(night)}

    return give


def way_of_the_arc(night):
    """Return 1 for an arc flown to the right, -1 to the left."""
    return 1.0 if night["arc_way"] > 0 else -1.0


def course_amid_the_arc(night):
    """Return the course flown half way along the arc."""
    way = way_of_the_arc(night)
    return float(wrap_360(night.scenario.ship.brc_deg + way * (night["arc_degrees"] / 2 + 90)))


def headwind_in_holding(night):
    """Return the wind felt over the moving fix against the inbound course, in knots."""
    felt = over_the_ship(night, wind_aloft(night))
    off = turn_deg(night["inbound_course"], felt["wind_from_deg"])
    return float(wind.ahead_and_across(felt["wind_speed_kn"], off)[0])


def arc_turn_flown(night):
    """Return the beacon distance at which the turn onto the arc must begin."""
    return over_ship.turn_onto_arc_nm(night.scenario.ship.brc_deg, **_about_the_arc(night))


def arc_lead_flown(night):
    """Return the radials of lead off the arc."""
    return over_ship.lead_off_arc_deg(night.scenario.departure_radial_deg, **_about_the_arc(night))


def arc_time_flown(night):
    """Return the seconds along the arc."""
    about = _about_the_arc(night)
    del about["turn_rate_deg_s"]
    return over_ship.arc_seconds(night.scenario.ship.brc_deg, night["arc_degrees"], **about)


def _about_the_arc(night):
    felt = over_the_ship(night, surface_wind(night))
    return {
        "way": way_of_the_arc(night), "arc_nm": night.value("airwing.departure_arc_nm"),
        "tas_kn": night["arc_tas"], "turn_rate_deg_s": TURN_RATE_DEG_S,
        "felt_from_deg": felt["wind_from_deg"], "felt_kn": felt["wind_speed_kn"],
    }  # fmt: skip


def minutes_to_the_ball(night):
    """Return the minutes from the push to the ball: down to the gate, in a little further, then on speed."""
    slow_nm = min(night.library.values.get("airwing.on_speed_nm", ON_SPEED_NM), night["level_off"])
    fast = (night["fix_distance"] - night["platform"]) / night["closing"]
    fast += (night["platform"] - slow_nm) / night["gate_closing"]
    return float(np.ceil((fast + (slow_nm - BALL_NM) / night["closure"]) * 60))
