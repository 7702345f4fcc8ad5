"""The engine as a calculator: any quantity, with the worked solution.

With no word it lists the quantities, with a word it finds them.
"""

import contextlib
import json
import sys
from functools import cache

from trainer.errors import DomainError, UsageError
from trainer.practice import calculator, finding, input_names, natural_line
from trainer.terminal import look, tables

EXAMPLE = "trainer compute final_bearing --brc 005 --deck-angle 9"
TAKES_WORDS = True


def arguments(parser):
    """Declare the options of the command; inputs are options named by the quantity."""
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--method", default="", metavar="M", help="'exact' or 'rule of thumb'")
    parser.usage = "%(prog)s [QUANTITY | WORD …] [VALUE …] [--INPUT VALUE …] [--method M] [--json]"


def run(options, words, world):
    """Compute one quantity, or list those that match."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    names, given = _split(words)
    quantity = finding.named("_".join(names)) if names else None
    found = [quantity] if quantity else finding.find(names)
    others = ()
    shelf = cache(world.library)  # read once, and only where it is needed
    if (meant := _as_said(names, given, quantity, shelf)) is not None:
        quantity, given, others = meant.quantity, meant.given, meant.others
        found = [quantity]
    if not found or (given and not names):  # an option alone names no quantity
        raise finding.no_such_quantity(names or [*given])
    if given:
        quantity = quantity or _the_one(names, found, given, shelf)
    if options.json:
        print(_as_json(quantity, found, given, options, shelf))
        return
    if quantity and given:
        lines = _worked(quantity, given, options, shelf(), screen)
        lines += [f"fits as well: {', '.join(others)}"] if others else []
    elif len(found) == 1:
        lines = _card(found[0], options, shelf, screen)
    else:
        lines = tables.quantity_list(found, screen)
    print("\n".join(screen.line(line) for line in lines))


def candidates(before, world):
    """Return what may follow the words ``before`` when the shell asks: names, inputs, words of an input."""
    names = [word for word in before[:1] if not word.startswith("-")]
    quantity = finding.named(names[0]) if names else None
    if quantity is None:
        return [known.name for known in finding.find(())]
    if before[-1] == "--method":
        return list(quantity.methods)
    for spec in quantity.inputs:
        if before[-1] == input_names.option(spec.name):
            return list(spec.words.values())
    options = (input_names.option(spec.name) for spec in quantity.inputs)
    return [option for option in options if option not in before]


def _as_said(names, given, quantity, shelf):
    """Return what a line in no fixed order means, None where ``quantity`` was named with all it needs by name."""
    values = any(natural_line.is_value(name) for name in names)
    if not names or (not values and (quantity or not given)):
        return None
    return natural_line.understood(names, given, shelf())


def _the_one(names, found, given, shelf):
    """Return the one quantity of ``found`` that takes all of ``given`` and lacks nothing; raises ``UsageError``."""
    if len(found) == 1:
        return found[0]
    fitting = [quantity for quantity in found if calculator.fits(quantity, given, shelf())]
    if len(fitting) != 1:
        raise finding.which_one(names, fitting or found)
    return fitting[0]


def _card(quantity, options, shelf, screen):
    """Return what ``quantity`` needs and, where the user's files have all of it, what it is."""
    card = tables.quantity_card(quantity, screen)
    if calculator.fits(quantity, {}, shelf()):
        with contextlib.suppress(DomainError):  # an answer that was not asked for can't be refused
            return [*card, "", *_worked(quantity, {}, options, shelf(), screen)]
    return card


def _split(words):
    """Return (names, {input: text}) of what was typed: ``--brc 5``, ``--brc=5`` and ``brc=5`` are the same."""
    names, given = [], {}
    rest = list(words)
    while rest:
        word = rest.pop(0)
        name, equals, text = word.lstrip("-").partition("=")
        if equals:
            given[name] = text
        elif word.startswith("--"):
            if not rest:
                raise UsageError(f"{word} has no value", hint=f"write {word} and then the value")
            given[name] = rest.pop(0)
            if rest and natural_line.is_value(given[name]) and natural_line.is_unit(rest[0]):
                given[name] += f" {rest.pop(0)}"
        else:
            names.append(word)
    return names, given


def _worked(quantity, given, options, shelf, screen):
    worked = calculator.work_out(quantity, given, shelf, method=options.method)
    return tables.worked_lines(worked, screen)


def _as_json(quantity, found, given, options, shelf):
    """Return the calculation, or the list of quantities found, as JSON text."""
    if quantity is None:
        records = [{"name": q.name, "title": q.title, "area": q.area} for q in found]
        return json.dumps(records, ensure_ascii=False, indent=2)
    worked = calculator.work_out(quantity, given, shelf(), method=options.method)
    steps = [step for _, steps in calculator.steps(worked) for step in steps]
    return json.dumps(calculator.as_json(worked, steps), ensure_ascii=False, indent=2, allow_nan=False)
