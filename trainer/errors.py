"""Errors that a person can act on.

Every one carries a sentence that says what is wrong and, in ``hint``, what to do next.  ``cli.main``
turns them into one line on standard error and the exit code; any other exception is a bug and keeps
its traceback.
"""


class TrainerError(Exception):
    """Something that the user can put right.  Exit code 1: data or deck has faults."""

    exit_code = 1

    def __init__(self, message, *, hint=""):
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self):
        return f"{self.message} – {self.hint}" if self.hint else self.message


class UsageError(TrainerError):
    """The command line was not understood."""

    exit_code = 2


class StorageError(TrainerError):
    """The user's data could not be read or written."""

    exit_code = 3


class DisplacedError(StorageError):
    """The database was taken from under an open window: nothing more can be saved in it."""


class DomainError(TrainerError):
    """A number lies outside the range in which a formula holds."""


class AnswerError(TrainerError):
    """What was typed can't be read; it is asked again and never graded."""


class FormulaError(TrainerError):
    """A formula in a deck is not arithmetic on declared names; ``column`` counts from 1."""

    def __init__(self, message, *, hint="", column=1):
        super().__init__(message, hint=hint)
        self.column = column


class DeckError(TrainerError):
    """One or more deck files have faults; ``faults`` lists all of them."""

    def __init__(self, faults):
        self.faults = tuple(faults)
        count = len(self.faults)
        super().__init__(
            f"{count} fault{'s' if count != 1 else ''} in the decks: {self.faults[0]}",
            hint="`trainer deck check` lists them all",
        )
