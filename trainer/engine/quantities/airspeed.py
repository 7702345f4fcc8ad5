"""Quantities of airspeed: calibrated, true, Mach, and the three rules for true airspeed."""

import numpy as np

from trainer.engine import airspeed, atmosphere
from trainer.engine.quantities.air_sources import COMPRESSIBLE, MACH_SIX, SIXTY_TO_ONE
from trainer.engine.quantities.entries import get, give, num, reckoned, slip
from trainer.engine.quantity import EXACT, RULE, Quantity

CAS = give("cas_kn", "calibrated airspeed", "kn", 0, 1_320)
TAS = give("tas_kn", "true airspeed", "kn", 0, 1_400)
MACH = give("mach", "Mach number", "mach", 0, 2)
ALTITUDE = give("pressure_altitude_ft", "pressure altitude", "ft", atmosphere.LOWEST_FT, atmosphere.HIGHEST_FT)
OAT = give("oat_c", "outside air temperature", "c", -100, 60)
SOUND = give("speed_of_sound_kn", "speed of sound", "kn", 500, 720)
PRESSURE = give("static_pressure_hpa", "static pressure", "hpa", 54, 1_100)
IAS = give("ias_kn", "indicated airspeed", "kn", 0, 500)
LEVEL = give("flight_level", "flight level", "fl", 0, 450)
MACH_RESULT = get("mach", "Mach number", "mach", 0.005, 0.02, round_to=0.001)
CAS_RESULT = get("cas_kn", "calibrated airspeed", "kn", 2, 10, round_to=0.1)
TAS_RESULT = get("tas_kn", "true airspeed", "kn", 2, 10, round_to=0.1)
EAS_RESULT = get("eas_kn", "equivalent airspeed", "kn", 2, 10, round_to=0.1)


def _sound_line(oat_c):
    sound = float(atmosphere.speed_of_sound_kn(oat_c))
    return f"speed of sound 38.97 × √{oat_c + 273.15:.1f} K = {sound:.1f} kt"


GROWN = ((0, 1.0), (10_000, 1.2), (20_000, 1.42), (30_000, 1.72), (40_000, 2.1), (66_000, 3.8))


def _compound(pressure_altitude_ft):
    """Return by how much Mach for one calibrated airspeed has grown, between the remembered heights."""
    return float(np.interp(pressure_altitude_ft, [height for height, _ in GROWN], [grown for _, grown in GROWN]))


COMPOUND = (
    "660 kt is Mach 1 at sea level; aloft Mach is 1.2 times that share at 10,000 ft, 1.4 at 20,000, 1.7 at 30,000"
)


def _percent_more(pressure_altitude_ft, oat_c):
    """Return by how many percent true airspeed is above calibrated, as done in the head, and the line that says it."""
    thousands = pressure_altitude_ft / 1000
    warmer = oat_c - max(-56.0, 15 - 2 * thousands)
    sign, kind = ("+", "warmer") if warmer >= 0 else ("-", "colder")
    return 1.7 * thousands + warmer / 5, (
        f"1.7 × {num(thousands, 1)} = {num(1.7 * thousands, 1)} %; {num(abs(warmer))} °C {kind} than standard: "
        f"{sign} {num(abs(warmer) / 5, 1)} %"
    )


def _true_in_the_head(cas_kn, pressure_altitude_ft, oat_c):
    percent, line = _percent_more(pressure_altitude_ft, oat_c)
    more = cas_kn * percent / 100
    return (
        "1.7 percent for each thousand feet, and a percent for each five degrees off the standard day",
        line,
        f"{num(percent, 1)} % of {num(cas_kn)} is {num(more)}: true {num(cas_kn + more)} kt",
    )


def _true_exact(cas_kn, pressure_altitude_ft, oat_c):
    tas, mach = airspeed.true_airspeed(cas_kn, pressure_altitude_ft, oat_c)
    return (
        f"at {num(pressure_altitude_ft)} ft delta is {atmosphere.delta(pressure_altitude_ft):.4f}; "
        f"{num(cas_kn, 1)} kt calibrated is Mach {mach:.4f} there",
        _sound_line(oat_c),
        f"{mach:.4f} × that = {tas:.1f} kt true",
    )


