"""The handful of units that the trade uses, with the spellings people type.

Source for the exact factors: NIST Special Publication 811 (2008), Appendix B (international nautical
mile 1,852 m, foot 0.3048 m, pound 0.45359237 kg, inch of mercury 3,386.389 Pa), and Handbook 44, Appendix C
(US gallon 231 cubic inches, imperial gallon 4.54609 litres).
"""

from trainer.frozen import frozen

FT_PER_NM = 1852 / 0.3048  # exact: both units are defined in metres
FT_PER_S_PER_KN = FT_PER_NM / 3600
KG_PER_LB = 0.45359237
L_PER_GAL = 231 * 0.254**3  # an inch is 0.254 dm


@frozen
class Unit:
    """A unit: values of the same ``dimension`` convert by ``factor`` (to the dimension's first unit).

    ``offset`` is added after the factor; only temperatures have one.
    ``cycle`` is the period on which values wrap (360 for headings), 0 for none.  ``form`` tells the
    answer reader and the screens how people write it: "number", "heading", "minute", "clock",
    "duration", "thousands" or "word".  ``decimals`` is how many are shown.
    """

    name: str
    symbol: str
    dimension: str
    factor: float = 1.0
    offset: float = 0.0
    cycle: float = 0.0
    form: str = "number"
    decimals: int = 0
    spellings: tuple[str, ...] = ()


