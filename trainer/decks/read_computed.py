"""Computed drills: a quantity of the engine, or a formula of the deck's own, with drawn inputs."""

from trainer.decks.read_common import read_drill, read_tolerance
from trainer.decks.read_draws import Draws
from trainer.decks.shape import REQUIRED
from trainer.decks.told import check_told
from trainer.decks.unit_names import read_unit
from trainer.decks.words import quoted
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, RULE
from trainer.model import ComputedDrill, DeckSlip, Tolerance

EITHER = "either"
FEWEST_SLIPS = 2
MOST_SLIPS = 30
MOST_CONDITIONS = 20
MOST_LINES = 30
FORMULA_ONLY = ("unit", "round_to", "steps")
QUANTITY_ONLY = ("result", "method")


def read_computed(top, setting):
    """Return the ``ComputedDrill`` in the table ``top``; faults are noted."""
    name = top.data.get("quantity")
    table, common = read_drill(top, setting, "computed", group=name if isinstance(name, str) else "")
    quantity, fields = read_rule(table)
    draws = Draws(table.table("draw"), quantity.inputs if quantity else ())
    truth = draws.compile(table, "formula", fields["formula"])
    keep = read_conditions(table, draws)
    slips = read_slips(table, draws)
    if quantity or fields["formula"]:
        check_slips(table, slips, quantity, fields["result"])
    texts = read_texts(table, draws, formula_drill=table.has("formula"))
    if quantity or truth:
        check_told(table, draws, quantity, truth, texts)
    table.finish()
    setting.references.extend(draws.references)
    common["group"] = common["group"] or common["id"]
    drawn = tuple(draws.draws.values())
    return ComputedDrill(**common, **fields, **texts, draws=drawn, keep=keep, slips=slips)


def read_rule(table):
    """Return (quantity or ``None``, the fields that say how the truth is worked out)."""
    fields = {"quantity": "", "result": "", "method": "", "formula": "", "unit": "", "round_to": 0.0}
    both = table.has("quantity"), table.has("formula")
    quantity = None
    if all(both) or not any(both):
        table.fault("", 'a computed drill has either "quantity" or "formula"', missing=not any(both))
        table.known += (*FORMULA_ONLY, *QUANTITY_ONLY)
    elif table.has("quantity"):
        quantity = read_quantity(table, fields)
        refuse(table, FORMULA_ONLY, "stands with a formula; a quantity brings its own")
    else:
        fields["formula"] = table.text("formula", REQUIRED, literal=False)
        fields["unit"] = read_unit(table)
        fields["round_to"] = table.number("round_to", 0.0, low=0) or 0.0
        refuse(table, QUANTITY_ONLY, "stands with a quantity, and this drill has a formula")
    tolerance = read_tolerance(table, required=bool(fields["formula"]))
    fields["tolerance"] = Tolerance(on=tolerance[0], inside=tolerance[1]) if tolerance else None
    return quantity, fields


def read_quantity(table, fields):
    """Return the quantity that the drill names, ``None`` after a fault; fills ``fields``."""
    name = table.word("quantity", QUANTITIES)
    quantity = QUANTITIES.get(name)
    fields["quantity"] = name
    if quantity is None:
        table.known += QUANTITY_ONLY
        return None
    results = [result.name for result in quantity.results]
    fields["result"] = table.word("result", results, "")
    both = EXACT in quantity.methods and RULE in quantity.methods
    methods = [*quantity.methods, *([EITHER] if both else [])]
    fields["method"] = table.word("method", methods, "")
    return quantity


def refuse(table, keys, reason):
    """Note each of ``keys`` that stands in the table."""
    for key in keys:
        if table.has(key):
            table.fault(key, f'"{key}" {reason}')


def read_conditions(table, draws):
    """Return the conditions that a draw must meet."""
    keep = table.texts("keep", most=MOST_CONDITIONS, literal=False)
    for index, text in enumerate(keep):
        draws.compile(table.at("keep"), index, text, condition=True)
    return keep


def read_slips(table, draws):
    """Return the slips that the deck names."""
    slips = []
    for entry in table.tables("slip", most=MOST_SLIPS):
        name = entry.text("name", REQUIRED, longest=80)
        words = entry.asked("words", REQUIRED, draws.shown)
        formula = entry.text("formula", REQUIRED, literal=False)
        draws.compile(entry, "formula", formula)
        entry.finish()
        if name in [slip.name for slip in slips]:
            entry.fault("name", f"the slip {quoted(name)} stands twice")
        slips.append(DeckSlip(name=name, words=words, formula=formula))
    return tuple(slips)


def own_slips(quantity, result=""):
    """Return the slips that ``quantity`` brings for its ``result`` ("" for the first)."""
    wanted = quantity.result(result).name
    return [slip for slip in quantity.slips if (slip.result or quantity.result().name) == wanted]


def check_slips(table, slips, quantity, result):
    """Note a drill that can't tell two different slips."""
    own = own_slips(quantity, result) if quantity else []
    if len(slips) + len(own) < FEWEST_SLIPS:
        brought = f"; {quantity.name} brings {len(own)}" if quantity else ""
        message = f"at least {FEWEST_SLIPS} slips are named in [[computed.slip]]{brought}"
        table.fault("", message, missing=True)
    for slip in slips:
        if slip.name in [other.name for other in own]:
            table.fault("slip", f"{quantity.name} brings the slip {quoted(slip.name)} itself")


def read_texts(table, draws, *, formula_drill):
    """Return the texts of the drill; they may name what is drawn, and the steps ``{answer}`` as well."""
    names = draws.shown
    texts = {
        "ask": table.asked("ask", REQUIRED, names),
        "hint": table.asked("hint", "", names),
        "why": table.asked("why", "", names),
        "steps": (),
    }
    if formula_drill and not table.has("quantity"):
        texts["steps"] = table.texts("steps", most=MOST_LINES, literal=False)
        if not table.has("steps"):
            table.fault("", '"steps" is missing: the lines of the worked solution', missing=True)
        for index, text in enumerate(texts["steps"]):
            table.at("steps").check_placeholders(index, text, [*names, "answer"])
    return texts
