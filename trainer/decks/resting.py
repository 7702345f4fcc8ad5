"""What a bad file costs: its own drills, or those that need what it lacks, and one line; never the others."""

from collections.abc import Callable, Iterable, Mapping, Set

from trainer.decks.crossing import crossing_faults, wrong_reference
from trainer.decks.datafile import DataFile
from trainer.decks.deck import DeckFile
from trainer.decks.fault import Fault
from trainer.decks.words import in_shell

Resting = Set[tuple[str, str]]  # (path of the deck, id)


def resting(
    decks: list[DeckFile], data: Mapping[str, DataFile], other_ids: Callable[[], Iterable[str]]
) -> tuple[Resting, list[Fault], dict[str, int]]:
    """Return (drills that rest, every fault, how many drills rest on account of each file).

    ``data`` are the chosen files by kind; ``other_ids`` returns ids that are known elsewhere.
    """
    of_decks = [fault for file in decks for fault in file.faults]
    of_decks += crossing_faults(decks, {}, other_ids=other_ids, with_data=False)
    rests = {(fault.file, fault.drill) for fault in of_decks if fault.drill}
    whole = {fault.file for fault in of_decks if not fault.drill}
    rests |= {(str(file.path), drill_id) for file in decks if str(file.path) in whole for drill_id in file.places}
    costs = _counted(path for path, _ in rests)
    faults = of_decks + [fault for file in data.values() for fault in file.faults]
    for file in decks:
        for drill_id, fault in _lacking(file, data):
            if (str(file.path), drill_id) not in rests:
                rests.add((str(file.path), drill_id))
                costs[fault.file] = costs.get(fault.file, 0) + 1
                faults.append(fault)
    return rests, faults, costs


def _lacking(file, data):
    """Yield (drill, fault of the data file) for what the drills of ``file`` take and ``data`` has not."""
    for reference in file.references:
        kind, _, name = reference.name.partition(".")
        source = data.get(kind)
        message = wrong_reference(reference, kind, name, source)
        if message:
            told = f'{message}; drill "{reference.drill}" takes it'
            if source is None:
                yield reference.drill, Fault(file=str(file.path), line=0, drill="", message=told)
            else:
                yield reference.drill, source.fault((), told)


def _counted(paths):
    counts = {}
    for path in paths:
        counts[path] = counts.get(path, 0) + 1
    return counts


def lines(faults: Iterable[Fault], costs: Mapping[str, int]) -> list[str]:
    """Return one line for each bad file: what is wrong first, what it costs, and what to do."""
    first, count = {}, {}
    for fault in faults:
        first.setdefault(fault.file, fault)
        count[fault.file] = count.get(fault.file, 0) + 1
    return [_line(fault, count[name] - 1, costs.get(name, 0)) for name, fault in first.items()]


def _line(fault, more, cost):
    further = f" and {more} more fault{'s' if more > 1 else ''}" if more else ""
    rest = {0: "nothing else is touched", 1: "one drill rests"}.get(cost, f"{cost} drills rest")
    return f"{fault}{further}; {rest} – `trainer deck check {in_shell(fault.file)}` tells all"
