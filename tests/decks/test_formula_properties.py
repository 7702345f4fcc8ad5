"""Formulas against Python's own arithmetic, and against whatever a stranger may type."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.decks.formula import compile_formula
from trainer.errors import DomainError, FormulaError

WHOLE = st.integers(min_value=0, max_value=9)
NAMES = st.sampled_from(("fuel_lb", "x", "angels"))


def _joined(parts):
    return st.one_of(
        st.builds("({} {} {})".format, parts, st.sampled_from(("+", "-", "*", "/", "//", "%", "**")), parts),
        st.builds("-{}".format, parts),
        st.builds("abs({})".format, parts),
        st.builds("min({}, {})".format, parts, parts),
        st.builds("max({}, {})".format, parts, parts),
    )


ARITHMETIC = st.recursive(st.one_of(WHOLE.map(str), NAMES), _joined, max_leaves=12)
# What a formula is made of, put together without sense.
PIECES = st.lists(
    st.sampled_from(
        "1 0 2.5 1e9 x fuel_lb angels + - * / // % ** ( ) , < > == != <= >= and or not abs min max round floor "
        "ceil sqrt sin tan wrap360 table marshal_fix_distance 'airframe.trim' if else lambda . [ ] : = is in "
        "True __class__ \\ \n ; # @ ~ ^ | & { } ! $ ? é \x1b".split(" ")
    ),
    max_size=40,
).map(" ".join)


def _in_python(text, values):
    """Return what Python gives with floats, or None where it has no finite answer."""
    names = {name: np.float64(value) for name, value in values.items()} | {"abs": abs, "min": min, "max": max}
    with np.errstate(all="ignore"):
        try:
            result = eval(text, {"__builtins__": {}}, names)
        except (ZeroDivisionError, OverflowError):
            return None
    return float(result) if isinstance(result, (int, float)) and math.isfinite(result) else None


@given(ARITHMETIC, WHOLE, WHOLE, WHOLE)
@settings(max_examples=200, deadline=None)
def test_formulas_agree_with_python(text, fuel_lb, x, angels):
    values = {"fuel_lb": fuel_lb, "x": x, "angels": angels}
    try:
        ours = float(compile_formula(text, list(values)).evaluate(values))
    except FormulaError:
        return  # too large, not finite, or an exponent past the bound: refused and never wrong
    expected = _in_python(_floated(text), values)
    assert expected is not None
    assert math.isclose(ours, expected, rel_tol=1e-9, abs_tol=1e-9)


def _floated(text):
    """Return ``text`` with every number a float: whole numbers of Python have no bounds, ours are floats."""
    return "".join(f"{c}.0" if c.isdigit() else c for c in text)


@given(ARITHMETIC, st.lists(st.tuples(WHOLE, WHOLE, WHOLE), min_size=1, max_size=5))
@settings(max_examples=100, deadline=None)
def test_arrays_agree_with_single_values(text, rows):
    names = ("fuel_lb", "x", "angels")
    try:
        formula = compile_formula(text, names)
        single = [float(formula.evaluate(dict(zip(names, row, strict=True)))) for row in rows]
    except FormulaError:
        return
    columns = {name: np.array(column, dtype=float) for name, column in zip(names, zip(*rows, strict=True), strict=True)}
    together = np.broadcast_to(formula.evaluate(columns), (len(rows),))
    assert np.allclose(together, single, rtol=1e-12, atol=1e-12)


@given(st.one_of(PIECES, st.text(max_size=600), ARITHMETIC), st.booleans())
@settings(max_examples=700, deadline=None)
def test_nothing_but_the_two_refusals_ever_comes_out(text, condition):
    try:
        formula = compile_formula(text, ["fuel_lb", "x", "angels"], condition=condition)
        result = formula.evaluate({"fuel_lb": 4000.0, "x": 0.0, "angels": np.array([7.0, 12.0])}, {}, {})
    except (FormulaError, DomainError):
        return
    assert np.all(np.isfinite(result))
