"""Small decks for the tests of this folder.  Everything in them is invented."""

HEAD = """\
[deck]
format = 1
name = "sample"
title = "A sample"
area = "marshal"

[source.sop]
text = "invented procedures"
status = "invented"
"""

QUANTITY = """
[[computed]]
id = "fix-distance"
quantity = "marshal_fix_distance"
ask = "Angels {angels}. How far is the fix?"
source = "sop"
[computed.draw]
angels = { from = 6, to = 20, step = 1 }
"""

FORMULA = """
[[computed]]
id = "fuel-minutes"
formula = "fuel_lb / flow_lb_min"
unit = "min"
round_to = 0.1
within = { on = 0.1, inside = 0.5 }
ask = "{fuel_lb:100} at {flow_lb_min}: how long?"
steps = ["{fuel_lb} over {flow_lb_min} is {answer}"]
keep = ["fuel_lb > 2000"]
source = "sop"
[computed.draw]
fuel_lb = { from = 1000, to = 6000, step = 100 }
flow_lb_min = { any_of = [50, 60, 80] }
[[computed.slip]]
name = "upside down"
words = "you divided the flow by the fuel"
formula = "flow_lb_min / fuel_lb"
[[computed.slip]]
name = "hours"
words = "you gave hours"
formula = "fuel_lb / flow_lb_min / 60"
"""

RECALL = """
[[recall]]
id = "platform"
ask = "At what altitude is platform called?"
answer = { value = 5000, unit = "ft" }
source = "sop"
"""

FLOW = """
[[flow]]
id = "tension"
title = "Tension"
cue = "The director signals tension"
source = "sop"
[[flow.step]]
id = "take-tension"
do = "take tension"
[[flow.step]]
id = "brakes"
do = "brakes released"
short = ["brakes off"]
after = ["take-tension"]
[[flow.step]]
id = "wipe-out"
do = "controls wiped out"
after = ["brakes"]
"""

CALL = """
[[call]]
id = "ball"
ask = "State {state_klb}, a {type_name}. Make the call."
order = "an invented list"
source = "sop"
[call.draw]
state_klb = { from = 3.2, to = 7.8, step = 0.1 }
type_name = { any_of = ["Harrow"] }
[[call.item]]
name = "type"
say = "{type_name}"
[[call.item]]
name = "state"
say = "{state_klb}"
or = ["state {state_klb}"]
"""

LISTEN = """
[[listen]]
id = "reply"
hear = "Expected final bearing {fb_deg}, button {button}."
count = 2
source = "sop"
[listen.draw]
fb_deg = { from = 1, to = 360, step = 1 }
button = { any_of = [15, 16, 17] }
[[listen.item]]
name = "final bearing"
ask = "Expected final bearing?"
value = "fb_deg"
[[listen.item]]
name = "button"
ask = "Button?"
value = "button"
unit = "count"
"""

ALL = HEAD + QUANTITY + FORMULA + RECALL + FLOW + CALL + LISTEN
