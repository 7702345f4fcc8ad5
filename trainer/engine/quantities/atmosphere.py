"""Quantities of the standard atmosphere and of altimetry."""

from trainer.engine import atmosphere as air
from trainer.engine.quantities.air_sources import LAPSE_RULE, PERFORMANCE, STANDARD_ATMOSPHERE
from trainer.engine.quantities.entries import get, give, num, slip
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.units import convert

ALTITUDE = give("altitude_ft", "pressure altitude", "ft", air.LOWEST_FT, air.HIGHEST_FT)
LOW_ALTITUDE = give("altitude_ft", "pressure altitude", "ft", air.LOWEST_FT, 36_089)
GEOMETRIC = give("geometric_altitude_m", "geometric altitude", "m", -4_996, 20_063)
PRESSURE_ALTITUDE = give("pressure_altitude_ft", "pressure altitude", "ft", air.LOWEST_FT, 36_000)
ELEVATION = give("elevation_ft", "elevation", "ft", -2_000, 30_000)
SETTING = give("altimeter_inhg", "altimeter setting", "inhg", 26, 32)
OAT = give("oat_c", "outside air temperature", "c", -100, 60)
STANDARD_RESULTS = (
    get("temperature_c", "temperature", "c", 0.5, 2, round_to=0.1),
    get("pressure_hpa", "pressure", "hpa", 5, 20, round_to=0.1),
    get("density_kg_m3", "density", "kg/m3", 0.005, 0.03, round_to=0.0001),
    get("speed_of_sound_kn", "speed of sound", "kn", 1, 5, round_to=0.1),
    get("theta", "temperature ratio", "ratio", 0.005, 0.02, round_to=0.0001),
    get("delta", "pressure ratio", "ratio", 0.005, 0.02, round_to=0.0001),
    get("sigma", "density ratio", "ratio", 0.005, 0.02, round_to=0.0001),
    get("sqrt_sigma", "root of the density ratio", "ratio", 0.005, 0.02, round_to=0.0001),
)


def signed(value, decimals=0):
    """Return a number with its sign, as a correction is written."""
    return f"{'-' if value < 0 else '+'} {num(abs(value), decimals)}"


def _temperature_in_the_head(altitude_ft):
    if altitude_ft > 36_089:
        return ("above 36,089 ft the standard temperature stays at -56.5 °C",)
    thousands = altitude_ft / 1000
    return (
        "15 degrees at sea level, 2 less for each thousand feet",
        f"15 - 2 × {num(thousands, 1)} = {num(15 - 2 * thousands, 1)} °C",
    )


def _standard_in_the_head(altitude_ft):
    return (
        *_temperature_in_the_head(altitude_ft),
        "pressure: half of it is gone at 18,000 ft, three quarters at 34,000 ft",
        f"so at {num(altitude_ft)} ft about {100 * 0.5 ** (altitude_ft / 18_000):.0f} % of 1,013 hPa is left",
    )


def _standard_exact(altitude_ft):
    temperature_c, pressure, density, sound, theta, delta, sigma, _ = air.standard(altitude_ft)
    return (
        f"theta = {theta:.4f}: temperature 288.15 K × {theta:.4f} - 273.15 = {temperature_c:.2f} °C",
        f"delta = {delta:.4f}: pressure 1,013.25 hPa × {delta:.4f} = {pressure:,.2f} hPa",
        f"sigma = delta / theta = {sigma:.4f}: density 1.225 kg/m³ × {sigma:.4f} = {density:.4f} kg/m³",
        f"speed of sound 661.48 kt × √theta = {sound:.1f} kt",
    )


def _geometric_exact(geometric_altitude_m):
    altitude_ft = air.geopotential_ft(geometric_altitude_m)
    return (*_geopotential_exact(geometric_altitude_m), *_standard_exact(altitude_ft))


def _geopotential_exact(geometric_altitude_m):
    altitude_ft = float(air.geopotential_ft(geometric_altitude_m))
    return (
        f"6,356,766 × {num(geometric_altitude_m)} / (6,356,766 + {num(geometric_altitude_m)}) "
        f"= {altitude_ft * 0.3048:,.1f} m = {altitude_ft:,.0f} ft",
    )


