"""`invented` stands exactly where an invented number was used, and no text of a deck holds a number of one jet's."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import replace

import pytest

from trainer.decks import library
from trainer.drills import computed, questions, worked_solution
from trainer.paths import shipped_decks

SHELF = library.load()
COMPUTED = [drill for drill in SHELF.drills.values() if drill.kind == "computed"]
OF = {"airframe": SHELF.notes["airframe"], "ship": SHELF.notes["ship"], "airwing": SHELF.notes["airwing"]}


class Noting(Mapping):
    """Numbers that note the names under which they are asked for; looking whether one is there is no use of it."""

    def __init__(self, numbers, read):
        self._numbers, self._read = numbers, read

    def __getitem__(self, name):
        self._read.add(name)
        return self._numbers[name]

    def __iter__(self):
        return iter(self._numbers)

    def __len__(self):
        return len(self._numbers)

    def __contains__(self, name):
        return name in self._numbers

    def get(self, name, default=None):
        return self[name] if name in self._numbers else default


def used(drill):
    """Return the kinds of the user's files that a question of ``drill`` was really worked out with."""
    read = set()
    noting = replace(SHELF, values=Noting(SHELF.values, read), tables=Noting(SHELF.tables, read))
    question = questions.make(drill, noting, "1")
    computed.solve(drill, noting, question.inputs)
    tables = {value for value in question.inputs.values() if isinstance(value, str)}
    read -= {draw.of for draw in drill.draws} - tables  # a share that chance draws tells no number
    return question, {name.partition(".")[0] for name in read}


@pytest.mark.parametrize("drill", COMPUTED, ids=lambda drill: drill.id)
def test_the_label_of_a_file_stands_where_its_numbers_were_used_and_nowhere_else(drill):
    question, kinds = used(drill)
    told = [line for line in worked_solution.worked(question, drill, SHELF) if line.startswith("invented: ")]
    expected = {f"invented: {OF[kind]}" for kind in kinds}
    if drill.source.status == "invented" and SHELF.decks[drill.deck].invented:
        expected.add(f"invented: {SHELF.decks[drill.deck].invented}")
    assert set(told) == expected


def test_a_published_fact_is_not_called_invented():
    for drill in SHELF.drills.values():
        named = any(draw.take for draw in getattr(drill, "draws", ()))  # the ball call names the invented type
        if drill.kind != "computed" and not named and drill.source.status in ("published", "secondary"):
            question = questions.make(drill, SHELF, "1")
            lines = worked_solution.founded(question, drill, SHELF)
            steps = [step.source for step in getattr(drill, "steps", ()) if step.source]
            if all(source.status != "invented" for source in steps):
                assert not any(line.startswith("invented: ") for line in lines), drill.id


def texts(value):
    """Yield every text in the tables of a deck, those of draws and sources left out."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, inner in value.items():
            if key not in ("draw", "source", "url", "invented"):
                yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)


def of_the_jet():
    """Return the weights, speeds and trims of the shipped airframe as people write them, and its names."""
    data = tomllib.loads((shipped_decks() / "airframes" / "tallowick.toml").read_text(encoding="utf-8"))
    rows = [number for table in data["table"].values() for row in table["rows"] for number in row]
    weights = [number for number in (*data["values"].values(), *rows) if number >= 1000 and number % 500]
    trims = [row[1] for name in ("trim", "trim_steps") for row in data["table"][name]["rows"]]
    written = {f"{number:,}" for number in weights} | {f"{number:g}° nose" for number in trims}
    return {"Tallowick", "tallowick", "Hollenmere"} | written | {f"{number}" for number in weights}


def test_no_text_of_a_deck_holds_a_number_or_name_of_the_shipped_jet():
    mine = re.compile(r"(?<![\d.,])(?:" + "|".join(map(re.escape, sorted(of_the_jet()))) + r")(?![\d.])")
    found = []
    for path in sorted(shipped_decks().glob("*.toml")):
        if path.stem != "airwing":
            tables = tomllib.loads(path.read_text(encoding="utf-8"))
            found += [(path.stem, text) for text in texts(tables) if mine.search(text)]
    assert mine.search("28,600 lb and no more") and mine.search("the Tallowick's flaps") and not mine.search("5,400 lb")
    assert found == []
