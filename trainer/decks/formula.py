"""Formulas of decks: arithmetic on declared names and nothing else.

A deck may come from a stranger.  The length is limited before Python's parser sees the text, every node of
the tree must be on a short list, all numbers are floats (so that none can grow without bound), exponents
are bounded, and only the functions of ``functions``, quantities and tables of the user's files can be
called, by name.
"""

import ast
import warnings
from collections.abc import Callable, Mapping
from typing import Any, NoReturn

import numpy as np

from trainer.decks.functions import FUNCTIONS, HAIR, TABLE
from trainer.decks.quantity_call import quantity_call
from trainer.decks.words import listed, nearest, printable, quoted
from trainer.engine.quantities import QUANTITIES
from trainer.errors import FormulaError
from trainer.frozen import frozen

LONGEST = 500
MOST_NODES = 200
DEEPEST = 30
LARGEST_EXPONENT = 20.0
LARGEST_NUMBER = 1e15
ALLOWED = frozenset(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_ .,+-*/%()<>=!\"'\n\r\t"
)  # fmt: skip


@frozen
class Surroundings:
    """What a formula is evaluated with: values by name; tables and numbers of the user's files."""

    values: Mapping[str, Any]
    tables: Mapping[str, Any]
    files: Mapping[str, float]


@frozen
class Formula:
    """A checked formula.  ``names``, ``tables`` and ``quantities`` are what it uses.

    ``condition`` is true for a formula that says yes or no (``keep``) and not a number.
    """

    text: str
    names: frozenset[str]
    tables: frozenset[str]
    quantities: frozenset[str]
    condition: bool
    run: Callable[[Surroundings], Any]

    def evaluate(self, values, tables=None, files=None):
        """Return the value for ``values`` ({name: float or array}); arrays give an array.

        ``tables`` and ``files`` are those of the library; a condition gives booleans.  Raises
        ``FormulaError`` when the result is not a finite number, and ``DomainError`` where a table or a
        quantity does not hold.
        """
        around = Surroundings(values=values, tables=tables or {}, files=files or {})
        # A condition may guard a division (`x != 0 and y / x > 2`), and both sides of it are worked out.
        strict = "ignore" if self.condition else "raise"
        try:
            with np.errstate(divide=strict, invalid=strict, over=strict, under="ignore"):
                result = np.asarray(self.run(around))
        except FloatingPointError:
            result = np.asarray(np.nan)
        except (ArithmeticError, ValueError) as error:
            raise FormulaError(f"{quoted(self.text)} can't be worked out: {printable(error)}") from None
        if self.condition:
            return result.astype(bool)[()]
        result = result.astype(float)
        if not np.all(np.isfinite(result)):
            raise FormulaError(f"{quoted(self.text)} is no finite number", hint="is something divided by 0?")
        return result[()]


def compile_formula(text, names, *, condition=False, quantities=QUANTITIES):
    """Return the ``Formula`` of ``text``, which may use ``names``; raises ``FormulaError`` with the column.

    ``names`` may be a mapping to unit names: then a quantity is refused a name in another unit.

    >>> float(compile_formula("round(fuel_lb, 100) / 2", ["fuel_lb"]).evaluate({"fuel_lb": 3_460}))
    1750.0
    """
    body, offset = _parse(text)
    compiler = _Compiler(names, quantities, offset)
    run, yes_no = compiler.compile(body, 0)
    if yes_no != condition:
        wanted = "a condition like `fuel_lb > 2000`" if condition else "a number, and this is a condition"
        raise FormulaError(f"{quoted(text)} must be {wanted}")
    return Formula(
        text=text, names=frozenset(compiler.used), tables=frozenset(compiler.tables),
        quantities=frozenset(compiler.called), condition=condition, run=run,
    )  # fmt: skip


