"""How the parameters of learners and drills are drawn."""

import numpy as np


def spread(rng, learners, kind, centre, of_learner, of_drill, *, ratio=False):
    """Return [learners * drills]: ``centre`` by kind with a normal spread of learners and of drills."""
    centre = np.asarray(centre, dtype=float) * np.ones(3)
    away = of_learner * rng.standard_normal((learners, 1)) + of_drill * rng.standard_normal((learners, len(kind)))
    values = centre[kind] * np.exp(away) if ratio else centre[kind] + away
    return values.reshape(-1)


def logistic(value):
    return 1.0 / (1.0 + np.exp(-np.clip(value, -40.0, 40.0)))
