"""Back on course and over the ship: one in sixty, compass deviation, drift in holding, ship's later place, speeds.

Sources: the one-in-sixty rule as pilots' pages print it, compass card as in the FAA handbook, CNATRA P-871 (drift in
holding), ISA and the airspeed law of ``airspeed``; the rest is plane geometry.
"""

import numpy as np

from trainer.engine import airspeed, atmosphere
from trainer.engine.angles import components, turn_deg, wrap_360
from trainer.engine.domain import inside
from trainer.engine.limits import directions

TRIPLE = 3.0


def correction_to_destination_deg(off_nm, flown_nm, to_go_nm):
    """Return the degrees to turn towards the destination: track error and closing angle, one in sixty each.

    ``off_nm`` 0-60 off the track after ``flown_nm`` (1-600) of it, ``to_go_nm`` (1-600) left; floats or arrays.
    """
    inside("distance off", off_nm, 0, 60)
    inside("flown", flown_nm, 1, 600)
    inside("to go", to_go_nm, 1, 600)
    return (np.asarray(off_nm, dtype=float) * 60 / flown_nm + np.asarray(off_nm, dtype=float) * 60 / to_go_nm)[()]


def compass_heading_deg(magnetic_deg, deviation_deg):
    """Return what to steer by the compass; ``deviation_deg`` (-30 to 30) east is positive and comes off."""
    directions(magnetic_heading=magnetic_deg)
    inside("deviation", deviation_deg, -30, 30)
    return wrap_360(np.asarray(magnetic_deg, dtype=float) - deviation_deg)


def outbound_heading_deg(inbound_course_deg, inbound_heading_deg):
    """Return the outbound heading in holding: the inbound drift correction three times, to the other side."""
    directions(inbound_course=inbound_course_deg, inbound_heading=inbound_heading_deg)
    correction = turn_deg(inbound_course_deg, inbound_heading_deg)
    inside("drift correction", np.abs(correction), 0, 30)
    return wrap_360(np.asarray(inbound_course_deg, dtype=float) + 180.0 - TRIPLE * correction)


def brc_deg(final_bearing_deg, deck_angle_deg):
    """Return the BRC of a final bearing: the angle of the landing area comes back on."""
    directions(final_bearing=final_bearing_deg)
    inside("deck angle", deck_angle_deg, 0, 20)
    return wrap_360(np.asarray(final_bearing_deg, dtype=float) + deck_angle_deg)


def ship_later(bearing_deg, range_nm, ship_course_deg, ship_speed_kn, time_min):
    """Return (bearing, range) from you to where the ship will be, if you stay where you are."""
    directions(bearing=bearing_deg, ship_course=ship_course_deg)
    inside("range", range_nm, 0, 500)
    inside("ship speed", ship_speed_kn, 0, 40)
    inside("time", time_min, 0, 600)
    east, north = components(bearing_deg, range_nm)
    run_east, run_north = components(ship_course_deg, np.asarray(ship_speed_kn, dtype=float) * time_min / 60)
    east, north = east + run_east, north + run_north
    return wrap_360(np.degrees(np.arctan2(east, north))), np.hypot(east, north)[()]


def groundspeed_from_ias(ias_kn, altitude_ft, headwind_kn):
    """Return (true airspeed, groundspeed) in knots of an indicated speed on a standard day against ``headwind_kn``."""
    inside("headwind", headwind_kn, -250, 250)
    tas = airspeed.true_airspeed(ias_kn, altitude_ft, atmosphere.standard_temperature_c(altitude_ft))[0]
    return tas, (tas - np.asarray(headwind_kn, dtype=float))[()]


def groundspeed_by_rule(ias_kn, altitude_ft, headwind_kn):
    """Return the same with two per cent of the indicated speed for each thousand feet."""
    inside("indicated airspeed", ias_kn, 60, 500)
    inside("altitude", altitude_ft, 0, 40_000)
    inside("headwind", headwind_kn, -250, 250)
    tas = np.asarray(ias_kn, dtype=float) * (1 + 0.02 * np.asarray(altitude_ft, dtype=float) / 1_000)
    return tas[()], (tas - np.asarray(headwind_kn, dtype=float))[()]
