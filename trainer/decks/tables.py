"""From TOML text to tables, with every fault of syntax and not only the first.

A statement that can't be read is blanked and the rest read again, so that one missing quote does not hide
nine other faults.
"""

import json
from dataclasses import dataclass, field

from trainer.decks.words import printable, quoted
from trainer.patterns import Late

MOST_SYNTAX_FAULTS = 20
MOST_ROUNDS = 30
LARGEST_REPAIRED = 200_000  # characters: beyond it the first fault of syntax is the only one told
# What small files say, as JSON by the hash of their bytes, as far as the library index knew it.
KNOWN: dict[str, str] = {}
_STATEMENT = Late(r"""[ \t]*(?:\[|[\w\-."' \t]+=)""")
_HEADER = Late(r"[ \t]*\[")
_DRILL = Late(r"[ \t]*\[\[[ \t]*[\w-]+[ \t]*\]\]|[ \t]*\[(?:deck|source|values|table)\b")
_VALUE = Late(r"[^=#\"']*=[ \t]*(.*?)[ \t]*(?:#[^\"']*)?")
_THOUSANDS = Late(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_NOUGHTS_BEHIND = Late(r"(?<![\d.])\d{1,3},0\d\d(?!\d)")
_NOUGHTS = Late(r"0+[1-9]\d*(?:\.\d+)?")
_WITH_UNIT = Late(r"([+-]?\d+(?:\.\d+)?) ?(?:°|[a-zA-Z][a-zA-Z/]{0,9})")
_BARE = Late(r"[A-Za-z][\w -]{0,59}")
_AT = Late(r" \(at (?:line (\d+), column (\d+)|end of document)\)")


@dataclass(kw_only=True)
class Parsed:
    """The tables of a file; ``syntax`` lists (line, message), ``blanked`` the lines that were left out."""

    data: dict = field(default_factory=dict)
    syntax: list = field(default_factory=list)
    blanked: set = field(default_factory=set)


def parse(text, hash=""):
    """Return the ``Parsed`` tables of ``text``, which must have passed ``textfile.broken_limit``.

    ``hash`` is that of the file's bytes: what is known of it need not be parsed again.
    """
    if hash in KNOWN:
        return Parsed(data=json.loads(KNOWN[hash]))
    import tomllib

    parsed = Parsed()
    lines = text.split("\n")
    for _ in range(MOST_ROUNDS):
        try:
            parsed.data = tomllib.loads("\n".join(lines))
            return parsed
        except (tomllib.TOMLDecodeError, ValueError, RecursionError) as error:
            again = _leave_out(lines, parsed, error)
        if not again or len(text) > LARGEST_REPAIRED or len(parsed.syntax) >= MOST_SYNTAX_FAULTS:
            break
    return parsed


def _leave_out(lines, parsed, error):
    """Note ``error``, blank what it is about; False when nothing more can be read."""
    from trainer.decks.lines import line_map

    repeats = line_map("\n".join(lines)).repeats if "annot" in str(error) else ()
    for repeat in repeats:
        name = ".".join(str(part) for part in repeat.place if isinstance(part, str))
        message = f"{quoted(name)} stands twice; the first is in line {repeat.first}"
        parsed.syntax.append((repeat.line, message))
        header = _HEADER.match(lines[repeat.line - 1])
        last = _end(lines, repeat.line, _HEADER) if header else repeat.last
        _blank(lines, parsed, repeat.line, last)
    if repeats:
        return True
    line, message = _told(error, lines)
    if line and line - 1 not in parsed.blanked:
        parsed.syntax.append((line, message))
    elif not line:
        parsed.syntax.append((len(lines), message))
        return False
    first = _start(lines, line)
    ends = _DRILL if _HEADER.match(lines[first - 1]) else _STATEMENT
    _blank(lines, parsed, first, _end(lines, line, ends))
    return True


def _told(error, lines):
    text = str(error)
    place = _AT.search(text)
    message = printable(_AT.sub("", text)[:200])
    if isinstance(error, RecursionError) or not place:
        return 0, f"is not TOML: {message}"
    if not place.group(1):
        return 0, f"is not TOML: {message}; something is not closed before the end of the file"
    line, column = int(place.group(1)), int(place.group(2))
    return line, f"is not TOML, column {column}: {_in_plain_words(lines[line - 1]) or message}"


def _in_plain_words(line):
    """Return what to write instead of a value that people write so and TOML does not know, "" for any other."""
    found = _VALUE.fullmatch(line)
    value = found[1] if found else ""
    thousands = _THOUSANDS.fullmatch(value) or (value[:1] == "[" and _NOUGHTS_BEHIND.search(value))
    if thousands:
        return f"a number has no comma; write {thousands[0].replace(',', '')}"
    if _NOUGHTS.fullmatch(value):
        return f"a number begins with no nought; write {value.lstrip('0')}"
    if _WITH_UNIT.fullmatch(value):
        return f"a number has no unit behind it; write {_WITH_UNIT.fullmatch(value)[1]}"
    if value[:1] in ('"', "'") and value.count(value[0]) % 2:
        return f"a text is not closed: {value[0]} is missing at its end"
    return f'a text stands in quotes; write "{value}"' if _BARE.fullmatch(value) else ""


def _start(lines, line):
    while line > 1 and not _STATEMENT.match(lines[line - 1]):
        line -= 1
    return line


def _end(lines, line, ends):
    """Return the last line before the next that ``ends`` matches."""
    while line < len(lines) and not ends.match(lines[line]):
        line += 1
    return line


def _blank(lines, parsed, first, last):
    for number in range(first, max(first, last) + 1):
        if lines[number - 1].strip():
            parsed.blanked.add(number)
        lines[number - 1] = ""
