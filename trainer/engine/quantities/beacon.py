"""Quantities of the TACAN: frequencies, the air-to-air partner, the paired VHF frequency."""

import numpy as np

from trainer.engine import beacon
from trainer.engine.quantities.air_sources import AIR_TO_AIR, TACAN_SIGNAL, VHF_CARD
from trainer.engine.quantities.entries import choose, get, give, num, slip, verdict
from trainer.engine.quantity import EXACT, Quantity

CHANNEL = give("channel", "TACAN channel", "channel", 1, beacon.CHANNELS, take="ship.beacon_channel")
BAND = choose("band", "band", beacon.BANDS, default=beacon.X)


def _frequencies_in_the_head(channel, band):
    interrogation, reply = (float(value) for value in beacon.frequencies_mhz(channel, band))
    sign = "-" if reply < interrogation else "+"
    half = "the lower half, 1 to 63" if channel <= beacon.HALF else "the upper half, 64 to 126"
    return (
        f"your set asks on 1024 + {num(channel)} = {num(interrogation).replace(',', '')} MHz, X and Y alike",
        f"the answer is 63 away: X goes down in the lower half and up in the upper, Y the other way; "
        f"{num(channel)}{beacon.BANDS[int(band)]} is in {half}",
        f"{interrogation:.0f} {sign} 63 = {reply:.0f} MHz",
    )


def _other_side(channel, band):
    """Return the reply frequency with the 63 applied the wrong way."""
    interrogation, reply = beacon.frequencies_mhz(channel, band)
    return 2 * interrogation - reply


FREQUENCIES = Quantity(
    name="tacan_frequencies",
    title="interrogation and reply frequency of a TACAN channel",
    area="navigation",
    words=("tacan", "channel", "mhz", "reply", "interrogation"),
    inputs=(CHANNEL, BAND),
    results=(
        get("interrogation_mhz", "your set asks on", "mhz", 0, 0.5),
        get("reply_mhz", "the beacon answers on", "mhz", 0, 0.5),
    ),
    methods={EXACT: beacon.frequencies_mhz},
    mental=_frequencies_in_the_head,
    slips=(
        slip("63 the wrong way", "the 63 went the wrong way for that half of the channels",
             _other_side, "reply_mhz"),
        slip("X for Y", "that is the answer in the other band",
             lambda channel, band: beacon.frequencies_mhz(channel, 3 - np.asarray(band))[1], "reply_mhz"),
        slip("gave the interrogation", "that is what your own set asks on",
             lambda channel, band: 1024.0 + np.asarray(channel), "reply_mhz"),
        slip("started from 1025", "channel 1 is 1025, so the base is 1024",
             lambda channel, band: 1025.0 + np.asarray(channel)),
        slip("gave the reply", "that is what the beacon answers on; your set asks on 1024 plus the channel",
             lambda channel, band: beacon.frequencies_mhz(channel, band)[1]),
    ),
    source=TACAN_SIGNAL,
)  # fmt: skip


def _partner_in_the_head(channel):
    sign, partner = ("+", channel + 63) if channel <= 63 else ("-", channel - 63)
    return (
        "63 apart, same band: up from the lower half, down from the upper half",
        f"{num(channel)} {sign} 63 = {num(partner)}",
    )


PARTNER = Quantity(
    name="tacan_partner",
    title="air-to-air partner channel",
    area="navigation",
    words=("tacan", "air to air", "rendezvous", "range", "63"),
    inputs=(give("channel", "TACAN channel", "channel", 1, beacon.CHANNELS),),
    results=(get("partner_channel", "partner's channel", "channel", 0, 0.5),),
    methods={EXACT: beacon.partner_channel},
    mental=_partner_in_the_head,
    slips=(
        slip("past 126", "there is no such channel: from the upper half the 63 comes off",
             lambda channel: np.where(np.asarray(channel) > 63, channel + 63.0, channel - 63.0)),
        slip("same channel", "both on one channel hear nothing of each other; the partner is 63 away",
             lambda channel: channel),
        slip("64 away", "the partner is 63 channels away, not 64",
             lambda channel: np.where(np.asarray(channel) > 63, channel - 64.0, channel + 64.0)),
    ),
    source=AIR_TO_AIR,
)  # fmt: skip


