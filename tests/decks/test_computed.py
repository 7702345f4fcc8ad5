"""Computed drills: what the engine or a formula needs, what the question must tell, slips and draws."""

import pytest

from tests.decks.samples import FORMULA, HEAD, QUANTITY
from trainer.decks.unit_names import fits, unit_of

SPAN = "angels = { from = 6, to = 20, step = 1 }"
QUANTITY_FAULTS = [
    ('"marshal_fix_distance"', '"marshal_fix_distanc"', ['did you mean "marshal_fix_distance"?']),
    ('source = "sop"', 'source = "sop"\nresult = "x"', ['"x" is no result (allowed: fix_distance_nm)']),
    ('source = "sop"', 'source = "sop"\nmethod = "either"', ['"either" is no method (allowed: exact)']),
    ('source = "sop"', 'source = "sop"\nunit = "nm"', ['"unit" stands with a formula']),
    ('source = "sop"', 'source = "sop"\nround_to = 1', ['"round_to" stands with a formula']),
    ('source = "sop"', 'source = "sop"\nsteps = ["x"]', ['"steps" stands with a formula']),
    ('source = "sop"', 'source = "sop"\nformula = "1"', ['either "quantity" or "formula"']),
    ('quantity = "marshal_fix_distance"\n', "", ['11: fix-distance: a computed drill has either']),
    ('source = "sop"', 'source = "sop"\nwithin = { on = 1 }', ['"inside" is missing']),
    ('source = "sop"', 'source = "sop"\nwithin = { on = 1, inside = 0.5 }', ["0.5 is less than on = 1"]),
    ("{angels}", "{angles}", ['{angles} names no input; did you mean "angels"? (known: angels)']),
    ("{angels}", "{angels.real}", ["the brace at character"]),
    ("{angels}", "high", ["the answer depends on {angels}, and the question does not tell it"]),
    (SPAN, "", ['the input "angels" (assigned altitude, angels) has no draw']),
    (SPAN, SPAN + "\nangle = { from = 1, to = 2, step = 1 }",
     ['"angle" is no input of marshal_fix_distance; did you mean "angels"? (allowed: angels)']),
    ("from = 6", "from = 5", ["5 is outside the range of assigned altitude, 6 to 40"]),
    ("to = 20", "to = 41", ["41 is outside the range of assigned altitude, 6 to 40"]),
    ("to = 20", "to = 5", ["5 is less than from = 6"]),
    ("step = 1", "step = 0", ["0 must be more than 0"]),
    ("step = 1", "step = 1e-9", ["more than 1,000,000 steps"]),
    (", step = 1", "", ['"step" is missing']),
    ("step = 1", "stp = 1", ['"step" is missing', 'unknown key "stp"']),
    ("step = 1", "step = 1, any_of = [7]", ["a draw has exactly one of"]),
    ("{ from = 6, to = 20, step = 1 }", "{}", ["a draw has exactly one of"]),
    ("{ from = 6, to = 20, step = 1 }", "{ any_of = [] }", ["the list is empty"]),
    ("{ from = 6, to = 20, step = 1 }", "{ any_of = [7, 50] }", ["50 is outside the range"]),
    ("{ from = 6, to = 20, step = 1 }", '{ any_of = ["seven"] }', ['"seven" must be a number']),
    ("{ from = 6, to = 20, step = 1 }", '{ formula = "x" }', ['"x" is no input']),
    ("{ from = 6, to = 20, step = 1 }", '"ships.angels"', ['"ships.angels" is no value of your files; write it as']),
    ("{ from = 6, to = 20, step = 1 }", '"../../etc/passwd"', ["is no value of your files"]),
    ("{ from = 6, to = 20, step = 1 }", "[6, 20]", ["a list must be { from"]),
    (SPAN, SPAN + "\nlambda = 1", ["\"lambda\" can't name an input"]),
    (SPAN, SPAN + "\nabs = 1", ["\"abs\" can't name an input"]),
    (SPAN, SPAN + "\n__class__ = 1", ["\"__class__\" can't name an input"]),
    ('source = "sop"', 'source = "sop"\nkeep = ["angels > "]', ['16: fix-distance: formula: "angels >" is not']),
    ('source = "sop"', 'source = "sop"\nkeep = ["angels + 1"]', ["must be a condition"]),
    ('source = "sop"', 'source = "sop"\nkeep = ["angles > 7"]', ['formula', 'did you mean "angels"?']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), QUANTITY_FAULTS)
def test_faults_of_drills_on_a_quantity(told, old, new, expected):
    assert old in QUANTITY
    faults = told(HEAD + QUANTITY.replace(old, new))
    text = "\n".join(faults)
    assert all(part in text for part in expected), faults
    assert len(faults) <= len(expected), faults


