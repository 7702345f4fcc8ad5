"""TACAN channels."""

import numpy as np
import pytest

from trainer.engine import beacon
from trainer.errors import DomainError

CHANNELS = np.arange(1, 127)


def test_each_channel_has_its_own_pair_of_frequencies():
    pairs = set()
    for band in beacon.BANDS:
        pairs |= {(*pair, band) for pair in zip(*beacon.frequencies_mhz(CHANNELS, band), strict=True)}
    assert len(pairs) == 252


def test_replies_fill_the_standard_from_end_to_end():
    """MIL-STD-291C 4.1.1.2: X answers below and above the interrogations, Y among them."""
    _, x = beacon.frequencies_mhz(CHANNELS, beacon.X)
    _, y = beacon.frequencies_mhz(CHANNELS, beacon.Y)
    assert sorted(x) == [*range(962, 1025), *range(1151, 1214)]
    assert sorted(y) == [*range(1025, 1088), *range(1088, 1151)]


def test_partners_are_each_other_s_partner_and_exist():
    partner = beacon.partner_channel(CHANNELS)
    assert np.all(np.abs(partner - CHANNELS) == 63)
    assert sorted(partner) == CHANNELS.tolist()
    assert np.all(beacon.partner_channel(partner) == CHANNELS)


def test_partners_hear_each_other():
    """In the air-to-air mode one aircraft answers on the frequency on which the other asks."""
    asks, _ = beacon.frequencies_mhz(CHANNELS, beacon.X)
    partner_asks, _ = beacon.frequencies_mhz(beacon.partner_channel(CHANNELS), beacon.X)
    assert np.all(np.abs(asks - partner_asks) == 63)


@pytest.mark.parametrize("band", beacon.BANDS)
def test_vhf_pairs_go_there_and_back(band):
    frequency = beacon.vhf_mhz(CHANNELS, band)
    channel, same_band = beacon.channel_of_vhf(frequency)
    assert np.array_equal(channel, CHANNELS)
    assert np.all(same_band == band)
    assert len(np.unique(np.round(frequency, 2))) == 126


def test_the_vor_band_is_filled_without_gap():
    both = np.concatenate([beacon.vhf_mhz(CHANNELS, band) for band in beacon.BANDS])
    vor = np.sort(both[both < 118])
    assert np.allclose(vor, np.arange(108.0, 117.96, 0.05))


@pytest.mark.parametrize("channel", [0, 127, -5, 29.5, float("nan")])
def test_channels_that_do_not_exist_are_refused(channel):
    for function in (beacon.partner_channel, lambda c: beacon.vhf_mhz(c, 1), lambda c: beacon.frequencies_mhz(c, 1)):
        with pytest.raises(DomainError):
            function(channel)


@pytest.mark.parametrize("frequency_mhz", [107.95, 118.0, 125.5, 134.35, 136.0, 110.03])
def test_frequencies_without_a_channel_are_refused(frequency_mhz):
    with pytest.raises(DomainError):
        beacon.channel_of_vhf(frequency_mhz)


def test_a_third_band_is_refused():
    with pytest.raises(DomainError, match="X or Y"):
        beacon.frequencies_mhz(29, 3)
