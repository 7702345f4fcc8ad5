"""Draws that are shares of the user's own numbers: the same deck asks sensible questions of any aircraft."""

from types import SimpleNamespace

import pytest

from tests.decks.samples import HEAD
from trainer.decks import library
from trainer.decks.spans import span_of
from trainer.engine.tables import StepTable
from trainer.errors import DomainError
from trainer.model import Draw


def files(capacity, upto):
    table = StepTable(low=upto[0], upto=tuple(upto[1:]), values=tuple(range(len(upto) - 1)), name="airframe.trim_steps")
    return SimpleNamespace(values={"airframe.fuel_capacity_lb": capacity}, tables={"airframe.trim_steps": table})


def test_a_share_of_a_value_lies_on_the_grid_inside_the_share():
    draw = Draw(name="fuel_lb", span=(0.4, 1.0, 500.0), of="airframe.fuel_capacity_lb")
    assert span_of(draw, files(9_800, (1, 2))) == (4_000, 9_500, 500)
    assert span_of(draw, files(2_900, (1, 2))) == (1_500, 2_500, 500)


def test_a_share_of_a_table_runs_between_its_ends():
    draw = Draw(name="gross_weight_lb", span=(0.0, 1.0, 100.0), of="airframe.trim_steps")
    assert span_of(draw, files(0, (25_000, 28_500, 38_000))) == (25_000, 38_000, 100)
    assert span_of(draw, files(0, (9_050, 11_000, 13_960))) == (9_100, 13_900, 100)


def test_a_share_without_a_step_in_it_is_refused():
    draw = Draw(name="fuel_lb", span=(0.1, 0.2, 5_000.0), of="airframe.fuel_capacity_lb")
    with pytest.raises(DomainError, match="no step of 5000"):
        span_of(draw, files(9_800, (1, 2)))
    with pytest.raises(DomainError, match="not in your files"):
        span_of(draw, SimpleNamespace(values={}, tables={}))


DRILL = """
[[computed]]
id = "share"
quantity = "gross_weight"
ask = "Fuel {fuel_lb}, stores {stores_lb}. Weight?"
source = "made-up"
[computed.draw]
stores_lb = { any_of = [1000] }
fuel_lb = { of = "OF", from = 0.5, to = 1, step = 100 }
"""


@pytest.mark.parametrize(
    ("of", "says"),
    [
        (
            "airframe.fuel_capacity",
            'there is no value or table "airframe.fuel_capacity" in tallowick.toml; did you mean',
        ),
        ("fuel", '"fuel" is no value or table of your files'),
    ],
)
def test_what_a_share_is_of_must_stand_in_the_files(tmp_path, of, says):
    from trainer.drills.check_deck import check

    path = tmp_path / "mine.toml"
    path.write_text(HEAD + DRILL.replace("OF", of), encoding="utf-8")
    assert any(says in fault.message and fault.line for fault in check([path], draws=0))


def test_the_weights_of_a_light_jet_and_of_a_heavy_one_are_asked_within_their_own_tables(tmp_path):
    from trainer.drills import questions

    for basic, capacity, ends in ((9_400, 2_900, (9_900, 11_500, 13_500)), (41_000, 22_000, (42_000, 58_000, 74_000))):
        folder = tmp_path / f"{basic}" / "decks" / "airframes"
        folder.mkdir(parents=True)
        text = (library.listing(None, ()).airframe["tallowick"]).read_text(encoding="utf-8")
        rows = f"low = {ends[0]}\nrows = [[{ends[1]}, 4], [{ends[2]}, 5]]"
        text = text.replace(
            "low = 25000\nrows = [[28500, 21], [31000, 22], [33500, 23.5], [35500, 24.5], [38000, 26]]", rows
        )
        text = text.replace('name = "tallowick"', 'name = "own"').replace("= 22700", f"= {basic}")
        text = text.replace("fuel_capacity_lb = 9800", f"fuel_capacity_lb = {capacity}")
        (folder / "own.toml").write_text(text, encoding="utf-8")
        shelf = library.load(tmp_path / f"{basic}", airframe="own")
        for seed in range(40):
            question = questions.make(shelf.drills["trim-step-odd"], shelf, f"{seed}")
            assert ends[0] <= question.inputs["gross_weight_lb"] <= ends[2]
            question = questions.make(shelf.drills["gross-weight-round"], shelf, f"{seed}")
            assert 0.4 * capacity <= question.inputs["fuel_lb"] <= capacity
