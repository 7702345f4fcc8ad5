"""Every key is found on its line, in texts that TOML reads and in texts that it refuses."""

import re
import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.decks.samples import ALL
from trainer.decks.lines import line_map

TEXT = '''\
format = 1 # = not a key

[deck] # [not.a.table]
"quoted key" = 'x = 1'
long = """
not = "a key"
[[nor.this]]
"""
dotted.inner.deep = { a = 1, b = [2, { c = 3 }] }

[[drill]]
id = "first"
[[drill.slip]]
name = "one"
[[drill.slip]]
name = "two"
[[drill]]
id = "second"
list = [
  "x", # "y",
  "z",
]
[drill.draw]
angels = { from = 1 }
'''


def test_places():
    lines = line_map(TEXT).line
    assert lines(("format",)) == 1
    assert lines(("deck",)) == 3
    assert lines(("deck", "quoted key")) == 4
    assert lines(("deck", "long")) == 5
    assert lines(("deck", "dotted", "inner", "deep", "b", 1, "c")) == 9
    assert lines(("drill", 0, "id")) == 12
    assert lines(("drill", 0, "slip", 1)) == 15
    assert lines(("drill", 0, "slip", 1, "name")) == 16
    assert lines(("drill", 1)) == 17
    assert lines(("drill", 1, "list", 1)) == 21
    assert lines(("drill", 1, "draw", "angels", "from")) == 24


def test_a_missing_key_is_placed_at_what_encloses_it():
    lines = line_map(TEXT).line
    assert lines(("drill", 1, "draw", "angels", "to")) == 24
    assert lines(("drill", 1, "answer", "unit")) == 17
    assert lines(("nowhere",)) == 0


def test_keys_that_stand_twice():
    repeats = line_map('a = 1\nb = [\n 1,\n]\n[t]\nx = 1\nx = """\n"""\n[t]\nb.c = 1\nb.c = 2\n').repeats
    assert [(r.place, r.first, r.line, r.last) for r in repeats] == [
        (("t", "x"), 6, 7, 8),
        (("t",), 5, 9, 9),
        (("t", "b", "c"), 10, 11, 11),
    ]


def _paths(value, place=()):
    yield place
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _paths(inner, (*place, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _paths(inner, (*place, index))


KEYS = st.one_of(
    st.sampled_from(("a", "b-1", "computed", "1", "x_y")),
    st.text(st.characters(blacklist_categories=("Cs", "Cc"), blacklist_characters='"\\'), max_size=6),
)
SCALARS = st.one_of(
    st.integers(-99, 99).map(str),
    st.sampled_from(("1.5", "true", "1979-05-27 07:32:00", "'''\nx = 1\n[[y]]\n'''", '"""\n"\n# z\n\\"""" # "', "'#'",
                     '"]"', '"\\u001b\\""', "1e3", "+inf")),
)  # fmt: skip


def _quoted(key):
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else f'"{key}"'


@st.composite
def documents(draw):
    """Return TOML text made of the constructs that a deck may hold."""
    blocks = []
    for _ in range(draw(st.integers(0, 6))):
        kind = draw(st.sampled_from(("[{}]", "[[{}]]", "[ {} ] # remark", "[[a.{}]]", "[computed.{}]", "")))
        blocks.append(kind.format(_quoted(draw(KEYS))))
        for _ in range(draw(st.integers(0, 4))):
            key = ".".join(_quoted(draw(KEYS)) for _ in range(draw(st.integers(1, 2))))
            space = draw(st.sampled_from((" ", "\t", "")))
            blocks.append(f"{space}{key}{space}={space}{draw(VALUES)}{draw(st.sampled_from(('', ' # x = 1')))}")
        blocks.append(draw(st.sampled_from(("", "# [remark]"))))
    return "\n".join(blocks)


VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda parts: "[\n" + ",\n".join(parts) + "\n]"),
        st.lists(st.tuples(KEYS, inner.filter(lambda text: "\n" not in text)), max_size=3).map(
            lambda pairs: "{ " + ", ".join(f"{_quoted(key)} = {value}" for key, value in pairs) + " }"
        ),
    ),
    max_leaves=4,
)


def _cut(text, line):
    return "\n".join(text.split("\n")[: line - 1])


@given(documents())
@settings(max_examples=250, deadline=None)
def test_positions_against_a_second_reading(text):
    found = line_map(text)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert not found.repeats
    lines = text.split("\n")
    for place in _paths(data):
        if place:
            assert place in found.lines, place
            line = found.lines[place]
            names = [part for part in place if isinstance(part, str)]
            if isinstance(place[-1], str):
                assert names[-1] in "\n".join(lines[line - 1 : line]), place
            # What stands above the line does not have it: text cut off there parses to less, or not at all.
            # (A table may be there before its own header, as the home of a table inside it.)
            assert isinstance(_at(data, place), dict) or not _holds(_cut(text, line), place), place


def _at(value, place):
    for part in place:
        value = value[part]
    return value


def _holds(text, place):
    try:
        _at(tomllib.loads(text), place)
    except (tomllib.TOMLDecodeError, KeyError, IndexError, TypeError):
        return False
    return True


@given(documents())
@settings(max_examples=60, deadline=None)
def test_a_key_that_stands_twice_is_found_behind_anything(text):
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    last = text.count("\n") + 1
    repeats = line_map(f"{text}\n[the-end]\nkey = 1\nother = 2\nkey = [\n3]").repeats
    assert [(r.place, r.first, r.line, r.last) for r in repeats] == [(("the-end", "key"), last + 2, last + 4, last + 5)]


def test_every_place_of_a_deck_is_mapped():
    found = line_map(ALL)
    assert not found.repeats
    assert all(place in found.lines for place in _paths(tomllib.loads(ALL)) if place)


@given(st.text(alphabet="ab.=[]{},\"'#\n \\1", max_size=200))
@settings(max_examples=600, deadline=None)
def test_no_text_stops_the_walk(text):
    line_map(text)
