"""Words of the trade for reading free text: other words for the same thing, and words that turn it round.

Written by hand.  A word of ``AXES`` stands at one end of an axis: up or down, on or off.  The two ends are
never taken for each other, however alike the rest of an answer is.
"""

# Several words that are one; the longest is tried first.
COMPOUNDS = {
    "at least": "above", "or more": "above", "at most": "below", "or less": "below",
    "after burner": "afterburner", "air brake": "speedbrake", "angle of attack": "aoa",
    "anti ice": "antiice", "anti skid": "antiskid", "arresting hook": "hook", "base recovery course": "brc",
    "blast deflector": "jbd", "break down": "breakdown", "bring back": "bringback", "cat officer": "officer",
    "catapult officer": "officer", "check in": "checkin", "check out": "checkout", "clean up": "cleanup",
    "clear of": "clear outof", "cut off": "cutoff", "descent rate": "descent", "dirty up": "dirtyup",
    "down wind": "downwind", "fall off": "falloff", "feet per minute": "fpm", "figure out": "compute",
    "final bearing": "fb", "fly by wire": "fbw", "ft per min": "fpm", "fuel state": "state",
    "glide path": "glideslope", "glide slope": "glideslope", "gross weight": "weight",
    "hand off": "handover", "hand over": "handover", "hang fire": "hangfire", "head shake": "shake head",
    "hold back": "holdback", "in front": "infront", "in sight": "insight", "out of sight": "outofsight",
    "out sight": "outofsight", "jet blast deflector": "jbd",
    "landing gear": "gear", "landing signal officer": "lso", "launch officer": "officer",
    "launchbar": "launch bar", "level off": "level", "leveling off": "level", "lift off": "liftoff",
    "light up": "lightup", "line up": "lineup", "low light": "lowlight",
    "military rated thrust": "military power", "nose steering": "nws", "nose wheel": "nosewheel",
    "nosewheel steering": "nws", "on speed": "onspeed", "on top": "ontop", "out of": "outof",
    "oxygen mask": "mask", "park brake": "parking brake", "peel off": "peeloff",
    "positive rate": "positive climb rate", "rate of climb": "climb rate", "rate of descent": "descent",
    "read back": "readback", "roger ball": "rogerball", "run up": "runup", "see you": "seeyou",
    "shut down": "shutdown", "sink rate": "descent", "speed brake": "speedbrake",
    "square away": "squareaway", "stay level": "level", "switch off": "turn off",
    "switch on": "turn on", "switched off": "turn off", "switched on": "turn on", "tail hook": "hook",
    "take off": "takeoff", "tank order": "tankorder", "touch down": "touchdown", "turn up": "turnup",
    "up to": "upto", "up wind": "upwind", "wave off": "waveoff",
    "wind screen": "windscreen", "wipe out": "wipeout", "work out": "compute",
}  # fmt: skip
# Written forms that would be torn apart.
WRITTEN = {
    "three quarters of a mile": "3/4 nm",
    "half a mile": "1/2 nm",
    "ft/min": "fpm",
    "feet/min": "fpm",
    "take-off": "takeoff",
    "start-up": "startup",
}
# A verb and its particle that may stand apart: "wipe the controls out".
PARTED = {
    ("check", "against"): "compare", ("dial", "in"): "set", ("speed", "up"): "accelerate",
    ("let", "go"): "release", ("wipe", "out"): "wipeout", ("read", "back"): "readback",
    ("check", "in"): "checkin", ("hand", "over"): "handover", ("shut", "down"): "shutdown",
    ("clean", "up"): "cleanup", ("dirty", "up"): "dirtyup",
}  # fmt: skip
SYNONYMS = {
    "identify": ("ident",), "switch": ("change",),
        "information": ("info",),     "afterburner": ("burner", "ab", "reheat", "blower"),
    "aircraft": ("jet", "plane", "airplane", "aeroplane", "a/c"), "altimeter": ("baro", "qnh"),
    "altitude": ("alt", "height"), "angels": ("angel",),
    "call": ("report", "say", "transmit", "announce", "radio", "tell"), "canopy": ("hood",),
    "catapult": ("cat",), "check": ("checklist", "chk", "verify", "confirm"),
    "complete": ("done", "finish", "completed"), "compute": ("reckon", "calculate", "figure", "workout"),
    "crew": ("ground crew", "deckcrew"), "deck": ("flightdeck",), "descent": ("sinkrate",),
    "expected": ("expect",), "find": ("look",), "wait": ("await",), "exterior": ("external", "ext", "outside lights"),
    "fit": ("attach", "connect", "install"), "fly": ("follow",), "ft": ("feet", "foot"), "fuel": ("gas",),
    "gear": ("wheel", "undercarriage"), "harness": ("strap", "belt"), "heading": ("hdg",),
    "hook": ("tailhook",), "infront": ("front",), "instrument": ("gauge", "indication"),
    "interval": ("spacing", "gap"), "keep": ("maintain", "stay", "remain", "hold"),
    "knot": ("kt", "kts", "kn", "kias"), "last": ("final",), "level": ("leveled", "levelled"),
    "light": ("lite", "lts", "lamp"), "lso": ("paddle",), "military": ("mil",), "min": ("minute",),
    "nm": ("mile", "nmi", "dme"), "nws": ("steering",), "officer": ("shooter",), "one": ("single", "1"),
    "power": ("pwr", "throttle", "thrust"),
    "signal": ("told", "instruct", "instruction", "command", "signalled", "direct", "order"),
    "slow": ("creep", "ease", "slowly", "inch", "gently"), "speed": ("spd", "airspeed"),
    "speedbrake": ("board", "airbrake", "spdbrk"), "squawk": ("transponder", "iff"),
    "step": ("stand", "walk", "move", "go"), "tacan": ("tcn",), "tanker": ("tank",), "twice": ("2 times",),
    "weight": ("wt", "gw"), "wipeout": ("wipe",),
}  # fmt: skip
# Forms that no rule gives.
IRREGULAR = {
    "held": "hold", "kept": "keep", "taken": "take", "took": "take", "shown": "show", "gone": "go",
    "went": "go", "seen": "see", "saw": "see", "given": "give", "gave": "give", "drawn": "draw",
    "said": "say", "flown": "fly", "flew": "fly", "came": "come", "sent": "send", "heard": "hear",
    "broken": "break", "broke": "break", "found": "find", "got": "get", "made": "make", "known": "know",
    "begun": "begin", "began": "begin", "stood": "stand", "left-hand": "left", "shook": "shake",
    "shaken": "shake", "brought": "bring",
}  # fmt: skip
STOP = frozenset(
    (
        "a all an and are as at be been by did do does for from get gets goes has have her his i is it its "
        "made make makes must my now of once onto or per please shall should so that the their then this till "
        "to until upon was we when will with you your"
    ).split()
)
# Words that say little by themselves and weigh little.
LIGHT = {
    "stay+": 0.5, "stay-": 0.6, "frequency": 0.4,
        "aircraft": 0.5, "announced": 0.4, "assigned": 0.3, "bring": 0.2, "call": 0.4, "captain": 0.6,
    "check": 0.5, "clear": 0.7, "come": 0.3, "complete": 0.3, "conduct": 0.2, "controller": 0.5,
    "degree": 0.2, "descent": 0.6, "director": 0.6, "drop": 0.3, "ensure": 0.2, "feed": 0.5, "fly": 0.5,
    "fpm": 0.3, "ft": 0.2, "fuel": 0.7, "full": 0.5, "give": 0.2, "hand": 0.3, "hear": 0.3, "hold": 0.4,
    "in": 0.2, "keep": 0.6, "knot": 0.2, "landing": 0.6, "lb": 0.2, "light": 0.6, "lso": 0.5,
    "military": 0.7, "min": 0.2, "nm": 0.2, "off": 0.5, "officer": 0.6, "on": 0.2, "only": 0.4, "out": 0.3,
    "over": 0.3, "past": 0.2, "perform": 0.2, "pilot": 0.4, "position": 0.5, "power": 0.6, "put": 0.2,
    "rate": 0.5, "ready": 0.3, "see": 0.3, "set": 0.5, "signal": 0.5, "slow": 0.5, "start": 0.7, "step": 0.4,
    "switch": 0.2, "take": 0.2, "time": 0.5, "turn": 0.6, "unrestricted": 0.3, "use": 0.2, "wait": 0.6,
    "want": 0.4,
}  # fmt: skip
NEGATIONS = frozenset(
    (
        "arent avoid cancel cannot didnt doesnt dont fail forget ignore isnt lose miss neglect neither never "
        "no nobody none nor not nothing omit skip without wont"
    ).split()
)