FORMULA_FAULTS = [
    ('unit = "min"\n', "", ['"unit" is missing']),
    ('unit = "min"', 'unit = "minutes"', ['"minutes" is no unit; did you mean "min"?']),
    ("within = { on = 0.1, inside = 0.5 }\n", "", ['"within" is missing: how far an answer may be off']),
    ('steps = ["{fuel_lb} over {flow_lb_min} is {answer}"]\n', "", ['"steps" is missing']),
    ("is {answer}", "is {anser}", ['{anser} names no input; did you mean "answer"?']),
    ('"{fuel_lb:100} at', '"{fuel_lb:0} at', ["rounded to steps of nothing"]),
    ('formula = "fuel_lb / flow_lb_min"', 'formula = "fuel_lb / flow"', ['did you mean "flow_lb_min"?']),
    ('formula = "fuel_lb / flow_lb_min"', 'formula = "fuel_lb > 3"', ["must be a number, and this is a condition"]),
    ('name = "hours"', 'name = "upside down"', ['the slip "upside down" stands twice']),
    ('words = "you gave hours"', 'words = "you gave {hours}"', ["{hours} names no input"]),
    ('words = "you gave hours"\n', "", ['"words" is missing']),
    ('round_to = 0.1', 'round_to = 0.1\nresult = "x"', ['"result" stands with a quantity']),
    ("[computed.draw]", "[computed.draw]\nspare_lb = 7", ['"spare_lb" is drawn and used by nothing']),
    ("flow_lb_min = { any_of = [50, 60, 80] }", 'flow_lb_min = { any_of = [50, 60], unit = "lb/mn" }',
     ['"lb/mn" is no unit; did you mean "lb/min"?']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), FORMULA_FAULTS)
def test_faults_of_drills_with_a_formula(told, old, new, expected):
    assert old in FORMULA
    faults = told(HEAD + FORMULA.replace(old, new, 1))
    text = "\n".join(faults)
    assert all(part in text for part in expected), faults
    assert len(faults) <= len(expected), faults


def test_two_slips_are_needed(told):
    text = FORMULA.rpartition("[[computed.slip]]")[0]
    assert told(HEAD + text) == ["11: fuel-minutes: at least 2 slips are named in [[computed.slip]]"]


def test_a_quantity_brings_its_slips(told):
    slip = '[[computed.slip]]\nname = "angels taken as miles"\nwords = "x"\nformula = "angels"\n'
    assert told(HEAD + QUANTITY + slip) == [
        '18: fix-distance: marshal_fix_distance brings the slip "angels taken as miles" itself'
    ]


def test_draws(deck):
    text = QUANTITY.replace(
        "angels = {",
        'high_ft = { any_of = [500, 1500], unit = "ft" }\nbase = 3\nextra = { formula = "base + high_ft" }\nangels = {',
    ).replace('source = "sop"', 'source = "sop"\nkeep = ["extra > 0"]')
    draws = deck(HEAD + text).drills[0].draws
    assert [(draw.name, draw.any_of, draw.formula, draw.span, draw.unit) for draw in draws] == [
        ("high_ft", (500, 1500), "", None, "ft"),
        ("base", (3,), "", None, "count"),
        ("extra", (), "base + high_ft", None, "count"),
        ("angels", (), "", (6, 20, 1), "angels"),
    ]


def test_a_formula_sees_only_what_stands_above_it(told):
    text = QUANTITY.replace("angels = {", 'twice = { formula = "angels * 2" }\nangels = {')
    assert told(HEAD + text.replace("How far", "{twice} How far")) == [
        '17: fix-distance: formula: "angels" is no input (known: none)'
    ]


def test_words_of_a_coded_input_become_numbers(deck):
    from trainer.engine.quantities import QUANTITIES

    quantity, spec = next((q, s) for q in QUANTITIES.values() for s in q.inputs if s.words)
    others = [s for s in quantity.inputs if s is not spec and s.unit != "table" and not s.take and s.default is None]
    lines = [f'{spec.name} = {{ any_of = ["{word}"] }}' for word in list(spec.words.values())[:1]]
    lines += [f"{s.name} = {next(iter(s.words)) if s.words else s.low}" for s in others]
    text = f'[[computed]]\nid = "coded"\nquantity = "{quantity.name}"\nask = "?"\nsource = "sop"\n[computed.draw]\n'
    drill = deck(HEAD + text + "\n".join(lines)).drills[0]
    assert drill.draws[0].any_of == (float(next(iter(spec.words))),)


@pytest.mark.parametrize(
    ("ask", "draws", "secret"),
    [
        ("{angels}", "angels = { from = 6, to = 9, step = 1 }", False),
        ("?", "angels = { from = 6, to = 9, step = 1 }", True),
        ("?", "angels = 7", False),
        ("?", 'angels = "ship.angels"', False),
        ("{low}", 'low = { from = 6, to = 9, step = 1 }\nangels = { formula = "low + 2" }', False),
        ("?", 'low = { from = 6, to = 9, step = 1 }\nangels = { formula = "low + 2" }', True),
        ("{high}", 'angels = { from = 6, to = 9, step = 1 }\nhigh = { formula = "angels + 2" }', False),
    ],
)
def test_what_the_question_must_tell(told, ask, draws, secret):
    text = QUANTITY.replace("Angels {angels}. How far is the fix?", ask).replace(SPAN, draws)
    assert any("does not tell it" in fault for fault in told(HEAD + text)) is secret


@pytest.mark.parametrize(
    ("name", "unit"),
    [("fuel_lb", "lb"), ("flow_lb_min", "lb/min"), ("rate_ft_min", "ft/min"), ("final_bearing_deg", "heading"),
     ("brc_deg", "heading"), ("deck_angle_deg", "deg"), ("heading_error_deg", "deg"), ("angels", "angels"), ("x", ""),
     ("s", ""), ("time_s", "s"), ("band_percent", "%"), ("position", ""), ("push_minute", "minute")],
)  # fmt: skip
def test_units_by_the_ending_of_a_name(name, unit):
    assert unit_of(name) == unit


def test_units_that_fit():
    assert fits("deg", "heading") and fits("", "lb") and fits("lb", "lb")
    assert not fits("ft", "angels") and not fits("klb", "lb") and not fits("min", "minute")
