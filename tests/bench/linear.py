"""Files made to be slow to read, at 30 KB, 300 KB and the limit: processor seconds and memory of each.

Run with ``python -m tests.bench.linear``.  Each is read by a process of its own, as `trainer deck check FILE` or
`trainer roster FILE` would; the goal is two seconds and 300 MB at most, whatever stands in the file.
"""

import os
import sys
import tempfile
from pathlib import Path

from trainer.decks.textfile import LONGEST_LINE, MOST_BYTES

SIZES = (30_000, 300_000, MOST_BYTES - 10)
LONGEST_S, MOST_MB = 2.0, 300


def _lines(piece, size, head=""):
    return head + (piece + "\n") * (size // (len(piece) + 1))


def _long(sign, size):
    return _lines((sign * LONGEST_LINE)[:LONGEST_LINE], size)


SHAPES = {
    "escaped quotes in a long string": lambda size: _lines('\\"""', size, 'a = """\n'),
    "closed and opened long strings": lambda size: _lines('\\\\"""', size, 'a = """\n'),
    "long literal strings": lambda size: _lines("x''", size, "a = '''\n"),
    "lines of plus": lambda size: _long("+", size),
    "lines of colons": lambda size: _long(":", size),
    "lines of dots": lambda size: _long("a.", size),
    "lines of escaped quotes": lambda size: _long('\\"', size),
    "lines of quotes": lambda size: _long('"', size),
    "lines of apostrophes": lambda size: _long("'x", size),
    "lines of dashes": lambda size: _long("-" * 100 + "!", size),
    "long quoted keys": lambda size: _long('"' + "k" * 100, size),
    "brackets": lambda size: _long("[", size),
    "brackets and quotes": lambda size: _long('["', size),
    "tables": lambda size: _lines("[[x]]", size),
    "many tables": lambda size: "".join(f"[t{n}]\n" for n in range(size // 9)),
    "many keys": lambda size: "".join(f"k{n} = 1\n" for n in range(size // 12)),
    "one key again": lambda size: _lines("a = 1", size),
    "many drills": lambda size: "".join(f'[[drill]]\nid = "d{n}"\n' for n in range(size // 24)),
    "drills of one id": lambda size: _lines('[[drill]]\nid = "d"', size, 'title = "x"\n'),
    "a list of numbers": lambda size: "a = [\n" + _lines("1,", size) + "]\n",
    "a list never closed": lambda size: "a = [\n" + _lines("1,", size),
    "comments": lambda size: _long("#", size),
    "white space": lambda size: _long(" ", size),
    "white space and dots": lambda size: _long("a" + " " * 99, size),
}


def cost(text, folder):
    """Return (processor seconds, megabytes) of a process that reads the deck ``text``, over one that reads nothing."""
    path = Path(folder) / "hostile.toml"
    path.write_text(text, encoding="utf-8", newline="\n")
    bare, wanted = _process("pass"), _process(READ.format(path=str(path)))
    return wanted[0] - bare[0], wanted[1]


READ = """
from trainer.decks.textfile import read_text
from trainer.decks import deckfile
from trainer.errors import TrainerError
try:
    deckfile.read({path!r})
except TrainerError:
    pass
"""


def _process(code):
    pid = os.spawnv(os.P_NOWAIT, sys.executable, [sys.executable, "-c", code])
    _, status, used = os.wait4(pid, 0)
    assert status == 0, code
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main():
    """Print the cost of each shape and end with 1 if one is beyond the goal."""
    worst = 0.0
    with tempfile.TemporaryDirectory() as folder:
        for name, shape in SHAPES.items():
            told = []
            for size in SIZES:
                seconds, megabytes = cost(shape(size), folder)
                worst = max(worst, seconds / LONGEST_S, megabytes / MOST_MB)
                told.append(f"{seconds:6.2f} s {megabytes:4.0f} MB")
            print(f"{name:34} {' · '.join(told)}", flush=True)
    print(f"worst: {worst:.2f} of what is allowed")
    sys.exit(worst > 1)


if __name__ == "__main__":
    main()
