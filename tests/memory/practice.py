"""Helpers of the tests of memory: a few answers in a row, and a deck of alike items."""

from trainer.memory.belief import Beliefs, ItemSpec, update

DAY = 20_000.5


def answered(spec, answers, *, state=None, learner=None):
    """Return (state, learner) after ``answers``: tuples (day, score) or (day, score, seconds)."""
    for day, score, *seconds in answers:
        state, learner = update(state, learner, spec, day=day, score=score, seconds=seconds[0] if seconds else None)
    return state, learner


def chance(spec, answers, day):
    """Return the chance of a right answer on ``day`` after ``answers``."""
    state, learner = answered(spec, answers)
    states = {} if state is None else {spec.id: state}
    return Beliefs([spec], states, learner).chance(spec.id, day)


def deck(count, **also):
    """Return ``count`` items, kinds in turn."""
    kinds = ("recall", "computed", "flow")
    return [ItemSpec(id=f"item-{n}", kind=kinds[n % 3], deck_order=n, **also) for n in range(count)]


def practised(specs, days, score=1.0):
    """Return ``Beliefs`` in ``specs`` after one answer to each of them on each of ``days``."""
    states, learner = {}, None
    for day in days:
        for spec in specs:
            states[spec.id], learner = update(states.get(spec.id), learner, spec, day=day, score=score, seconds=5.0)
    return Beliefs(specs, states, learner)
