"""Reading a TOML file that may come from a stranger: limits first, then the text, then the tables.

Limits stand before parsing because ``tomllib`` needs six seconds for one dotted key of 20,000 parts and a
stack frame for every nested list.
"""

import hashlib
import re
from pathlib import Path

from trainer import bounded_file
from trainer.decks.lines import STRING
from trainer.decks.tables import KNOWN
from trainer.decks.words import quoted
from trainer.frozen import frozen
from trainer.patterns import Late

MOST_BYTES = 400_000  # eight times the largest shipped file
LONGEST_LINE = 10_000
LONGEST_KEY = 100
MOST_KEY_PARTS = 6
DEEPEST_NESTING = 6

_PART = rf"(?:[\w\-+:]++|{STRING})"
_SCAN = Late(
    rf"(?P<dotted>{_PART}(?:[ \t]*+\.[ \t]*+{_PART}){{{MOST_KEY_PARTS},}}+)"
    rf"|(?P<string>{STRING})|\#[^\n]*+|(?P<long>[\w\-]{{{LONGEST_KEY + 1},}}+)|[\w\-+:]++"
    r"|(?P<open>[\[{])|(?P<close>[\]}])",
    re.DOTALL,
)
_LONG_KEY = Late(r"[ \t]*+[=.]")
# The scan of every token takes as long as all the rest of reading; these few tell whether it is needed.
_UNBARE = Late(rf"{STRING}|\#[^\n]*+", re.DOTALL)
# A run of signs is looked at from its beginning only: else a long one costs the square of its length.
_SUSPICIOUS = Late(
    rf'(?<![\w\-+:"])(?:[\w\-+:"]++[ \t]*+\.[ \t]*+){{{MOST_KEY_PARTS}}}|(?<![\w\-])[\w\-]{{{LONGEST_KEY + 1}}}'
)
_LONG_QUOTED = Late(rf"""(?:"[^"\n]{{{LONGEST_KEY}}}|'[^'\n]{{{LONGEST_KEY}}})[^\n]*?["'][ \t]*+[=.]""")


@frozen
class Text:
    """A text file as it was read: ``hash`` is the SHA-256 of its bytes, hexadecimal."""

    path: Path
    text: str
    hash: str


def read_text(path):
    """Return (``Text``, "", 0), or (None, what is wrong, line) for a file that breaks a limit."""
    path = Path(path)
    try:
        data = bounded_file.read(path, MOST_BYTES)
    except bounded_file.TooLarge as error:
        return None, f"{error}; split it into several files", 0
    except bounded_file.Unfit as error:
        return None, str(error).removeprefix("can't be read: "), 0
    try:
        text = data.decode("utf-8-sig", errors="strict")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return None, "is not UTF-8 text; save it with the encoding UTF-8", line
    text, hash = text.replace("\r\n", "\n"), hashlib.sha256(data).hexdigest()
    line, broken = (0, "") if hash in KNOWN else broken_limit(text)  # of what is known nothing is parsed again
    if broken:
        return None, broken, line
    return Text(path=path, text=text, hash=hash), "", 0


def broken_limit(text):
    """Return (line, message) for the first limit of size or depth that ``text`` breaks, else (0, "")."""
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            return number, f"the line is longer than {LONGEST_LINE:,} characters"
    return _broken_shape(text) if _suspicious(text) else (0, "")


def _suspicious(text):
    bare = _UNBARE.sub('"', text)
    return _depth(bare) > DEEPEST_NESTING or _SUSPICIOUS.search(bare) or _LONG_QUOTED.search(text)


def _depth(bare):
    """Return how deep brackets are nested in a text without strings and comments."""
    deepest = depth = 0
    for bracket in re.findall(r"[\[\]{}]", bare):
        depth = depth + 1 if bracket in "[{" else max(depth - 1, 0)
        deepest = max(deepest, depth)
    return deepest


def _broken_shape(text):
    depth = 0
    for match in _SCAN.finditer(text):
        kind = match.lastgroup
        message = ""
        if kind == "open":
            depth += 1
            if depth > DEEPEST_NESTING:
                message = f"lists and tables are nested more than {DEEPEST_NESTING} deep"
        elif kind == "close":
            depth = max(depth - 1, 0)
        elif kind == "dotted":
            message = f"a key has more than {MOST_KEY_PARTS} parts: {quoted(match.group())}"
        elif kind == "long" or (kind == "string" and _is_long_key(match)):
            message = f"a key or number is longer than {LONGEST_KEY} characters: {quoted(match.group())}"
        if message:
            return text.count("\n", 0, match.start()) + 1, message
    return 0, ""


def _is_long_key(match):
    return len(match.group()) > LONGEST_KEY + 2 and _LONG_KEY.match(match.string, match.end())
