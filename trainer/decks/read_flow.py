"""Flows: ordered procedures whose steps depend on one another."""

from trainer.decks.order import circles, remaining
from trainer.decks.read_common import read_drill, read_source
from trainer.decks.said import path_beside
from trainer.decks.shape import REQUIRED
from trainer.decks.words import nearest, normalise, quoted
from trainer.model import FlowDrill, Step

FEWEST_STEPS = 3
MOST_STEPS = 100
MOST_SHORT_FORMS = 30


def read_flow(top, setting):
    """Return the ``FlowDrill`` in the table ``top``; faults are noted."""
    table, common = read_drill(top, setting, "flow")
    title, cue = table.text("title", REQUIRED), table.text("cue", REQUIRED)
    hint, why = table.text("hint"), table.text("why")
    tables = table.tables("step", most=MOST_STEPS)
    steps = [read_step(step, setting) for step in tables]
    if len(steps) < FEWEST_STEPS and len(table.data.get("step", ())) < FEWEST_STEPS:
        table.fault("", f"a flow has at least {FEWEST_STEPS} steps, this one {len(steps)}", missing=True)
    check_ids(tables, steps)
    check_order(table, tables, steps)
    check_words(tables, steps)
    table.finish()
    said = str(path_beside(setting.path, common["id"]))
    return FlowDrill(**common, title=title, cue=cue, hint=hint, why=why, steps=tuple(steps), said=said)


def read_step(table, setting):
    """Return the ``Step`` in ``table``."""
    step = Step(
        id=table.identifier(),
        do=table.text("do", REQUIRED),
        short=table.texts("short", most=MOST_SHORT_FORMS),
        actor=table.text("actor", "pilot", longest=60),
        cue=table.text("cue"),
        after=table.texts("after", most=MOST_STEPS),
        skipped=table.text("skipped"),
        source=read_source(table, setting, required=False),
        optional=table.yes_no("optional", False),
    )
    table.finish()
    return step


def check_ids(tables, steps):
    """Note ids that stand twice, and prerequisites that are no step of this flow."""
    first = {}
    for table, step in zip(tables, steps, strict=True):
        if step.id and step.id in first:
            message = f'step "{step.id}" stands twice in this flow; the first is step {first[step.id]}'
            table.fault("id", message)
        first.setdefault(step.id, len(first) + 1)
    for table, step in zip(tables, steps, strict=True):
        for index, before in enumerate(step.after):
            if before not in first:
                near = nearest(before, [known for known in first if known])
                table.at("after", index).fault("", f"{quoted(before)} is no step of this flow{near}")


def check_order(flow, tables, steps):
    """Note circles, steps that wait for one, and steps that the file puts before their prerequisite."""
    after, places = {}, {}
    for table, step in zip(tables, steps, strict=True):
        if step.id and step.id not in after:
            after[step.id], places[step.id] = step.after, table
    in_circle = set()
    for circle in circles(after):
        in_circle.update(circle)
        way = " after ".join((*circle, circle[0]))
        places[circle[0]].fault("after", f"the steps wait for each other: {way}")
    never = remaining(after)
    for step_id in never:
        if step_id not in in_circle:
            places[step_id].fault("after", f'step "{step_id}" can never be reached: it waits for a circle')
    seen = set()
    for step in steps:
        seen.add(step.id)
        late = [before for before in step.after if before in after and before not in seen]
        if late and step.id in places and step.id not in never:
            message = f'step "{step.id}" stands before "{late[0]}", which it comes after'
            places[step.id].fault("after", message)


def check_words(tables, steps):
    """Note wordings that two steps accept: nobody could tell which one was meant."""
    owner = {}
    for number, (table, step) in enumerate(zip(tables, steps, strict=True)):
        for key, words in (("do", step.do), *((("short", i), text) for i, text in enumerate(step.short))):
            meaning = normalise(words)
            if words and not meaning:
                table.fault("do", f"{quoted(words)} holds no word")
            elif words and owner.setdefault(meaning, number) != number:
                other = steps[owner[meaning]].id
                place = table.at(*key) if isinstance(key, tuple) else table.at(key)
                place.fault("", f'{quoted(words)} also means step "{other}" of this flow')
