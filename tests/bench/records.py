"""The records of invented pilots, rendered, printed and looked at: numbers here, pages and pictures in a folder.

    python -m tests.bench.records FOLDER [WEEKS]

Six pilots (tests/pages/pilots, and one with 50,000 reviews): sheets of page one and of the whole on A4 and Letter, the
smallest type, what scrolls sideways, what axe-core says (where the environment's AXE names its file), at 375, 768 and
1,280 px, light and dark.  Fails where page one needs a second sheet, type is below 9 pt, or axe finds anything.
"""

import os
import sys
import tempfile
from pathlib import Path

from tests.bench import report as years
from tests.pages import browser, pilots

WIDTHS = (375, 768, 1280)
HEIGHTS = {375: 2600, 768: 1500, 1280: 1000}
LEAST_PT = 9.0
MANY = 50_000
PRINTED_PX = {"A4": 718, "Letter": 740}  # between the margins
WEEKS = 3


def looked_at(name: str, html: str, to: Path) -> list[str]:
    """Print what the page measures, write its pictures into ``to``; return what is wrong, a line each."""
    (to / f"{name}.html").write_text(html, encoding="utf-8")
    ones, wholes, types = {}, {}, {}
    for paper, width in PRINTED_PX.items():
        ones[paper] = browser.sheets(html, to, paper=paper, only=".record")
        wholes[paper] = browser.sheets(html, to, paper=paper)
        smallest, words = browser.measured(html, to, width=width, print_styles=True)["smallest"]
        types[paper] = smallest * browser.PT_PER_PX, words
    wide = [width for width in WIDTHS if _scrolls(browser.measured(html, to, width=width))]
    wrong = [f"page one takes {count} sheets of {paper}" for paper, count in ones.items() if count > 1]
    wrong += [f"{pt:.1f} pt on {paper}: {words}" for paper, (pt, words) in types.items() if pt < LEAST_PT - 0.05]
    wrong += [f"scrolls sideways at {width} px" for width in wide]
    for width in WIDTHS:
        for dark in (False, True):
            target = to / f"{name}-{width}{'-dark' if dark else ''}.png"
            browser.picture(html, target, width=width, height=HEIGHTS[width], dark=dark)
            if os.environ.get(browser.AXE):
                wrong += [f"axe: {one}" for one in browser.violations(html, to, width=width, dark=dark)]
    least = min(pt for pt, _ in types.values())
    print(f"{name:8} sheets A4 {wholes['A4']}, Letter {wholes['Letter']}; smallest {least:.1f} pt;"
          f" {'; '.join(dict.fromkeys(wrong)) or 'nothing wrong'}")  # fmt: skip
    return wrong


def _scrolls(found):
    return found["wide"] > found["room"]


def main(to: Path, weeks: int) -> int:
    """Render all six; return 1 where anything is wrong."""
    to.mkdir(parents=True, exist_ok=True)
    wrong = []
    for name, practise in (pilots.PILOTS | {"years": lambda home, _: years.fill(home, MANY)}).items():
        with tempfile.TemporaryDirectory() as folder:
            home = Path(folder) / "home"
            _, files = pilots.reported(home, practise(home, weeks), name)
        wrong += looked_at(name, files[f"{name}.html"], to)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else WEEKS))
