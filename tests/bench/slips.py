"""python -m tests.bench.slips [draws]: how well the mistakes of computed drills can be told, drill by drill.

For every computed drill, over ``draws`` (400) questions as practice makes them: the share in which a slip is wrong by
the exact rule and yet inside limits (it would pass as right), the share with at least two slips that would be
named (one where the answer is a word), and how many different questions there are.
"""

import sys
from collections import Counter
from dataclasses import dataclass, field

from trainer.decks import library
from trainer.drills import computed, questions, slips

HAIR = 1e-6


@dataclass(kw_only=True)
class Told:
    """What ``draws`` questions of one drill showed."""

    drill_id: str
    words: bool
    draws: int = 0
    passed: Counter = field(default_factory=Counter)  # slip -> questions in which it passes
    enough: int = 0  # questions with enough nameable slips
    texts: set = field(default_factory=set)

    @property
    def worst_passing(self) -> float:
        """Return the largest share of questions in which one slip passes."""
        return max(self.passed.values(), default=0) / self.draws

    @property
    def share_enough(self) -> float:
        """Return the share of questions with enough nameable slips."""
        return self.enough / self.draws


def told_of(drill, shelf, draws):
    """Return the ``Told`` of ``drill`` over ``draws`` questions."""
    result = computed.result_of(drill)
    found = Told(drill_id=drill.id, words=bool(result.words))
    for seed in range(draws):
        question = questions.make(drill, shelf, f"slips/{seed}")
        wrongs = computed.slip_values(drill, shelf, question.inputs)
        accepted = (question.truth, *computed.other_values(drill, shelf, question.inputs))
        found.draws += 1
        found.texts.add(question.text)
        nameable = 0
        for slip, wrong in wrongs:
            off = min(abs(slips.deviation(wrong, truth, question.unit)) for truth in accepted)
            if off > (0 if result.words else result.tolerance.inside + HAIR):
                nameable += 1
            elif off > HAIR:
                found.passed[slip.name] += 1
        found.enough += nameable >= (1 if result.words else 2)
    return found


def computed_drills(shelf):
    """Return the computed drills of ``shelf``."""
    return [drill for drill in shelf.drills.values() if drill.kind == "computed"]


def main(draws=400):
    """Print every drill that does not reach the goals, and the totals."""
    shelf = library.load()
    every = [told_of(drill, shelf, draws) for drill in computed_drills(shelf)]
    for one in every:
        if one.worst_passing > 0.02 or one.share_enough < 0.8 or len(one.texts) <= 8:
            print(f"{one.drill_id:32} passes {one.worst_passing:5.1%}  enough slips {one.share_enough:6.1%}"
                  f"  questions {len(one.texts):4}  {', '.join(one.passed)}")  # fmt: skip
    passing, few = sum(one.worst_passing > 0.02 for one in every), sum(one.share_enough < 0.8 for one in every)
    print(
        f"{len(every)} drills, {draws} questions each: a slip passes in more than 2 %: {passing}; fewer than two slips"
    )
    print(f"in more than 20 %: {few}; at most 8 different questions: {sum(len(one.texts) <= 8 for one in every)}")


if __name__ == "__main__":
    main(*(int(one) for one in sys.argv[1:2]))