def _parse(text):
    """Return (expression, how many characters were cut off in front)."""
    if len(text) > LONGEST:
        raise FormulaError(f"it is longer than {LONGEST} characters")
    for column, character in enumerate(text, start=1):
        if character not in ALLOWED:
            raise FormulaError(f"{quoted(character)} has no place in a formula", column=column)
    offset = len(text) - len(text.lstrip())
    flat = text.strip().replace("\n", " ").replace("\r", " ").replace("\t", " ")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return ast.parse(flat, mode="eval").body, offset
    except SyntaxError as error:
        column = max(error.offset or 1, 1) + offset
        raise FormulaError(f"{quoted(text)} is not arithmetic", column=column) from None
    except (ValueError, MemoryError, RecursionError):
        raise FormulaError(f"{quoted(text)} is not arithmetic") from None


class _Compiler:
    """Turns a tree into closures; collects the names, tables and quantities that are used."""

    def __init__(self, names, quantities, offset):
        self.names = frozenset(names)
        self.units = names if isinstance(names, Mapping) else {}
        self.quantities = quantities
        self.offset = offset
        self.used, self.tables, self.called = set(), set(), set()
        self.nodes = 0

    def compile(self, node, depth):
        """Return (function of the surroundings, whether it gives yes or no)."""
        self.nodes += 1
        if self.nodes > MOST_NODES or depth > DEEPEST:
            self.refuse(node, "it is too large; compute a part of it as an input of its own")
        make = _NODES.get(type(node))
        if make is None:
            self.refuse(node, "only arithmetic has a place in a formula")
        return make(self, node, depth + 1)

    def number(self, node, depth):
        """Return the function of a part that must be a number; a condition counts as 1 or 0."""
        run, yes_no = self.compile(node, depth)
        return (lambda around: np.asarray(run(around), dtype=float)) if yes_no else run

    def truth(self, node, depth):
        """Return the function of a part that must be a condition."""
        run, yes_no = self.compile(node, depth)
        if not yes_no:
            self.refuse(node, "`and`, `or`, `not` stand between conditions like `fuel_lb > 2000`")
        return run

    def refuse(self, node: ast.AST, message: str) -> NoReturn:
        """Raise ``FormulaError`` at ``node``."""
        raise FormulaError(message, column=getattr(node, "col_offset", 0) + 1 + self.offset)


def _constant(compiler, node, depth):
    if type(node.value) not in (int, float):
        compiler.refuse(node, "only numbers, names and the listed functions have a place in a formula")
    if not abs(node.value) <= LARGEST_NUMBER:
        compiler.refuse(node, f"a number is larger than {LARGEST_NUMBER:g}")
    value = np.float64(node.value)
    return (lambda around: value), False


def _name(compiler, node, depth):
    name = node.id
    if name not in compiler.names:
        known = listed(sorted(compiler.names)) or "none"
        compiler.refuse(node, f"{quoted(name)} is no input{nearest(name, compiler.names)} (known: {known})")
    compiler.used.add(name)
    return (lambda around: _given(around, name)), False


def _given(around, name):
    if name not in around.values:
        raise FormulaError(f'the value of "{name}" is not known')
    return np.asarray(around.values[name], dtype=float)


def _power(base, exponent):
    if not np.all(np.abs(exponent) <= LARGEST_EXPONENT):
        raise FormulaError(f"an exponent is larger than {LARGEST_EXPONENT:g}")
    return np.power(base, exponent)


def _check_exponent(compiler, node, exponent):
    """Refuse an exponent of numbers alone that is too large, before anything is drawn."""
    if not any(isinstance(part, (ast.Name, ast.Call)) for part in ast.walk(node)):
        with np.errstate(all="ignore"):
            value = exponent(Surroundings(values={}, tables={}, files={}))
        if not abs(value) <= LARGEST_EXPONENT:
            compiler.refuse(node, f"an exponent is larger than {LARGEST_EXPONENT:g}")


_ARITHMETIC = {
    ast.Add: np.add, ast.Sub: np.subtract, ast.Mult: np.multiply, ast.Div: np.divide,
    ast.FloorDiv: np.floor_divide, ast.Mod: np.mod, ast.Pow: _power,
}  # fmt: skip


def _binary(compiler: "_Compiler", node, depth):
    operation = _ARITHMETIC.get(type(node.op))
    if operation is None:
        compiler.refuse(node, "the signs of a formula are + - * / // % **")
    left, right = compiler.number(node.left, depth), compiler.number(node.right, depth)
    if isinstance(node.op, ast.Pow):
        _check_exponent(compiler, node.right, right)
    return (lambda around: operation(left(around), right(around))), False


