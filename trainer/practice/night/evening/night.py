"""The numbers of one evening, computed when they are asked for and kept.

A number that goes into another goes in as it is stated, because that is the number on the kneeboard.
"""

from typing import Any

from trainer.decks.unit_names import unit_of
from trainer.engine import display
from trainer.engine.launch import is_night
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError
from trainer.practice.night.evening import moments
from trainer.practice.night.evening.numbers import NUMBERS, result_of
from trainer.practice.night.evening.scenario import FINAL_MIN, MINUTES_PER_DAY

DECIMALS = 9
PATTERN_MIN = 4  # Case II: from over the ship to the ball, the break and one circuit; common practice


class Night:
    """The numbers of one ``scenario`` with the user's files of ``library``; computed when they are asked for."""

    scenario: Any  # a ``Scenario``, or what stands before one to note what is read of it

    def __init__(self, scenario, library):
        self.scenario, self.library = scenario, library
        self._stated, self._exact, self._inputs = {}, {}, {}

    def __getitem__(self, name):
        """Return the stated value of the number ``name``."""
        if name not in self._stated:
            self._work(NUMBERS[name])
        return self._stated[name]

    @property
    def known(self):
        """Return {name: stated value} of the numbers computed so far."""
        return dict(self._stated)

    def exact(self, name):
        """Return the value of ``name`` before it is rounded."""
        self[name]
        return self._exact[name]

    def inputs(self, name):
        """Return {input: value} of the number; tables of the user's files by their name."""
        if name not in self._inputs:
            number = NUMBERS[name]
            given = dict(number.give(self))
            self._inputs[name] = {
                spec.name: given[spec.name] if spec.name in given else self._taken(spec)
                for spec in QUANTITIES[number.quantity].inputs
            }
        return self._inputs[name]

    def arguments(self, name):
        """Return the inputs with the tables themselves in place of their names."""
        tables = self.library.tables
        return {key: tables[value] if isinstance(value, str) else value for key, value in self.inputs(name).items()}

    def result(self, name):
        """Return the ``Result`` of the number; one read from a table is in the table's unit."""
        return result_of(name).of(self.arguments(name))

    def text(self, name):
        """Return the stated value in the form in which the trade writes it."""
        result = self.result(name)
        if result.words:
            return display.coded(self[name], result.words)
        return display.value(self[name], result.unit, result.round_to or None)

    def value(self, reference):
        """Return a value of the user's files; raises ``DomainError`` where it is not there."""
        if reference not in self.library.values:
            raise DomainError(f"your files have no {reference}", hint="`trainer deck new airframe FILE` lists them")
        return self.library.values[reference]

    def said(self, reference):
        """Return a value of the user's files as it is said, in the unit that its name ends with."""
        return display.value(self.value(reference), unit_of(reference.split(".")[1]) or "count")

    def _taken(self, spec):
        if spec.take in self.library.values:
            return self.library.values[spec.take]
        if spec.take in self.library.tables:
            return spec.take
        if spec.default is None:
            raise DomainError(f"your files have no {spec.take or spec.name}", hint="add it to the airframe or ship")
        return float(spec.default)

    def _work(self, number):
        quantity, result = QUANTITIES[number.quantity], result_of(number.name)
        values = quantity.compute(self.arguments(number.name), method=number.method)
        self._exact[number.name] = float(values[result.name])
        self._stated[number.name] = round(float(stated(result, values[result.name])), DECIMALS)

    # -- plain sums of what is given: clock times and weights ------------------------------------------------

    def is_dark(self, clock_min):
        """Return whether the rules of the night hold at a clock time."""
        weather = self.scenario.weather
        return bool(is_night(clock_min % MINUTES_PER_DAY, weather.sunrise_clock, weather.sunset_clock))

    @property
    def push_clock(self):
        """Return the clock time of your push (Case I: of leaving the overhead)."""
        times, stack = self.scenario.times, self.scenario.stack
        return times.first_push_clock + times.delay_min + (stack.position - 1) * stack.interval_min

    @property
    def land_clock(self):
        """Return the clock time at the ramp, Case I."""
        return self.push_clock + FINAL_MIN

    @property
    def hold_min(self):
        """Return the minutes of holding."""
        return self.push_clock - self.scenario.times.fix_clock

    @property
    def fuel_on_catapult_lb(self):
        """Return the fuel left when the stroke comes: what was in the chocks less the taxi fuel."""
        return self.scenario.load.fuel_lb - self.value("airframe.taxi_fuel_lb")

    @property
    def fuel_at_push_lb(self):
        """Return the fuel left when holding ends."""
        return self.fuel_at_fix_lb - self.hold_min * self.value("airframe.hold_flow_lb_h") / 60

    @property
    def ball_clock(self):
        """Return the clock time on the ball, for the first time."""
        if self.scenario.case == 1:
            return self.land_clock
        in_the_pattern = PATTERN_MIN if self.scenario.case == 2 else 0
        return self.push_clock + moments.minutes_to_the_ball(self) + in_the_pattern

    @property
    def fuel_at_check_in_lb(self):
        """Return the fuel left when you check in."""
        return self._fuel_after("check_in_burn")

    @property
    def fuel_at_fix_lb(self):
        """Return the fuel left when holding begins."""
        return self._fuel_after("fix_burn")

    def _fuel_after(self, burn):
        return self.fuel_on_catapult_lb - self[burn]

    def flown(self, name):
        """Return what the rule of thumb of ``name`` comes to in tonight's wind; None where it is within limits."""
        number, result = NUMBERS[name], result_of(name)
        if number.flown is None:
            return None
        value = number.flown(self)
        return value if abs(value - self.exact(name)) > result.tolerance.inside else None
