"""A night that notes which of tonight's values each of its numbers rests on.

A number is worked out once; whatever is read of the scenario meanwhile, by itself or by the numbers that go into
it, is what it rests on.  So no list of dependencies has to be kept true by hand.
"""

from collections.abc import Callable
from dataclasses import is_dataclass

from trainer.errors import DomainError
from trainer.practice.night.evening.night import Night

# where a value of tonight stands in the scenario
NAMES = {
    "case": "case", "departure_radial_deg": "radial",
    "ship.brc_deg": "brc", "ship.speed_kn": "ship-speed", "ship.catapult": "catapult",
    "ship.beacon_channel": "beacon",
    "weather.wind_from_deg": "wind-from", "weather.wind_speed_kn": "wind-speed",
    "weather.aloft_from_deg": "aloft-from", "weather.aloft_speed_kn": "aloft-speed",
    "weather.ceiling_ft": "ceiling", "weather.visibility_nm": "visibility", "weather.altimeter_inhg": "altimeter",
    "weather.sunrise_clock": "sunrise", "weather.sunset_clock": "sunset",
    "load.fuel_lb": "fuel", "load.stores_lb": "stores", "load.retained_stores_lb": "retained",
    "times.launch_clock": "launch", "times.check_in_clock": "check-in", "times.fix_clock": "at-fix",
    "times.first_push_clock": "push",
    "stack.lowest_angels": "lowest", "stack.position": "angels", "stack.angels": "angels",
    "divert.bearing_deg": "divert-bearing", "divert.distance_nm": "divert-distance",
    "divert.runway_deg": "divert-runway", "flight.lead_channel": "lead-channel",
}  # fmt: skip


class _Noted:
    """A part of the scenario that reports what is read of it."""

    def __init__(self, part, path, note):
        self._part, self._path, self._note = part, path, note

    def __getattr__(self, name):
        value = getattr(self._part, name)
        if is_dataclass(value):
            return _Noted(value, f"{self._path}{name}.", self._note)
        self._note(f"{self._path}{name}")
        return value


class NotedNight(Night):
    """A ``Night`` that can tell for each number, and for any sum of them, the names of the values read."""

    def __init__(self, scenario, library):
        super().__init__(scenario, library)
        self.scenario = _Noted(scenario, "", self._note)
        self._open: list[set[str]] = []
        self._rests: dict[str, frozenset[str]] = {}

    def rests_on(self, function: Callable[[], object]) -> frozenset[str]:
        """Return the names of the values read while ``function`` works something out; what can't be had is fine."""
        self._open.append(set())
        try:
            function()
        except DomainError:
            pass
        return frozenset(self._open.pop())

    def inputs(self, name):
        """Return the inputs of the number ``name``, and note what they rest on."""
        if name not in self._rests:
            self._open.append(set())
            try:
                super().inputs(name)
            finally:
                found = self._open.pop()
                self._read(found)
            self._rests[name] = frozenset(found)
        self._read(self._rests[name])
        return super().inputs(name)

    def __getitem__(self, name):
        """Return the stated value of the number ``name``, and note what it rests on."""
        value = super().__getitem__(name)
        self._read(self._rests[name])
        return value

    def _note(self, path):
        if path in NAMES:
            self._read((NAMES[path],))

    def _read(self, names):
        if self._open:
            self._open[-1].update(names)
