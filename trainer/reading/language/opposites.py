"""What turns a text round: the two ends of axes, negations, kinds of which one is never another, doers.

Written by hand.  A word of ``AXES`` stands at one end of an axis: up or down, on or off.  The two ends are
never taken for each other, however alike the rest of an answer is.
"""

# Words that deny what stands behind them.
NEGATIONS = frozenset(
    (
        "abandon abstain arent avoid cancel cannot cant cease deny didnt disregard doesnt dont fail forbid forget "
        "hardly havent ignore isnt lose miss mustnt neglect neither never no nobody none nor not nothing omit "
        "overlook prevent quit refrain shouldnt skip wasnt withhold without wont"
    ).split()
)
# Words that deny the deed named behind them: "stop flying the ball".
CEASING = frozenset("cease halt quit stop".split())
# Words that name an exception; behind a word for all of them, "but" does too.
EXCEPTING = frozenset("except excepting unless".split())
# Words that, where no wording has them, may well turn it into something else: then the person is asked.
DOUBTFUL = frozenset(
    (
        "abort another bad bend beside blank break bust choice choose decoy delete destroy different discard dismiss "
        "elsewhere empty erase exceed fake false freeze hide hinder instead jettison jump kill leak mistake mute "
        "nix override regardless relax renounce resist retain revert ruin scrap scratch scrub silence suppress "
        "suspend trash undo unlike useless veto whatever withdraw wreck wrong zero"
    ).split()
)
# axis: (words of one end, words of the other end)
AXES = {
    "up": ("up raise lift hoist", "down lower drop"),
    "on": (
        "on apply engage energise activate illuminate",
        "off release remove disengage detach unhook deactivate kill extinguish",
    ),
    "in": ("into", "out outof"),
    "extend": ("extend deploy", "retract stow"),
    "checkin": ("checkin", "checkout"),
    "side": ("right starboard", "left port"),
    "arm": ("arm", "safe disarm"),
    "open": ("open", "close shut"),
    "lock": ("lock latch", "unlock unlatch"),
    "spread": ("spread unfold", "fold"),
    "forward": ("forward forwards ahead fwd infront preceding", "behind back backward backwards aft astern rearward"),
    "before": ("before prior", "after past following"),
    "above": ("above over", "below under beneath"),
    "high": ("high higher most", "low lower least"),
    "fast": ("fast quick accelerate speedup hurry", "slow decelerate"),
    "more": ("increase add plus more raise", "decrease reduce shallow subtract minus less"),
    "climb": ("climb ascend ascent", "descend dive descent sink"),
    "inbound": ("inbound", "outbound"),
    "upwind": ("upwind", "downwind"),
    "day": ("day daylight", "night"),
    "dirty": ("dirtyup dirty", "cleanup clean"),
    "sign": ("positive", "negative"),
    "head": ("head nose", "tail"),
    "sight": ("insight", "outofsight"),
    "inside": ("inside within", "outside beyond"),
    "stay": ("keep", "leave exit depart"),
    "steady": ("steady", "flash blink flicker"),
    "early": ("early soon atonce", "late later eventually"),
    "accept": ("accept agree", "reject refuse disagree decline"),
    "start": ("start startup begin", "stop shutdown end wait"),
    "same": ("same parallel", "opposite cross perpendicular"),
    "toward": ("toward towards", "away"),
    "join": ("join enter", "leave exit depart"),
    "first": ("first", "last"),
    "max": ("maximum max", "minimum"),
    "large": ("large big great greater", "small little"),
    "true": ("true", "magnetic"),
    "legal": ("legal allowed permitted", "illegal forbidden prohibited"),
    "fit": ("fit", "unfit"),
    "power": ("power+", "power- idle"),
    "hot": ("hot warm", "cold cool"),
    "vmc": ("vmc visual vfr", "imc ifr"),
    "push": ("push", "pull"),
    "full": ("fill", "drain"),
    "inner": ("inner inboard", "outer outboard"),
    "wide": ("wide widen", "narrow tight"),
    "near": ("near close-by nearest", "far farthest distant"),
    "top": ("top upper", "bottom"),
    "odd": ("odd", "even"),
    "auto": ("auto automatic", "manual"),
    "loose": ("loosen loose slack", "tighten taut"),
    "normal": ("normal", "emergency"),
    "main": ("main primary", "backup secondary standby"),
    "enable": ("enable", "disable"),
    "send": ("send", "receive"),
    "sunrise": ("sunrise dawn", "sunset dusk"),
    "wet": ("wet", "dry"),
    "long": ("long longer lengthen", "short shorter shorten"),
    "long way": ("shortest", "longest"),
    "ship": ("expected", "current"),
    "surplus": ("surplus excess", "shortage deficit"),
    "alive": ("alive", "dead"),
    "multiply": ("multiply times", "divide"),
    "strong": ("strong", "weak"),
    "steep": ("steep steepen", "flat flatten"),
    "rough": ("rough roughly", "precise precisely"),
    "easy": ("gradual gradually gentle", "abrupt abruptly sudden hard"),
    "old": ("old previous", "new next"),
    "give": ("give", "take"),
    "whole": ("whole", "fraction half partial"),
    "one-many": ("alone only", "several together"),
    "bright": ("bright", "dim dark"),
    "win": ("pass", "fail"),
    "sure": ("always", "sometimes seldom rarely"),
    "publish": ("published standard", "improvised"),
}
# An end that is met so often as an ordinary word that adding it says nothing.
WEAK = frozenset(
    (
        "add alone always atonce bottom bright clean cold cool cross current cut dark dead dim dry dusk early empty "
        "end eventually expected far fill first flat gentle give gradual gradually great hard head heavy high insight "
        "into join keep large larger late later leave light little long longer low main manual most near new next "
        "normal nose old only over pass past precise precisely published pull push quick receive rough roughly safe "
        "same send several short shorter slow small smaller soon standard start steady stop strong sudden surplus "
        "tail take tight times together top wait warm wet whole wide"
    ).split()
)
# Axes that tell one thing of a kind from the others: "a normal profile" is not the bingo profile.
QUALITIES = frozenset("auto inner legal main normal odd true".split())
# Axes of which neither end turns anything round where no wording names them.
PLAIN_MINUS = frozenset("first give large old one-many push rough same send sure top up whole".split())
# Axes of which an end may be added: "look out", "at the latest", "stay inside".
ADDED_FREELY = frozenset("early inside".split())
# An end that goes without saying: adding it changes nothing.
IMPLIED = {"on": {"+"}, "extend": {"+"}, "toward": {"+"}, "start": {"+"}}
# A way of naming an axis that goes for another.
KIN = {"climb": "up"}
# Of each kind, one is never taken for another.
EXCLUSIVE = (
    frozenset("amber blue green orange red white yellow".split()),
    frozenset("east north south west".split()),
    frozenset("afterburner military".split()),
    frozenset("bow waist".split()),
    frozenset("air ground".split()),
    frozenset("canopy bar gear flap hook speedbrake wing".split()),
    frozenset("centre rim".split()),
    frozenset("nod shake".split()),
    frozenset("first+ fourth second third".split()),
    frozenset("landing takeoff".split()),
    frozenset("straight turn".split()),
    frozenset("head+ head- wingtip".split()),
    frozenset("degree ft hour knot lb min nm".split()),
    frozenset("around through".split()),
    frozenset("altitude heading speed weight".split()),
    frozenset("arm- ready".split()),
    frozenset("call copy".split()),
    frozenset("call listen".split()),
    frozenset("give+ listen".split()),
    frozenset("cockpit exterior inside+ interior".split()),
    frozenset("same- straight".split()),
    frozenset("reverse same+".split()),
    frozenset("compare more+ more- multiply+ multiply-".split()),
)
# Who does things, the words that go with them, other words for them, and what is no deed of one's own.
DOERS = frozenset("captain controller crew director leader lso observer officer operator".split())
WITH_DOERS = frozenset("aircraft approach catapult deck edge launch ordnance plane safety".split())
CALLED = {"controller": frozenset("approach control marshal tower".split())}
ONESELF = frozenset("i pilot we you".split())
UNDERGOES = frozenset("am are be get got have hear is receive see wait watch".split())
# What aircraft come off, and how: "off the bow" switches nothing off.
COME_OFF = frozenset("bow catapult deck end ship waist wire".split())
SWITCHING = frozenset("cut keep put shut switch take".split())
ALL_OF_THEM = frozenset("all any anybody anyone anything everybody everyone everything nobody none nothing".split())
# Things, places, people and calls of the trade.  One that stands in the place of another is never that other.
THINGS = frozenset(
    (
        "abeam afterburner airborne altimeter altitude anchor angle antenna aoa arc arcing attitude ball bar "
        "barricade basket beach beam bearing bingo board bolter boom bow brake brc bubble bullseye bumper button "
        "canopy captain case catapult ceiling chain charlie chock clara cloud cockpit commencing compass controller "
        "course crew deck delta departure destination director display divert eat elevator engine escort fb field "
        "fire fix flap flightdeck foxtrot gate gear generator glideslope glove goggles groove ground handler harness "
        "heading headrest helicopter helmet holdback hook horizon horn initial instructor interval island joker kilo "
        "ladder landing launch lead leader lens line lineup lso mach marshal mask midpoint mirror mission needle "
        "nosewheel nws observer officer operator outbound overhead paddle panel parachute pattern penetration pilot "
        "platform popeye position profile propeller radar radial ramp readback rim roger rogerball rudder runway "
        "screen seat seeme seeyou shuttle slot speedbrake spoiler spot squadron squawk stabiliser stack starter state "
        "station student suspend tacan tail takeoff tanker target taxi tension texaco throttle tower traffic trap "
        "trim tug vector visor vsi waist wand waveoff weapon weather weight wheel wind wing wingman wingtip wire "
        "yardstick"
    ).split()
)
# Words of which one may stand for another though they are not the same: the state is fuel, dirty is gear down.
KINDRED = tuple(
    frozenset(kind.split())
    for kind in (
        "along around round", "aoa attitude", "aoa onspeed", "fuel state", "how many number one",
        "altitude angels high+ how", "enough large+ large- long- much surplus+ surplus-", "dirty+ flap",
        "dirty+ gear", "dirty+ hook", "dirty- flap", "dirty- gear", "dirty- hook", "deck touchdown", "bearing needle",
        "start- stay+", "climb- up-", "climb+ up+", "rim side", "before+ before- pre then",
        "place position spot where", "first+ number one", "answer call", "in- stay-", "scale share small",
        "fast- more-", "full whole+", "multiply+ x", "call signal", "level stay+", "intercept join+", "adjust set",
        "on- stay- toward-",
    )
)  # fmt: skip
# What begins a clause that says on which condition.
CONDITIONS = frozenset("after before once till until when".split())
# What begins a clause that only says when, where or about what a thing is done.
SUBORDINATE = frozenset("as because for from if of once so that to what when where which while who".split())
# What up, down, back … mean beside these words.
UP_OR_DOWN = frozenset("flap gear hook".split())
POWER_WORDS = frozenset("afterburner military power".split())
FULL_POWER = frozenset("afterburner military".split())
POWER_UP = frozenset("advance afterburner forward full keep max maximum military on up".split())
POWER_DOWN = frozenset("aft back cut down half idle off out reduce retard".split())
LIGHT_WORDS = frozenset("afterburner engine fire light".split())
