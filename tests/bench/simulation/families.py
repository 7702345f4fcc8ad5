"""Fifteen families of hidden memory, none of them the trainer's own model, though six are related to it.

Each takes rows of memory and parameters (dictionaries of arrays with leading shape [rows] or, for an
oracle that looks ahead, [rows, nodes]) and a day of the same shape.  ``knowing`` is the probability of
knowing; ``practised`` returns the memory after a practice whose ``success`` is 0 to 1, and ``siblings``, where a
family has it, that of the drills of the same group after it.
"""

from tests.bench.simulation.held_out import Fluctuation, TwoSpeeds
from tests.bench.simulation.histories import (
    ActivationDecay,
    PredictivePerformance,
    WindowedLogistic,
    WindowedSuccess,
)
from tests.bench.simulation.kindred import Interference, Skill
from tests.bench.simulation.pools import AllOrNone, HalfLife, MultiscaleContext, PowerLaw
from tests.bench.simulation.unlike import Habit, Insight, Returning

# None of the planner's constants was chosen with these; the first two were looked at, the others not even that.
HELD_OUT = (
    "half-life", "factors", "fluctuation", "two speeds", "interference", "skill", "returning", "insight", "habit"
)  # fmt: skip
# The trainer's own hypotheses are relatives of these (traces of the multiscale model, stages of the all-or-none one,
# tallies of the logistic ones, a stretching half-life, power laws): results on them are no headline.
RELATED = ("DASH-like", "MCM", "power law", "all-or-none", "half-life", "factors")
FAMILIES = {
    family.name: family
    for family in (
        PredictivePerformance(),
        WindowedLogistic(),
        ActivationDecay(),
        MultiscaleContext(),
        PowerLaw(),
        AllOrNone(),
        HalfLife(),
        WindowedSuccess(),
        Fluctuation(),
        TwoSpeeds(),
        Interference(),
        Skill(),
        Returning(),
        Insight(),
        Habit(),
    )
}
