"""Short forms that are typed in haste, and what they stand for; what no table holds is read by its letters.

Written by hand, for no step in particular.
"""

ABBREVIATIONS = {
    "acc": "accelerate", "accel": "accelerate", "acft": "aircraft", "alpha": "aoa", "alt": "altitude",
    "altm": "altimeter", "alts": "altimeter", "aob": "bank", "apch": "approach", "app": "approach",
    "appch": "approach", "appr": "approach", "appt": "approach", "arr": "arrest", "asap": "", "asgd": "assigned",
    "att": "attitude", "attn": "attention", "auth": "authority", "bc": "because", "bck": "back", "bfr": "before",
    "bk": "back", "bkt": "basket", "brg": "bearing", "brk": "brake", "brks": "brake", "btn": "button",
    "btwn": "between", "capt": "captain", "cfm": "confirm", "chan": "channel", "chk": "check", "chkd": "check",
    "chks": "check", "chq": "check", "clb": "climb", "clk": "clock", "clr": "clear", "clrd": "clear",
    "cmd": "command", "comm": "communications", "comms": "communications", "comp": "complete", "cont": "continue",
    "crs": "course", "ctl": "control", "ctr": "centre", "ctrl": "control", "ctrls": "control", "cx": "cancel",
    "decel": "decelerate", "deg": "degree", "degs": "degree", "dep": "departure", "des": "descend", "desc": "descend",
    "dir": "director", "disp": "display", "dist": "distance", "div": "divert", "dn": "down", "dwn": "down",
    "dwnwind": "downwind", "emer": "emergency", "emerg": "emergency", "eng": "engine", "engs": "engine",
    "est": "established", "estab": "established", "etc": "", "exp": "expected", "ext": "exterior", "ff": "flow",
    "fld": "field", "flps": "flap", "flt": "flight", "freq": "frequency", "fwd": "forward", "gnd": "ground",
    "grd": "ground", "gspd": "ground speed", "hdg": "heading", "hgt": "altitude", "hi": "high", "horn": "horn",
    "hr": "hour", "hrs": "hour", "ht": "altitude", "id": "identify", "ident": "identify", "inbd": "inbound",
    "indic": "indication", "info": "information", "init": "initial", "inop": "dead", "inst": "instrument",
    "instr": "instrument", "instrs": "instrument", "insts": "instrument", "intcpt": "intercept", "intvl": "interval",
    "kn": "knot", "l": "left", "lb": "lb", "lbs": "lb", "ldg": "landing", "lf": "left", "lft": "left",
    "lh": "left hand", "lnch": "launch", "lo": "low", "lt": "light", "ltd": "limited", "lts": "light", "lvl": "level",
    "mags": "magnetic", "maint": "maintain", "med": "medium", "mil": "military", "min": "min", "mins": "min",
    "mntn": "maintain", "mrt": "military power", "msn": "mission", "nav": "navigation", "nbr": "number",
    "nordo": "lost communications", "nr": "number", "num": "number", "nxt": "next", "oclk": "o'clock",
    "onspd": "onspeed", "ops": "operations", "ord": "ordnance", "outbd": "outbound", "para": "parallel", "pct": "",
    "plat": "platform", "pos": "position", "posn": "position", "poss": "possible", "prep": "prepare",
    "press": "press", "prev": "previous", "prox": "near", "psn": "position", "pt": "point", "pwr": "power",
    "r": "right", "rad": "radial", "rads": "radial", "rd": "read", "rdl": "radial", "rdls": "radial",
    "rdv": "rendezvous", "rdvu": "rendezvous", "rdy": "ready", "rec": "recovery", "recip": "reciprocal",
    "rel": "release", "req": "request", "rgt": "right", "rh": "right hand", "rpm": "rpm", "rpt": "report",
    "rt": "right", "rv": "rendezvous", "rvs": "reverse", "rwy": "runway", "rx": "receiver", "sb": "speedbrake",
    "sec": "seconds", "secs": "seconds", "sep": "separation", "sig": "signal", "sigs": "signal", "spd": "speed",
    "sq": "squawk", "sqk": "squawk", "stab": "stabiliser", "stbd": "starboard", "stby": "standby", "std": "standard",
    "str": "straight", "sw": "switch", "sync": "set", "tgt": "target", "thr": "throttle", "thru": "through",
    "til": "till", "trk": "track", "trn": "turn", "twr": "tower", "tx": "transmit", "u": "you", "ur": "your",
    "vec": "vector", "versus": "compare", "vert": "vertical", "vis": "visual", "vs": "compare", "w": "",
    "wo": "waveoff", "wx": "weather", "xmit": "transmit", "xpdr": "squawk", "xpndr": "squawk",
}  # fmt: skip
# Particles that only round off these verbs: "set up the displays", "start up".
ROUNDED_OFF = {
    "up": frozenset(
        (
            "add back call check copy end finish follow join link match meet pick read "
            "ready report ring set show speed start strap sum tidy tie wait write"
        ).split()
    ),
    "down": frozenset("calm copy jot note settle slow strap tie wait write".split()),
    "in": frozenset(
        ("call check close dial feed fill hand key plug punch put report roll settle strap turn type").split()
    ),
    "off": frozenset("finish read".split()),
    "out": frozenset(
        "call carry ease even fill find flatten listen read reckon roll search spread start straighten stretch watch "
        "work".split()
    ),
    "over": frozenset("think".split()),
}
# The particle that says the contrary, with which the other is no mere rounding off.
CONTRARY = {"up": "down", "down": "up", "in": "out", "out": "in", "off": "on"}
