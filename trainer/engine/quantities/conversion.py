"""Quantities that turn one unit into another, each with the way it is done in the head.

One quantity for each pair and direction: ``nm_to_km``, ``km_to_nm`` and so on.
"""

import numpy as np

from trainer.engine.domain import inside
from trainer.engine.quantities.air_sources import NIST
from trainer.engine.quantities.entries import get, give, num, slip
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.units import UNITS, convert

LENGTH = ("distance", 0, 100_000_000)
HEIGHT = ("height", -20_000, 1_000_000)
SPEED = ("speed", 0, 100_000)
WEIGHT = ("weight", 0, 1_000_000)
PRESSURE = ("pressure", 0, 50_000)
CELSIUS = ("temperature", -273.15, 3_000)
FAHRENHEIT = ("temperature", -459.67, 5_400)


def _suffix(unit):
    """Return a unit as it ends a name.

    >>> _suffix("nm/min")
    'nm_min'
    """
    return unit.replace("/", "_")


def _n(value):
    """Return a number of a worked line."""
    return num(value, 2)


def _times(factor, words):
    """Return (rule, words, worked line) of a plain multiplication."""
    return (lambda v: np.asarray(v, dtype=float) * factor), words, lambda v: f"{_n(v)} × {num(factor, 3)}"


def _over(divisor, words):
    """Return (rule, words, worked line) of a plain division."""
    return (lambda v: np.asarray(v, dtype=float) / divisor), words, lambda v: f"{_n(v)} / {_n(divisor)}"


def _part(factor, tenth, words):
    """Return the same for ``factor`` times the value and a tenth of that more (``tenth`` 1) or less (-1)."""
    sign = "+" if tenth > 0 else "-"
    return (
        lambda v: np.asarray(v, dtype=float) * factor * (1 + tenth / 10),
        words,
        lambda v: f"{_n(v * factor)} {sign} a tenth of it, {_n(v * factor / 10)},",
    )


def _percent(percent, words):
    """Return the same for ``percent`` more (or less, when negative)."""
    sign = "+" if percent > 0 else "-"
    return (
        lambda v: np.asarray(v, dtype=float) * (1 + percent / 100),
        words,
        lambda v: f"{_n(v)} {sign} {abs(percent)} %, {_n(abs(v * percent / 100))},",
    )


def _conversion(kind, source_unit, target_unit, rule, words, line, slips, *, on, inside_limits, step):
    """Return the quantity that turns ``source_unit`` into ``target_unit``.

    ``rule`` is done in the head as ``words`` say and ``line`` shows; ``slips`` are (name, words, wrong)
    of the value alone.
    """
    base, low, high = kind
    name, result = f"{base}_{_suffix(source_unit)}", f"{base}_{_suffix(target_unit)}"

    def exact(**given):
        inside(base, given[name], low, high)
        return convert(np.asarray(given[name], dtype=float)[()], source_unit, target_unit)

    def by_rule(**given):
        inside(base, given[name], low, high)
        return rule(given[name])

    def head(**given):
        value = given[name]
        shown = f"{_n(value)}{UNITS[source_unit].symbol}"
        return f"{shown}: {words}", f"{line(value)} = {_n(rule(value))}{UNITS[target_unit].symbol}"

    return Quantity(
        name=f"{_suffix(source_unit)}_to_{_suffix(target_unit)}",
        title=f"{TITLES[source_unit]} to {TITLES[target_unit]}",
        area="navigation",
        words=("convert", "unit", base, *UNITS[source_unit].spellings[:2], *UNITS[target_unit].spellings[:2]),
        inputs=(give(name, base, source_unit, low, high),),
        results=(get(result, base, target_unit, on, inside_limits, round_to=step),),
        methods={EXACT: exact, RULE: by_rule},
        mental=head,
        exact=lambda **given: _written(given[name], source_unit, target_unit),
        slips=tuple(
            slip(title, said, lambda wrong=wrong, **given: wrong(np.asarray(given[name], dtype=float)))
            for title, said, wrong in slips
        ),
        source=NIST,
    )


def _written(value, source_unit, target_unit):
    """Return the lines of the conversion of ``value`` done in full."""
    one = convert(1.0, source_unit, target_unit) - convert(0.0, source_unit, target_unit)
    zero = convert(0.0, source_unit, target_unit)
    tail = f" {'-' if zero < 0 else '+'} {abs(zero):.6g}" if zero else ""
    turned = num(convert(value, source_unit, target_unit), 3)
    return (f"{num(value, 3)} × {one:.7g}{tail} = {turned}{UNITS[target_unit].symbol}",)


TITLES = {
    "nm": "nautical miles", "ft": "feet", "yd": "yards", "km": "kilometres", "sm": "statute miles",
    "kn": "knots", "mph": "miles per hour", "km/h": "kilometres per hour", "ft/s": "feet per second",
    "nm/min": "miles per minute", "lb": "pounds", "kg": "kilograms", "m": "metres",
    "m/s": "metres per second",
    "inhg": "inches of mercury", "hpa": "hectopascals", "c": "degrees Celsius", "f": "degrees Fahrenheit",
}  # fmt: skip
DIVIDED = ("turned round", "you went the other way")
STATUTE = ("statute mile", "you took the statute mile of 5,280 ft; the nautical has 6,076")

