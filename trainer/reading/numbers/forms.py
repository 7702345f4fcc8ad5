"""How a number of each kind is typed: in words, and by an example that is never the answer."""

from zlib import crc32

from trainer.engine.display import value as shown_value
from trainer.engine.units import UNITS

# Numbers of each kind, more than one, so that none is ever the answer itself.
EXAMPLES = {
    "heading": (355, 130, 50), "minute": (24, 37), "clock": (765, 1110), "lb": (3500, 5200), "klb": (3.5, 5.2),
    "angels": (4, 9), "ft": (1500, 900), "kn": (250, 140), "nm": (7, 15), "mach": (0.82, 0.6),
    "inhg": (29.95, 30.1, 29.4), "hpa": (1008, 1021, 990), "s": (95, 40), "min": (8, 25), "h": (1.5, 2.25),
    "ft/min": (700, 1800), "mhz": (113.2, 1040), "%": (35, 80), "channel": (44, 71), "c": (12, -5), "trim": (6, 9),
    "deg nose down": (6, 9), "units nose up": (6, 9), "units nose down": (6, 9), "deg": (12, 40),
}  # fmt: skip
_KINDS = {
    "heading": "a number of degrees", "deg": "a number of degrees", "latlon": "a number of degrees",
    "radials": "a number of radials", "kn": "a number of knots", "nm": "a number of miles", "ft": "a number of feet",
    "yd": "a number of yards", "angels": "thousands of feet", "lb": "a number of pounds", "kg": "a number of kilograms",
    "klb": "thousands and tenths", "s": "seconds, or minutes and seconds", "min": "a number of minutes",
    "h": "a number of hours", "minute": "the minute of the hour", "clock": "a time of day", "%": "a number of per cent",
    "mach": "a Mach number", "channel": "a channel", "points": "a number of points", "mhz": "a number of megahertz",
    "inhg": "inches of mercury", "hpa": "a number of hectopascals", "trim": "a trim", "deg nose down": "a trim",
    "units nose up": "a trim", "units nose down": "a trim", "c": "a number of degrees", "ft/min": "feet a minute",
}  # fmt: skip
_FAR = 0.25  # an example nearer to the truth than this share of it might pass for it


def form_of(unit: str, truth: float, seed: str) -> str:
    """Return in words how a number in ``unit`` is typed, with an example that is not the ``truth``.

    Which example is shown hangs on the ``seed`` of the question, so that none tells where the truth lies.

    >>> form_of("heading", 217.0, "1"), form_of("ft/nm", 318.0, "1")
    ('a number of degrees, like 050', 'a number (ft/nm), like 34')
    """
    examples = EXAMPLES.get(unit, (12, 34))
    first = crc32(seed.encode()) % len(examples)
    order = (*examples[first:], *examples[:first])
    far = (one for one in order if abs(one - truth) > _FAR * abs(truth))
    example = next(far, max(order, key=lambda one: abs(one - truth)))
    symbol = UNITS[unit].symbol
    kind = _KINDS.get(unit) or f"a number ({symbol.strip()})" if symbol.strip() else _KINDS.get(unit, "a number")
    return f"{kind}, like {shown_value(example, unit).removesuffix(symbol)}"
