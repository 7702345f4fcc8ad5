"""The engine as a calculator: the inputs of a quantity as people write them, worked out."""

import contextlib
from typing import Any

from trainer.engine import display, picture_text
from trainer.engine.quantity import stated
from trainer.engine.units import UNITS, convert
from trainer.errors import TrainerError, UsageError
from trainer.frozen import frozen
from trainer.practice import examples, input_names, inputs

UNITS_OF_A_KIND = (
    ("nm", "ft", "yd", "m", "km", "sm"),
    ("kn", "mph", "km/h", "m/s", "ft/s", "nm/min"),
    ("c", "f", "k"),
    ("hpa", "inhg", "pa"),
    ("lb", "kg"),
    ("s", "min", "h"),
    ("lb/h", "lb/min", "kg/h", "kg/min"),
    ("gal", "l", "imp gal"),
    ("lb/gal", "kg/l"),
    ("deg", "radials"),
)
METRIC_FUEL = {"l", "kg/l", "kg/h", "kg/min"}  # whoever writes these weighs in kilograms


@frozen
class Worked:
    """One calculation: ``inputs`` by name, and per result (result, exact value, stated value).

    ``assumed`` tells where an input that was not given comes from; ``units`` are those that the person wrote.
    """

    quantity: Any
    method: str
    inputs: dict[str, Any]
    results: tuple[tuple[Any, float, float], ...]
    assumed: dict[str, str]
    units: tuple[str, ...] = ()


def work_out(quantity, given, library, *, method=""):
    """Return ``Worked`` for the texts ``given`` by input name.

    What is not given comes from the user's files or the input's default.  Raises ``UsageError`` for an input
    that is missing, unknown or can't be read, and ``DomainError`` outside the valid range.
    """
    method = _method(quantity, method)
    known, missing = gathered(quantity, given, library)
    if missing:
        raise _needs(quantity, given, missing, library)
    numbers = {name: value for name, (value, _) in known.items()}
    values = quantity.compute(numbers, method=method)
    return Worked(
        quantity=quantity,
        method=method or next(iter(quantity.methods)),
        inputs=numbers,
        results=tuple(
            (result.of(numbers), float(values[result.name]), float(stated(result, values[result.name])))
            for result in quantity.results
        ),
        assumed={name: whence for name, (_, whence) in known.items() if whence},
        units=_units_typed(quantity, given),
    )


def gathered(quantity, given, library) -> tuple[dict[str, Any], list[Any]]:
    """Return {input: (value, where it comes from)} and the inputs of which nothing is known."""
    texts = input_names.texts_by_name(quantity, given)
    known = {spec.name: _known(spec, texts, library) for spec in quantity.inputs}
    return known, [spec for spec in quantity.inputs if known[spec.name] is None]


def _needs(quantity, given, missing, library):
    """Return the ``UsageError`` that names what is ``missing``, with a command that works when it is typed."""

    def works(texts):
        with contextlib.suppress(TrainerError):
            known, lacking = gathered(quantity, texts, library)
            return not lacking and bool(quantity.compute({name: value for name, (value, _) in known.items()}))
        return False

    hint = examples.example(quantity, library, given, missing, works)
    if any(spec.unit == "table" for spec in missing):
        hint = "the table comes from a data file of yours: `trainer deck new airframe FILE` begins one"
    return UsageError(f"{quantity.name} needs {input_names.list_options(missing)}", hint=hint)


def fits(quantity, given, library):
    """Return whether ``quantity`` takes every input of ``given`` and lacks none."""
    try:
        texts = input_names.texts_by_name(quantity, given)
    except UsageError:
        return False
    return all(_known(spec, dict.fromkeys(texts, ""), library, read=False) for spec in quantity.inputs)


def _method(quantity, typed):
    """Return the method that ``typed`` begins, "" for the first one."""
    wanted = typed.strip().lower()
    if not wanted or wanted in quantity.methods:
        return wanted
    begun = [name for name in quantity.methods if name.replace("-", " ").startswith(wanted.replace("-", " "))]
    if not begun:
        raise UsageError(f"{quantity.name} has no method {typed!r}", hint=f"it has: {', '.join(quantity.methods)}")
    return begun[0]


