"""Rising, setting and light of the moon, and the rule of fifty minutes."""

import re
from pathlib import Path

import ephem
import numpy as np
import pytest

from trainer.engine import moon
from trainer.errors import DomainError

BOSTON = (42 + 19 / 60, -(71 + 5 / 60), -5)
# A page of the U.S. Naval Observatory that the library brings with its own tests.
PAGE = Path(ephem.__file__).parent / "tests" / "usno" / "riset_moon.txt"
WIDTH = 11  # of a month's column


def _printed():
    """Return {(month, day): (rise, set)} of the page in minutes, None where the moon does not rise or set."""
    found = {}
    for line in PAGE.read_text(encoding="utf-8").splitlines():
        if not re.match(r"\d\d  ", line):
            continue
        for month in range(12):
            texts = (line[4 + WIDTH * month :][:4].strip(), line[9 + WIDTH * month :][:4].strip())
            if any(texts):
                found[month + 1, int(line[:2])] = tuple(
                    int(text[:2]) * 60 + int(text[2:]) if text else None for text in texts
                )
    return found


def test_a_whole_year_of_the_observatorys_table():
    """341 dates with both times: within half a minute of what is printed, and a tenth for the place."""
    printed = _printed()
    whole = {at: times for at, times in printed.items() if None not in times}
    assert len(printed) == 366 and len(whole) == 341
    months, days = np.array(list(whole)).T
    rise, sets = moon.moon_times(1984, months, days, *BOSTON)
    assert np.abs(rise - [times[0] for times in whole.values()]).max() <= 0.6
    assert np.abs(sets - [times[1] for times in whole.values()]).max() <= 0.6
    for month, day in printed.keys() - whole.keys():
        with pytest.raises(DomainError, match="does not"):
            moon.moon_times(1984, month, day, *BOSTON)


def test_the_fifty_minutes_are_those_of_the_year():
    """From the page: over a year the moonrises lie 50 minutes apart, between 20 and 80."""
    printed = _printed()
    rises = [(month * 31 + day, times[0]) for (month, day), times in sorted(printed.items())]
    apart = [
        later - earlier
        for (_, earlier), (_, later) in zip(rises, rises[1:], strict=False)
        if None not in (earlier, later)
    ]
    apart = [minutes for minutes in apart if minutes > 0]
    assert np.mean(apart) == pytest.approx(moon.LATER_MIN_A_DAY, abs=3)
    assert 15 < min(apart) and max(apart) < 85


@pytest.mark.parametrize(
    ("clock", "up", "changes"),
    [(600, False, 12 * 60 + 28), (800, True, 24 * 60 + 3 * 60 + 3), (60, True, 60 + 55)],
)
def test_how_long_it_stays_up_or_down(clock, up, changes):
    """13 January 1984 on the same page: set at 01:55, risen at 12:28, set at 03:03 the day after."""
    found = moon.up_until(1984, 1, 13, clock, *BOSTON)
    assert found[0] == up and found[1] == pytest.approx(changes, abs=0.6)


def test_where_it_is_up_for_days_that_is_said():
    """Fairbanks, 25 June 2006: the observatory's page prints that the moon stays down."""
    with pytest.raises(DomainError):
        moon.moon_times(2006, 6, 25, 64 + 48 / 60 + 36 / 3600, -147.75, -8)


def test_it_is_up_when_it_stands_above_the_horizon():
    for clock in range(0, 1440, 45):
        up, _ = moon.up_until(2026, 11, 30, clock, 24.5, -41.0, -3)
        altitude = moon.moon_light(2026, 11, 30, clock, 24.5, -41.0, -3)[1]
        assert up == (altitude > -0.8) or abs(altitude + 0.8) < 0.3


def test_before_full_moon_it_rises_before_sunset():
    assert moon.moonrise_by_rule(1110, -2) == 1010 and moon.moonrise_by_rule(1110, 8) == (1110 + 400) % 1440
    with pytest.raises(DomainError):
        moon.moonrise_by_rule(1110, 15)
