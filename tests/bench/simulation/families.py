"""Eight families of hidden memory, none of them the trainer's own model, though three are related to it.

Each takes rows of memory and parameters (dictionaries of arrays with leading shape [rows] or, for an
oracle that looks ahead, [rows, nodes]) and a day of the same shape.  ``knowing`` is the probability of
knowing; ``practised`` returns the memory after a practice whose ``success`` is 0 to 1.
"""

from tests.bench.simulation.histories import (
    ActivationDecay,
    PredictivePerformance,
    WindowedLogistic,
    WindowedSuccess,
)
from tests.bench.simulation.pools import AllOrNone, HalfLife, MultiscaleContext, PowerLaw

# None of the planner's constants was chosen with these two.
HELD_OUT = ("half-life", "factors")
# The trainer's traces follow the multiscale model, its stages the all-or-none one, its sum of exponentials a
# power law: results on these are no headline.
RELATED = ("MCM", "all-or-none", "power law")
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
    )
}
