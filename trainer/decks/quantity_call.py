"""A quantity of the engine called from a formula: ``marshal_fix_distance(angels)``.

Arguments stand in the order of the quantity's inputs or by keyword; inputs left out come from the user's
files or the quantity's own default.  ``result = "…"`` and ``method = "…"`` choose among several.
"""

import ast

import numpy as np

from trainer.decks.unit_names import fits
from trainer.decks.words import listed, nearest, quoted
from trainer.errors import FormulaError


def quantity_call(compiler, node, depth, quantity):
    """Return the function of the surroundings that computes ``quantity``; refuses what does not fit."""
    given, choices = _arguments(compiler, node, quantity)
    result = _choice(compiler, node, choices, "result", [result.name for result in quantity.results])
    method = _choice(compiler, node, choices, "method", list(quantity.methods))
    inputs = {}
    for spec in quantity.inputs:
        inputs[spec.name] = _source(compiler, node, depth, spec, given.get(spec.name))

    def run(around):
        values = {name: source(around) for name, source in inputs.items()}
        with np.errstate(all="ignore"):
            return np.asarray(quantity.compute(values, method=method)[result], dtype=float)

    return run


def _arguments(compiler, node, quantity):
    names = [spec.name for spec in quantity.inputs]
    if len(node.args) > len(names):
        compiler.refuse(node, f"{quantity.name} takes {listed(names)}")
    given = dict(zip(names, node.args, strict=False))
    choices = {}
    for keyword in node.keywords:
        if keyword.arg in ("result", "method") and keyword.arg not in names:
            choices[keyword.arg] = keyword.value
        elif keyword.arg not in names:
            near = nearest(keyword.arg, names)
            compiler.refuse(node, f"{quantity.name} has no input {quoted(keyword.arg or '**')}{near}")
        elif keyword.arg in given:
            compiler.refuse(node, f"{quantity.name} is given {quoted(keyword.arg)} twice")
        else:
            given[keyword.arg] = keyword.value
    return given, choices


def _choice(compiler, node, choices, key, options):
    """Return the chosen result or method, the first one when none is named."""
    if key not in choices:
        return options[0]
    chosen = choices[key]
    if not isinstance(chosen, ast.Constant) or chosen.value not in options:
        compiler.refuse(node, f"{key} must be one of: {listed(options)}")
    return chosen.value


def _source(compiler, node, depth, spec, given):
    """Return the function that gives the value of the input ``spec``."""
    if spec.unit == "table":
        return _table_source(compiler, node, spec, given)
    if given is not None:
        _check_unit(compiler, node, spec, given)
        return compiler.number(given, depth)
    if not spec.take and spec.default is None:
        compiler.refuse(node, f"{quoted(spec.name)} is missing")
    return lambda around: _taken(around, spec)


def _check_unit(compiler, node, spec, given):
    """Refuse a name in another unit than the input's: ``altitude_ft`` where angels are meant."""
    unit = compiler.units.get(given.id, "") if isinstance(given, ast.Name) else ""
    if not fits(unit, spec.unit):
        compiler.refuse(node, f"{quoted(given.id)} is in {unit}, {quoted(spec.name)} is in {spec.unit}")


def _table_source(compiler, node, spec, given):
    reference = spec.take
    if given is not None:
        reference = given.value if isinstance(given, ast.Constant) else None
    if not isinstance(reference, str) or not reference:
        compiler.refuse(node, f'{quoted(spec.name)} is a table; name it as in "airframe.trim"')
    compiler.tables.add(reference)

    def table(around):
        if reference not in around.tables:
            raise FormulaError(f"there is no table {quoted(reference)}{nearest(reference, around.tables)}")
        return around.tables[reference]

    return table


def _taken(around, spec):
    if spec.take in around.files:
        return around.files[spec.take]
    if spec.default is None:
        raise FormulaError(f"{quoted(spec.take)} is not in your files")
    return spec.default
