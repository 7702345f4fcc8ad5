"""The three kinds of drill in the invented world: how many, how long, how often right by luck.

Everything here is invented; the centres follow the project's notes on memory (section 9).
"""

import numpy as np

COUNT = {"recall": 60, "computed": 40, "flow": 20}
FLUENT_S = np.array((4.0, 11.0, 28.0))  # by kind, in the order of KINDS
WRONG_LONGER = 1.2  # a wrong answer takes longer than a fluent one
FEEDBACK_S = np.array((6.0, 12.0, 20.0))
OVERHEAD_S = 1.5
GUESS = np.array((0.05, 0.02, 0.01))
SLIP = np.array((0.01, 0.04, 0.05))
KNOWN_BEFORE = np.array((0.08, 0.08, 0.04))
SPEED_DEVIATION = 0.25  # of ln speed between learners
ANSWER_DEVIATION = 0.38  # of ln seconds between answers
FASTER_WITH_MEMORY = 0.12  # ln seconds per unit of log-odds, where a family lets time tell anything
WORTHS = {"1:1:1": (1.0, 1.0, 1.0), "1:2:4": (1.0, 2.0, 4.0)}
IN_A_GROUP = 5  # drills so alike that they are siblings: one rule, or one set of facts that are mixed up


def groups(kind):
    """Return [drills] the number of each drill's group: five of one kind, as they follow each other."""
    kind = np.asarray(kind)
    number = np.zeros(len(kind), dtype=int)
    for which in np.unique(kind):
        mine = kind == which
        number[mine] = 100 * which + np.arange(mine.sum()) // IN_A_GROUP
    return number
