"""What of a deck may reach a screen."""

import pytest

from trainer.decks import placeholders
from trainer.decks.words import nearest, normalise, printable, quoted, refused_characters


@pytest.mark.parametrize(
    "text",
    ["\x00", "\x1b[2J", "\x9b2J", "\x7f", "a\u202eb", "\u2066", "\u200b", "\u2028", "\ue000", "\U000e0041", "\x08"],
)
def test_characters_that_move_a_cursor_or_turn_text_round_are_refused(text):
    assert refused_characters(text)
    assert not refused_characters(printable(text))


@pytest.mark.parametrize("text", ["3° left – “ball”", "a\n\tb\r\n", "naïve ½ → ±", "日本"])
def test_ordinary_text_passes(text):
    assert refused_characters(text) == []


def test_values_are_shown_short():
    assert quoted("x" * 500) == '"' + "x" * 60 + '…"'
    assert quoted("a\x1b[2J") == '"a<U+001B>[2J"'
    assert quoted(10**5000) == "a number of more than 15 digits"
    assert (quoted(True), quoted([1]), quoted({}), quoted(0.5)) == ("true", "a list", "a table", "0.5")


def test_the_nearest_word():
    assert nearest("answr", ["ask", "answer"]) == '; did you mean "answer"?'
    assert nearest("zzz", ["ask", "answer"]) == ""
    assert nearest("a" * 100_000, ["ask"]) == ""


@pytest.mark.parametrize(
    ("one", "other"),
    [("Brakes – OFF.", "brakes off"), ("a  b", "A_B"), ("no. 1", "no 1"), ("ＡＢ", "ab"), ("state 5.4", "State 5.4!")],
)
def test_spellings_of_one_thing(one, other):
    assert normalise(one) == normalise(other)


def test_different_things_stay_different():
    assert normalise("hook up") != normalise("hook down")
    assert normalise("state 5.4") != normalise("state 54")


def test_placeholders():
    parts = placeholders.split("{a} and {fuel_lb:100} {{x}}")
    assert [getattr(part, "name", part) for part in parts] == ["a", " and ", "fuel_lb", " {x}"]
    assert [part.step for part in parts if not isinstance(part, str)] == [None, 100.0]
    assert placeholders.plain("{{x}}") == "{x}"


@pytest.mark.parametrize(
    "text",
    ["{", "}", "{}", "{0}", "{a.b}", "{a[0]}", "{a!r}", "{a:>99}", "{a:0}", "{a:{b}}", "{a:1e9}", "{A}", "{a }",
     "{a:-5}", "{{a}", "{__class__}", "{a:9999999}"],
)  # fmt: skip
def test_nothing_else_stands_in_braces(text):
    with pytest.raises(ValueError, match="literal|steps of nothing"):
        placeholders.split(text)


def test_text_without_inputs_holds_no_placeholder():
    with pytest.raises(ValueError, match="names no input"):
        placeholders.plain("turn {a}")
