"""The publications behind atmosphere, airspeed, sun, earth, beacon and units, each with its standing."""

from trainer.engine.quantities.carrier_sources import atc
from trainer.model import Source

STANDARD_ATMOSPHERE = Source(
    text="ICAO Doc 7488/3 (1993) and U.S. Standard Atmosphere, 1976",
    section="defining constants and the two lowest layers",
    status="published",
)
LAPSE_RULE = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge, as a pilots' glossary quotes it",
    section="standard atmosphere: 2 °C for each 1,000 ft",
    url="https://www.pilotscafe.com/glossary/standard-atmosphere/",
    status="secondary",
)
PERFORMANCE = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge",
    section="Aircraft Performance, density altitude",
    url="http://www.flightlearnings.com/2011/04/14/performance-charts-density-altitude-charts/",
    status="published",
)
LOADING = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge",
    section="Weight and Balance, computational method",
    url="http://www.flightlearnings.com/2011/03/17/determining-loaded-weight-and-cg-part-one-computational-method/",
    status="published",
)
COMPRESSIBLE = Source(
    text="isentropic flow of air with the constants of ICAO Doc 7488/3; table of IAS and TAS in CNATRA P-340",
    url="http://navyflightmanuals.tpub.com/P-340_wch4/Rate-Turns-Rt-Cont-55.htm",
    status="published",
)
SIXTY_TO_ONE = Source(
    text="USAF instrument-school handout, 60-to-1 rules and formulas",
    section="true airspeed from indicated airspeed",
    url="https://studylib.net/doc/25274618/60-1-rules-jan-07",
    status="secondary",
)
MACH_SIX = Source(
    text="flight-planning course: true airspeed is about six times the hundredths of Mach",
    url="http://www.avfacts.com.au/editorial/mach/index.asp",
    status="secondary",
)
SUN_TIMES = Source(
    text="U.S. Naval Observatory, definitions of rise, set and twilight",
    section="zenith distance 90°50′; centre 6, 12 and 18 degrees down",
    status="published",
)
MOON_TIMES = Source(
    text="U.S. Naval Observatory, definitions of rise, set and phases of the moon",
    section="upper limb, 34′ of refraction; the library ephem",
    status="published",
)
MOON_RULE = Source(
    text="Astronomy Lab (Lumen Learning, with images of the U.S. Naval Observatory)",
    section="1.4 Moonrise, Moonset: the full moon rises at sunset, the third quarter at midnight",
    url="https://phys.libretexts.org/Courses/Lumen_Learning/Book%3A_Astronomy_Lab_(Lumen)/"
    "01%3A_Sunrise_Sunset_Moonrise_and_Moonset/1.04%3A_Moonrise_Moonset",
    status="secondary",
)
SUN_POSITION = Source(
    text="NREL/TP-560-34302, Solar Position Algorithm for Solar Radiation Applications",
    section="refraction: equation 42",
    status="published",
)
CASE_NIGHT = atc("Table 11-4, note", "Table-11-4-Weather-Criteria-For-Departures-And-Recoveries-378.html")
WORLD_MODEL = Source(
    text="NOAA NCEI, World Magnetic Model 2025 (WMM2010 to WMM2020 for earlier years; WMMHR2025)",
    status="published",
)
VARIATION_RULE = Source(
    text="United States Power Squadrons, Advanced Piloting",
    section="true, variation, magnetic",
    url="http://doczz.net/doc/6523395/advanced-piloting-how-to-pass-the-final-exams-united-stat...",
    status="secondary",
)
GEODESIC = Source(
    text="C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013), on WGS 84",
    status="published",
)
PIGEONS = Source(
    text="CNATRA P-1211 (7-01), Carrier Qualification",
    section="glossary: pigeons",
    url="https://navyflightmanuals.tpub.com/P-1211/Glossary-Continued-P-12110083-83.htm",
    status="published",
)
TACAN_SIGNAL = Source(
    text="MIL-STD-291C, Standard TACAN Signal",
    section="4.1.1.1 and 4.1.1.2",
    url="https://radionavigationequipmentairborne.emilspec.com/MIL-STD-291/page05.html",
    status="published",
)
AIR_TO_AIR = Source(
    text="MIL-N-81857(AS), airborne TACAN set",
    section="traffic capacity in the air-to-air mode",
    url="https://mil-spec.tpub.com/MIL-N/MIL-N-81857/MIL-N-8185700012.htm",
    status="published",
)
VHF_CARD = Source(
    text="pilots' forum quoting a military card of TACAN pairings",
    url="https://www.pprune.org/tech-log/85688-formulae-tacan-channel-vor-frequency.html",
    status="secondary",
)
NIST = Source(
    text="NIST Special Publication 811 (2008)",
    section="Appendix B.8, factors for units",
    status="published",
)
