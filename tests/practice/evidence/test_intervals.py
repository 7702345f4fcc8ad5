"""Wilson's interval, against published values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.practice.evidence.intervals import wilson

# Newcombe, R. G. (1998), Two-sided confidence intervals for the single proportion, Statistics in Medicine 17, table I,
# method 3 (score, no continuity correction), 95 %; printed to four decimals.
PRINTED = [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)]
NINETY_FIVE = 1.959964
LAST_DIGIT = 0.00005


@pytest.mark.parametrize(("right", "asked", "low", "high"), PRINTED)
def test_the_interval_agrees_with_the_printed_table(right, asked, low, high):
    found = wilson(right, asked, NINETY_FIVE)
    assert abs(found[0] - low) <= LAST_DIGIT and abs(found[1] - high) <= LAST_DIGIT


def test_nothing_asked_says_nothing():
    assert wilson(0, 0) == (0.0, 1.0)


@given(st.integers(1, 500).flatmap(lambda asked: st.tuples(st.integers(0, asked), st.just(asked))))
def test_the_share_lies_inside(counts):
    right, asked = counts
    low, high = wilson(right, asked)
    assert 0 <= low <= right / asked + 1e-12 and right / asked - 1e-12 <= high <= 1