def _geopotential_in_the_head(geometric_altitude_m):
    feet = geometric_altitude_m * 3.3
    return (
        "metres to feet: times three and a tenth more; the pull of the earth takes off next to nothing",
        f"{num(geometric_altitude_m)} m × 3.3 = {num(feet)} ft",
    )


STANDARD = Quantity(
    name="isa",
    title="standard atmosphere at a pressure altitude",
    area="navigation",
    words=("isa", "standard day", "sigma", "delta", "theta", "density", "speed of sound",
           "geopotential", "atmosphere", "pressure altitude"),
    inputs=(ALTITUDE,),
    results=STANDARD_RESULTS,
    methods={EXACT: air.standard},
    mental=_standard_in_the_head,
    exact=_standard_exact,
    slips=(
        slip("two degrees added", "it gets colder with height: the 2 degrees a thousand come off",
             lambda altitude_ft: 15 + 2 * altitude_ft / 1000),
        slip("started from zero", "the standard day has 15 degrees at sea level, not zero",
             lambda altitude_ft: -2 * altitude_ft / 1000),
        slip("lapse per thousand metres", "6.5 degrees is the lapse of a thousand metres, not of 1,000 feet",
             lambda altitude_ft: 15 - 6.5 * altitude_ft / 1000),
    ),
    source=STANDARD_ATMOSPHERE,
)  # fmt: skip

STANDARD_GEOMETRIC = Quantity(
    name="isa_geometric",
    title="standard atmosphere at a height in geometric metres",
    area="navigation",
    words=("isa", "standard day", "metres", "geometric", "table"),
    inputs=(GEOMETRIC,),
    results=STANDARD_RESULTS,
    methods={EXACT: air.standard_geometric},
    mental=lambda geometric_altitude_m: (
        *_geopotential_in_the_head(geometric_altitude_m),
        *_temperature_in_the_head(geometric_altitude_m / 0.3048),
    ),
    exact=_geometric_exact,
    slips=(
        slip("metres taken as feet", "the height was in metres; there are 3.28 feet in each",
             lambda geometric_altitude_m: air.standard_temperature_c(geometric_altitude_m)),
        slip("lapse added", "it gets colder with height: 6.5 degrees a thousand metres come off",
             lambda geometric_altitude_m: 15 + 6.5 * geometric_altitude_m / 1000),
    ),
    source=STANDARD_ATMOSPHERE,
)  # fmt: skip

GEOPOTENTIAL = Quantity(
    name="geopotential_altitude",
    title="geopotential altitude of a height in geometric metres",
    area="navigation",
    words=("geometric", "geopotential", "metres", "table"),
    inputs=(GEOMETRIC,),
    results=(
        get("altitude_ft", "geopotential altitude", "ft", 50, 500),
        get("altitude_m", "geopotential altitude", "m", 15, 150, round_to=0.1),
    ),
    methods={
        EXACT: lambda geometric_altitude_m: (
            air.geopotential_ft(geometric_altitude_m),
            air.geopotential_ft(geometric_altitude_m) * air.M_PER_FT,
        )
    },
    mental=_geopotential_in_the_head,
    exact=_geopotential_exact,
    slips=(
        slip("left in metres", "that is the height in metres; the altimeter has feet",
             lambda geometric_altitude_m: geometric_altitude_m),
        slip("three feet a metre", "three feet to the metre is a tenth short",
             lambda geometric_altitude_m: 3 * geometric_altitude_m),
    ),
    source=STANDARD_ATMOSPHERE,
)  # fmt: skip

TEMPERATURE = Quantity(
    name="isa_temperature",
    title="standard temperature at an altitude",
    area="navigation",
    words=("isa", "standard day", "lapse", "temperature"),
    inputs=(LOW_ALTITUDE,),
    results=(get("temperature_c", "standard temperature", "c", 0.5, 2, round_to=0.1),),
    methods={EXACT: air.standard_temperature_c, RULE: air.standard_temperature_rule_c},
    mental=_temperature_in_the_head,
    exact=lambda altitude_ft: (
        f"15 - 1.9812 × {num(altitude_ft / 1000, 3)} = {air.standard_temperature_c(altitude_ft):.1f} °C",
    ),
    slips=STANDARD.slips,
    source=LAPSE_RULE,
)


