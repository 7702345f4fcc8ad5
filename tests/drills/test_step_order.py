"""The order of a flow: every allowed order is right, and one thing done wrong is exactly one fault."""

import random

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from trainer.drills import step_order
from trainer.drills.step_order import MISSED, NOT_HERE, REPEATED, TOO_EARLY, Fault


@st.composite
def flows(draw, smallest=3, largest=9):
    """Return (needs, an allowed order): a random partial order."""
    count = draw(st.integers(smallest, largest))
    ids = [f"s{at}" for at in range(count)]
    direct = {
        step: draw(st.sets(st.sampled_from(ids[:at]), max_size=2)) if at else set() for at, step in enumerate(ids)
    }
    needs = {}
    for step in ids:
        needs[step] = frozenset(direct[step]).union(*(needs[before] for before in direct[step]))
    rng, order = random.Random(draw(st.integers(0, 10_000))), []
    while len(order) < count:
        order.append(rng.choice(step_order.possible_next(order, needs)))
    return needs, order


@given(flows())
@settings(deadline=None)
def test_every_allowed_order_is_right(flow):
    needs, order = flow
    assert step_order.faults(order, needs) == []


@given(flows(), st.data())
@settings(deadline=None)
def test_a_step_left_out_is_missed_and_nothing_else(flow, data):
    needs, order = flow
    gone = data.draw(st.sampled_from(order))
    assert step_order.faults([step for step in order if step != gone], needs) == [
        Fault(kind=MISSED, step=gone, blame=gone)
    ]


@given(flows(), st.data())
@settings(deadline=None)
def test_a_step_said_twice_is_repeated_and_nothing_else(flow, data):
    needs, order = flow
    twice = data.draw(st.sampled_from(order))
    at = data.draw(st.integers(0, len(order)))
    assert step_order.faults([*order[:at], twice, *order[at:]], needs) == [
        Fault(kind=REPEATED, step=twice, blame=twice)
    ]


@given(flows(), st.data())
@settings(deadline=None)
def test_two_steps_exchanged_are_one_fault_or_none(flow, data):
    needs, order = flow
    a, b = sorted(data.draw(st.sets(st.integers(0, len(order) - 1), min_size=2, max_size=2)))
    typed = list(order)
    typed[a], typed[b] = typed[b], typed[a]
    found = step_order.faults(typed, needs)
    if step_order.is_allowed(typed, needs):
        assert found == []
        return
    assert len(found) == 1 and found[0].kind == TOO_EARLY
    assert found[0].other in needs[found[0].step]
    assert typed.index(found[0].step) < typed.index(found[0].other)
    if order[a] in needs[order[b]]:
        assert {found[0].step, found[0].other} & {order[a], order[b]}


@given(flows(), st.data())
@settings(deadline=None)
def test_a_neighbour_done_before_what_it_needs_is_named(flow, data):
    needs, order = flow
    pairs = [(early, late) for early, late in zip(order, order[1:], strict=False) if early in needs[late]]
    assume(pairs)
    first, second = data.draw(st.sampled_from(pairs))
    typed = list(order)
    at = typed.index(first)
    typed[at], typed[at + 1] = second, first
    assert step_order.faults(typed, needs) == [Fault(kind=TOO_EARLY, step=second, other=first, blame=second)]


@given(flows(), st.data())
@settings(deadline=None)
def test_a_stranger_is_not_in_this_flow_and_nothing_else(flow, data):
    needs, order = flow
    at = data.draw(st.integers(0, len(order)))
    assert step_order.faults([*order[:at], "wash it", *order[at:]], needs) == [Fault(kind=NOT_HERE, step="wash it")]


@given(flows(smallest=4, largest=8), st.randoms(use_true_random=False))
@settings(deadline=None)
def test_the_fewest_faults_are_found(flow, rng):
    """Leaving out the blamed steps leaves an allowed order, and no smaller set does."""
    needs, order = flow
    typed = list(order)
    rng.shuffle(typed)
    wrong = step_order.violations(typed, needs)
    assume(wrong)
    cover = step_order._smallest_cover(wrong, typed)
    assert step_order.is_allowed([step for step in typed if step not in cover], needs)
    assert len(step_order._large_cover(wrong, typed)) == len(cover)


def test_a_step_done_too_late_is_one_fault():
    needs = {"a": frozenset(), "b": frozenset("a"), "c": frozenset("ab"), "d": frozenset("abc"), "e": frozenset("abcd")}
    [fault] = step_order.faults(["a", "c", "d", "e", "b"], needs)
    assert (fault.kind, fault.step, fault.other, fault.blame) == (TOO_EARLY, "c", "b", "b")


def test_a_missed_step_does_not_make_those_after_it_early():
    needs = {"a": frozenset(), "b": frozenset("a"), "c": frozenset("ab")}
    assert [fault.kind for fault in step_order.faults(["c", "a"], needs)] == [MISSED, TOO_EARLY]
    assert [fault.kind for fault in step_order.faults(["a", "c"], needs)] == [MISSED]


def test_many_faults_at_once_are_all_told():
    needs = {"a": frozenset(), "b": frozenset("a"), "c": frozenset("ab"), "d": frozenset("abc")}
    kinds = [fault.kind for fault in step_order.faults(["b", "a", "x", "d", "d"], needs)]
    assert kinds == [MISSED, TOO_EARLY, REPEATED, NOT_HERE]
