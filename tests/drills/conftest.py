"""A small invented library for the tests of drills: one deck, no files of the user's."""

from types import SimpleNamespace

import pytest

from tests.decks.conftest import deck
from trainer.decks.deckfile import read

__all__ = ["deck"]

SMALL_DECK = """
[deck]
format = 1
name = "small"
title = "A small deck"
area = "marshal"
invented = "Every number here is invented."

[source.made-up]
text = "Nobody's manual"
status = "invented"

[[computed]]
id = "fix"
quantity = "marshal_fix_distance"
ask = "Marshal gives you angels {angels}. How far is your fix?"
source = "made-up"
section = "p. 1"
[computed.draw]
angels = { from = 6, to = 20, step = 1 }

[[computed]]
id = "radial"
quantity = "marshal_radial"
ask = "Expected final bearing {final_bearing_deg}. Which radial?"
source = "made-up"
[computed.draw]
final_bearing_deg = { from = 1, to = 360, step = 1 }

[[computed]]
id = "minutes"
formula = "(fuel_lb - bingo_lb) / flow_lb_min"
unit = "min"
round_to = 0.1
within = { on = 0.1, inside = 0.5 }
ask = "{fuel_lb} on board, bingo {bingo_lb}, burning {flow_lb_min}. Minutes to bingo?"
steps = ["{fuel_lb} less {bingo_lb}, over {flow_lb_min}: {answer}"]
keep = ["fuel_lb > bingo_lb + 500"]
source = "made-up"
[computed.draw]
bingo_lb = { from = 1500, to = 3000, step = 100 }
fuel_lb = { from = 1000, to = 6000, step = 100 }
flow_lb_min = { from = 40, to = 120, step = 5 }
[[computed.slip]]
name = "to zero"
words = "you went to zero, not to bingo {bingo_lb}"
formula = "fuel_lb / flow_lb_min"
[[computed.slip]]
name = "added bingo"
words = "you added bingo"
formula = "(fuel_lb + bingo_lb) / flow_lb_min"

[[computed]]
id = "state"
formula = "fuel_lb"
unit = "lb"
round_to = 100
within = { on = 50, inside = 100 }
ask = "You have {fuel_lb:100}. State?"
steps = ["{answer}"]
source = "made-up"
[computed.draw]
fuel_lb = { from = 1000, to = 9000, step = 100 }
[[computed.slip]]
name = "half"
words = "half of it"
formula = "fuel_lb / 2"
[[computed.slip]]
name = "double"
words = "twice of it"
formula = "fuel_lb * 2"

[[recall]]
id = "platform"
ask = "At what altitude is platform called?"
answer = { value = 5000, unit = "ft", on = 0, inside = 0 }
source = "made-up"

[[recall]]
id = "popeye"
ask = "What do you report in cloud?"
answer = { accept = ["popeye", "in the soup"], refuse = ["on top"] }
source = "made-up"

[[recall]]
id = "bow-turn"
ask = "Off the bow, which way is the clearing turn?"
answer = { choices = ["left", "right", "none"], right = "right" }
source = "made-up"

[[flow]]
id = "suspend"
title = "Suspend on the catapult"
cue = "You see something wrong at full power"
source = "made-up"
[[flow.step]]
id = "call"
do = "call suspend twice"
short = ["suspend, suspend"]
[[flow.step]]
id = "stay"
do = "stay at power"
short = ["keep the power on"]
after = ["call"]
skipped = "fired at low power"
[[flow.step]]
id = "tension"
do = "tension released"
short = ["tension off"]
actor = "crew"
after = ["call"]
skipped = "the shuttle still pulls"
[[flow.step]]
id = "bar"
do = "launch bar up"
short = ["bar up"]
after = ["tension"]
[[flow.step]]
id = "front"
do = "officer steps in front of the aircraft"
short = ["officer in front"]
actor = "officer"
after = ["call"]
[[flow.step]]
id = "back"
do = "throttle back to idle"
short = ["throttle back"]
cue = "The officer in front gives the throttle signal"
after = ["stay", "bar", "front"]

[[call]]
id = "ball"
ask = "Side number {side_number}, a Lancer, state {state_klb}. Call the ball."
order = "nobody's list"
source = "made-up"
[call.draw]
side_number = { from = 201, to = 212, step = 1 }
state_klb = { from = 3.2, to = 7.8, step = 0.1 }
[[call.item]]
name = "side number"
say = "{side_number}"
[[call.item]]
name = "type"
say = "Lancer"
[[call.item]]
name = "ball"
say = "ball"
refuse = ["clara"]
[[call.item]]
name = "state"
say = "{state_klb}"
skipped = "nobody knows your fuel"

[[listen]]
id = "reply"
hear = "{side_number}, marshal. Case three, expected final bearing {fb_deg}, angels {angels}, button {button}."
count = 3
source = "made-up"
[listen.draw]
side_number = { from = 201, to = 212, step = 1 }
fb_deg = { from = 1, to = 360, step = 1 }
angels = { from = 6, to = 20, step = 1 }
button = { from = 15, to = 18, step = 1 }
[[listen.item]]
name = "final bearing"
ask = "Expected final bearing?"
value = "fb_deg"
unit = "heading"
[[listen.item]]
name = "angels"
ask = "Angels?"
value = "angels"
unit = "angels"
[[listen.item]]
name = "button"
ask = "Button?"
value = "button"
unit = "count"
[[listen.item]]
name = "Case"
ask = "Which Case?"
say = "case three"
or = ["case III", "3"]
"""


@pytest.fixture(scope="session")
def library(tmp_path_factory):
    """Return the small library."""
    path = tmp_path_factory.mktemp("decks") / "small.toml"
    path.write_text(SMALL_DECK, encoding="utf-8")
    deck, drills, faults = read(path)
    assert not faults, [str(fault) for fault in faults]
    drills = {drill.id: drill for drill in drills}
    return SimpleNamespace(drills=drills, outlines={}, decks={deck.name: deck}, values={}, tables={}, notes={})