_ALL = (
    # Directions are 1-360, rounded before they are wrapped; "deg" is an angle that does not wrap.
    Unit(name="heading", symbol="°", dimension="direction", cycle=360, form="heading",
         spellings=("deg", "degree", "degrees", "°", "°m", "°t", "true", "magnetic", "mag", "radial")),
    Unit(name="deg", symbol="°", dimension="angle", decimals=1, spellings=("degree", "degrees", "°")),
    Unit(name="latlon", symbol="°", dimension="coordinate", decimals=4, spellings=("deg", "degrees", "°")),
    Unit(name="radials", symbol=" radials", dimension="angle", decimals=0, spellings=("radial", "deg", "°")),
    Unit(name="kn", symbol=" kt", dimension="speed", decimals=0,
         spellings=("kt", "kts", "knot", "knots", "kias", "ktas", "kcas")),
    Unit(name="nm", symbol=" nm", dimension="length", decimals=1,
         spellings=("nmi", "mile", "miles", "dme", "nautical")),
    Unit(name="ft", symbol=" ft", dimension="length", factor=1 / FT_PER_NM, spellings=("feet", "foot", "'")),
    Unit(name="yd", symbol=" yd", dimension="length", factor=3 / FT_PER_NM, spellings=("yard", "yards", "yds")),
    Unit(name="m", symbol=" m", dimension="length", factor=1 / 1852, spellings=("metre", "metres", "meter", "meters")),
    Unit(name="km", symbol=" km", dimension="length", factor=1000 / 1852, decimals=1,
         spellings=("kilometre", "kilometres")),
    Unit(name="sm", symbol=" sm", dimension="length", factor=5280 / FT_PER_NM, decimals=1,
         spellings=("mi", "statute", "statute miles", "statute mile")),
    Unit(name="in", symbol=" in", dimension="length", factor=1 / 12 / FT_PER_NM, decimals=1,
         spellings=("inch", "inches")),
    Unit(name="fl", symbol="", dimension="length", factor=100 / FT_PER_NM, spellings=("flight level", "level")),
    Unit(name="angels", symbol="", dimension="length", factor=1000 / FT_PER_NM, spellings=("angel", "thousand")),
    Unit(name="ft/min", symbol=" ft/min", dimension="vertical speed", spellings=("fpm", "feet per minute")),
    Unit(name="ft/nm", symbol=" ft/nm", dimension="gradient", spellings=("feet per mile",)),
    Unit(name="nm/min", symbol=" nm/min", dimension="speed", factor=60.0, decimals=1, spellings=("miles per minute",)),
    Unit(name="km/h", symbol=" km/h", dimension="speed", factor=1000 / 1852, spellings=("kph", "kmh")),
    Unit(name="mph", symbol=" mph", dimension="speed", factor=5280 * 0.3048 / 1852, spellings=("miles per hour",)),
    Unit(name="m/s", symbol=" m/s", dimension="speed", factor=3600 / 1852, decimals=1),
    Unit(name="ft/s", symbol=" ft/s", dimension="speed", factor=3600 / FT_PER_NM, decimals=1, spellings=("fps",)),
    Unit(name="deg/s", symbol=" °/s", dimension="turn rate", decimals=2, spellings=("°/s", "degrees per second")),
    Unit(name="lb", symbol=" lb", dimension="mass", form="thousands",
         spellings=("lbs", "pound", "pounds", "#")),
    Unit(name="klb", symbol="", dimension="mass", factor=1000.0, decimals=1, spellings=("thousand",)),
    Unit(name="kg", symbol=" kg", dimension="mass", factor=1 / KG_PER_LB,
         spellings=("kilo", "kilos", "kilogram", "kilograms")),
    Unit(name="lb/h", symbol=" lb/h", dimension="fuel flow", spellings=("pph", "lb/hr", "pounds per hour")),
    Unit(name="lb/min", symbol=" lb/min", dimension="fuel flow", factor=60.0, spellings=("ppm", "pounds per minute")),
    Unit(name="kg/h", symbol=" kg/h", dimension="fuel flow", factor=1 / KG_PER_LB,
         spellings=("kg/hr", "kilograms per hour")),
    Unit(name="kg/min", symbol=" kg/min", dimension="fuel flow", factor=60 / KG_PER_LB,
         spellings=("kilograms per minute",)),
    Unit(name="s", symbol=" s", dimension="time", form="duration", spellings=("sec", "secs", "second", "seconds")),
    Unit(name="min", symbol=" min", dimension="time", factor=60.0, form="duration", decimals=1,
         spellings=("mins", "minute", "minutes")),
    Unit(name="h", symbol=" h", dimension="time", factor=3600.0, form="duration", decimals=2,
         spellings=("hr", "hrs", "hour", "hours")),
    # A minute of the hour (push time ":24") wraps on 60; a clock time is minutes since midnight.
    Unit(name="minute", symbol="", dimension="minute of the hour", cycle=60, form="minute"),
    Unit(name="clock", symbol="", dimension="time of day", cycle=1440, form="clock", spellings=("z", "zulu", "utc")),
    Unit(name="day", symbol="", dimension="date", form="day"),
    Unit(name="mhz", symbol=" MHz", dimension="frequency", decimals=2, spellings=("megahertz",)),
    Unit(name="channel", symbol="", dimension="channel", spellings=("ch", "x", "y")),
    Unit(name="inhg", symbol=" inHg", dimension="pressure", factor=3386.389, decimals=2, spellings=("in", "inches")),
    Unit(name="hpa", symbol=" hPa", dimension="pressure", factor=100.0, decimals=1,
         spellings=("mb", "millibar", "millibars")),
    Unit(name="pa", symbol=" Pa", dimension="pressure", spellings=("pascal", "pascals")),
    Unit(name="c", symbol=" °C", dimension="temperature", decimals=1, spellings=("°c", "celsius")),
    Unit(name="f", symbol=" °F", dimension="temperature", factor=5 / 9, offset=-160 / 9, decimals=1,
         spellings=("°f", "fahrenheit")),
    Unit(name="k", symbol=" K", dimension="temperature", offset=-273.15, decimals=2, spellings=("kelvin", "kelvins")),
    Unit(name="kg/m3", symbol=" kg/m³", dimension="density", decimals=4, spellings=("kg/m³",)),
    Unit(name="nt", symbol=" nT", dimension="magnetic field", spellings=("nanotesla",)),
    Unit(name="gal", symbol=" US gal", dimension="volume", decimals=1, spellings=("gallon", "gallons", "usg")),
    Unit(name="l", symbol=" L", dimension="volume", factor=1 / L_PER_GAL,
         spellings=("litre", "litres", "liter", "liters")),
    Unit(name="imp gal", symbol=" imp gal", dimension="volume", factor=4.54609 / L_PER_GAL, decimals=1,
         spellings=("imperial gallon", "imperial gallons")),
    Unit(name="lb/gal", symbol=" lb/gal", dimension="fuel density", decimals=2, spellings=("pounds per gallon",)),
    Unit(name="kg/l", symbol=" kg/L", dimension="fuel density", factor=L_PER_GAL / KG_PER_LB, decimals=3,
         spellings=("kilograms per litre", "kilograms per liter", "sg")),
    Unit(name="lb in", symbol=" lb in", dimension="moment", form="thousands",
         spellings=("pound inches", "inch pounds")),
    Unit(name="mach", symbol=" Mach", dimension="mach", decimals=3, spellings=("m",)),
    Unit(name="%", symbol=" %", dimension="share", decimals=1, spellings=("percent", "per cent", "pct")),
    Unit(name="ratio", symbol="", dimension="ratio", decimals=4),
    # A trim is told as the type's indicator tells it: nose up or nose down, in degrees or in units of its own.
    Unit(name="trim", symbol="° nose up", dimension="trim", decimals=1,
         spellings=("deg", "°", "degrees", "units", "nose up", "up", "deg nose up", "degrees nose up")),
    Unit(name="deg nose down", symbol="° nose down", dimension="trim", factor=-1.0, decimals=1,
         spellings=("deg", "°", "degrees", "units", "nose down", "down", "degrees nose down")),
    Unit(name="units nose up", symbol=" units nose up", dimension="trim units", decimals=1,
         spellings=("units", "unit", "nose up", "up")),
    Unit(name="units nose down", symbol=" units nose down", dimension="trim units", factor=-1.0, decimals=1,
         spellings=("units", "unit", "nose down", "down")),
    Unit(name="trim units", symbol=" units", dimension="trim units", decimals=1),
    Unit(name="count", symbol="", dimension="count", spellings=("passes", "pass", "patterns", "traps")),
    Unit(name="points", symbol=" points", dimension="points", decimals=2, spellings=("pts", "point")),
    Unit(name="year", symbol="", dimension="year", decimals=1),
    Unit(name="word", symbol="", dimension="word", form="word"),
    Unit(name="table", symbol="", dimension="table", form="table"),
)  # fmt: skip
UNITS = {unit.name: unit for unit in _ALL}


def convert(value, from_unit, to_unit):
    """Return ``value`` (a float or an array) of ``from_unit`` in ``to_unit``; both are unit names.

    Raises ``ValueError`` where the two measure different things.

    >>> round(convert(1, "nm", "ft"), 1)
    6076.1
    """
    source, target = UNITS[from_unit], UNITS[to_unit]
    if source.dimension != target.dimension:
        raise ValueError(f"{from_unit} and {to_unit} measure different things")
    return (value * source.factor + source.offset - target.offset) / target.factor
