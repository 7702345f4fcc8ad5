"""The very first question of a new pilot: the first of the stage that everybody begins with.

It needs no store, so it is on the screen before there is one.
"""

from dataclasses import replace
from pathlib import Path

from trainer.decks.library import Library
from trainer.drills import questions, shown_table
from trainer.errors import DomainError
from trainer.model import Question
from trainer.practice.stage import Syllabus


def draw(library: Library, home: Path, seed: str) -> Question | None:
    """Return the first question that ``library`` has for a new pilot, None where none can be drawn."""
    for drill_id in Syllabus(library, home).order():
        drill = library.drills[drill_id]
        try:
            question = questions.make(drill, library, f"{seed}/0/{drill_id}")
        except DomainError:
            continue  # `trainer deck check` tells its author
        table = shown_table.once(drill, library, ())
        return replace(question, text=f"{question.text}\n{table}") if table else question
    return None
