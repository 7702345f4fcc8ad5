"""One rule for what may reach a screen, compared with the categories of the Unicode standard."""

import sys
import unicodedata

import pytest

from trainer import safe_text
from trainer.pages.text import clean
from trainer.terminal.look import printable

# The Unicode Standard, 4.5 General Category: control, format, surrogate, private use, line and paragraph separators,
# and what is not assigned.
REFUSED = frozenset(("Cc", "Cf", "Cs", "Co", "Zl", "Zp", "Cn"))


def test_unsafe_is_what_the_standard_calls_neither_graphic_nor_space():
    differing = [
        code for code in range(sys.maxunicode + 1)
        if safe_text.is_unsafe(chr(code)) != (unicodedata.category(chr(code)) in REFUSED)
    ]  # fmt: skip
    assert differing == []


@pytest.mark.parametrize(
    "text", ["a\x1b[2Jb", "\u202eab", "a\u200bb\ufeff", "a\ud800b", "a\u2028b", "a\r\nb", "\x9b31m"]
)
def test_screens_and_pages_take_out_the_same(text):
    for made in (printable(text), clean(text)):
        assert made == safe_text.printable(text)
        assert not any(map(safe_text.is_unsafe, made)) and len(made.splitlines()) == 1


def test_spaces_that_set_figures_apart_stay():
    assert clean("80\u202f%") == "80\u202f%"
