"""Faults that several files have together: ids twice, prerequisites, values of the user's files."""

from collections.abc import Callable, Iterable

from trainer.decks.order import circles
from trainer.decks.read_draws import CALLED
from trainer.decks.unit_names import fits, unit_of
from trainer.decks.words import nearest, quoted

MOST_DRILLS_IN_ALL = 5_000


def crossing_faults(
    files, data, *, context=(), other_ids: Callable[[], Iterable[str]] = frozenset, with_data: bool = True
):
    """Return the faults among ``files`` (``DeckFile``s) with ``data`` ({"ship": ``DataFile``, …}).

    ``context`` are further decks that count but whose own faults are not reported; ``other_ids`` returns
    ids known elsewhere, and is called only when a prerequisite is not found here.
    """
    faults = doubled(files, context)
    faults += prerequisites(files, context, other_ids)
    faults += [fault for file in files for fault in references(file, data)] if with_data else []
    return faults + too_many(files, context)


def too_many(files, context):
    """Return a fault for each file whose drills are more than are read in all."""
    faults, count = [], 0
    for file in (*context, *files):
        count += len(file.places)
        if count > MOST_DRILLS_IN_ALL:
            message = f"there are {count:,} drills in all; at most {MOST_DRILLS_IN_ALL:,} are read"
            faults.append(file.fault((), "", message))
            count -= len(file.places)
    return faults


def doubled(files, context):
    """Return a fault for each id that another deck has already."""
    faults, owner = [], {}
    for file in (*context, *files):
        for drill_id, place in file.places.items():
            if drill_id not in owner:
                owner[drill_id] = (file, place)
            elif file in files:
                first, first_place = owner[drill_id]
                message = f"the id stands in another deck too: {first.path}:{first.line_of(first_place)}"
                faults.append(file.fault((*place, "id"), drill_id, message))
    return faults


def prerequisites(files, context, other_ids):
    """Return faults for prerequisites that are no drill, and for drills that wait for each other."""
    everywhere = (*context, *files)
    ids = {drill_id for file in everywhere for drill_id in file.places}
    owner = {drill_id: file for file in everywhere for drill_id in file.places}
    after = {drill_id: befores for file in everywhere for drill_id, befores in file.after.items()}
    faults = []
    for drill_id, befores in after.items():
        for index, before in enumerate(befores):
            if before not in ids and owner[drill_id] in files and before not in other_ids():
                place = (*owner[drill_id].places[drill_id], "after", index)
                message = f"{quoted(before)} is no drill{nearest(before, ids)}"
                faults.append(owner[drill_id].fault(place, drill_id, message))
    return faults + _circles(files, owner, after)


def _circles(files, owner, after):
    """Return a fault for each circle of prerequisites, at the first drill of it that is in ``files``."""
    faults = []
    for circle in circles(after):
        concerned = [drill_id for drill_id in circle if owner[drill_id] in files and len(circle) > 1]
        if concerned:
            file = owner[concerned[0]]
            message = f"the drills wait for each other: {' after '.join((*circle, circle[0]))}"
            faults.append(file.fault((*file.places[concerned[0]], "after"), concerned[0], message))
    return faults


def references(file, data):
    """Return faults for values and tables that the drills of ``file`` take from the user's files."""
    faults = []
    for reference in file.references:
        kind, _, name = reference.name.partition(".")
        source = data.get(kind)
        if source is None or not source.faults:
            message = wrong_reference(reference, kind, name, source)
            if message:
                faults.append(file.fault(reference.place, reference.drill, message))
    return faults


WHAT = {True: "table", False: "value", None: "value or table"}


def entries(is_table, source):
    """Return those of the values and tables of ``source`` that may be meant; ``is_table`` None: all of them."""
    values = source.values | {CALLED.removeprefix("."): source.called}
    return {True: source.tables, False: values, None: source.values | source.tables}[is_table]


def wrong_reference(reference, kind, name, source):
    """Return what is wrong with ``reference`` to ``name`` in the ``DataFile`` ``source`` (None: there is none)."""
    what = WHAT[reference.is_table]
    if source is None:
        return f'{what} "{reference.name}": there is no {kind} file'
    here = entries(reference.is_table, source)
    if name not in here:
        near = nearest(reference.name, [f"{kind}.{known}" for known in here])
        return f'there is no {what} "{reference.name}" in {source.path.name}{near}'
    spec = reference.spec
    if reference.is_table is not False or spec is None:
        return ""
    unit, value = unit_of(name), here[name]
    if not fits(unit, spec.unit):
        return f'"{reference.name}" is in {unit}, {quoted(spec.name)} is in {spec.unit}'
    allowed = value in spec.words if spec.words else spec.low <= value <= spec.high
    return "" if allowed else f'"{reference.name}" is {value:g}, outside the range of {spec.title}'
