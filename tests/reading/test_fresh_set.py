"""The runner for texts of fresh authors counts what it says it counts, and a blank set asks what it should."""

import tomllib

import pytest

from tests.reading import fresh_set
from tests.reading.fresh_set import ACCEPTED, ASKED, REFUSED, Read
from trainer.decks import library as libraries


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def of_file(tmp_path, shipped, text):
    path = tmp_path / "set.toml"
    path.write_text(text, encoding="utf-8")
    return fresh_set.read_set(path, shipped)


def test_numbers_words_calls_and_steps_are_told_apart(tmp_path, shipped):
    flow = next(one for one in shipped.drills.values() if one.kind == "flow")
    step = flow.steps[0]
    found = of_file(
        tmp_path,
        shipped,
        f"""[spin-altitude]
right = ["1,200", "1.2 thousand feet", "two thousand"]
wrong = ["800"]
[call-platform]
right = ["{{side_number!}} platform"]
wrong = ["platform", "{{side_number}} no platform"]
[{flow.id}.{step.id}]
right = ["{step.do}"]
little = ["asdfgh"]
""",
    )
    got = [one.got for one in found]
    assert got[:7] == [ACCEPTED, ACCEPTED, REFUSED, REFUSED, ACCEPTED, REFUSED, REFUSED]
    assert got[7] == ACCEPTED and got[8] in (ASKED, REFUSED)
    lines = fresh_set.lines_of(found)
    assert lines[0] == "right: accepted 4, asked 0, refused 1 (80.0% accepted)"
    assert any("two thousand" in line for line in lines) and not fresh_set.is_kept(found)


@pytest.mark.parametrize("text", ["[no-such-drill]\nright = []", "[spin-altitude]\nrihgt = ['1,200']"])
def test_what_is_no_set_is_named(tmp_path, shipped, text):
    with pytest.raises(fresh_set.BadSet):
        of_file(tmp_path, shipped, text)


def test_each_promise_can_be_broken():
    kept = [Read("d", "right", "a", ACCEPTED), Read("d", "wrong", "b", ASKED), Read("d", "little", "c", ASKED)]
    assert fresh_set.is_kept(kept)
    for broken in (
        Read("d", "right", "a", REFUSED),
        Read("d", "right", "a", ASKED),
        Read("d", "wrong", "b", ACCEPTED),
        Read("d", "little", "c", ACCEPTED),
        Read("d", "right", "a", ACCEPTED, "the answer"),
    ):
        assert not fresh_set.is_kept([*kept, broken]), broken


@pytest.mark.parametrize("kind", fresh_set.BLANKS)
def test_a_blank_set_can_be_read_and_has_no_texts(tmp_path, shipped, kind):
    text = fresh_set.blank(kind, shipped)
    assert of_file(tmp_path, shipped, text) == []
    tables = [one for one in tomllib.loads(text).values() if isinstance(one, dict)]
    count = sum(len(one) if kind == "steps" else 1 for one in tables)
    assert count == fresh_set.BLANKS[kind] if kind != "calls" else count > 20
