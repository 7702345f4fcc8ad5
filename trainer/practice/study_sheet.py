"""A study sheet: whole tables, flows, rules and facts of a stage or a deck, to be read on paper."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.decks.library import Library
from trainer.drills import calls, flow, questions, shown_table, worked_solution
from trainer.drills.titles import title
from trainer.engine import picture
from trainer.errors import DomainError
from trainer.model import AREAS, CallDrill, Drill, FlowDrill

SEED = "sheet"  # the same examples each time


@dataclass(frozen=True, kw_only=True)
class Table:
    """A table of the user's files: all of its rows, each an argument and a value."""

    title: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class Flow:
    """A flow: what begins it, and its steps in order, each with what goes wrong without it."""

    title: str
    cue: str
    steps: tuple[tuple[str, str], ...]
    rule: str


@dataclass(frozen=True, kw_only=True)
class Rule:
    """What is computed: one example worked line by line, with the record of its picture, {} for none."""

    title: str
    ask: str
    lines: tuple[str, ...]
    answer: str
    rule: str
    picture: Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class Fact:
    """What is known by heart."""

    ask: str
    answer: str
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """``facts`` are by area, in the order of a sortie; ``labels`` say what is invented."""

    title: str
    tables: tuple[Table, ...]
    flows: tuple[Flow, ...]
    rules: tuple[Rule, ...]
    facts: tuple[tuple[str, tuple[Fact, ...]], ...]
    labels: tuple[str, ...]


def of(name: str, ids: Iterable[str], library: Library) -> Sheet:
    """Return the ``Sheet`` called ``name`` over the drills ``ids`` of ``library``."""
    drills = [library.drills[one] for one in ids]
    recall = [one for one in drills if one.kind == "recall"]
    return Sheet(
        title=name,
        tables=tuple(_tables(drills, library)),
        flows=tuple(_flow(one) for one in drills if isinstance(one, FlowDrill)),
        rules=tuple(_rules([one for one in drills if one.kind == "computed"], library)),
        facts=tuple((area, found) for area in AREAS if (found := tuple(_facts(recall, area, library)))),
        labels=tuple(_labels(drills, library)),
    )


def _tables(drills, library):
    for reference in dict.fromkeys(name for one in drills for name in shown_table.tables_of(one, library)):
        file, _, key = reference.partition(".")
        yield Table(
            title=f"{key.replace('_', ' ')} of the {file}",
            rows=tuple(shown_table.rows(reference, library)),
        )


def _flow(drill):
    steps = tuple(
        (flow.shown_step(one) + (" – where it applies" if one.optional else ""), one.skipped) for one in drill.steps
    )
    return Flow(title=drill.title, cue=drill.cue, steps=steps, rule=worked_solution.rule_line(drill.source))


def _rules(drills: list[Drill], library: Library) -> Iterable[Rule]:
    """Yield an example of each quantity, of the first drill that asks for it."""
    by_rule: dict[tuple[str, str], Drill] = {}
    for one in drills:
        quantity, result = getattr(one, "quantity", ""), getattr(one, "result", "")
        by_rule.setdefault((quantity, result) if quantity else (one.id, ""), one)
    for drill in by_rule.values():
        try:
            question = questions.make(drill, library, SEED)
        except DomainError:  # a deck whose draws can't be met; `trainer deck check` tells its author
            continue
        lines = worked_solution.beside_a_verdict(question, drill, library, drawn=False)
        drawn = worked_solution.picture(question, drill, library)
        told = tuple(line for line in lines[:-1] if not line.startswith(("given: ", "answer: ")))
        yield Rule(
            title=title(drill),
            ask=question.text,
            lines=told,
            answer=question.truth_text,
            rule=lines[-1],
            picture=picture.as_record(drawn) if drawn else {},
        )


def _facts(drills, area, library):
    for drill in drills:
        if drill.area != area:
            continue
        try:
            question = questions.make(drill, library, SEED)
        except DomainError:
            continue
        call = isinstance(drill, CallDrill) and question.form == "call"
        ask = f"{question.inputs['hear']} – {question.text}" if question.form == "listen" else question.text
        yield Fact(ask=ask, answer=calls.as_spoken(question, drill) if call else question.truth_text, why=drill.why)


def _labels(drills, library):
    """Return the labels of the user's files that are invented and that some of ``drills`` draw on."""
    found = {}
    for drill in drills:
        for file in worked_solution.OWN_FILES:
            label = library.notes.get(file, "")
            if isinstance(label, str) and label and worked_solution.uses(file, drill):
                found[label] = None
    return found
