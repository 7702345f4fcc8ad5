"""TACAN channels: the frequencies behind them, the partner in the air, the paired VHF frequency.

``band`` is 1 for X and 2 for Y.  Sources: MIL-STD-291C, Standard TACAN Signal, 4.1.1 (frequencies);
MIL-N-81857(AS) (air-to-air); a military pairing card quoted on a pilots' forum (VHF).
"""

import numpy as np

from trainer.engine.domain import inside, require

X, Y = 1, 2
BANDS = {X: "X", Y: "Y"}
CHANNELS = 126
HALF = 63  # reply and partner lie this far away
# Channels of one key number: VHF in MHz is (channel + key) / 10, and 0.05 more in the Y band.
VHF_KEYS = ((1, 16, 1343), (17, 59, 1063), (60, 69, 1273), (70, 126, 1053))


def _check(channel, band=X):
    inside("channel", channel, 1, CHANNELS)
    require(np.asarray(channel, dtype=float) % 1 == 0, "a channel is a whole number")
    require(np.isin(np.asarray(band, dtype=float), (X, Y)), "the band is X or Y")
    return np.asarray(channel, dtype=float), np.asarray(band, dtype=float)


def frequencies_mhz(channel, band):
    """Return (interrogation, reply) in MHz of a channel; floats or arrays.

    >>> [float(value) for value in frequencies_mhz(64, 1)]
    [1088.0, 1151.0]
    """
    channel, band = _check(channel, band)
    interrogation = 1024 + channel
    reply_is_below = (channel <= HALF) == (band == X)
    return interrogation, interrogation + np.where(reply_is_below, -HALF, HALF)


def partner_channel(channel):
    """Return the channel that the other aircraft sets, 63 away, in the same band.

    >>> float(partner_channel(29)), float(partner_channel(80))
    (92.0, 17.0)
    """
    channel, _ = _check(channel)
    return np.where(channel <= HALF, channel + HALF, channel - HALF)[()]


def vhf_mhz(channel, band):
    """Return the VHF frequency in MHz that is paired with a channel.

    Channels 17-59 and 70-126 pair with VOR and localiser frequencies; 1-16 and 60-69 with frequencies above
    them that only tune distance-measuring sets.

    >>> float(vhf_mhz(44, 1)), round(float(vhf_mhz(126, 2)), 2)
    (110.7, 117.95)
    """
    channel, band = _check(channel, band)
    key = np.select([channel <= last for _, last, _ in VHF_KEYS], [key for _, _, key in VHF_KEYS])
    return (channel + key) / 10 + np.where(band == Y, 0.05, 0.0)


def channel_of_vhf(frequency_mhz):
    """Return (channel, band) paired with a VHF frequency: 108.00-117.95 or 133.30-135.95 by 0.05 MHz."""
    inside("VHF frequency", frequency_mhz, 108, 136)
    steps = np.round(np.asarray(frequency_mhz, dtype=float) * 20, 6)
    require(steps % 1 == 0, "paired frequencies step by 0.05 MHz")
    tenths, band = steps // 2, np.where(steps % 2 == 1, Y, X)
    fits = [(tenths - key >= first) & (tenths - key <= last) for first, last, key in VHF_KEYS]
    require(np.any(fits, axis=0), "no channel is paired with that frequency", hint="108.00 to 117.95 are")
    return np.select(fits, [tenths - key for _, _, key in VHF_KEYS]), band[()] * 1.0
