"""Limits that stand before parsing, and files that are no text."""

import time

import pytest

from tests.bench.linear import SHAPES
from trainer.decks.textfile import LONGEST_LINE, MOST_BYTES, broken_limit, read_text


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path):
    path = tmp_path / "a.toml"
    path.write_bytes(b"\xef\xbb\xbfx = 1\r\ny = 2\r\n")
    assert read_text(path)[0].text == "x = 1\ny = 2\n"


def test_the_hash_is_that_of_the_bytes(tmp_path):
    path = tmp_path / "a.toml"
    path.write_bytes(b"abc")
    # FIPS 180-2, appendix B.1: the SHA-256 digest of "abc".
    assert read_text(path)[0].hash == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_other_encodings_are_told_with_their_line(tmp_path):
    path = tmp_path / "a.toml"
    path.write_bytes(b'a = 1\nb = "3\xb0"\n')
    assert read_text(path)[1:] == ("is not UTF-8 text; save it with the encoding UTF-8", 2)


@pytest.mark.parametrize("data", ["x".encode("utf-16"), b"\xff\xfe\x00", b"\xed\xa0\x80"])
def test_bytes_that_are_no_text(tmp_path, data):
    path = tmp_path / "a.toml"
    path.write_bytes(data)
    assert "UTF-8" in read_text(path)[1]


def test_files_that_are_not_there(tmp_path):
    assert read_text(tmp_path / "none.toml")[1] == "there is no such file"
    assert read_text(tmp_path)[1] == "it is a folder"
    assert read_text("a\0b.toml")[1] != ""


def test_size(tmp_path):
    path = tmp_path / "a.toml"
    path.write_bytes(b"#" * 1000 + b"\n#" * (MOST_BYTES // 2))
    assert "larger than 400,000 bytes" in read_text(path)[1]


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("a = 1\n# " + "x" * LONGEST_LINE, 2, "longer than 10,000"),
        ("\n\n" + ".".join("a" * 4000) + " = 1", 3, "more than 6 parts"),
        ("a.b.c.d.e.f.g = 1", 1, "more than 6 parts"),
        ('"a"."b" . c.d."e".f.g = 1', 1, "more than 6 parts"),
        ("[a.b.c.d.e.f.g]", 1, "more than 6 parts"),
        ("x = { a.b.c.d.e.f.g = 1 }", 1, "more than 6 parts"),
        ("x = [[[[[[[1]]]]]]]", 1, "nested more than 6"),
        ("x = " + "[\n" * 5000, 7, "nested more than 6"),
        ("x = " + "{a=" * 3000, 1, "nested more than 6"),
        ("a" * 101 + " = 1", 1, "longer than 100"),
        ('"' + "a" * 101 + '" = 1', 1, "longer than 100"),
        ("x.'" + "a" * 101 + "'.b = 1", 1, "longer than 100"),
        ("x = " + "9" * 5000, 1, "longer than 100"),
    ],
)
def test_limits(text, line, message):
    found, told = broken_limit(text)
    assert (found, message in told) == (line, True), told


@pytest.mark.parametrize(
    "text",
    [
        'x = "a.b.c.d.e.f.g.h [[[[[[[["',
        "x = '''\na.b.c.d.e.f.g.h\n[[[[[[[[\n'''",
        "# a.b.c.d.e.f.g.h [[[[[[[[",
        "x = [[1, 2], [3, 4]]\ny = { a = { b = [1] } }",
        'x = "' + "long text " * 100 + '"',
        "a.b.c.d.e.f = 1",
    ],
)
def test_what_is_within_the_limits(text):
    assert broken_limit(text) == (0, "")


@pytest.mark.parametrize("shape", SHAPES)
def test_no_shape_of_a_text_costs_the_square_of_its_length(shape):
    """It did: a hundred kilobytes of some took from five seconds to a minute (tests/bench/linear at full size)."""
    text = SHAPES[shape](100_000)
    started = time.process_time()
    broken_limit(text)
    assert time.process_time() - started < 1.0
