"""Whatever is typed, an answer is graded or asked again – never a traceback, never a long or broken message."""

import json
from dataclasses import asdict

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from trainer.drills import flow, grading, questions
from trainer.errors import AnswerError
from trainer.model import VERDICTS

WORDS = st.lists(
    st.sampled_from(
        "not never bar up down launch tension off on 5,000 3 7 nm angels 2 ball ; , - ' ( 3/4 two point".split()
    ),
    max_size=8,
).map(" ".join)
TYPED = st.one_of(st.text(max_size=40), WORDS, st.text(alphabet="0123456789:+-., °/nmlbk", max_size=12))
ASKED = [
    ("fix", ""),
    ("radial", ""),
    ("minutes", ""),
    ("state", ""),
    ("platform", ""),
    ("popeye", ""),
    ("bow-turn", ""),
]
ASKED += [("ball", ""), ("reply", ""), *(("suspend", form) for form in flow.FORMS)]


@pytest.mark.parametrize("drill_id, form", ASKED)
@given(typed=TYPED)
@example(typed="0POINT1/2")  # a fraction behind a point was taken for a number of two points
@settings(max_examples=80, deadline=None)
def test_any_text_is_graded_or_asked_again(library, drill_id, form, typed):
    drill = library.drills[drill_id]
    question = questions.make(drill, library, "1", form=form)
    try:
        grade = grading.grade(question, drill, library, typed, 5.0)
    except AnswerError as error:
        message = str(error)
        assert "\n" not in message and message.isprintable() and len(message) < 300
        return
    assert grade.verdict in VERDICTS and 0.0 <= grade.score <= 1.0
    json.dumps(asdict(grade))


@pytest.mark.parametrize("drill_id, form", ASKED)
def test_ten_thousand_characters_are_asked_again_at_once(library, drill_id, form):
    drill = library.drills[drill_id]
    question = questions.make(drill, library, "1", form=form)
    for typed in ("x" * 10_000, "bar up " * 1_500, "not " * 2_500, "1" * 10_000, "\u200b" * 10_000):
        with pytest.raises(AnswerError):
            grading.grade(question, drill, library, typed, 5.0)
