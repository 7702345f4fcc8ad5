"""The publications behind the carrier work, each with its standing."""

from trainer.model import Source

TPUB = "https://navyaviation.tpub.com/14342A/"
FTI = "https://navyflightmanuals.tpub.com/"
ATC_MANUAL = "NAVEDTRA 14342A, Air Traffic Controller"
CQ_TEXT = "CNATRA P-1211 (7-01), Carrier Qualification"
CQ_INSTRUCTION = "CNATRAINST 3740.9D, carrier qualification instruction"


def atc(section, page):
    """Return a ``Source`` on a page of the controllers' manual."""
    return Source(text=ATC_MANUAL, section=section, url=TPUB + page, status="published")


def practice(section=""):
    """Return a ``Source`` for usage of the trade that no readable publication prints."""
    return Source(text="common practice, no source", section=section, status="common practice")


def memory(section=""):
    """Return a ``Source`` for a value remembered by people of the trade."""
    return Source(text="from memory, no readable source", section=section, status="memory")


STACK = atc("p. 11-33 and Table 11-11", "Table-11-11-Standard-Cv-1-Marshal-Pattern-389.html")
STACK_SEPARATION = atc("p. 11-35", "Table-11-12-Approach-Weather-Minimums-391.html")
MINIMA = atc("Table 11-12", "Table-11-12-Approach-Weather-Minimums-391.html")
DEPARTURE_TABLE = atc("Table 11-10", "Table-11-10-Departure-Procedures-386.html")
DEPARTURE_TEXT = atc("p. 11-26", "Catcc-Departure-Procedures-382.html")
WEATHER = atc("Table 11-4", "Table-11-4-Weather-Criteria-For-Departures-And-Recoveries-378.html")
CASE_PAIRS = atc("Table 11-5", "Table-11-4-Weather-Criteria-For-Departures-And-Recoveries-378.html")
RECOVERY_TEXT = atc("p. 11-32", "Aircraft-Recovery-Information-388.html")
RENDEZVOUS = atc("rendezvous", "Catcc-Arrival-Procedures-387.html")
TERMS_PLATFORM = atc("Table 11-1, platform", "Table-11-1-Shipboard-Operations-Terms-And-Definitions-Continued-362.html")
TERMS_CHARLIE = atc("Table 11-1, Charlie", "Table-11-1-Shipboard-Operations-Terms-And-Definitions-Continued-359.html")
CORRECTION = atc("fixed-wing approach, Case II", "Fixed-Wing-Approach-Procedures-Under-Case-Ii-Conditions-432.html")
# The page that names this time was read; the one that prints the two minutes was not found again.
EXPECTED_TIMES = Source(
    text=ATC_MANUAL + ", amphibious ships, helicopters",
    section="p. 11-72 and after, emergency marshal",
    url=TPUB + "Helicopter-Emergency-Marshal-Patterns-428.html",
    status="secondary",
)
CLEARING = Source(
    text="CNATRAINST 3740.9D para 216.aa for the size; former catapult officer's web log for the side",
    url="http://instapinch.com/?p=1597&cpage=1",
    status="secondary",
)
CQ_LIMITS = Source(
    text=CQ_INSTRUCTION,
    section="para 204",
    url=FTI + "3740.9Dwch1&2&3&4/3740.9Dwch1&2&3&40019.htm",
    status="published",
)
CQ_BINGO = Source(
    text=CQ_INSTRUCTION,
    section="para 208",
    url=FTI + "3740.9Dwch1&2&3&4/3740.9Dwch1&2&3&40021.htm",
    status="published",
)
CQ_STANDARD = Source(
    text=CQ_INSTRUCTION,
    section="para 314",
    url=FTI + "3740.9Dwch1&2&3&4/3740.9Dwch1&2&3&40035.htm",
    status="published",
)
CQ_STAGE = Source(
    text="CNATRAINST 1500.4F, training administration",
    section="para 710.d",
    url=FTI + "1500.4Fwch1&2&3&4&5/1500.4Fwch1&2&3&4&50066.htm",
    status="published",
)
CQ_GROOVE = Source(
    text=CQ_TEXT,
    section="45-degree position",
    url=FTI + "P-1211/45-Degree-Position-33.htm",
    status="published",
)
CQ_FIGURE = Source(
    text=CQ_TEXT,
    section="pattern figure",
    url="https://de.scribd.com/document/411874256/CARQUAL-pdf",
    status="published",
)
CQ_GLOSSARY = Source(
    text=CQ_TEXT, section="glossary", url=FTI + "P-1211/Glossary-P-12110080-80.htm", status="published"
)
CQ_SIGNALS = Source(
    text=CQ_TEXT,
    section="manning; the general rule is inferred from the printed example",
    url=FTI + "P-1211/Manning-Aircraft-Procedures-52.htm",
    status="published",
)
LENS = atc("p. 5, optical landing systems", "Optical-Landing-Systems-240.html")
FUEL_PLANNING = Source(
    text="CNATRA P-812, Visual Navigation",
    section="6.5.10.1",
    url="http://navyflightmanuals.tpub.com/P-812/Figure-6-10-26.htm",
    status="published",
)
FUEL_RESERVE = Source(
    text="CNATRA P-1244, quoting OPNAVINST 3710.7 para 4.6.4",
    url=FTI + "P-1244/Determining-Fuel-Requirements-For-Route-Of-Flight-252.htm",
    status="published",
)
GRADES = Source(
    text="an officer's essay on landing grades; waveoff and cut from memory",
    url="https://thelexicans.wordpress.com/2017/01/21/landing-grades/",
    status="secondary",
)
SIXTY_TO_ONE = Source(
    text="USAF instrument-school handout, 60-to-1 rules and formulas; exact form is plane trigonometry",
    url="https://studylib.net/doc/25274618/60-1-rules-jan-07",
    status="secondary",
)
CLIMB_NOTE = Source(
    text="FAA Aeronautical Information Manual", section="5-2-9 note, instrument departures", status="published"
)
HOLDING = Source(
    text="CNATRA P-871, Instrument Navigation",
    section="correction orbit, Fig. 4-16 and 4-17",
    url=FTI + "P-871/Figure-4-16-Correction-Orbit-77.htm",
    status="published",
)
HOLDING_LEG = Source(
    text="CNATRA, Instrument Navigation of a trainer",
    section="p. 7-2, timing",
    url="https://www.yumpu.com/en/document/view/15435633/flight-training-instruction-cnatra-us-navy/62",
    status="published",
)
ENDSPEED = Source(
    text="a carrier-suitability engineer in a flying magazine, December 2023; the excess is common practice",
    url="https://airfactsjournal.com/2023/12/what-it-takes-to-catapult-off-an-aircraft-carrier",
    status="secondary",
)
BOARD = Source(
    text="interview with a former naval aviator on the weight board; the limit is the type's own",
    url="https://theaviationgeekclub.com/former-naval-aviator-explains-why-green-shirts-show-pilots-the-gross-"
    "weight-of-their-aircraft-on-the-catapult-before-every-launch/amp/",
    status="secondary",
)
WEIGHT = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge",
    section="weight and balance, Fig. 9-5",
    url="http://www.flightlearnings.com/2011/03/17/determining-loaded-weight-and-cg-part-one-computational-method/",
    status="published",
)