def _vhf_in_the_head(channel, band):
    key = next(key for first, last, key in beacon.VHF_KEYS if first <= channel <= last)
    lines = (
        "keys: 17 to 59 add 1063, 70 and up add 1053 (1 to 16 add 1343, 60 to 69 add 1273); then a tenth of it",
        f"({num(channel)} + {key}) / 10 = {(channel + key) / 10:.2f} MHz",
    )
    return lines if band == beacon.X else (*lines, f"Y: + 0.05 = {(channel + key) / 10 + 0.05:.2f} MHz")


def _with_key(key):
    return lambda channel, band: (np.asarray(channel, dtype=float) + key) / 10 + 0.05 * (np.asarray(band) == 2)


VHF = Quantity(
    name="tacan_vhf",
    title="VHF frequency paired with a TACAN channel",
    area="navigation",
    words=("tacan", "vor", "vortac", "dme", "frequency", "pair"),
    inputs=(CHANNEL, BAND),
    results=(get("vhf_mhz", "VHF frequency", "mhz", 0.001, 0.024, round_to=0.01),),
    methods={EXACT: beacon.vhf_mhz},
    mental=_vhf_in_the_head,
    slips=(
        slip("key of the upper channels", "1053 is the key from 70 up; 17 to 59 have 1063", _with_key(1053)),
        slip("key of the lower channels", "1063 is the key from 17 to 59; from 70 up it is 1053",
             _with_key(1063)),
        slip("Y without its 0.05", "the Y band lies 0.05 above the X",
             lambda channel, band: beacon.vhf_mhz(channel, 1 + 0 * np.asarray(band))),
        slip("0.05 added for X", "the 0.05 belongs to the Y band only",
             lambda channel, band: beacon.vhf_mhz(channel, 2 + 0 * np.asarray(band))),
    ),
    source=VHF_CARD,
)  # fmt: skip


def _channel_in_the_head(frequency_mhz):
    channel, band = (float(value) for value in beacon.channel_of_vhf(frequency_mhz))
    tenths = int(round(frequency_mhz * 20)) // 2
    key = next(key for first, last, key in beacon.VHF_KEYS if first <= channel <= last)
    return (
        "ten times the frequency, less the key: 1063 up to 112.2, 1053 from 112.3; an odd 0.05 means Y",
        f"{tenths} - {key} = {num(channel)}{beacon.BANDS[int(band)]}",
    )


CHANNEL_OF_VHF = Quantity(
    name="tacan_channel_of_vhf",
    title="TACAN channel paired with a VHF frequency",
    area="navigation",
    words=("tacan", "vor", "vortac", "dme", "frequency", "pair"),
    inputs=(give("frequency_mhz", "VHF frequency", "mhz", 108, 136),),
    results=(
        get("channel", "TACAN channel", "channel", 0, 0.5),
        verdict("band", "band", beacon.BANDS),
    ),
    methods={EXACT: beacon.channel_of_vhf},
    mental=_channel_in_the_head,
    slips=(
        slip("key of the upper channels", "up to 112.2 the key is 1063, not 1053",
             lambda frequency_mhz: np.floor(np.asarray(frequency_mhz) * 10 + 1e-6) - 1053),
        slip("key of the lower channels", "from 112.3 up the key is 1053, not 1063",
             lambda frequency_mhz: np.floor(np.asarray(frequency_mhz) * 10 + 1e-6) - 1063),
    ),
    source=VHF_CARD,
)  # fmt: skip

QUANTITIES = (FREQUENCIES, PARTNER, VHF, CHANNEL_OF_VHF)
