"""A function fits on a screen, and a file holds one subject: none over 40 lines, none over 400.

How involved a function may be (15 ways through it) is ``ruff``'s to say: C901 in pyproject.toml.
"""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LONGEST_FUNCTION, LONGEST_FILE = 40, 400
FILES = [path for folder in ("trainer", "tests") for path in sorted((ROOT / folder).rglob("*.py"))]


def too_long(source):
    """Return [(name, lines)] of what is too long in ``source``: its functions, "" for the whole of it."""
    found = [
        (node.name, node.end_lineno - node.lineno + 1)
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]
    whole = ("", len(source.splitlines()))
    return [one for one in found if one[1] > LONGEST_FUNCTION] + [whole] * (whole[1] > LONGEST_FILE)


def test_no_function_and_no_file_is_too_long():
    found = {path.relative_to(ROOT).as_posix(): too_long(path.read_text(encoding="utf-8")) for path in FILES}
    assert {name: several for name, several in found.items() if several} == {}


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("def long():\n" + "    pass\n" * 40, [("long", 41)]),
        ("class One:\n    def short(self):\n" + "        pass\n" * 39, []),
        ("pass\n" * 401, [("", 401)]),
    ],
)
def test_what_is_too_long_is_found(source, found):
    assert too_long(source) == found
