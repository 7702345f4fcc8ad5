"""What became of an answer in a session."""

from typing import Any

from trainer.frozen import frozen
from trainer.model import Grade, Question, is_right


@frozen
class Outcome:
    """What became of an answer; ``clean`` is right and in time: nothing needs explaining."""

    question: Question
    grade: Grade
    truth_text: str
    clean: bool
    gave_up: bool
    recorded: Any

    @property
    def is_number(self) -> bool:
        """Return True where the answer is a number, which has limits to be inside of."""
        return self.question.unit not in ("", "word")

    @property
    def right(self) -> bool:
        """Return True where more than half was right; asking for the solution is not."""
        return bool(is_right(self.grade.score)) and not self.gave_up
