"""One consistent evening at the ship: the few values from which every number of a sortie follows.

Directions are magnetic, 1-360; clock times are minutes since midnight, ship's time.  What follows from these
values is computed in ``numbers``; what must hold between them is written in ``limits``.
"""

from dataclasses import field, replace

from trainer.frozen import frozen

MINUTES_PER_DAY = 1440
FINAL_MIN = 5  # Case I: from leaving the overhead to the ramp; common practice


@frozen
class Ship:
    """``brc_deg`` and ``speed_kn`` are what she steers; ``catapult`` is the number of yours."""

    brc_deg: float
    speed_kn: float
    deck_angle_deg: float
    glide_slope_deg: float
    beacon_channel: float
    catapult: float
    title: str = ""


@frozen
class Weather:
    """The winds blow from their directions, magnetic: one on deck and below platform, one above it."""

    wind_from_deg: float
    wind_speed_kn: float
    aloft_from_deg: float
    aloft_speed_kn: float
    ceiling_ft: float
    visibility_nm: float
    altimeter_inhg: float
    sunrise_clock: float
    sunset_clock: float


@frozen
class Load:
    """Fuel in the chocks, stores at launch and at the trap; ``board_weight_lb`` is what the weight board will show."""

    fuel_lb: float
    stores_lb: float
    retained_stores_lb: float
    board_weight_lb: float


@frozen
class Times:
    """Clock times; ``delay_min`` is what a foul deck adds to the recovery."""

    launch_clock: float
    check_in_clock: float
    fix_clock: float
    first_push_clock: float
    delay_min: float = 0.0


@frozen
class Stack:
    """The marshal stack: ``position`` 1 is the lowest; levels are ``step_angels`` apart."""

    lowest_angels: float
    step_angels: float
    position: float
    interval_min: float

    @property
    def angels(self):
        """Return your own level."""
        return self.lowest_angels + (self.position - 1) * self.step_angels


@frozen
class Divert:
    """The field: magnetic bearing and distance from where the ship recovers, and its runway heading."""

    bearing_deg: float
    distance_nm: float
    runway_deg: float
    name: str = "the field"

    @property
    def title(self):
        """Return the name as it begins a sentence."""
        return self.name[:1].upper() + self.name[1:]


@frozen
class Flight:
    """Who you are.  ``lead_channel`` is the air-to-air channel of your lead; the break is that of your division."""

    side_number: float
    lead_channel: float
    call_sign: str = ""
    type_name: str = ""
    approach_button: float = 16.0
    break_interval_s: float = 15.0
    break_airspeed_kn: float = 300.0


@frozen
class Inbound:
    """Where you check in: on which radial of the ship, how far out, how high."""

    radial_deg: float = 360.0
    distance_nm: float = 40.0
    angels: float = 20.0


# What can go wrong, in the order in which it does on a sortie.
KINDS = (
    "suspend", "catapult", "radial", "divert field", "case", "interval", "level", "foul deck", "tanker sour", "brc",
)  # fmt: skip


@frozen
class Disturbance:
    """Something that goes wrong: what of the scenario it replaces, and by how much it delays the recovery."""

    kind: str
    case: int | None = None
    ship: Ship | None = None
    weather: Weather | None = None
    stack: Stack | None = None
    divert: Divert | None = None
    departure_radial_deg: float | None = None
    first_push_clock: float | None = None
    delay_min: float = 0.0

    def applied_to(self, scenario: "Scenario") -> "Scenario":
        """Return the scenario as it stands afterwards."""
        times = scenario.times
        first = times.first_push_clock if self.first_push_clock is None else self.first_push_clock
        return replace(
            scenario,
            case=self.case or scenario.case,
            ship=self.ship or scenario.ship,
            weather=self.weather or scenario.weather,
            stack=self.stack or scenario.stack,
            divert=self.divert or scenario.divert,
            departure_radial_deg=self.departure_radial_deg or scenario.departure_radial_deg,
            times=replace(times, first_push_clock=first, delay_min=times.delay_min + self.delay_min),
        )


@frozen
class Scenario:
    """One evening.  ``case`` is that of the recovery; ``bolters`` come before the ``ending`` ("trap", "divert")."""

    seed: str
    case: int
    ship: Ship
    weather: Weather
    load: Load
    times: Times
    stack: Stack
    divert: Divert
    flight: Flight
    departure_radial_deg: float
    inbound: Inbound = Inbound()
    clock_error_s: float = 0.0
    tanker_give_lb: float = 0.0
    bolters: int = 0
    ending: str = "trap"
    disturbances: tuple[Disturbance, ...] = field(default=())

    def disturbance(self, kind: str) -> Disturbance | None:
        """Return the disturbance of that kind, None where there is none tonight."""
        return next((one for one in self.disturbances if one.kind == kind), None)

    def stages(self) -> tuple["Scenario", ...]:
        """Return the scenario as briefed and as it stands after each disturbance, in order."""
        found: list[Scenario] = [self]
        for one in self.disturbances:
            found.append(one.applied_to(found[-1]))
        return tuple(found)

    def once(self, kind: str) -> "Scenario":
        """Return the scenario once everything up to ``kind`` of ``KINDS`` went wrong that does tonight."""
        scenario = self
        for one in self.disturbances:
            if KINDS.index(one.kind) <= KINDS.index(kind):
                scenario = one.applied_to(scenario)
        return scenario
