"""Trying a drill on many draws brings to light what no single question shows."""

import random
from dataclasses import replace

import pytest

from tests.decks.samples import CALL, FORMULA, HEAD, QUANTITY
from trainer.decks import library as libraries
from trainer.decks.library import Data, library_of
from trainer.drills import computed
from trainer.drills.try_drill import drawn_and_kept, stated_truths, try_drill
from trainer.engine.quantities import QUANTITIES


@pytest.fixture
def trial(deck):
    """Return a function that writes one drill and tries it."""

    def run(text, **options):
        file = deck(HEAD + text)
        assert file.faults == []
        return try_drill(file.drills[0], library_of([file], Data({}, {})), **{"draws": 2000} | options)

    return run


def told(trial):
    return [message for _, message in trial.faults]


def slips(*formulas):
    return "".join(
        f'[[computed.slip]]\nname = "slip {i}"\nwords = "x"\nformula = "{formula}"\n'
        for i, formula in enumerate(formulas)
    )


def formula(text, draw, keep="", wrong=("x + 5", "x + 9"), unit="nm", round_to=1):
    return (
        f'[[computed]]\nid = "drill"\nformula = "{text}"\nunit = "{unit}"\nround_to = {round_to}\nask = "{{x}}"\n'
        f'within = {{ on = 0.5, inside = 1 }}\nsteps = ["x"]\nsource = "sop"\nkeep = [{keep}]\n'
        f"[computed.draw]\nx = {draw}\n{slips(*wrong)}"
    )


def test_a_sound_drill(trial):
    figures = trial(QUANTITY)
    assert figures.faults == []
    assert (figures.kept, figures.answers) == (1, 15)
    assert 0.03 < figures.alike < 0.15
    assert set(figures.separated.values()) <= {1.0, 14 / 15} or min(figures.separated.values()) > 0.8


def test_conditions_are_kept(trial):
    figures = trial(FORMULA)
    assert figures.faults == []
    assert 0.7 < figures.kept < 0.9  # 40 of 51 steps are above 2000


def test_the_same_seed_gives_the_same_figures(trial):
    assert trial(FORMULA) == trial(FORMULA)
    assert trial(FORMULA).kept != trial(FORMULA, seed=2).kept


def test_conditions_that_leave_too_little(trial):
    figures = trial(formula("x", "{ from = 1, to = 1000, step = 1 }", keep='"x > 980"'))
    assert told(figures) == [f"only {figures.kept:.1%} of the draws meet the conditions; at least 5% must"]
    assert told(trial(formula("x", "{ from = 1, to = 9, step = 1 }", keep='"x > 9"')))[0].startswith("only 0.0%")


def test_an_answer_that_is_no_number(trial):
    figures = trial(formula("100 / (x - 5)", "{ from = 1, to = 9, step = 1 }"))
    assert len(figures.faults) == 1
    assert told(figures)[0].startswith("no answer for x = 5: ")


def test_an_answer_outside_the_range_of_a_quantity_names_the_draw(trial):
    text = QUANTITY.replace(
        "angels = {", 'low = { from = 1, to = 20, step = 1 }\nangels = { formula = "low" }\n#'
    ).replace("{angels}", "{low}")
    figures = trial(text)
    assert len(figures.faults) == 1
    assert "no answer for low = " in told(figures)[0] and "it must be 6 to 40" in told(figures)[0]


def test_a_condition_saves_a_quantity_from_what_it_refuses(trial):
    text = QUANTITY.replace(
        "angels = {", 'low = { from = 1, to = 20, step = 1 }\nangels = { formula = "low" }\n#'
    ).replace("{angels}", "{low}")
    assert trial(text.replace('source = "sop"', 'source = "sop"\nkeep = ["low >= 6"]')).faults == []


def test_an_answer_that_is_nearly_always_the_same(trial):
    figures = trial(formula("max(x, 8)", "{ from = 1, to = 10, step = 1 }"))
    assert figures.alike == pytest.approx(0.8, abs=0.04)
    assert told(figures) == [f"the answer is 8 in {figures.alike:.0%} of the draws"]


