"""Worked lines, on the numbers that the decks draw: the way in the head leads to the result, and reads well."""

import random
import re
from dataclasses import replace

import pytest

from trainer.decks import library
from trainer.drills import computed
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.engine.units import UNITS
from trainer.errors import DomainError, TrainerError

DRAWS = 12
LIBRARY = library.load()
DRILLS = [drill for drill in LIBRARY.drills.values() if drill.kind == "computed" and drill.quantity]
NUMBER = re.compile(r"(?<![\d.])-?\d[\d,]*(?:\.\d+)?(?::\d\d)?(?::\d\d)?|:\d\d(?::\d\d)?")
# Two signs in a row ("+ -4", "5 - -3", "x -2") are no sum that anybody does in the head.
AWKWARD = re.compile(r"[-+x×/÷] -\d|\+-|--|\|")


def drawn(drill):
    """Yield inputs of the quantity of ``drill``, as the engine takes them."""
    quantity = QUANTITIES[drill.quantity]
    for seed in range(DRAWS):
        try:
            question = computed.make(drill, LIBRARY, random.Random(seed))
        except TrainerError:
            continue
        inputs = {}
        for spec in quantity.inputs:
            usual = LIBRARY.values.get(spec.take, spec.default)
            value = question.inputs.get(spec.name, usual)
            inputs[spec.name] = LIBRARY.tables[value] if spec.unit == "table" else value
        yield inputs


def values_of(quantity, result, inputs):
    """Return what each method gives, exact and as it is stated."""
    found = []
    for method in quantity.methods:
        try:
            value = float(quantity.compute(inputs, method=method)[result.name])
        except DomainError:
            continue  # a rule that does not hold for these numbers
        found += [value, float(stated(result, value))]
    return found


def numbers_in(text):
    """Yield the numbers of ``text``; 2:05 and 12:45 are read as two and as one number."""
    for match in NUMBER.findall(text):
        parts = [float(part.replace(",", "")) for part in match.strip(":").split(":")]
        yield parts[-1]
        if ":" in match:
            yield parts[0] if len(parts) == 1 else parts[0] * 60 + parts[1]
            yield parts[0] if len(parts) == 1 else parts[0] + parts[1] / 60


def apart(result, one, other):
    """Return how far two values of ``result`` are apart; a side may be told in words, so signs do not count."""
    cycle = UNITS[result.unit].cycle
    if cycle:
        return abs((one - other + cycle / 2) % cycle - cycle / 2)
    return abs(abs(one) - abs(other))


def leads_to(quantity, result, inputs, tolerance):
    """Return whether the way in the head says the result (a word, or a number within ``tolerance``)."""
    text = " ".join(quantity.mental(**inputs))
    values = values_of(quantity, result, inputs)
    if result.words:
        return result.words[int(values[0])].lower() in text.lower()
    return any(apart(result, number, value) <= tolerance + 1e-9 for number in numbers_in(text) for value in values)


@pytest.mark.parametrize("drill", DRILLS, ids=[drill.id for drill in DRILLS])
def test_the_way_in_the_head_leads_to_the_result(drill):
    quantity = QUANTITIES[drill.quantity]
    result = quantity.result(drill.result)
    tolerance = (drill.tolerance or result.tolerance).inside
    for inputs in drawn(drill):
        assert leads_to(quantity, result, inputs, tolerance), quantity.mental(**inputs)


@pytest.mark.parametrize("drill", DRILLS, ids=[drill.id for drill in DRILLS])
def test_worked_lines_read_well(drill):
    quantity = QUANTITIES[drill.quantity]
    for inputs in drawn(drill):
        for way in (quantity.mental, quantity.exact):
            for line in way(**inputs) if way else ():
                assert not AWKWARD.search(line), line
                assert not re.search(r"\d{4,}\.\d{3,}|\d\.\d{5,}", line) or quantity.words[:1] == ("convert",), line


def test_a_wrong_way_is_noticed():
    """The test above can fail: of a result that is off by more than its tolerance nothing is said."""
    quantity = QUANTITIES["sink_rate"]
    inputs = {"closure_kn": 120.0, "glide_slope_deg": 3.5}
    result = quantity.result()
    assert leads_to(quantity, result, inputs, result.tolerance.inside)
    assert list(numbers_in("at 120 kt, 2:05, :24 and -4.5")) == [120, 5, 125, 2 + 5 / 60, 24, 24, 24, -4.5]
    off = replace(quantity, mental=lambda **given: ("about 999 ft/min",))
    assert not leads_to(off, result, inputs, result.tolerance.inside)


def test_signs_in_a_row_are_noticed():
    assert AWKWARD.search("-4 - -0.4 + 32") and AWKWARD.search("12 + -3")
    assert not AWKWARD.search("-4 + 32 = 28") and not AWKWARD.search("2,400 / 700 = 3.43")


NUMERAL = r"-?\d[\d,]*(?:\.\d+)?"
REST = r"(?![\d/]|:\d|[.,]\d|\s*[x+/×])"  # no number that goes on, no sum that does
SUM = re.compile(rf"(?<![\w.:/])(?<![x+/=°)×-] )((?:{NUMERAL})(?: [x+/×-] {NUMERAL})+) = ({NUMERAL}){REST}")
HAIR = 0.05  # of half the last digit: a tie may go either way


def off_as_printed(line):
    """Yield (sum as it is printed, how far off it is in halves of its last digit) for every sum in ``line``."""
    for match in SUM.finditer(line):
        terms = re.sub(r"(?<![\d.])0+(?=\d)", "", match[1].replace(",", "")).replace(" x ", " * ").replace(" × ", " * ")
        said, value = float(match[2].replace(",", "")), eval(terms)  # digits and + - * / alone
        value *= 100 if line[match.end() :].startswith(" per cent") and value < 1.5 else 1
        half = 0.5 * 10.0 ** -len(match[2].partition(".")[2])
        yield match[0], max(0.0, abs(value - said) - abs(said) * 1e-6) / half


def test_a_sum_that_is_false_as_printed_is_seen():
    offs = [off for _, off in off_as_printed("20° right: 0.93 x 35 = 32.7 kt, 0.933 x 35 = 32.7")]
    assert offs == pytest.approx([3.0, 0.9], abs=0.01)
    ((text, off),) = off_as_printed("1,600 / 600 = 2.67: 2 patterns")
    assert (text, off < 1) == ("1,600 / 600 = 2.67", True)


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.id)
def test_every_sum_is_true_as_it_is_printed(drill):
    quantity = QUANTITIES[drill.quantity]
    for inputs in drawn(drill):
        for line in (*quantity.mental(**inputs), *(quantity.exact(**inputs) if quantity.exact else ())):
            assert [text for text, off in off_as_printed(line) if off > 1 + HAIR] == [], line