def _unary(compiler, node, depth):
    if isinstance(node.op, ast.Not):
        inner = compiler.truth(node.operand, depth)
        return (lambda around: np.logical_not(inner(around))), True
    if not isinstance(node.op, (ast.USub, ast.UAdd)):
        compiler.refuse(node, "the signs of a formula are + - * / // % **")
    inner = compiler.number(node.operand, depth)
    return ((lambda around: -inner(around)) if isinstance(node.op, ast.USub) else inner), False


def _close(left, right):
    # Drawn steps such as 0.1 are not exact, and a deck's author means them to be.
    return np.abs(left - right) <= HAIR * np.maximum(1.0, np.maximum(np.abs(left), np.abs(right)))


_COMPARISONS = {
    ast.Eq: _close,
    ast.NotEq: lambda left, right: ~_close(left, right),
    ast.Lt: lambda left, right: (left < right) & ~_close(left, right),
    ast.Gt: lambda left, right: (left > right) & ~_close(left, right),
    ast.LtE: lambda left, right: (left < right) | _close(left, right),
    ast.GtE: lambda left, right: (left > right) | _close(left, right),
}


def _compare(compiler, node, depth):
    for operator in node.ops:
        if type(operator) not in _COMPARISONS:
            compiler.refuse(node, "conditions are < <= > >= == !=")
    operands = [compiler.number(part, depth) for part in (node.left, *node.comparators)]
    compares = [_COMPARISONS[type(operator)] for operator in node.ops]

    def run(around):
        values = [operand(around) for operand in operands]
        pairs = zip(compares, values, values[1:], strict=False)
        return np.logical_and.reduce(np.broadcast_arrays(*[compare(a, b) for compare, a, b in pairs]))

    return run, True


def _boolean(compiler, node, depth):
    parts = [compiler.truth(part, depth) for part in node.values]
    join = np.logical_and if isinstance(node.op, ast.And) else np.logical_or
    return (lambda around: join.reduce(np.broadcast_arrays(*[part(around) for part in parts]))), True


def _call(compiler, node, depth):
    if not isinstance(node.func, ast.Name):
        compiler.refuse(node, "only the listed functions, quantities and table(…) can be called")
    name = node.func.id
    if name in FUNCTIONS:
        return _function(compiler, node, depth, name), False
    if name == TABLE:
        return _table(compiler, node, depth), False
    if name in compiler.quantities:
        compiler.called.add(name)
        return quantity_call(compiler, node, depth, compiler.quantities[name]), False
    near = nearest(name, (*FUNCTIONS, TABLE, *compiler.quantities))
    known = f" (known: {listed(FUNCTIONS)}, table, and quantities)"
    return compiler.refuse(node, f"{quoted(name)} can't be called{near or known}")


def _function(compiler, node, depth, name):
    function, fewest, most = FUNCTIONS[name]
    if node.keywords or not fewest <= len(node.args) <= most:
        count = f"{fewest}" if fewest == most else f"{fewest} to {most}"
        compiler.refuse(node, f"{name} takes {count} value{'s' if count != '1' else ''} in brackets")
    arguments = [compiler.number(part, depth) for part in node.args]
    return lambda around: function(*[argument(around) for argument in arguments])


def _table(compiler, node, depth):
    if len(node.args) != 2 or node.keywords or not _is_text(node.args[0]):
        compiler.refuse(node, 'a table is read as table("airframe.trim", gross_weight_lb)')
    reference = node.args[0].value
    compiler.tables.add(reference)
    argument = compiler.number(node.args[1], depth)

    def run(around):
        if reference not in around.tables:
            raise FormulaError(f"there is no table {quoted(reference)}{nearest(reference, around.tables)}")
        return around.tables[reference](argument(around))

    return run


def _is_text(node):
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


_NODES = {
    ast.Constant: _constant, ast.Name: _name, ast.BinOp: _binary, ast.UnaryOp: _unary,
    ast.Compare: _compare, ast.BoolOp: _boolean, ast.Call: _call,
}  # fmt: skip
