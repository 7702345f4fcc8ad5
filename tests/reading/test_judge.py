"""What a text means by the rules and by examples together: sure ones are judged, the others asked back."""

import random
from contextlib import nullcontext
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.reading.held_back import taken_for as meant
from trainer.decks import library as libraries
from trainer.decks import said
from trainer.decks.said import path_beside
from trainer.drills import recitation
from trainer.errors import AnswerError
from trainer.model import FlowDrill
from trainer.reading.freetext import judge, rules
from trainer.reading.freetext.asking_back import Unsure
from trainer.reading.freetext.rules import Found
from trainer.reading.language import plain_text


@pytest.fixture
def suspend(library):
    return library.drills["suspend"]


def judged(text, drill):
    return judge.find(text, recitation.wordings(drill), recitation.about(drill), drill)


def with_examples(drill, tmp_path, **more):
    """Return a copy of ``drill`` with made-up examples beside it; ``more`` {step: {sort: texts}} stands first."""
    lines = []
    for number, step in enumerate(drill.steps):
        lines.append(f"[{step.id}]")
        for sort in said.SORTS:
            plain = [f"{sort} {step.do} {word} {number}" for word in "one two three four five six seven".split()]
            texts = [*more.get(step.id, {}).get(sort, ()), *plain]
            lines.append(f"{sort} = [{', '.join(chr(34) + text + chr(34) for text in texts)}]")
    path = path_beside(tmp_path / "deck.toml", drill.id)
    path.parent.mkdir()
    path.write_text("\n".join(lines), encoding="utf-8")
    return replace(drill, said=str(path))


def test_without_examples_the_rules_alone_judge(suspend):
    assert judged("throttle idle", suspend) == rules.find("throttle idle", recitation.wordings(suspend))


def test_what_stands_among_the_examples_is_judged_as_it_stands_there(suspend, tmp_path):
    step = suspend.steps[0].id
    drill = with_examples(suspend, tmp_path, **{step: {"right": ["zig"], "wrong": ["zag"], "near": ["zog"]}})
    assert judged("Zig!", drill) == Found(key=step)
    assert judged("zag", drill) == Found(opposite=step)
    with pytest.raises(Unsure) as asked:
        judged("zog", drill)
    assert asked.value.likely[0][0] == suspend.steps[0].do and asked.value.meant == ""
    assert recitation.read_lines("zig", drill) == [step]


@pytest.mark.parametrize("text", ["zig " * 60, "5² zig", "…", "."], ids=["long", "odd sign", "sign", "point"])
@pytest.mark.parametrize("sort", said.SORTS)
def test_an_example_that_nobody_could_type_spoils_no_answer(suspend, tmp_path, sort, text):
    """One text of 240 characters in the file, and every answer was "too long"."""
    step = suspend.steps[0]
    drill = with_examples(suspend, tmp_path, **{step.id: {sort: [text]}})
    assert judged(f"right {step.do} one 0", drill) == Found(key=step.id)


def test_a_damaged_file_or_too_few_examples_leave_the_rules(suspend, tmp_path):
    step = suspend.steps[0].id
    drill = with_examples(suspend, tmp_path, **{step: {"right": ["zig"]}})
    assert judged("zig", drill).key == step
    text = (path := tmp_path / "said" / "suspend.toml").read_text(encoding="utf-8")
    path.write_text(text.replace("wrong = [", "wrung = [", 1), encoding="utf-8")
    with pytest.raises((Unsure, AnswerError)) if _asks("zig", suspend) else nullcontext():
        assert judged("zig", drill) == Found()
    path.write_text(f'[{step}]\nright = ["zig"]\n', encoding="utf-8")
    with pytest.raises((Unsure, AnswerError)) if _asks("zig", suspend) else nullcontext():
        assert judged("zig", drill) == Found()


def _asks(text, drill):
    try:
        rules.find(text, recitation.wordings(drill))
    except AnswerError:
        return True
    return False


def test_the_rules_and_the_examples_both_count():
    measures = dict.fromkeys(judge._weights()["measures"], 0.0)
    by_outcome = [judge.likelihoods(measures)[one] for one in judge.OUTCOMES]
    assert by_outcome[0] == max(by_outcome) and all(0.0 < chance < 1.0 for chance in by_outcome)
    likelier = judge.likelihoods(measures | {"balance": 6.0})[judge.ASKED]
    assert likelier > judge.likelihoods(measures | {"balance": -6.0})[judge.ASKED]


def test_the_examples_of_a_shipped_flow_cover_every_step_and_are_heard(shipped_flows):
    """A flow may do without examples; one that has them has enough for each step, or the rules judge alone."""
    for drill in shipped_flows:
        if not Path(drill.said).exists():
            continue
        steps = [step.id for step in drill.steps]
        texts = said.read_said(drill.said, steps)
        assert not texts.faults, drill.id
        for step in steps:
            counted = len(texts.right.get(step, ())), len(texts.wrong.get(step, ()))
            assert min(counted) >= 6 and texts.near[step], (drill.id, step, counted)
    for drill in random.Random(9).sample([one for one in shipped_flows if Path(one.said).exists()], 8):
        step = drill.steps[0].id
        assert judged(said.read_said(drill.said).right[step][0], drill).key == step


def test_what_is_like_nothing_is_not_asked_about(shipped_flows):
    """A nonsense was met with: did you mean "turn downwind"?"""
    drill = next(one for one in shipped_flows if one.id == "bolter-case-1")
    assert judged("no lower than the ground", drill) == judged("open the window", drill) == Found()


def test_what_is_no_step_is_never_taken_for_one(shipped_flows):
    texts = ["banana", "q", "zzz zzz zzz", "42", "yes", "my dog is brown", "the"]
    for drill in random.Random(8).sample(shipped_flows, 12):  # the examples of a flow are made ready once
        asked = (recitation.wordings(drill), recitation.about(drill), drill)
        assert [text for text in texts if meant(asked, text) not in ("", "asked")] == [], drill.id


@pytest.fixture(scope="module")
def shipped_flows():
    return [drill for drill in libraries.load().drills.values() if isinstance(drill, FlowDrill)]


@given(st.text(alphabet=st.characters(codec="ascii", exclude_characters="\n\r"), max_size=80))
def test_the_short_way_to_plain_text_leads_where_the_long_one_does(text):
    assert plain_text.normalise(text) == plain_text._fully_normalised(text)
