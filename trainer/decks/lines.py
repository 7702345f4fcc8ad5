"""Where things stand in a TOML text: a line number for every key, and keys that stand twice.

``tomllib`` tells lines of syntax errors only, and a repeated key it may place at the end of the document.
This map is made when there is something to report, and works on texts that ``tomllib`` refuses as well.
"""

import re
from dataclasses import dataclass, field

from trainer.frozen import frozen
from trainer.patterns import Late

# Possessive repeats, and branches that begin differently: nothing is tried twice, whatever a stranger wrote.  No
# branch of a possessive one looks ahead, for up to Python 3.11.4 it then takes too much.
# A string that is never closed reaches to the end of the text or of its line: else each of its signs is tried anew.
STRING = (
    r'"""(?:[^\\]|\\.)*?(?:""""{0,2}|\\?\Z)'
    r"|'''[\s\S]*?(?:''''{0,2}|\Z)"
    r'|"(?:[^"\\\n]|\\[^\n])*+"?+'
    r"|'[^'\n]*+'?+"
)
TOKEN = Late(
    rf"(?P<newline>\n)|(?P<space>[ \t\r]++)|(?P<comment>\#[^\n]*+)|(?P<string>{STRING})"
    r"|(?P<mark>[\[\]{},=.])|(?P<bare>[^\s\[\]{},=.\#\"']++)|(?P<other>.)",
    re.DOTALL,
)
END = ("end", "", 0)


@frozen
class Repeat:
    """A key or table that stands twice: line of the ``first``, and ``line`` to ``last`` of the second."""

    place: tuple
    first: int
    line: int
    last: int


@dataclass(kw_only=True)
class LineMap:
    """``lines`` maps places (tuples of keys and indices) to line numbers from 1."""

    lines: dict = field(default_factory=dict)
    repeats: list = field(default_factory=list)

    def line(self, place):
        """Return the line of ``place``, or of the nearest thing that encloses it; 0 for the whole file."""
        place = tuple(place)
        while place and place not in self.lines:
            place = place[:-1]
        return self.lines.get(place, 0)


def line_map(text):
    """Return the ``LineMap`` of ``text``; never raises on text whose nesting the limits have let pass."""
    walker = _Walker(text)
    walker.walk()
    return walker.map


class _Walker:
    """Walks over the tokens once; ``token`` is the one ahead, ``last`` the one behind."""

    def __init__(self, text):
        self.stream = _tokens(text)
        self.token = self.last = END
        self.map = LineMap()
        self.given = {}
        self.counts = {}
        self.base = ()
        self.step()

    def step(self):
        """Take the token ahead and return it."""
        self.last, self.token = self.token, next(self.stream, END)
        return self.last

    def ahead(self, *marks):
        """Return whether the token ahead is one of ``marks`` (a text in quotes never is)."""
        return self.token[1] in marks

    def ends(self):
        """Return whether the statement ends here."""
        return self.token[0] in ("newline", "end")

    def walk(self):
        while self.token[0] != "end":
            if self.token[0] == "newline":
                self.step()
            elif self.ahead("["):
                self.header()
            else:
                self.pair(self.base)

    def header(self):
        line = self.step()[2]
        many = self.ahead("[")
        if many:
            self.step()
        parts = self.key()
        while not self.ends():
            self.step()
        if not parts:
            return
        if many:
            self.listed(parts, line)
        else:
            self.base = self.resolve(parts, line)
            self.note(self.base, line, line)

    def listed(self, parts, line):
        """Begin one more table of the list ``[[parts]]``."""
        place = (*self.resolve(parts[:-1], line), parts[-1])
        self.map.lines.setdefault(place, line)
        self.counts[place] = self.counts.get(place, 0) + 1
        self.base = (*place, self.counts[place] - 1)
        self.map.lines[self.base] = line

    def resolve(self, parts, line):
        """Return the place of a table: a list of tables on the way stands for its last one."""
        place = ()
        for part in parts:
            place = (*place, part)
            self.map.lines.setdefault(place, line)
            if place in self.counts:
                place = (*place, self.counts[place] - 1)
        return place

    def pair(self, base):
        line = self.token[2]
        parts = self.key()
        is_pair = self.ahead("=")
        self.step()  # over the "=", or over what is no pair, so that the walk always ends
        if not is_pair:
            return
        place = (*base, *parts)
        for length in range(len(base) + 1, len(place)):
            self.map.lines.setdefault(place[:length], line)
        self.value(place)
        kind, text, last = self.last
        self.note(place, line, last + (text.count("\n") if kind == "string" else 0))

    def note(self, place, line, last):
        if place in self.given:
            self.map.repeats.append(Repeat(place=place, first=self.given[place], line=line, last=last))
            return
        self.given[place] = line
        self.map.lines[place] = line

    def key(self):
        parts = []
        while self.token[0] in ("bare", "string"):
            parts.append(_key_text(self.step()))
            if not self.ahead("."):
                break
            self.step()
        return parts

    def value(self, place):
        self.step()
        if self.last[1] == "[":
            self.array(place)
        elif self.last[1] == "{":
            self.inline(place)
        else:
            while not self.ends() and not self.ahead(",", "]", "}"):
                self.step()

    def array(self, place):
        index = 0
        while self.token[0] != "end":
            if self.token[0] == "newline" or self.ahead(","):
                self.step()
            elif self.ahead("]"):
                self.step()
                return
            else:
                self.map.lines[(*place, index)] = self.token[2]
                self.value((*place, index))
                index += 1

    def inline(self, place):
        while self.token[0] != "end":
            if self.token[0] == "newline" or self.ahead(","):
                self.step()
            elif self.ahead("}"):
                self.step()
                return
            else:
                self.pair(place)


def _tokens(text):
    line = 1
    for match in TOKEN.finditer(text):
        kind, token = match.lastgroup, match.group()
        if kind not in ("space", "comment"):
            yield kind, token, line
        line += token.count("\n")


def _key_text(token):
    kind, text, _ = token
    if kind == "bare":
        return text
    if text[0] == "'" or "\\" not in text:
        return text[1:-1]
    import tomllib

    try:
        return tomllib.loads(f"key = {text}")["key"]
    except tomllib.TOMLDecodeError:
        return text[1:-1]
