"""Radio calls: made (``[[call]]``, items in a named order) or heard (``[[listen]]``, items asked after it)."""

from trainer.decks.read_common import read_drill
from trainer.decks.read_computed import read_conditions
from trainer.decks.read_draws import Draws
from trainer.decks.shape import REQUIRED
from trainer.decks.unit_names import read_unit
from trainer.decks.words import nearest, quoted
from trainer.model import CallDrill, CallItem

MOST_ITEMS = 20


def read_call(top, setting):
    """Return the ``CallDrill`` of a call that the person makes; faults are noted."""
    table, draws, common = _start(top, setting)
    ordered = table.yes_no("ordered", True)
    order = table.text("order", REQUIRED if table.data.get("ordered", True) is True else "")
    items = [_spoken(entry, draws) for entry in _items(table)]
    return _finish(table, draws, setting, items, common | {"order": order, "ordered": ordered}, REQUIRED)


def read_listen(top, setting):
    """Return the ``CallDrill`` of a call that the person hears; faults are noted."""
    table, draws, common = _start(top, setting)
    hear = table.asked("hear", REQUIRED, draws.draws)
    items = [_asked(entry, draws) for entry in _items(table)]
    most = max(len(items), 1)
    count = table.number("count", min(3, most), low=1, high=most)
    if count is not None and count != int(count):
        table.fault("count", f"{count:g} must be a whole number")
    return _finish(table, draws, setting, items, common | {"hear": hear, "count": int(count or 1)}, "")


def _start(top, setting):
    table, common = read_drill(top, setting, "recall")
    return table, Draws(table.table("draw"), words_allowed=True), common


def _items(table):
    items = table.tables("item", most=MOST_ITEMS)
    if not items and not table.data.get("item"):
        table.fault("", "there is no item", missing=True)
    return items


def _finish(table, draws, setting, items, fields, ask):
    """Read what both kinds share, and note keys and draws that nobody asked for."""
    names = list(draws.draws)
    texts = {"ask": table.asked("ask", ask, names), "hint": table.asked("hint", "", names)}
    texts["why"] = table.asked("why", "", names)
    keep = read_conditions(table, draws)
    table.finish()
    setting.references.extend(draws.references)
    return CallDrill(**fields, **texts, draws=tuple(draws.draws.values()), items=tuple(items), keep=keep)


def _ways(entry, draws):
    """Return the other wordings and the refused ones."""
    ways, refuse = entry.texts("or", literal=False), entry.texts("refuse", literal=False)
    for key, texts in (("or", ways), ("refuse", refuse)):
        for index, text in enumerate(texts):
            entry.at(key).check_placeholders(index, text, list(draws.draws))
    return {"ways": ways, "refuse": refuse}


def _spoken(entry, draws):
    item = CallItem(
        name=entry.text("name", REQUIRED, longest=80),
        say=entry.asked("say", REQUIRED, list(draws.draws)),
        optional=entry.yes_no("optional", False),
        anywhere=entry.yes_no("anywhere", False),
        skipped=entry.text("skipped"),
        **_ways(entry, draws),
    )
    entry.finish()
    return item


def _asked(entry, draws):
    names = list(draws.draws)
    if ("value" in entry.data) == ("say" in entry.data):
        entry.fault("", 'an item has exactly one of "value" (a number) and "say" (words)')
    value = entry.text("value")
    unit = read_unit(entry, draws.draws[value].unit if value in draws.draws else "")
    if value and value not in draws.draws:
        entry.fault("value", f"{quoted(value)} is no input that is drawn{nearest(value, names)}")
    item = CallItem(
        name=entry.text("name", REQUIRED, longest=80), ask=entry.asked("ask", REQUIRED, names),
        say=entry.asked("say", "", names), value=value, unit=unit, **_ways(entry, draws),
    )  # fmt: skip
    entry.finish()
    return item