TRUE = Quantity(
    name="true_airspeed",
    title="true airspeed from calibrated airspeed, altitude and temperature",
    area="navigation",
    words=("tas", "cas", "ias", "airspeed", "compressibility", "ktas", "kcas"),
    inputs=(CAS, ALTITUDE, OAT),
    results=(TAS_RESULT, MACH_RESULT),
    methods={EXACT: airspeed.true_airspeed},
    mental=_true_in_the_head,
    exact=_true_exact,
    slips=(
        slip("gave the calibrated speed",
             "that is what the indicator shows; thin air makes the true speed higher",
             lambda cas_kn, pressure_altitude_ft, oat_c: cas_kn),
        slip("took it off", "true airspeed is above calibrated aloft: the percentage is added",
             lambda cas_kn, pressure_altitude_ft, oat_c: cas_kn * (1 - 0.02 * pressure_altitude_ft / 1000)),
        slip("one percent a thousand", "it is two percent for each thousand feet, not one",
             lambda cas_kn, pressure_altitude_ft, oat_c: cas_kn * (1 + 0.01 * pressure_altitude_ft / 1000)),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip


def _calibrated_in_the_head(tas_kn, pressure_altitude_ft, oat_c):
    percent, line = _percent_more(pressure_altitude_ft, oat_c)
    factor = 1 + percent / 100
    return (
        "true is calibrated and 1.7 percent for each thousand feet, so divide",
        line,
        f"{reckoned(tas_kn, '/', factor, 0, places=(0, 2))} kt",
    )


def _calibrated_exact(tas_kn, pressure_altitude_ft, oat_c):
    cas, mach = airspeed.calibrated_airspeed(tas_kn, pressure_altitude_ft, oat_c)
    return (
        _sound_line(oat_c),
        f"{num(tas_kn, 1)} kt is Mach {mach:.4f}; where delta is "
        f"{atmosphere.delta(pressure_altitude_ft):.4f} the indicator shows {cas:.1f} kt",
    )


CALIBRATED = Quantity(
    name="calibrated_airspeed",
    title="calibrated airspeed from true airspeed, altitude and temperature",
    area="navigation",
    words=("tas", "cas", "ias", "airspeed", "compressibility", "kcas"),
    inputs=(TAS, ALTITUDE, OAT),
    results=(CAS_RESULT, MACH_RESULT),
    methods={EXACT: airspeed.calibrated_airspeed},
    mental=_calibrated_in_the_head,
    exact=_calibrated_exact,
    slips=(
        slip("gave the true speed", "that is the true airspeed; the indicator shows less aloft",
             lambda tas_kn, pressure_altitude_ft, oat_c: tas_kn),
        slip("multiplied", "you went the other way: calibrated is below true aloft",
             lambda tas_kn, pressure_altitude_ft, oat_c: tas_kn * (1 + 0.02 * pressure_altitude_ft / 1000)),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip

MACH_FROM_CAS = Quantity(
    name="mach_from_cas",
    title="Mach number from calibrated airspeed and pressure altitude",
    area="navigation",
    words=("mach", "cas", "airspeed"),
    inputs=(CAS, ALTITUDE),
    results=(MACH_RESULT,),
    methods={EXACT: airspeed.mach_from_cas},
    mental=lambda cas_kn, pressure_altitude_ft: (
        COMPOUND,
        f"{num(cas_kn)} / 660 = {cas_kn / 660:.3f}; × {_compound(pressure_altitude_ft):.2f} "
        f"= Mach {cas_kn / 660 * _compound(pressure_altitude_ft):.2f}",
    ),
    exact=lambda cas_kn, pressure_altitude_ft: (
        f"impact pressure at {num(cas_kn, 1)} kt over delta {atmosphere.delta(pressure_altitude_ft):.4f} "
        f"gives Mach {airspeed.mach_from_cas(cas_kn, pressure_altitude_ft):.4f}; "
        "the temperature does not matter",
    ),
    slips=(
        slip("calibrated over 600", "you used the calibrated speed as if it were true",
             lambda cas_kn, pressure_altitude_ft: cas_kn / 600),
        slip("calibrated over the sea-level speed of sound",
             "661 knots is the speed of sound at sea level only",
             lambda cas_kn, pressure_altitude_ft: cas_kn / 661.5),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip

CAS_FROM_MACH = Quantity(
    name="cas_from_mach",
    title="calibrated airspeed from Mach number and pressure altitude",
    area="navigation",
    words=("mach", "cas", "airspeed"),
    inputs=(MACH, ALTITUDE),
    results=(CAS_RESULT,),
    methods={EXACT: airspeed.cas_from_mach_kn},
    mental=lambda mach, pressure_altitude_ft: (
        COMPOUND,
        f"{mach:g} × 660 = {num(mach * 660)} kt; / {_compound(pressure_altitude_ft):.2f} "
        f"= {num(mach * 660 / _compound(pressure_altitude_ft))} kt",
    ),
    exact=lambda mach, pressure_altitude_ft: (
        f"impact pressure of Mach {mach:g} times delta {atmosphere.delta(pressure_altitude_ft):.4f}, "
        "read by an indicator made for sea level: "
        f"{airspeed.cas_from_mach_kn(mach, pressure_altitude_ft):.1f} kt",
    ),
    slips=(
        slip("gave the true speed", "that is the true airspeed; the indicator shows less aloft",
             lambda mach, pressure_altitude_ft: mach * 600),
        slip("times the sea-level speed of sound", "661 knots is the speed of sound at sea level only",
             lambda mach, pressure_altitude_ft: mach * 661.5),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip

MACH_FROM_TAS = Quantity(
    name="mach_from_tas",
    title="Mach number from true airspeed and temperature",
    area="navigation",
    words=("mach", "tas", "airspeed", "speed of sound"),
    inputs=(TAS, OAT),
    results=(MACH_RESULT,),
    methods={EXACT: airspeed.mach_from_tas},
    mental=lambda tas_kn, oat_c: (
        "600 knots is Mach 1 at -35 °C; 1.2 knots more for each degree warmer",
        f"600 {'+' if oat_c >= -35 else '-'} 1.2 × {num(abs(oat_c + 35))} = {num(642 + 1.2 * oat_c)} kt",
        f"{num(tas_kn)} / {num(642 + 1.2 * oat_c)} = Mach {tas_kn / (642 + 1.2 * oat_c):.2f}",
    ),
    exact=lambda tas_kn, oat_c: (
        _sound_line(oat_c), f"{num(tas_kn, 1)} over it is Mach {airspeed.mach_from_tas(tas_kn, oat_c):.3f}"
    ),
    slips=(
        slip("sea-level speed of sound", "661 knots is the speed of sound at 15 °C; it is colder up there",
             lambda tas_kn, oat_c: tas_kn / 661.5),
        slip("temperature left in Celsius", "the root is of kelvins: add 273 to the temperature first",
             lambda tas_kn, oat_c: tas_kn / (38.97 * (abs(oat_c) + 1e-9) ** 0.5)),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip

TAS_FROM_MACH = Quantity(
    name="tas_from_mach",
    title="true airspeed from Mach number and temperature",
    area="navigation",
    words=("mach", "tas", "airspeed", "speed of sound"),
    inputs=(MACH, OAT),
    results=(TAS_RESULT,),
    methods={EXACT: airspeed.tas_from_mach_kn, RULE: airspeed.tas_from_mach_rule_kn},
    mental=lambda mach, oat_c: (
        "six knots for each hundredth of Mach; ten times Mach is miles a minute",
        f"{num(mach * 100, 1)} × 6 = {num(mach * 600)} kt, which is {num(mach * 10, 1)} nm a minute",
    ),
    exact=lambda mach, oat_c: (
        _sound_line(oat_c), f"{mach:g} × that = {airspeed.tas_from_mach_kn(mach, oat_c):.1f} kt"
    ),
    slips=(
        slip("sea-level speed of sound", "661 knots is the speed of sound at 15 °C; it is colder up there",
             lambda mach, oat_c: mach * 661.5),
        slip("gave miles a minute", "that is miles a minute; knots are sixty times as many",
             lambda mach, oat_c: mach * 10),
    ),
    source=MACH_SIX,
)  # fmt: skip

FROM_TAS = Quantity(
    name="airspeeds_from_tas",
    title="calibrated and equivalent airspeed where pressure and speed of sound are known",
    area="navigation",
    words=("cas", "eas", "tas", "mach", "static pressure"),
    inputs=(TAS, SOUND, PRESSURE),
    results=(CAS_RESULT, EAS_RESULT, MACH_RESULT),
    methods={EXACT: airspeed.speeds_from_tas},
    mental=lambda tas_kn, speed_of_sound_kn, static_pressure_hpa: (
        "Mach is true airspeed over the speed of sound; "
        "equivalent is Mach × 661 × root of the pressure share",
        f"{num(tas_kn, 1)} / {num(speed_of_sound_kn, 1)} = Mach {tas_kn / speed_of_sound_kn:.3f}; "
        f"pressure share {static_pressure_hpa / 1013.25:.3f}, "
        f"its root {(static_pressure_hpa / 1013.25) ** 0.5:.3f}",
        f"{tas_kn / speed_of_sound_kn:.3f} × 661 × {(static_pressure_hpa / 1013.25) ** 0.5:.3f} = "
        f"{num(tas_kn / speed_of_sound_kn * 661.48 * (static_pressure_hpa / 1013.25) ** 0.5, 1)} kt",
    ),
    slips=(
        slip("gave the true speed", "that is the true airspeed; the indicator feels the thinner air",
             lambda tas_kn, speed_of_sound_kn, static_pressure_hpa: tas_kn),
        slip("pressure without its root",
             "the impact pressure goes with the square: take the root of the share",
             lambda tas_kn, speed_of_sound_kn, static_pressure_hpa:
             tas_kn / speed_of_sound_kn * 661.48 * static_pressure_hpa / 1013.25),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip

FROM_CAS = Quantity(
    name="airspeeds_from_cas",
    title="true and equivalent airspeed where pressure and speed of sound are known",
    area="navigation",
    words=("cas", "eas", "tas", "mach", "static pressure"),
    inputs=(CAS, SOUND, PRESSURE),
    results=(TAS_RESULT, EAS_RESULT, MACH_RESULT),
    methods={EXACT: airspeed.speeds_from_cas},
    mental=lambda cas_kn, speed_of_sound_kn, static_pressure_hpa: (
        "at low speed Mach is calibrated over 661 and over the root of the pressure share",
        f"{num(cas_kn, 1)} / 661 / {(static_pressure_hpa / 1013.25) ** 0.5:.3f} = "
        f"Mach {cas_kn / 661.48 / (static_pressure_hpa / 1013.25) ** 0.5:.3f}",
        f"times the speed of sound {num(speed_of_sound_kn, 1)} kt = "
        f"{num(cas_kn / 661.48 / (static_pressure_hpa / 1013.25) ** 0.5 * speed_of_sound_kn, 1)} kt",
    ),
    slips=(
        slip("gave the calibrated speed",
             "that is what the indicator shows; thin air makes the true speed higher",
             lambda cas_kn, speed_of_sound_kn, static_pressure_hpa: cas_kn),
        slip("pressure without its root",
             "the impact pressure goes with the square: take the root of the share",
             lambda cas_kn, speed_of_sound_kn, static_pressure_hpa:
             cas_kn / 661.48 / (static_pressure_hpa / 1013.25) * speed_of_sound_kn),
    ),
    source=COMPRESSIBLE,
)  # fmt: skip


def _rule(name, title, rule, lines, slips):
    """Return a quantity for one of the three rules; its exact method is the standard day."""
    return Quantity(
        name=name,
        title=title,
        area="navigation",
        words=("tas", "ias", "airspeed", "flight level"),
        inputs=(IAS, LEVEL),
        results=(get("tas_kn", "true airspeed", "kn", 2, 10, round_to=1),),
        methods={RULE: rule, EXACT: airspeed.standard_tas_kn},
        mental=lines,
        exact=lambda ias_kn, flight_level: (
            f"on a standard day, indicated taken as calibrated: "
            f"{airspeed.standard_tas_kn(ias_kn, flight_level):.1f} kt",
        ),
        slips=(
            slip("gave the indicated speed",
                 "that is the indicated speed; the correction is still to be added",
                 lambda ias_kn, flight_level: ias_kn),
            slip("took it off", "thin air makes the true speed higher: the correction is added",
                 lambda ias_kn, flight_level: 2 * ias_kn - rule(ias_kn, flight_level)),
            *slips,
        ),
        source=SIXTY_TO_ONE,
    )  # fmt: skip


HALF_LEVEL = _rule(
    "tas_from_ias",
    "true airspeed: indicated plus half the flight level",
    airspeed.half_flight_level_kn,
    lambda ias_kn, flight_level: (
        "half the flight level, added to the indicated speed",
        f"{num(flight_level)} / 2 = {num(flight_level / 2, 1)}; "
        f"{num(ias_kn)} + {num(flight_level / 2, 1)} = {num(ias_kn + flight_level / 2, 1)} kt",
    ),
    (
        slip("level in thousands", "you halved the thousands of feet; the level counts hundreds",
             lambda ias_kn, flight_level: ias_kn + flight_level / 20),
        slip("added the whole level", "only half the flight level is added",
             lambda ias_kn, flight_level: ias_kn + flight_level),
    ),
)  # fmt: skip

FIVE_A_THOUSAND = _rule(
    "tas_five_per_thousand",
    "true airspeed: five knots for each thousand feet",
    airspeed.five_per_thousand_kn,
    lambda ias_kn, flight_level: (
        "five knots for each thousand feet",
        f"{num(flight_level / 10, 1)} thousand × 5 = {num(flight_level / 2, 1)}; "
        f"{num(ias_kn)} + {num(flight_level / 2, 1)} = {num(ias_kn + flight_level / 2, 1)} kt",
    ),
    (
        slip("five percent", "it is five knots a thousand, not five percent",
             lambda ias_kn, flight_level: ias_kn * (1 + 0.05 * flight_level / 10)),
    ),
)  # fmt: skip

TWO_PERCENT = _rule(
    "tas_two_percent",
    "true airspeed: two percent for each thousand feet",
    airspeed.two_percent_kn,
    lambda ias_kn, flight_level: (
        "two percent for each thousand feet",
        f"{num(flight_level / 10, 1)} × 2 = {num(flight_level / 5, 1)} % of {num(ias_kn)} "
        f"= {num(ias_kn * flight_level / 500)}; {num(ias_kn)} + {num(ias_kn * flight_level / 500)} "
        f"= {num(ias_kn * (1 + flight_level / 500))} kt",
    ),
    (
        slip("two knots", "it is two percent a thousand, not two knots",
             lambda ias_kn, flight_level: ias_kn + 2 * flight_level / 10),
        slip("one percent", "it is two percent for each thousand feet, not one",
             lambda ias_kn, flight_level: ias_kn * (1 + flight_level / 1000)),
    ),
)  # fmt: skip

QUANTITIES = (
    TRUE, CALIBRATED, MACH_FROM_CAS, CAS_FROM_MACH, MACH_FROM_TAS, TAS_FROM_MACH, FROM_TAS, FROM_CAS,
    HALF_LEVEL, FIVE_A_THOUSAND, TWO_PERCENT,
)  # fmt: skip