# axis: (words of one end, words of the other end)
AXES = {
    "up": ("up raise lift", "down lower drop"),
    "on": ("on apply engage energise activate", "off release remove disengage detach unhook deactivate kill"),
    "in": ("into", "out outof"),
    "extend": ("extend deploy", "retract stow"),
    "checkin": ("checkin", "checkout"),
    "side": ("right starboard", "left port"),
    "arm": ("arm", "safe disarm"),
    "open": ("open", "close shut"),
    "lock": ("lock latch", "unlock unlatch"),
    "spread": ("spread", "fold"),
    "forward": ("forward forwards ahead fwd infront", "behind back backward backwards aft astern rearward"),
    "before": ("before prior", "after past following"),
    "above": ("above over", "below under beneath"),
    "high": ("high higher", "low lower"),
    "fast": ("fast quick accelerate", "slow decelerate"),
    "more": ("increase add plus more", "decrease reduce shallow subtract minus less"),
    "climb": ("climb ascend", "descend dive"),
    "inbound": ("inbound", "outbound"),
    "upwind": ("upwind", "downwind"),
    "day": ("day", "night"),
    "dirty": ("dirtyup dirty", "cleanup clean"),
    "sign": ("positive", "negative"),
    "head": ("head nose", "tail"),
    "sight": ("insight", "outofsight"),
    "inside": ("inside within", "outside beyond"),
    "stay": ("keep", "leave exit depart"),
    "steady": ("steady", "flash blink"),
    "early": ("early", "late"),
    "accept": ("accept agree", "reject refuse disagree"),
    "start": ("start startup begin", "stop shutdown end"),
    "same": ("same parallel", "opposite cross perpendicular"),
    "toward": ("toward towards", "away"),
    "join": ("join enter", "leave exit depart"),
    "first": ("first", "last"),
    "max": ("maximum max most", "minimum min least"),
    "true": ("true", "magnetic"),
    "legal": ("legal allowed permitted", "illegal forbidden prohibited"),
    "fit": ("fit", "unfit"),
    "power": ("power+", "power- idle"),
    "hot": ("hot", "cold"),
    "vmc": ("vmc visual vfr", "imc ifr"),
    "push": ("push", "pull"),
    "full": ("fill", "empty drain"),
    "inner": ("inner inboard", "outer outboard"),
    "wide": ("wide", "narrow tight"),
    "near": ("near close-by", "far"),
    "top": ("top upper", "bottom"),
    "odd": ("odd", "even"),
    "auto": ("auto automatic", "manual"),
    "loose": ("loosen loose", "tighten"),
    "normal": ("normal", "emergency"),
    "main": ("main primary", "backup secondary standby"),
    "enable": ("enable", "disable"),
    "send": ("send", "receive"),
    "sunrise": ("sunrise dawn", "sunset dusk"),
    "wet": ("wet", "dry"),
    "long": ("long", "short"),
    "long way": ("shortest", "longest"),
    "ship": ("expected", "current"),
}
# An end that is met so often as an ordinary word that adding it says nothing.
WEAK = frozenset(
    (
        "add clean cross end first head high into keep join leave light low nose outof over past pull push "
        "receive safe same send slow start stop"
    ).split()
)
# An end that goes without saying: adding it changes nothing.
IMPLIED = {"on": {"+"}, "extend": {"+"}, "toward": {"+"}}
# A way of naming an axis that goes for another.
KIN = {"climb": "up"}
# Of each kind, one is never taken for another.
EXCLUSIVE = (
    frozenset("amber blue green orange red white yellow".split()),
    frozenset("east north south west".split()),
    frozenset("afterburner military".split()),
    frozenset("bow waist".split()),
)
# What up, down, back … mean beside these words.
POWER_WORDS = frozenset("afterburner military power".split())
FULL_POWER = frozenset("afterburner military".split())
POWER_UP = frozenset("advance afterburner forward full keep max maximum military on up".split())
POWER_DOWN = frozenset("aft back down idle off out reduce retard".split())
LIGHT_WORDS = frozenset("afterburner engine fire light".split())
