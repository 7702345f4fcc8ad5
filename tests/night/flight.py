"""A small flight by time steps over a moving ship, in a wind, in the standard atmosphere.

Nothing of the engine is used.  The atmosphere and the airspeed indicator are written out from the U.S. Standard
Atmosphere, 1976 (288.15 K, 1,013.25 hPa, 6.5 K a kilometre) and the isentropic pitot formula of compressible flow;
positions are summed up step by step in nautical miles, x east and y north.
"""

import math

STEP_S = 0.5
ANEW_FT = 250  # of height between two reckonings of airspeed and heading
KN_PER_M_S = 3600 / 1852
SOUND_0_KN = math.sqrt(1.4 * 287.05287 * 288.15) * KN_PER_M_S


def true_airspeed(indicated_kn, feet):
    """Return the true airspeed at a pressure altitude on a standard day."""
    kelvin = 288.15 - 0.0065 * feet * 0.3048
    pressure = (kelvin / 288.15) ** 5.25588
    impact = (1 + 0.2 * (indicated_kn / SOUND_0_KN) ** 2) ** 3.5 - 1
    mach = math.sqrt(5 * ((impact / pressure + 1) ** (2 / 7) - 1))
    return mach * math.sqrt(1.4 * 287.05287 * kelvin) * KN_PER_M_S


def vector(direction_deg, size):
    """Return (east, north) of something that goes towards a direction."""
    angle = math.radians(direction_deg)
    return size * math.sin(angle), size * math.cos(angle)


def blown(wind):
    """Return (east, north) of where a wind (from, knots) blows things."""
    return vector(wind[0] + 180, wind[1])


def heading_along(course_deg, tas_kn, drift):
    """Return the heading whose track over what drifts past by ``drift`` (east, north) is the course: by trial."""
    across = vector(course_deg + 90, 1)
    drifted = drift[0] * across[0] + drift[1] * across[1]
    low, high = -60.0, 60.0  # off the course
    for _ in range(18):  # to a thousandth of a degree
        middle = (low + high) / 2
        if tas_kn * math.sin(math.radians(middle)) + drifted < 0:
            low = middle
        else:
            high = middle
    return course_deg + (low + high) / 2


class Flight:
    """An aircraft and a ship; ``x`` and ``y`` are those of the aircraft, ``seconds`` what has passed."""

    def __init__(self, ship_course_deg, ship_kn, *, radial_deg=0.0, distance_nm=0.0, feet=0.0):
        self.ship = [0.0, 0.0]
        self.way = vector(ship_course_deg, ship_kn)
        self.x, self.y = vector(radial_deg, distance_nm)
        self.feet, self.seconds = feet, 0.0

    def drift(self, wind, *, over_ship):
        """Return what moves the aircraft past the ship (or past the water) besides its own airspeed, in knots."""
        blow = blown(wind)
        return (blow[0] - self.way[0], blow[1] - self.way[1]) if over_ship else blow

    def moves(self, heading_deg, tas_kn, wind):
        """Return (east, north) of a step of the aircraft, in miles."""
        air, blow = vector(heading_deg, tas_kn), blown(wind)
        return (air[0] + blow[0]) * STEP_S / 3600, (air[1] + blow[1]) * STEP_S / 3600

    def moved(self, moves, climb_ft_min=0.0, *, part=1.0):
        """Go on by one step, or a part of one."""
        hours = STEP_S / 3600 * part
        self.x += moves[0] * part
        self.y += moves[1] * part
        self.ship[0] += self.way[0] * hours
        self.ship[1] += self.way[1] * hours
        self.feet += climb_ft_min * hours * 60
        self.seconds += STEP_S * part

    def step(self, heading_deg, tas_kn, wind, *, seconds=STEP_S):
        """Fly one step, or a part of one, on a heading."""
        self.moved(self.moves(heading_deg, tas_kn, wind), part=seconds / STEP_S)

    @property
    def beacon_nm(self):
        """Return the distance to the ship."""
        return math.hypot(self.x - self.ship[0], self.y - self.ship[1])

    @property
    def radial_deg(self):
        """Return the radial of the ship on which the aircraft is."""
        return math.degrees(math.atan2(self.x - self.ship[0], self.y - self.ship[1])) % 360

    def fly(self, course_deg, indicated_kn, wind, until, *, over_ship=True, climb_ft_min=0.0):
        """Fly a course (over the ship, or over the water) until ``until(self)``; return self."""
        reckoned = None
        while not until(self):
            if reckoned is None or abs(self.feet - reckoned) >= ANEW_FT:
                reckoned, amid = (
                    self.feet,
                    self.feet + (math.copysign(ANEW_FT / 2, climb_ft_min) if climb_ft_min else 0),
                )
                tas = true_airspeed(indicated_kn, amid)
                heading = heading_along(course_deg, tas, self.drift(wind, over_ship=over_ship))
                moves = self.moves(heading, tas, wind)
            self.moved(moves, climb_ft_min)
            assert self.seconds < 7200, "it never gets there"
        if reckoned is not None:
            self._to_the_moment(until, moves, climb_ft_min)
        return self

    def _to_the_moment(self, until, moves, climb_ft_min):
        """Go back within the last step to where ``until`` became true, by halves."""
        part = 0.5
        for _ in range(8):
            self.moved(moves, climb_ft_min, part=-part if until(self) else part)
            part /= 2

    def turn(self, heading_deg, rate_deg_s, size_deg, tas_kn, wind):
        """Turn through ``size_deg`` at a rate (right positive), in small steps; return the farthest from the ship."""
        farthest, turned = self.beacon_nm, 0.0
        while turned < size_deg:
            seconds = min(STEP_S, (size_deg - turned) / abs(rate_deg_s))
            way = math.copysign(turned + abs(rate_deg_s) * seconds / 2, rate_deg_s)
            self.step(heading_deg + way, tas_kn, wind, seconds=seconds)
            turned += abs(rate_deg_s) * seconds
            farthest = max(farthest, self.beacon_nm)
        return farthest