def _deviation_in_the_head(altitude_ft, oat_c):
    standard = 15 - 2 * altitude_ft / 1000
    return (
        *_temperature_in_the_head(altitude_ft),
        "take the standard from what you have; warmer is plus",
        f"from {num(standard, 1)} to {num(oat_c, 1)} is {num(abs(oat_c - standard), 1)} "
        f"{'up' if oat_c >= standard else 'down'}: {num(oat_c - standard, 1)} °C",
    )


DEVIATION = Quantity(
    name="isa_deviation",
    title="temperature against standard",
    area="navigation",
    words=("isa", "warmer", "colder", "temperature"),
    inputs=(LOW_ALTITUDE, OAT),
    results=(get("isa_deviation_c", "degrees above standard", "c", 0.5, 2, round_to=0.1),),
    methods={EXACT: air.isa_deviation_c, RULE: air.isa_deviation_rule_c},
    mental=_deviation_in_the_head,
    exact=lambda altitude_ft, oat_c: (
        f"standard is 15 - 1.9812 × {num(altitude_ft / 1000, 3)} "
        f"= {air.standard_temperature_c(altitude_ft):.1f} °C; the difference is "
        f"{air.isa_deviation_c(altitude_ft, oat_c):.1f} °C",
    ),
    slips=(
        slip("sign turned round", "you took the air from the standard; it is the other way: warmer is plus",
             lambda altitude_ft, oat_c: air.standard_temperature_rule_c(altitude_ft) - oat_c),
        slip("compared with sea level", "you compared with 15 degrees; the standard falls with height",
             lambda altitude_ft, oat_c: oat_c - 15),
    ),
    source=LAPSE_RULE,
)  # fmt: skip


def _pressure_in_the_head(elevation_ft, altimeter_inhg):
    difference = 29.92 - altimeter_inhg
    return (
        "an inch is a thousand feet; a low setting makes the pressure altitude high",
        f"29.92 - {altimeter_inhg:.2f} = {num(difference, 2)} in, so {num(1000 * difference)} ft",
        f"{num(elevation_ft)} {signed(1000 * difference)} = {num(elevation_ft + 1000 * difference)} ft",
    )


def _pressure_exact(elevation_ft, altimeter_inhg):
    altitude = float(air.pressure_altitude_ft(elevation_ft, altimeter_inhg))
    return (
        f"{altimeter_inhg:.2f} inHg is {convert(altimeter_inhg, 'inhg', 'hpa'):,.1f} hPa, "
        f"which in the standard atmosphere lies at {altitude - elevation_ft:,.0f} ft",
        f"{num(elevation_ft)} {signed(altitude - elevation_ft)} = {num(altitude)} ft",
    )


PRESSURE = Quantity(
    name="pressure_altitude",
    title="pressure altitude from elevation and altimeter setting",
    area="navigation",
    words=("altimeter", "qnh", "setting", "29.92", "altimetry", "pressure altitude"),
    inputs=(ELEVATION, SETTING),
    results=(get("pressure_altitude_ft", "pressure altitude", "ft", 10, 60, round_to=1),),
    methods={EXACT: air.pressure_altitude_ft, RULE: air.pressure_altitude_rule_ft},
    mental=_pressure_in_the_head,
    exact=_pressure_exact,
    slips=(
        slip("wrong way", "a setting below 29.92 ADDS feet, one above it takes them off",
             lambda elevation_ft, altimeter_inhg: elevation_ft - 1000 * (29.92 - altimeter_inhg)),
        slip("a hundred feet an inch", "an inch is a thousand feet, a tenth of an inch a hundred",
             lambda elevation_ft, altimeter_inhg: elevation_ft + 100 * (29.92 - altimeter_inhg)),
        slip("gave the correction alone", "that is only the correction; the elevation is still to be added",
             lambda elevation_ft, altimeter_inhg: 1000 * (29.92 - altimeter_inhg)),
    ),
    source=PERFORMANCE,
)  # fmt: skip


def _density_in_the_head(pressure_altitude_ft, oat_c):
    standard = 15 - 2 * pressure_altitude_ft / 1000
    above = oat_c - standard
    return (
        f"standard at {num(pressure_altitude_ft)} ft: 15 - 2 × {num(pressure_altitude_ft / 1000, 2)} "
        f"= {num(standard, 1)} °C",
        f"{num(oat_c, 1)} °C is {num(abs(above), 1)} {'above' if above >= 0 else 'below'} it; 120 ft for each degree",
        f"{num(pressure_altitude_ft)} {signed(120 * above)} = {num(pressure_altitude_ft + 120 * above)} ft",
    )


