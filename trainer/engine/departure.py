"""From the end of the stroke to the climb: clearing turn, climb point, gates, departure radials.

Directions are magnetic, 1-360.  Sources: NAVEDTRA 14342A Table 11-10 (500 ft to 7 nm, 1,500 ft at 5 nm,
radials 20 degrees apart); CNATRAINST 3740.9D para 216 and a catapult officer's web log (clearing turn).
"""

import numpy as np

from trainer.engine.angles import turn_deg, wrap_360
from trainer.engine.domain import inside, require


def clearing_headings_deg(brc_deg, side, turn_deg):
    """Return (heading in the clearing turn, heading after it) in degrees.

    ``side`` is 1 for a bow catapult (turns right), -1 for a waist catapult (turns left); ``turn_deg`` is the
    size of the turn.  Afterwards the aircraft parallels the BRC again.
    """
    inside("BRC", brc_deg, 0, 360)
    inside("clearing turn", turn_deg, 0, 45)
    require(np.isin(side, (1, -1)), "side is bow (1) or waist (-1)")
    shape = np.zeros(np.broadcast(brc_deg, side, turn_deg).shape)
    clearing = np.asarray(brc_deg, dtype=float) + np.asarray(side) * turn_deg
    return wrap_360(clearing), wrap_360(brc_deg + shape)


def climb_point_s(climb_distance_nm, groundspeed_kn):
    """Return the seconds from the ship to ``climb_distance_nm`` at ``groundspeed_kn``, the ship taken at rest."""
    inside("climb distance", climb_distance_nm, 0, 60)
    inside("ground speed", groundspeed_kn, 60, 700)
    return np.asarray(climb_distance_nm, dtype=float)[()] * 3600.0 / groundspeed_kn


def beacon_climb_point(climb_distance_nm, groundspeed_kn, ship_speed_kn):
    """Return (seconds, miles over the water) until the beacon shows ``climb_distance_nm`` ahead of a moving ship.

    The aircraft flies parallel to the BRC, the ship steams after it on the BRC, and the beacon counts from the
    ship: the distance opens at the difference of the speeds.  The clearing turn, the offset to the side and
    the height are neglected; together they change the distance by less than 0.1 nm beyond 3 nm.
    """
    inside("climb distance", climb_distance_nm, 0, 60)
    inside("ground speed", groundspeed_kn, 60, 700)
    inside("ship's speed", ship_speed_kn, 0, 45)
    opening_kn = np.asarray(groundspeed_kn, dtype=float) - ship_speed_kn
    seconds = np.asarray(climb_distance_nm, dtype=float) * 3600.0 / opening_kn
    return seconds[()], (seconds * groundspeed_kn / 3600.0)[()]


def beacon_reading_nm(elapsed_s, groundspeed_kn, ship_speed_kn):
    """Return the beacon distance after ``elapsed_s`` parallel to the BRC ahead of a ship that follows."""
    inside("elapsed time", elapsed_s, 0, 600)
    inside("ground speed", groundspeed_kn, 60, 700)
    inside("ship's speed", ship_speed_kn, 0, 45)
    opening_kn = np.asarray(groundspeed_kn, dtype=float) - ship_speed_kn
    return (np.asarray(elapsed_s, dtype=float) * opening_kn / 3600.0)[()]


def gate_climb_ft_min(gate_altitude_ft, gate_distance_nm, groundspeed_kn):
    """Return the mean climb in feet per minute from the deck to be at a gate's altitude at its distance."""
    inside("altitude of the gate", gate_altitude_ft, 0, 20_000)
    inside("distance of the gate", gate_distance_nm, 0.5, 60)
    inside("ground speed", groundspeed_kn, 60, 700)
    gradient_ft_nm = np.asarray(gate_altitude_ft, dtype=float) / gate_distance_nm
    return (gradient_ft_nm * groundspeed_kn / 60.0)[()]


def band(departure_airspeed_kn, departure_altitude_ft, percent):
    """Return (lowest, highest airspeed in knots, lowest, highest altitude in feet) within ``percent``."""
    inside("departure airspeed", departure_airspeed_kn, 60, 500)
    inside("departure altitude", departure_altitude_ft, 100, 20_000)
    inside("percent", percent, 0, 50)
    share = np.asarray(percent, dtype=float) / 100.0
    return (
        departure_airspeed_kn * (1 - share),
        departure_airspeed_kn * (1 + share),
        departure_altitude_ft * (1 - share),
        departure_altitude_ft * (1 + share),
    )


def radials_apart(radial_1_deg, radial_2_deg, radial_3_deg, radial_4_deg, radial_spacing_deg):
    """Return (conflict, smallest gap in degrees) among four departure radials round the whole circle.

    Conflict is 1 when two radials are closer than ``radial_spacing_deg``, else 0.
    """
    radials = [radial_1_deg, radial_2_deg, radial_3_deg, radial_4_deg]
    for radial in radials:
        inside("departure radial", radial, 0, 360)
    inside("spacing", radial_spacing_deg, 0, 90)
    gaps = [np.abs(turn_deg(radials[i], radials[j])) for i in range(4) for j in range(i + 1, 4)]
    smallest = np.minimum.reduce(np.broadcast_arrays(*gaps))
    return np.where(smallest < radial_spacing_deg, 1.0, 0.0)[()], smallest[()]


def rendezvous_radial_deg(departure_radial_deg, offset_deg):
    """Return the radial that lies ``offset_deg`` to the left of the departure radial, flying outbound."""
    inside("departure radial", departure_radial_deg, 0, 360)
    inside("offset", offset_deg, 0, 60)
    return wrap_360(np.asarray(departure_radial_deg, dtype=float) - offset_deg)
