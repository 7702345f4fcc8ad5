"""Everyday words: what says nothing, what says little, and forms and sounds that no rule gives.

Written by hand, for no step in particular.
"""

# Words that say nothing.
STOP = frozenset(
    (
        "a about actually all also always am an and any approximately are as at be because been being both but by can "
        "carefully correctly could did do does each either else even every everything exactly for from fully get gets "
        "getting goes going gonna got had has have having he hence her hers him his i i'd i'm i've if is it it's its "
        "itself just let lets like lot made make makes making may me might mine must my myself need needed needs now "
        "of ok okay once onto or our ours per percent please possible properly quite really shall she should simply "
        "so some somebody somehow something still sure than that that's the their them then these they they're thing "
        "this those till to too totally try trying until upon us very via was we we're were what which while whilst "
        "whoever whole will with would yes yet you you're your yours yourself"
    ).split()
)
# Words that say little by themselves and weigh little.
LIGHT = {
    "around": 0.2, "through": 0.2,
    "again": 0.5, "air": 0.2, "aircraft": 0.5, "along": 0.4, "announced": 0.4, "assigned": 0.3, "back": 0.5,
    "begin": 0.3, "between": 0.3, "bring": 0.2, "call": 0.4, "captain": 0.6, "check": 0.5, "clear": 0.7, "come": 0.3,
    "complete": 0.3, "conduct": 0.2, "controller": 0.5, "degree": 0.2, "descent": 0.6, "director": 0.6, "down": 0.5,
    "drop": 0.3, "during": 0.2, "early+": 0.2, "easy+": 0.4, "ensure": 0.2, "feed": 0.5, "fly": 0.5, "fpm": 0.3,
    "frequency": 0.4, "ft": 0.2, "fuel": 0.7, "full": 0.5, "give": 0.2, "give+": 0.2, "give-": 0.2, "go": 0.3,
    "good": 0.3, "guy": 0.2, "hand": 0.3, "hear": 0.3, "himself": 0.2, "hold": 0.4, "hour": 0.2, "how": 0.3,
    "in": 0.2, "into": 0.2, "keep": 0.6, "knot": 0.2, "landing": 0.6, "large+": 0.6, "lb": 0.2, "light": 0.6,
    "lso": 0.5, "man": 0.2, "many": 0.4, "military": 0.7, "min": 0.2, "move": 0.3, "next": 0.4, "nice": 0.2,
    "nm": 0.2, "number": 0.6, "off": 0.5, "off+": 0.5, "officer": 0.6, "old+": 0.3, "old-": 0.3, "on": 0.2,
    "one-many+": 0.4, "one-many-": 0.3, "only": 0.4, "operate": 0.3, "out": 0.3, "over": 0.3, "part": 0.4,
    "past": 0.2, "people": 0.4, "perform": 0.2, "pilot": 0.4, "place": 0.4, "point": 0.5, "position": 0.5,
    "power": 0.6, "proceed": 0.3, "put": 0.2, "rate": 0.5, "reach": 0.3, "ready": 0.3, "receive": 0.3, "rough+": 0.3,
    "rough-": 0.2, "say": 0.4, "seconds": 0.2, "see": 0.3, "set": 0.5, "ship": 0.4, "side": 0.5, "signal": 0.5,
    "slow": 0.5, "start": 0.7, "start+": 0.4, "stay+": 0.5, "stay-": 0.6, "step": 0.4, "sure+": 0.2, "switch": 0.2,
    "take": 0.2, "there": 0.55, "thing": 0.2, "time": 0.5, "try": 0.2, "turn": 0.6, "under": 0.3, "unrestricted": 0.3,
    "use": 0.2, "value": 0.3, "wait": 0.6, "want": 0.4, "watch": 0.5, "way": 0.3, "when": 0.2, "where": 0.4,
    "while": 0.2, "who": 0.4, "whole+": 0.4,
}  # fmt: skip
# Words that, where no wording has them, change nothing.
HARMLESS = frozenset(
    (
        "able accord action actual again aircraft aloud anybody anyone appear apply arrange attempt aviator away bit "
        "boat body bug call care case cause certain chance change clear close cockpit code come command comment "
        "common comply condition continue control copy correct count crew current cycle data day deal decide deed "
        "demand depend detail determine device direct display distance distant done duty easy effect eg enough ensure "
        "entire even event everybody exact expect eye face fact feel field figure find fine first flight fly follow "
        "foot form forth frequency friend front full further gently glance good grab guy hand handle happen head hear "
        "height help hit how idea indeed information infos instruct intend item job key kind know lady later lead let "
        "level light line listen location long look loud main man manage many mark matter mean member mention mind "
        "moment motion move much name nation nautical near next nice nose note notice object observe obtain once one "
        "operate order otherwise own pair part pass path pay people perform person phase pick piece pilot place plan "
        "plane play point portion position possible prefer prepare present procedure process proper quality question "
        "radio range rate reach read ready real reason recall recheck record refer region regular relate remember "
        "repeat report request require respond response rest result rudder run say scan section see seem select sense "
        "sequence serve set setting several shall share ship show side sight sign signal sir situation skill smooth "
        "sort speak speed spot stage stand standard start state status stay steer step stick stuff subject sure "
        "switch system take talk task tell term test thank think throttle throw time today together ton tool top "
        "touch toward track travel trim trust turn type use usual value verbal view visual voice walk want watch wave "
        "where which who whose wish word work world would write you'll"
    ).split()
)
# Some of these that make another fact of one: "positive rate of speed", "shake your hand".
CONCRETE = frozenset(
    "body eye face foot hand head height level light line pair piece radio rudder speed stick throttle".split()
)
# What an answer may begin with and says nothing.
LEADING = frozenset("call called drop get has have he i it its means say says she that they want wants we you".split())
# Forms that no rule gives.
IRREGULAR = {
    "began": "begin", "begun": "begin", "broke": "break", "broken": "break", "brought": "bring", "came": "come",
    "drawn": "draw", "flew": "fly", "flies": "fly", "flown": "fly", "found": "find", "gave": "give", "given": "give",
    "gone": "go", "got": "get", "heard": "hear", "held": "hold", "kept": "keep", "known": "know", "left-hand": "left",
    "made": "make", "said": "say", "saw": "see", "seen": "see", "sent": "send", "shaken": "shake", "shook": "shake",
    "shown": "show", "stood": "stand", "taken": "take", "took": "take", "went": "go",
}  # fmt: skip
# Words that sound alike, the one taken for the other where only that one can be meant.
HOMOPHONES = (
    ("brake", "break"), ("course", "coarse"), ("gauge", "gage"), ("lead", "led"), ("plane", "plain"),
    ("role", "roll"), ("wait", "weight"), ("weather", "whether"), ("hole", "whole"), ("write", "right"),
    ("bear", "bare"), ("mite", "might"), ("pedal", "peddle"), ("site", "sight"), ("stationary", "stationery"),
    ("principal", "principle"),
)  # fmt: skip
