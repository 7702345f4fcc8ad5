"""One fault of syntax does not hide the others."""

import pytest

from trainer.decks.tables import parse


def test_sound_text():
    parsed = parse("a = 1\n[b]\nc = 2\n")
    assert (parsed.data, parsed.syntax, parsed.blanked) == ({"a": 1, "b": {"c": 2}}, [], set())


def test_three_faults_in_one_text():
    parsed = parse('a = "x\nb = 2\nc = 010\n[t]\nd = 4\ne =\nf = 6\n')
    assert [line for line, _ in parsed.syntax] == [1, 3, 6]
    assert parsed.data == {"b": 2, "t": {"d": 4, "f": 6}}


def test_keys_that_stand_twice_are_told_with_both_lines():
    parsed = parse("[t]\na = 1\nb = 2\na = 3\n[u]\n[t]\nc = 3\n[v]\nd = 4\nb = 1\nb = 2")
    assert parsed.syntax == [
        (4, '"t.a" stands twice; the first is in line 2'),
        (6, '"t" stands twice; the first is in line 1'),
        (11, '"v.b" stands twice; the first is in line 10'),
    ]
    assert parsed.data == {"t": {"a": 1, "b": 2}, "u": {}, "v": {"d": 4, "b": 1}}


def test_a_broken_header_takes_its_drill_with_it():
    parsed = parse('[[recall]]\nid = "a"\n[[recall]\nid = "b"\nx = 1\n[[recall]]\nid = "c"\n')
    assert [line for line, _ in parsed.syntax] == [3]
    assert parsed.data == {"recall": [{"id": "a"}, {"id": "c"}]}
    assert parsed.blanked == {3, 4, 5}


def test_a_statement_of_several_lines():
    parsed = parse("a = [\n 1,\n 2 3,\n]\nb = 1\n")
    assert [line for line, _ in parsed.syntax] == [3]
    assert parsed.data == {"b": 1}


def test_what_is_not_closed_is_told_once():
    parsed = parse('a = 1\nb = """never\nclosed\n')
    assert len(parsed.syntax) == 1
    assert "not closed before the end" in parsed.syntax[0][1]


def test_there_is_an_end_to_it():
    parsed = parse("= = =\n" * 3000)
    assert 1 <= len(parsed.syntax) <= 20


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("weight_lb = 24,600   # basic", "a number has no comma; write 24600"),
        ("weight_lb = 1,234,567.5", "a number has no comma; write 1234567.5"),
        ("course = 050", "a number begins with no nought; write 50"),
        ("fuel = 3500 lb", "a number has no unit behind it; write 3500"),
        ("angle = 9°", "a number has no unit behind it; write 9"),
        ('title = "My jet', 'a text is not closed: " is missing at its end'),
        ("wings = jet", 'a text stands in quotes; write "jet"'),
    ],
)
def test_what_people_write_is_told_as_it_should_be_written(line, says):
    parsed = parse(f"a = 1\n{line}\nb = 2\n")
    assert [(number, message.partition(": ")[2]) for number, message in parsed.syntax] == [(2, says)]
    assert parsed.data == {"a": 1, "b": 2}
