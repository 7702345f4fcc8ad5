"""Decks from strangers: bounded time and memory, no code, no file but their own, nothing strange on the screen.

Each of these once was, or easily could be, a way to hang, crash or fool a reader of decks.
"""

import ast
import builtins
import os
import socket
import subprocess
import tracemalloc

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.decks.samples import ALL, CALL, FLOW, FORMULA, HEAD, QUANTITY, RECALL
from trainer.decks.datafile import read_data
from trainer.decks.deckfile import read_file
from trainer.decks.fault import MOST_FAULTS
from trainer.decks.words import refused_characters
from trainer.drills.check_deck import check

MOST_MEMORY = 300_000_000
MANY = "".join(f'[[recall]]\nid = "drill-{i}"\n' for i in range(20_000))

CORPUS = {
    "a dotted key of 20,000 parts": ".".join("a" * 20_000) + " = 1",
    "dotted keys of 4,900 parts on 90 lines": "\n".join(".".join(["a"] * 4_900) + f".b{i} = 1" for i in range(90)),
    "a dotted header of 4,000 parts": "[" + ".".join("a" * 4_000) + "]",
    "dotted keys inside an inline table": "x = {" + ",".join(f"a.b.c.d.e.f{i}.g = 1" for i in range(400)) + "}",
    "500,000 open brackets": "x = " + "[" * 500_000,
    "brackets on a line each": "x = " + "[\n" * 400_000,
    "inline tables in each other": "x = " + "{a=" * 300_000,
    "a string of a billion characters, as far as it gets": 'x = "' + "a" * 2_000_000 + '"',
    "one line of a million": "# " + "x" * 990_000,
    "a number of 9,000 digits": "x = " + "9" * 9_000,
    "a number of 99 digits": HEAD + RECALL.replace("5000", "9" * 99),
    "numbers that are none": HEAD + RECALL.replace("5000", "nan").replace('ft" }', 'ft", on = inf, inside = -inf }'),
    "a number past all": HEAD + RECALL.replace("5000", "1e400"),
    "20,000 empty drills": HEAD + MANY,
    "drills of no shape": HEAD + "recall = [1, 2, [], {}, [[]], {a = 1}]\ncomputed = {}\nflow = 'x'\n",
    "300,000 entries in a list": HEAD + RECALL.replace('"sop"', '"sop"\nafter = [' + '"a",\n' * 190_000 + "]"),
    "4,000 steps": HEAD + FLOW + '[[flow.step]]\nid = "s"\ndo = "d"\n' * 4_000,
    "2,000 slips": HEAD + FORMULA + '[[computed.slip]]\nname = "s"\nwords = "d"\nformula = "1"\n' * 2_000,
    "5,000 inputs": HEAD + QUANTITY + "".join(f"a{i} = 1\n" for i in range(5_000)),
    "5,000 unknown keys": HEAD + RECALL + "".join(f"key-{i} = 1\n" for i in range(5_000)),
    "a key of escapes": HEAD + RECALL + '"\\u001b]0;title\\u0007" = 1\n',
    "an id of escapes": HEAD + RECALL.replace("platform", "\\u001b[31m"),
    "escapes in a text": HEAD + RECALL.replace("At what", "\\u001b[2J\\u009b2J\\u0000"),
    "text turned round": HEAD + RECALL.replace("At what", "\\u202etfel\\u2066"),
    "signs that nobody sees": HEAD + RECALL.replace("At what", "\\u200b\\u2060\\U000E0041"),
    "lines that break in a text": HEAD + RECALL.replace("At what", "\\u2028\\u2029\\u0085"),
    "formats in a question": HEAD + QUANTITY.replace("{angels}", "{angels:>99999999}{angels.__class__}{0}{}"),
    "a long line of braces": HEAD + QUANTITY.replace("{angels}", "{" * 1_900),
    "a formula that runs": HEAD + FORMULA.replace('"fuel_lb / flow_lb_min"', "\"__import__('os').system('x')\""),
    "a formula of attributes": HEAD + FORMULA.replace("fuel_lb / flow", "().__class__.__mro__[1] / flow"),
    "a formula without an end": HEAD + FORMULA.replace("fuel_lb / flow_lb_min", "9**9**9**9**9"),
    "a formula deep as a well": HEAD + FORMULA.replace("fuel_lb / flow_lb_min", "(" * 1_900 + ")" * 90),
    "a formula of strings": HEAD + FORMULA.replace('"fuel_lb / flow_lb_min"', "\"'a' * 99999999 % 1\""),
    "conditions without an end": HEAD + FORMULA.replace('"fuel_lb > 2000"', '"fuel_lb > 9**99**99"'),
    "a span without an end": HEAD + QUANTITY.replace("step = 1", "step = 1e-300"),
    "names of Python": HEAD + QUANTITY.replace("angels =", "__builtins__ = 1\nimport = 2\nangels ="),
    "paths out of the folder": HEAD + QUANTITY.replace("{ from = 6, to = 20, step = 1 }", '"ship.../../etc/passwd"'),
    "a source elsewhere": HEAD.replace("[source.sop]", '[source."../../x"]') + RECALL,
    "a name elsewhere": HEAD.replace('"sample"', '"../../../etc/passwd"') + RECALL,
    "keys twice on 3,000 lines": HEAD + "title = 1\n" * 3_000,
    "faults on 9,000 lines": "= = =\n" * 9_000,
    "a quote that is never closed": HEAD + 'x = """' + "\n'''\n\"" * 5_000,
    "quotes and quotes": "x = " + "\"'" * 4_000 + "\n" + "'\"" * 4_000,
    "a text of backslashes": 'x = "' + "\\" * 9_001 + '"',
    "half a text of many lines": 'x = """' + '\\"' * 4_000 + "\n" + '""' * 3_000,
    "dots and dots": "x" + "." * 9_000 + "\n" + "a. " * 3_000,
    "nothing": "",
    "zeros": "\0" * 9_000,
    "carriage returns": "\r" * 9_000,
    "a call of references": HEAD + CALL.replace("{ from = 3.2, to = 7.8, step = 0.1 }", '"airframe.__class__"'),
}  # fmt: skip