def as_read(worked):
    """Return the inputs as they were read, "gross weight 33,500 lb": a slip of the pen is seen at once."""
    told = []
    for spec in worked.quantity.inputs:
        value = worked.inputs[spec.name]
        if spec.unit != "table" and spec.name not in worked.assumed:
            shown = display.coded(value, spec.words) if spec.words else display.value(value, spec.unit)
            told.append(f"{spec.title} {shown}")
    return ", ".join(told)


def careful(worked):
    """Return what the values that were taken, and not given, leave out."""
    return [spec.careful for spec in worked.quantity.inputs if spec.careful and spec.name in worked.assumed]


def _known(spec, texts, library, *, read=True):
    """Return (value, where it comes from, "" if given) of an input, None where nothing is known of it."""
    if spec.name in texts:
        return (inputs.read(spec, texts[spec.name], library), "") if read else ("", "")
    for shelf in (library.values, library.tables):
        if spec.take in shelf:
            return shelf[spec.take], spec.take
    return None if spec.default is None else (spec.default, "usual value")


def _units_typed(quantity, given):
    """Return the units that the person wrote, in which the results are told as well."""
    texts = input_names.texts_by_name(quantity, given)
    typed = [inputs.unit_typed(spec, texts[spec.name]) for spec in quantity.inputs if spec.name in texts]
    metric = ["kg"] if METRIC_FUEL & set(typed) else []
    return tuple(dict.fromkeys(unit for unit in (*typed, *metric) if unit))


def as_json(worked, steps):
    """Return ``worked`` as a JSON record: exact value, stated value and unit per result."""
    quantity = worked.quantity
    return {
        "quantity": quantity.name,
        "title": quantity.title,
        "method": worked.method,
        "inputs": {
            spec.name: {
                "value": _plain(worked.inputs[spec.name]),
                "unit": spec.unit,
                "from": worked.assumed.get(spec.name, "given"),
            }
            for spec in quantity.inputs
        },
        "results": {
            result.name: {
                "value": value,
                "stated": round(stated_value, 9),
                "unit": result.unit,
                "text": result_text(result, stated_value),
                "also": in_other_units(result, value),
            }
            for result, value, stated_value in worked.results
        },
        "careful": careful(worked),
        "steps": list(steps),
        "source": {
            "text": quantity.source.text,
            "section": quantity.source.section,
            "url": quantity.source.url,
            "status": quantity.source.status,
        },
    }


def in_other_units(result, value):
    """Return {unit: value} of an exact result in every other unit of its kind that pages print."""
    kind = next((kind for kind in UNITS_OF_A_KIND if result.unit in kind and not result.words), ())
    return {unit: float(convert(value, result.unit, unit)) for unit in kind if unit != result.unit}


def told_again(result, value, units):
    """Return an exact result in those of ``units``, the ones a person wrote, that it can be told in."""
    kind = UNITS[result.unit].dimension
    if result.words:
        return []
    return [
        display.value(convert(value, result.unit, unit), unit) for unit in units
        if UNITS[unit].dimension == kind and unit != result.unit
    ]  # fmt: skip


def _plain(value):
    return getattr(value, "name", None) or float(value)


def result_text(result, value):
    """Return a stated result as the trade writes it."""
    if result.words:
        return display.coded(value, result.words)
    return display.value(value, result.unit, result.round_to or None)


def steps(worked):
    """Return the worked solution as (heading, lines) pairs: in the head first, then exactly."""
    inputs = {name: value if not hasattr(value, "item") else value.item() for name, value in worked.inputs.items()}
    parts = [("in the head", worked.quantity.mental(**inputs))]
    if worked.quantity.exact is not None:
        parts.append(("exactly", worked.quantity.exact(**inputs)))
    return parts


def picture(worked, *, ascii_only):
    """Return the lines of the quantity's small picture, () where it has none."""
    if worked.quantity.picture is None:
        return ()
    return picture_text.lines(worked.quantity.picture(**worked.inputs), ascii_only=ascii_only)
