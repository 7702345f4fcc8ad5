"""Rising, setting, twilight and position of the sun."""

import numpy as np
import pytest

from trainer.engine import sun
from trainer.errors import DomainError

GOLDEN = {"latitude_deg": 39.742476, "longitude_deg": -105.1786, "utc_offset_h": -7}
OSLO = {"latitude_deg": 59.91, "longitude_deg": 10.75}


def test_sunset_belongs_to_the_local_date_and_not_to_the_utc_date():
    """A library's own test prints 1 August's sunset (19:13:58) for 2 August, because its date was UTC."""
    first = sun.sun_times(2015, 8, 1, **GOLDEN)[2]
    second = sun.sun_times(2015, 8, 2, **GOLDEN)[2]
    assert first == pytest.approx(19 * 60 + 13 + 58 / 60, abs=0.1)
    assert second == pytest.approx(19 * 60 + 12 + 55 / 60, abs=0.1)


def test_an_evening_that_runs_past_midnight_utc_belongs_to_its_day():
    """The same instant counted in UTC: 26:12:54, and not the sunset of the evening before."""
    local = sun.sun_times(2015, 8, 2, **GOLDEN)[2]
    counted_in_utc = sun.sun_times(2015, 8, 2, **{**GOLDEN, "utc_offset_h": 0})[2]
    assert counted_in_utc == pytest.approx(local + 7 * 60, abs=1e-3)


def test_midsummer_dusk_after_local_midnight_belongs_to_the_evening_before_it():
    _, dusk = sun.twilight_times(2024, 6, 1, **OSLO, utc_offset_h=2, twilight=6)
    sunset = sun.sun_times(2024, 6, 1, **OSLO, utc_offset_h=2)[2]
    assert sunset < 1440 < dusk + 60
    assert 45 < dusk - sunset < 120


def test_the_moments_come_in_order():
    rise, noon, sets = sun.sun_times(2026, 3, 10, 24.5, -41, -3)
    order = [sun.twilight_times(2026, 3, 10, 24.5, -41, -3, kind) for kind in (18, 12, 6)]
    moments = [*(dawn for dawn, _ in order), rise, noon, sets, *(dusk for _, dusk in reversed(order))]
    assert moments == sorted(moments)


@pytest.mark.parametrize("twilight", [6, 12, 18])
def test_at_dusk_the_sun_is_that_far_down(twilight):
    """The position, worked out without any search for the moment, agrees with the moment."""
    _, dusk = sun.twilight_times(2026, 3, 10, 24.5, -41, -3, twilight)
    altitude = sun.position(2026, 3, 10, dusk, 24.5, -41, -3, 0, 0, 15)[0]
    assert altitude == pytest.approx(-twilight, abs=2e-3)


def test_at_sunset_the_centre_is_fifty_minutes_down():
    sets = sun.sun_times(2026, 3, 10, 24.5, -41, -3)[2]
    altitude = sun.position(2026, 3, 10, sets, 24.5, -41, -3, 0, 0, 15)[0]
    assert altitude == pytest.approx(-(50 + 8.8 / 60) / 60, abs=2e-3)


def test_at_noon_the_sun_is_due_south():
    noon = sun.sun_times(2026, 3, 10, 24.5, -41, -3)[1]
    _, azimuth, zenith = sun.position(2026, 3, 10, noon, 24.5, -41, -3, 0, 1013.25, 15)
    assert azimuth == pytest.approx(180, abs=0.05)
    assert 0 < zenith < 90


@pytest.mark.parametrize("month", [6, 12])
def test_polar_day_and_night_are_refused(month):
    with pytest.raises(DomainError, match="does not cross"):
        sun.sun_times(2026, month, 21, 78, 15, 1)


def test_white_nights_have_a_sunset_but_no_astronomical_dusk():
    sun.sun_times(2026, 6, 21, **OSLO, utc_offset_h=2)
    with pytest.raises(DomainError, match="does not cross"):
        sun.twilight_times(2026, 6, 21, **OSLO, utc_offset_h=2, twilight=18)


@pytest.mark.parametrize("date", [(2025, 2, 29), (2026, 4, 31), (2026, 13, 1), (2026.5, 1, 1), (1899, 12, 31)])
def test_dates_that_do_not_exist_are_refused(date):
    with pytest.raises(DomainError):
        sun.sun_times(*date, 24.5, -41, -3)


def test_the_29th_of_february_exists_in_leap_years():
    assert sun.sun_times(2024, 2, 29, 24.5, -41, -3)[0] < 720


def test_an_array_with_one_polar_night_is_refused_as_a_whole():
    with pytest.raises(DomainError):
        sun.sun_times(2026, 12, 21, np.array([20.0, 80.0]), 0, 0)


def test_night_for_the_case_rules_wraps_past_midnight():
    begins, ends = sun.night(np.array([1_180.0, 1_430.0]), np.array([371.0, 20.0]))
    assert begins.tolist() == [1_210.0, 20.0]
    assert ends.tolist() == [341.0, 1_430.0]


def test_night_at_a_place_ends_before_the_next_morning():
    begins, ends = sun.night_at(2015, 8, 2, **GOLDEN)
    assert begins == pytest.approx(sun.sun_times(2015, 8, 2, **GOLDEN)[2] + 30)
    assert ends == pytest.approx(sun.sun_times(2015, 8, 3, **GOLDEN)[0] - 30)


def test_refraction_is_half_a_degree_at_the_horizon_and_nothing_overhead():
    assert sun.refraction_deg(0.0, 1010, 10) == pytest.approx(0.48, abs=0.01)
    assert sun.refraction_deg(90.0, 1010, 10) == pytest.approx(0, abs=1e-4)
    assert sun.refraction_deg(-5.0, 1010, 10) == 0
