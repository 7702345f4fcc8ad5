"""Free text is judged as a person would: the set was written before the matcher was tuned.

``step_variants.toml`` holds 60 steps with 300 typed variants: right ones, near ones, and opposites.
"""

import tomllib
from pathlib import Path

import pytest

from trainer.errors import AnswerError
from trainer.reading.freetext.asking_back import Unsure
from trainer.reading.freetext.rules import find

SETS = sorted(Path(__file__).parent.glob("step_variants*.toml"))
LEAST_RIGHT = 0.97
LEAST_NEAR = 0.75  # a vague text that means no other step does little harm


def cases(path, kind):
    """Return [(options, the step that is meant, text)] of one kind."""
    flows = tomllib.loads(path.read_text(encoding="utf-8"))["flow"]
    return [
        ({step["do"]: (step["do"], *step["short"]) for step in flow["step"]}, step["do"], text)
        for flow in flows
        for step in flow["step"]
        for text in step[kind]
    ]


def judged(options, text):
    """Return the step that ``text`` is accepted as, "asked" where the person is asked, None for no step."""
    try:
        return find(text, options).key or None
    except Unsure:
        return "asked"


def misjudged(path, kind, good):
    return [
        (text, meant, judged(options, text))
        for options, meant, text in cases(path, kind)
        if not good(judged(options, text), meant)
    ]


def test_the_first_set_is_whole():
    text = SETS[0].read_text(encoding="utf-8")
    steps = [step for flow in tomllib.loads(text)["flow"] for step in flow["step"]]
    assert len(steps) >= 60
    assert sum(len(step[kind]) for step in steps for kind in ("right", "near", "opposite")) >= 300


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_right_wordings_are_accepted(path):
    wrong = misjudged(path, "right", lambda got, meant: got == meant)
    assert len(wrong) <= (1 - LEAST_RIGHT) * len(cases(path, "right")), wrong


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_opposite_is_ever_accepted(path):
    assert misjudged(path, "opposite", lambda got, meant: got != meant) == []


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_near_wordings_are_asked_back(path):
    wrong = misjudged(path, "near", lambda got, meant: got == "asked")
    assert len(wrong) <= (1 - LEAST_NEAR) * len(cases(path, "near")), wrong


PAIRS = [
    ("up", "down"), ("on", "off"), ("left", "right"), ("port", "starboard"), ("armed", "safe"), ("in", "out"),
    ("open", "closed"), ("locked", "unlocked"), ("forward", "aft"), ("spread", "folded"), ("above", "below"),
    ("inbound", "outbound"), ("high", "low"), ("fast", "slow"), ("day", "night"), ("raised", "lowered"),
    ("extended", "retracted"), ("before", "after"), ("engaged", "disengaged"), ("connected", "disconnected"),
    ("positive", "negative"), ("attached", "detached"), ("increase", "decrease"), ("climbing", "descending"),
    ("red", "green"), ("200", "300"),
]  # fmt: skip


@pytest.mark.parametrize("one, other", PAIRS)
@pytest.mark.parametrize(
    "frame", ["panel {}", "panel handle {} and guard", "{} panel handle", "the panel is {}", "panel handle is not {}"]
)
def test_two_ends_of_an_axis_are_never_the_same(one, other, frame):
    for said, meant in ((one, other), (other, one)):
        assert judged({"x": (frame.format(meant),)}, frame.format(said)) in (None, "asked")
        assert judged({"x": (frame.format(meant),)}, frame.format(meant)) == "x"


@pytest.mark.parametrize(
    "text", ["do not raise the bar", "never raise the bar", "bar not raised", "don't raise the bar", "bar isn't up"]
)
def test_a_denial_is_never_the_thing_itself(text):
    assert judged({"up": ("raise the bar", "bar up")}, text) in (None, "asked")


@pytest.mark.parametrize(
    "text", ["lauch bar up", "launch bra up", "launhc bar up", "launch barr up", "lanch bar rasied"]
)
def test_slips_of_the_finger_are_forgiven(text):
    assert judged({"up": ("launch bar up",), "off": ("tension released",)}, text) in ("up", "asked")
    assert judged({"gear": ("altimeter checked",)}, "altimter chekced") == "gear"


def test_each_thing_keeps_its_own_end():
    options = {"x": ("gear up, flaps down",)}
    assert judged(options, "flaps down, gear up") == "x"
    assert judged(options, "gear down, flaps up") in (None, "asked")


def test_numbers_are_not_blurred():
    options = {"x": ("level at 500 feet",)}
    assert judged(options, "level 500") == "x"
    assert judged(options, "level at 600 feet") is None
    assert judged(options, "level at 5,000") is None


def test_between_two_that_fit_alike_neither_is_offered():
    with pytest.raises(Unsure) as caught:
        find("pump on", {"a": ("left pump on",), "b": ("right pump on",)})
    assert caught.value.likely and caught.value.meant == "" and "pump" not in str(caught.value)


def test_no_text_is_asked_again():
    with pytest.raises(AnswerError):
        find("  ", {"x": ("bar up",)})