def _density_exact(pressure_altitude_ft, oat_c):
    delta = float(air.delta(pressure_altitude_ft))
    sigma = delta * air.T0_K / (oat_c + 273.15)
    return (
        f"sigma = {delta:.4f} × 288.15 / {oat_c + 273.15:.2f} = {sigma:.4f}",
        f"that density is standard at {air.altitude_of_sigma_ft(sigma):,.0f} ft",
    )


DENSITY = Quantity(
    name="density_altitude",
    title="density altitude from pressure altitude and temperature",
    area="navigation",
    words=("density", "hot", "performance", "altimetry"),
    inputs=(PRESSURE_ALTITUDE, OAT),
    results=(get("density_altitude_ft", "density altitude", "ft", 50, 300, round_to=10),),
    methods={EXACT: air.density_altitude_ft, RULE: air.density_altitude_rule_ft},
    mental=_density_in_the_head,
    exact=_density_exact,
    slips=(
        slip("wrong way", "warm air is thin: degrees above standard ADD feet",
             lambda pressure_altitude_ft, oat_c: pressure_altitude_ft
             - 120 * (oat_c - air.standard_temperature_rule_c(pressure_altitude_ft))),
        slip("compared with 15 degrees", "you compared with the sea-level 15; the standard falls with height",
             lambda pressure_altitude_ft, oat_c: pressure_altitude_ft + 120 * (oat_c - 15)),
        slip("a hundred feet a degree", "a degree is 120 feet, not a hundred",
             lambda pressure_altitude_ft, oat_c: pressure_altitude_ft
             + 100 * (oat_c - air.standard_temperature_rule_c(pressure_altitude_ft))),
    ),
    source=PERFORMANCE,
)  # fmt: skip


def _field_in_the_head(elevation_ft, altimeter_inhg, oat_c):
    pressure = elevation_ft + 1000 * (29.92 - altimeter_inhg)
    return (*_pressure_in_the_head(elevation_ft, altimeter_inhg), *_density_in_the_head(pressure, oat_c))


def _field_exact(elevation_ft, altimeter_inhg, oat_c):
    pressure = float(air.pressure_altitude_ft(elevation_ft, altimeter_inhg))
    return (*_pressure_exact(elevation_ft, altimeter_inhg), *_density_exact(pressure, oat_c))


FIELD_DENSITY = Quantity(
    name="field_density_altitude",
    title="density altitude of a field from elevation, altimeter setting and temperature",
    area="navigation",
    words=("density", "hot", "performance", "divert", "altimetry"),
    inputs=(give("elevation_ft", "elevation", "ft", -2_000, 25_000), SETTING, OAT),
    results=(get("density_altitude_ft", "density altitude", "ft", 60, 300, round_to=10),),
    methods={EXACT: air.field_density_altitude_ft, RULE: air.field_density_altitude_rule_ft},
    mental=_field_in_the_head,
    exact=_field_exact,
    slips=(
        slip("left the setting out", "you went from the elevation; the altimeter setting comes first",
             lambda elevation_ft, altimeter_inhg, oat_c: air.density_altitude_rule_ft(elevation_ft, oat_c)),
        slip("left the temperature out", "that is the pressure altitude; the temperature is still to come",
             lambda elevation_ft, altimeter_inhg, oat_c:
             air.pressure_altitude_rule_ft(elevation_ft, altimeter_inhg)),
        slip("setting the wrong way", "a setting below 29.92 adds feet",
             lambda elevation_ft, altimeter_inhg, oat_c:
             air.density_altitude_rule_ft(elevation_ft - 1000 * (29.92 - altimeter_inhg), oat_c)),
    ),
    source=PERFORMANCE,
)  # fmt: skip

QUANTITIES = (
    STANDARD, STANDARD_GEOMETRIC, GEOPOTENTIAL, TEMPERATURE, DEVIATION, PRESSURE, DENSITY, FIELD_DENSITY
)  # fmt: skip
