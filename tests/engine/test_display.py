"""Values are shown as the trade writes them, and the answer reader reads back everything that is shown."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.engine import display
from trainer.engine.units import UNITS
from trainer.reading.numbers.values import read_number

FORMS = [
    (5, "heading", None, "005°"),
    (359.7, "heading", None, "360°"),
    (0, "heading", None, "360°"),
    (3500, "lb", None, "3,500 lb"),
    (1200, "ft", None, "1,200 ft"),
    (24, "minute", None, ":24"),
    (24.5, "minute", 0.5, ":24:30"),
    (60, "minute", None, ":00"),
    (765, "clock", None, "12:45"),
    (45, "s", None, "45 s"),
    (90, "s", None, "1:30"),
    (-15, "s", None, "-15 s"),
    (4.5, "min", None, "4.5 min"),
    (12, "angels", None, "angels 12"),
    (2.5, "angels", None, "angels 2.5"),
    (3.2, "nm", None, "3.2 nm"),
    (27, "nm", None, "27 nm"),
    (0.25, "nm", 0.25, "0.25 nm"),
    (29.9, "inhg", None, "29.90 inHg"),
    (5, "klb", None, "5.0"),
    (250, "kn", None, "250 kt"),
    (1053, "mhz", None, "1053 MHz"),
    (-2, "trim", None, "2° nose down"),
    (1, "radials", None, "1 radial"),
    (-0.01, "nm", None, "0 nm"),
]


@pytest.mark.parametrize("value, unit, step, text", FORMS)
def test_usual_form(value, unit, step, text):
    assert display.value(value, unit, step) == text


def test_a_drawn_input_is_shown_with_every_decimal():
    assert display.exact(0.25, "nm") == "0.25 nm"
    assert display.exact(0.1 + 0.2, "nm") == "0.3 nm"


def test_nothing_but_numbers_is_shown():
    with pytest.raises(ValueError):
        display.value(math.nan, "nm")


def test_ascii_screens_get_ascii():
    assert display.plain_ascii("005° → ≤ 3 – “so”").isascii()


READ_BACK = [name for name, unit in UNITS.items() if unit.form not in ("word", "table", "day")]


@pytest.mark.parametrize("unit_name", READ_BACK)
@given(fraction=st.floats(0, 1), size=st.sampled_from([1, 10, 100, 1_000, 50_000]), negative=st.booleans())
@settings(max_examples=30, deadline=None)
def test_what_is_shown_is_read_back(unit_name, fraction, size, negative):
    unit = UNITS[unit_name]
    value = fraction * (unit.cycle or size)
    if negative and not unit.cycle and unit.form != "day" and unit_name not in ("angels", "klb", "mach", "channel"):
        value = -value
    text = display.value(value, unit_name)
    step = 1 / 60 if unit.form in ("minute", "clock") else 10.0 ** -max(unit.decimals, unit_name == "angels")
    step = 1.0 if unit.form in ("minute", "clock") else step
    difference = abs(read_number(text, unit_name, about=value) - value)
    if unit.cycle:
        difference = min(difference % unit.cycle, -difference % unit.cycle)
    assert difference <= step / 2 * (1 + 1e-6) + 1e-9, text