_LENGTHS = (
    (LENGTH, "nm", "ft", *_times(6_000, "six thousand feet to the mile (6,076 to be exact)"),
     ((*STATUTE, lambda v: v * 5_280),
      ("thousand too few", "that is a tenth: the mile has six thousand feet", lambda v: v * 600)), 500, 2_000,
       1),
    (LENGTH, "ft", "nm", *_over(6_000, "divide by six thousand"),
     ((*STATUTE, lambda v: v / 5_280),
      ("divided by a thousand", "that is angels, not miles", lambda v: v / 1_000)), 0.1, 0.3, 0.01),
    (LENGTH, "nm", "yd", *_times(2_000, "two thousand yards to the mile (2,025 to be exact)"),
     (("statute mile", "you took the statute mile of 1,760 yards", lambda v: v * 1_760),
      ("gave feet", "that is feet; three of them are a yard", lambda v: v * 6_076)), 100, 500, 1),
    (LENGTH, "yd", "nm", *_over(2_000, "divide by two thousand"),
     (("statute mile", "you took the statute mile of 1,760 yards", lambda v: v / 1_760),
      ("divided by six thousand", "that is for feet; a mile has two thousand yards", lambda v: v / 6_000)),
     0.05, 0.2, 0.01),
    (LENGTH, "nm", "km", *_part(2, -1, "double it and take off a tenth"),
     (("statute mile", "you took the statute mile of 1.6 km", lambda v: v * 1.609344),
      ("only doubled", "double it AND take off a tenth", lambda v: v * 2),
      (*DIVIDED, lambda v: v / 1.852)), 1, 3, 0.1),
    (LENGTH, "km", "nm", *_part(0.5, 1, "halve it and add a tenth"),
     (("statute mile", "you took the statute mile of 1.6 km", lambda v: v / 1.609344),
      ("only halved", "halve it AND add a tenth", lambda v: v / 2),
      (*DIVIDED, lambda v: v * 1.852)), 1, 3, 0.1),
    (LENGTH, "nm", "sm", *_percent(15, "add fifteen percent"),
     (("took fifteen percent off", "the statute mile is shorter, so there are more of them",
      lambda v: v * 0.85),
      ("gave kilometres", "that is kilometres", lambda v: v * 1.852)), 1, 3, 0.1),
    (LENGTH, "sm", "nm", *_percent(-13, "take off thirteen percent, about an eighth"),
     (("added fifteen percent", "the nautical mile is longer, so there are fewer of them",
      lambda v: v * 1.15),
      ("half as many", "halving and adding a tenth is for kilometres", lambda v: v * 0.55)), 1, 3, 0.1),
    (LENGTH, "sm", "km", *_times(1.6, "times 1.6"),
     (("nautical mile", "1.85 belongs to the nautical mile", lambda v: v * 1.852),
      ("turned round", "you went the other way", lambda v: v / 1.609344)), 1, 3, 0.1),
    (LENGTH, "km", "sm", *_times(0.625, "five eighths"),
     (("nautical mile", "halving and adding a tenth is for nautical miles", lambda v: v * 0.55),
      ("turned round", "you went the other way", lambda v: v * 1.609344)), 1, 3, 0.1),
    (HEIGHT, "ft", "m", *_part(1 / 3, -1, "a third, less a tenth of that"),
     (("a third only", "a third AND a tenth of it off", lambda v: v / 3),
      (*DIVIDED, lambda v: v / 0.3048)), 20, 100, 1),
    (HEIGHT, "m", "ft", *_part(3, 1, "three times, and a tenth of that more"),
     (("three times only", "three times AND a tenth more", lambda v: v * 3),
      (*DIVIDED, lambda v: v * 0.3048)), 20, 200, 1),
)  # fmt: skip
_SPEEDS = (
    (SPEED, "kn", "mph", *_percent(15, "add fifteen percent"),
     (("took fifteen percent off", "the statute mile is shorter, so there are more of them",
      lambda v: v * 0.85),
      ("gave km/h", "that is kilometres per hour", lambda v: v * 1.852)), 2, 5, 1),
    (SPEED, "mph", "kn", *_percent(-13, "take off thirteen percent, about an eighth"),
     (("added fifteen percent", "the nautical mile is longer, so there are fewer of them",
      lambda v: v * 1.15),
      ("half as many", "halving and adding a tenth is for km/h", lambda v: v * 0.55)), 2, 5, 1),
    (SPEED, "kn", "km/h", *_part(2, -1, "double it and take off a tenth"),
     (("only doubled", "double it AND take off a tenth", lambda v: v * 2),
      ("gave miles per hour", "that is statute miles per hour", lambda v: v * 1.15)), 5, 15, 1),
    (SPEED, "km/h", "kn", *_part(0.5, 1, "halve it and add a tenth"),
     (("only halved", "halve it AND add a tenth", lambda v: v / 2),
      ("gave miles per hour", "that is statute miles per hour", lambda v: v / 1.609344)), 3, 10, 1),
    (SPEED, "kn", "m/s", *_times(0.5, "half of it"),
     (("doubled", "a metre a second is two knots: halve them", lambda v: v * 2),
      ("gave km/h", "that is kilometres per hour", lambda v: v * 1.852)), 0.6, 2, 0.1),
    (SPEED, "m/s", "kn", *_times(2.0, "twice"),
     (("halved", "a metre a second is two knots: double them", lambda v: v / 2),
      ("gave km/h", "that is kilometres per hour", lambda v: v * 3.6)), 1, 3, 1),
    (SPEED, "kn", "ft/s", *_times(1.7, "times 1.7"),
     (("gave feet per minute", "that is feet in a minute", lambda v: v * 101.27),
      (*DIVIDED, lambda v: v / 1.6878)), 3, 10, 1),
    (SPEED, "ft/s", "kn", *_times(0.6, "times six tenths"),
     (("multiplied by 1.7", "you went the other way", lambda v: v * 1.7),
      ("statute miles per hour", "you took the statute mile", lambda v: v * 0.6818)), 3, 10, 1),
    (SPEED, "kn", "nm/min", *_over(60, "an hour has sixty minutes: divide by sixty"),
     (("divided by a hundred", "that is one percent of the speed; the hour has sixty minutes",
      lambda v: v / 100),
      ("seconds a mile", "that is the seconds for each mile", lambda v: 3_600 / np.maximum(v, 1e-9))),
     0.05, 0.2, 0.1),
    (SPEED, "nm/min", "kn", *_times(60.0, "an hour has sixty minutes: times sixty"),
     (("times a hundred", "the hour has sixty minutes, not a hundred", lambda v: v * 100),
      ("times ten", "ten times Mach is miles a minute; to knots it is sixty", lambda v: v * 10)), 2, 6, 1),
)  # fmt: skip
_OTHERS = (
    (WEIGHT, "lb", "kg", *_part(0.5, -1, "half of it, less a tenth"),
     (("only halved", "halve it AND take off a tenth", lambda v: v / 2),
      (*DIVIDED, lambda v: v * 2.2046)), 30, 150, 1),
    (WEIGHT, "kg", "lb", *_part(2, 1, "double it and add a tenth"),
     (("only doubled", "double it AND add a tenth", lambda v: v * 2),
      (*DIVIDED, lambda v: v / 2.2046)), 50, 300, 1),
    (PRESSURE, "inhg", "hpa", lambda v: 1_013 + (np.asarray(v, dtype=float) - 29.92) * 34,
     "29.92 is 1013; a tenth of an inch is 3.4 hPa",
     lambda v: f"1,013 + ({v:.2f} - 29.92) × 34",
     (("wrong side of 1013", "above 29.92 the hectopascals are above 1013",
      lambda v: 1_013 - (v - 29.92) * 34),
      ("ten hPa an inch", "an inch is 34 hPa, a tenth of an inch 3.4", lambda v: 1_013 + (v - 29.92) * 10)),
     0.6, 2, 0.1),
    (PRESSURE, "hpa", "inhg", lambda v: 29.92 + (np.asarray(v, dtype=float) - 1_013) * 0.03,
     "1013 is 29.92; each hectopascal is three hundredths",
     lambda v: f"29.92 + ({_n(v)} - 1,013) × 0.03",
     (("wrong side of 29.92", "above 1013 the inches are above 29.92", lambda v: 29.92 - (v - 1_013) * 0.03),
      ("a hundredth each", "a hectopascal is three hundredths of an inch",
       lambda v: 29.92 + (v - 1_013) * 0.01)),
     0.015, 0.05, 0.01),
    (CELSIUS, "c", "f", lambda v: np.asarray(v, dtype=float) * 2 * 0.9 + 32,
     "double it, take off a tenth, add 32",
     lambda v: f"{_n(2 * v)}, a tenth of it off {_n(1.8 * v)}; {_n(1.8 * v)} + 32",
     (("32 forgotten", "32 is still to be added", lambda v: v * 1.8),
      ("32 added first", "32 is added last, after doubling", lambda v: (v + 32) * 1.8)), 0.5, 2, 1),
    (FAHRENHEIT, "f", "c", lambda v: (np.asarray(v, dtype=float) - 32) * 0.55,
     "take off 32, halve it, add a tenth of that",
     lambda v: f"{_n(v)} - 32 = {_n(v - 32)}; {_n((v - 32) / 2)} and a tenth of it, {_n((v - 32) / 20)},",
     (("32 forgotten", "32 comes off first", lambda v: v / 1.8),
      ("32 taken off last", "32 comes off first, before halving", lambda v: v / 1.8 - 32)), 0.5, 2, 1),
)  # fmt: skip

QUANTITIES = tuple(
    _conversion(kind, one, other, rule, words, line, slips, on=on, inside_limits=limits, step=step)
    for kind, one, other, rule, words, line, slips, on, limits, step in (*_LENGTHS, *_SPEEDS, *_OTHERS)
)
