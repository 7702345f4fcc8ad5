"""What the calculator says."""

from trainer.engine import display
from trainer.engine.units import UNITS
from trainer.practice import calculator, input_names


def quantity_list(quantities, look):
    """Return the list of quantities by area, one line each."""
    lines = []
    width = max((len(quantity.name) for quantity in quantities), default=0)
    for area in dict.fromkeys(quantity.area for quantity in quantities):
        lines.append(f"{area}")
        for quantity in quantities:
            if quantity.area == area:
                lines += look.wrap(f"{quantity.name:{width}}  {quantity.title}", indent="  ", hanging=" " * (width + 4))
    lines.append("")
    lines += look.wrap("`trainer compute NAME` tells what one needs; `trainer compute WORD` finds by word.")
    return lines


def quantity_card(quantity, look):
    """Return what one quantity needs and gives."""
    lines = [*look.wrap(f"{quantity.name}: {quantity.title}"), ""]
    for spec in quantity.inputs:
        known = f"; else {spec.take or _usual(spec)}" if spec.take or spec.default is not None else ""
        text = f"{input_names.option(spec.name)}  {spec.title} ({limits(spec)}{known})"
        lines += look.wrap(text, indent="  ", hanging="      ")
    lines += look.wrap("gives " + ", ".join(result.title for result in quantity.results))
    if len(quantity.methods) > 1:
        lines += look.wrap(f"--method: {', '.join(quantity.methods)}")
    return lines + source_lines(quantity.source, look)


def limits(spec):
    """Return what may be typed for an input: its words, or its range with the unit as it is written.

    >>> from trainer.engine.quantities import QUANTITIES
    >>> [limits(spec) for spec in QUANTITIES["push_time"].inputs]
    [':00 to :59', '1 to 30', '0.5 to 5 min']
    """
    if spec.unit == "table":
        return "a table of your files"
    if spec.words:
        return ", ".join(spec.words.values())
    unit = UNITS[spec.unit]
    if unit.cycle == 360:
        return "001 to 360"
    if unit.form in ("minute", "clock"):
        return f"{display.value(spec.low, spec.unit)} to {display.value(spec.high, spec.unit)}"
    sign = "," if unit.form != "number" or unit.name in ("ft", "m", "yd") else ""
    low, high = (f"{value:{sign}.2f}".rstrip("0").rstrip(".") for value in (spec.low, spec.high))
    symbol = {"fl": " (flight level)", "angels": " thousand ft", "klb": " thousand lb"}.get(spec.unit, unit.symbol)
    return f"{low} to {high}{symbol}"


def _usual(spec):
    return spec.words[int(spec.default)] if spec.words else display.exact(spec.default, spec.unit)


def worked_lines(worked, look):
    """Return the results, the worked solution, the picture and the source of a calculation."""
    lines = []
    for result, value, stated_value in worked.results:
        again = "".join(f" ({text})" for text in calculator.told_again(result, value, worked.units))
        lines += look.wrap(f"{result.title}: {calculator.result_text(result, stated_value)}{again}")
    if read := calculator.as_read(worked):
        lines += look.wrap(f"for: {read}", hanging="  ")
    for heading, steps in calculator.steps(worked):
        lines.append(f"{heading}:")
        for step in steps:
            lines += look.wrap(step, indent="  ", hanging="    ")
    lines += calculator.picture(worked, ascii_only=not look.unicode)
    if worked.assumed:
        taken = ", ".join(f"{name} from {whence}" for name, whence in worked.assumed.items())
        lines += look.wrap(f"taken: {taken}")
        lines += [line for text in calculator.careful(worked) for line in look.wrap(f"careful: {text}", hanging="  ")]
    return lines + source_lines(worked.quantity.source, look)


def source_lines(source, look):
    """Return the source of a fact with its status."""
    section = f", {source.section}" if source.section else ""
    return look.wrap(f"source: {source.text}{section} – {source.status}", hanging="  ")
