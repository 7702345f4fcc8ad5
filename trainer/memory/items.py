"""What memory needs to know about an item, singly and as a table.

An item is whatever is scheduled: a drill, or one step of a flow.  Memory knows it by a string, a kind and
numbers; it never sees the drill itself.
"""

import numpy as np

from trainer.frozen import frozen

KINDS = ("recall", "computed", "flow")

# Defaults by kind, in the order of KINDS: what a fluent learner needs, and what the world of the bench
# assumes (tests/bench/world.py).  Common practice for short typed answers; decks override the limits.
DESIGN_S = (4.0, 11.0, 28.0)  # a fluent answer
LIMIT_S = (10.0, 30.0, 45.0)  # as the deck format's defaults
FEEDBACK_S = (6.0, 12.0, 20.0)  # reading the worked answer after a miss
OVERHEAD_S = 1.5  # reading the verdict and going on
GUESS = (0.05, 0.02, 0.01)  # right by luck
SLIP = (0.01, 0.04, 0.05)  # wrong although known


@frozen
class ItemSpec:
    """One item.  ``kind`` is one of ``KINDS``; None stands for the usual value of the kind.

    ``guess`` and ``slip`` are probabilities, ``steps`` the steps of a flow, ``design_s`` the seconds of a
    fluent answer, ``limit_s`` the seconds allowed.  ``worth`` multiplies what knowing it is worth,
    ``after`` names the items that come first, items of one ``group`` do not follow each other, and
    ``deck_order`` breaks ties.  Raises ``ValueError`` for an unknown kind.
    """

    id: str
    kind: str
    guess: float | None = None
    slip: float | None = None
    steps: int = 0
    design_s: float | None = None
    limit_s: float | None = None
    worth: float = 1.0
    area: str = ""
    group: str = ""
    after: tuple[str, ...] = ()
    deck_order: int = 0

    def __post_init__(self):
        if self.kind not in KINDS:
            raise ValueError(f"kind {self.kind!r} is none of {', '.join(KINDS)}")


@frozen
class ItemTable:
    """Items as arrays of one row per item: ``kind`` (index into ``KINDS``), ``guess``, ``slip``, ``steps``,
    ``design_s``, ``limit_s``, ``worth``."""

    kind: np.ndarray
    guess: np.ndarray
    slip: np.ndarray
    steps: np.ndarray
    design_s: np.ndarray
    limit_s: np.ndarray
    worth: np.ndarray

    @classmethod
    def of(cls, specs):
        """Return the table of ``specs``, in their order."""
        kind = np.array([KINDS.index(spec.kind) for spec in specs], dtype=int)
        return cls(
            kind=kind,
            guess=_filled([spec.guess for spec in specs], GUESS, kind),
            slip=_filled([spec.slip for spec in specs], SLIP, kind),
            steps=np.array([spec.steps for spec in specs], dtype=float),
            design_s=_filled([spec.design_s for spec in specs], DESIGN_S, kind),
            limit_s=_filled([spec.limit_s for spec in specs], LIMIT_S, kind),
            worth=np.array([spec.worth for spec in specs], dtype=float),
        )

    def __len__(self):
        return len(self.kind)

    def rows(self, index):
        """Return the table of the rows ``index`` (an array of integers, a slice or a mask)."""
        return ItemTable(**{name: getattr(self, name)[index] for name in self.__dataclass_fields__})


def _filled(values, usual, kind):
    usual = np.asarray(usual)[kind] if len(kind) else np.zeros(0)
    given = np.array([np.nan if value is None else float(value) for value in values], dtype=float)
    return np.where(np.isnan(given), usual, given)