LARGE = ["300,000 entries in a list", "brackets on a line each", "dotted keys of 4,900 parts on 90 lines",
         "a string of a billion characters, as far as it gets", "4,000 steps"]  # fmt: skip


@pytest.mark.timeout(60)
@pytest.mark.parametrize("name", CORPUS)
@pytest.mark.parametrize("reader", [read_file, read_data])
def test_hostile_files_are_faulty_and_nothing_more(name, reader, tmp_path):
    path = tmp_path / "sample.toml"
    path.write_bytes(CORPUS[name].encode("utf-8", "surrogatepass"))
    file = reader(path)
    assert 0 < len(file.faults) <= MOST_FAULTS
    for fault in file.faults:
        assert not refused_characters(str(fault)) and "\n" not in str(fault)
        assert len(str(fault)) < 1_500


@pytest.mark.parametrize("name", LARGE)
def test_memory_is_bounded(name, tmp_path):
    path = tmp_path / "sample.toml"
    path.write_text(CORPUS[name], encoding="utf-8")
    tracemalloc.start()
    try:
        read_file(path)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < MOST_MEMORY


@pytest.mark.parametrize("text", ["\x1b[2J", "a\u202eb", "\x9b", "\x07", "\u2028", "\u200e"])
@pytest.mark.parametrize("where", ["At what", "platform", "sop", "5000", "ft", "invented", "recall", "ask"])
def test_no_sign_of_control_comes_through_in_any_place(text, where, tmp_path):
    path = tmp_path / "sample.toml"
    path.write_text((HEAD + RECALL).replace(where, text), encoding="utf-8")
    file = read_file(path)
    assert file.faults
    assert all(not refused_characters(str(fault)) for fault in file.faults)


def test_a_deck_opens_no_file_and_no_line_and_starts_nothing(tmp_path, monkeypatch):
    """Everything that could reach outside is replaced by an alarm while hostile decks are read and tried."""
    path = tmp_path / "sample.toml"
    opened = []
    real_open = os.open

    def alarm(*args, **kwargs):
        raise AssertionError(f"a deck reached outside: {args}")

    def watched(file, *args, **kwargs):
        opened.append(str(file))
        return real_open(file, *args, **kwargs)

    for owner, name in [
        (builtins, "eval"),
        (builtins, "exec"),
        (os, "system"),
        (subprocess, "Popen"),
        (socket, "socket"),
    ]:
        monkeypatch.setattr(owner, name, alarm)
    monkeypatch.setattr(os, "open", watched)
    for text in (ALL, *(text for text in CORPUS.values() if "__" in text or "../" in text)):
        path.write_text(text, encoding="utf-8")
        check([path], draws=50)
    assert not any("passwd" in name for name in opened)


def test_a_formula_is_never_compiled(monkeypatch, tmp_path):
    """The tree of a formula is only walked; Python's compiler never sees it."""
    flags = []
    real = builtins.compile

    def watched(source, filename, mode, flag=0, *args, **kwargs):
        flags.append(flag)
        return real(source, filename, mode, flag, *args, **kwargs)

    monkeypatch.setattr(builtins, "compile", watched)
    path = tmp_path / "sample.toml"
    path.write_text(HEAD + FORMULA, encoding="utf-8")
    assert read_file(path).faults == []
    assert flags and all(flag & ast.PyCF_ONLY_AST for flag in flags)


PIECES = st.sampled_from([*ALL.split("\n"), *(line for line in ALL.split("\n") if line.startswith("["))])
MUTATIONS = st.lists(
    st.tuples(st.integers(0, len(ALL) - 1), st.integers(0, 12), st.one_of(PIECES, st.text(max_size=8))), max_size=6
)


@given(MUTATIONS)
@settings(max_examples=250, deadline=None)
def test_a_damaged_deck_is_read_to_its_end(tmp_path_factory, mutations):
    text = ALL
    for at, length, piece in mutations:
        text = text[:at] + piece + text[at + length :]
    path = tmp_path_factory.mktemp("decks") / "sample.toml"
    path.write_bytes(text.encode("utf-8", "replace"))
    file = read_file(path)
    lines = text.count("\n") + 1
    assert all(0 <= fault.line <= lines for fault in file.faults)
    assert all(fault.message for fault in file.faults)
    bad = {fault.drill for fault in file.faults}
    assert all(drill.id and drill.id not in bad for drill in file.drills)


@given(st.binary(max_size=300))
@settings(max_examples=200, deadline=None)
def test_any_bytes_are_read_to_their_end(tmp_path_factory, data):
    path = tmp_path_factory.mktemp("decks") / "sample.toml"
    path.write_bytes(data)
    assert read_file(path).faults
    assert read_data(path).faults