def test_a_drill_that_draws_nothing(trial):
    assert "the answer is 7 in 100% of the draws" in told(trial(formula("x", "7")))


def test_a_slip_that_can_never_be_told_from_the_truth(trial):
    figures = trial(formula("x", "{ from = 1, to = 9, step = 1 }", wrong=("x + 5", "x + 1", "x - 5")))
    assert figures.faults == [(("slip", 1), 'the slip "slip 1" can never be told from the right answer')]
    assert figures.separated == {"slip 0": 1, "slip 1": 0, "slip 2": 1}


def test_how_often_a_slip_is_told_apart(trial):
    figures = trial(formula("x", "{ from = 1, to = 10, step = 1 }", wrong=("max(x, 5)", "x * 2")))
    assert figures.separated["slip 0"] == pytest.approx(0.3, abs=0.04)  # x = 1, 2, 3; 4 is inside limits
    assert figures.separated["slip 1"] == pytest.approx(0.9, abs=0.04)
    assert figures.faults == []


def test_a_slip_that_is_no_number_in_some_draws_still_counts_in_the_others(trial):
    figures = trial(formula("x + 20", "{ from = 0, to = 9, step = 1 }", wrong=("60 / x", "x")))
    assert 0.8 < figures.separated["slip 0"] < 1
    assert figures.faults == []


def test_two_slips_must_be_told_apart(trial):
    figures = trial(formula("x", "{ from = 1, to = 9, step = 1 }", wrong=("x + 5", "1 / (x - x)")))
    assert told(figures)[-1].startswith("only 1 of the slips can be told")


def test_directions_are_compared_the_short_way_round(trial):
    draw = "{ from = 1, to = 360, step = 1 }"
    figures = trial(formula("wrap360(x)", draw, wrong=("wrap360(x + 1)", "x + 180", "x - 90"), unit="heading"))
    assert figures.faults == [(("slip", 0), 'the slip "slip 0" can never be told from the right answer')]


def test_a_formula_of_a_draw_that_fails(trial):
    text = QUANTITY.replace(
        "angels = {", 'low = { from = 0, to = 9, step = 1 }\nangels = { formula = "60 / low" }\n#'
    ).replace("{angels}", "{low}")
    assert told(trial(text))[0].startswith("a draw can't be worked out: ")


def test_what_is_tried_is_what_is_asked(deck):
    """Every number that a question may have is among those that are tried, and its truth is the same."""
    for text in (QUANTITY, FORMULA):
        file = deck(HEAD + text)
        drill, library = file.drills[0], library_of([file], Data({}, {}))
        values, share = drawn_and_kept(drill, library, random.Random(1), 4000)
        truths = stated_truths(drill, library, values, round(4000 * share))
        tried = {
            tuple(row): truth for *row, truth in zip(*(values[one] for one in sorted(values)), truths, strict=True)
        }
        for seed in range(50):
            question = computed.make(drill, library, random.Random(seed))
            found = tried[tuple(question.inputs[one] for one in sorted(values))]
            assert round(float(found), computed.DECIMALS) == question.truth


def test_of_a_call_the_draws_are_tried(trial):
    assert trial(CALL).faults == []
    strict = CALL.replace('source = "sop"', 'source = "sop"\nkeep = ["state_klb > 7.7"]')
    assert told(trial(strict))[0].startswith("only ")


def test_an_input_that_nothing_gives_is_told():
    """`deck check` of decks beside an airframe that lacks a number ended as a mistake of the program."""
    shelf = libraries.load()
    takes = next(one for one in shelf.drills.values() if one.kind == "computed" and _takes_of_files(one))
    message = told(try_drill(takes, replace(shelf, values={}, tables={}), draws=20))[0]
    assert message.startswith("a draw can't be worked out: ") and "nothing gives the input" in message


def _takes_of_files(drill):
    drawn = {draw.name for draw in drill.draws}
    inputs = QUANTITIES[drill.quantity].inputs if drill.quantity else ()
    return any(spec.take and spec.default is None and spec.name not in drawn for spec in inputs)
