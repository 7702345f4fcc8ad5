"""A page in a headless browser, where there is one: how it measures, on how many sheets it prints, what axe says.

A page is looked at in a frame of the width wanted, since the window of a headless browser is at least 500 px wide.
"""

import html as markup
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

NAMES = ("chromium", "chromium-browser")
FLAGS = ("--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run", "--disable-extensions")
PAPERS = {"A4": "210mm 297mm", "Letter": "8.5in 11in"}
PT_PER_PX = 0.75
AXE = "AXE"  # environment: the file axe.min.js of the npm package axe-core
WAIT_MS = 20_000
OUTSIDE = """
const tell = out => { parent.document.body.textContent = 'MEASURED' + JSON.stringify(out) + 'MEASURED'; };
"""
MEASURE = """
const sizes = [];
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walk.nextNode(); node; node = walk.nextNode()) {
  const box = node.parentElement.getBoundingClientRect(), style = getComputedStyle(node.parentElement);
  const seen = box.width >= 2 && style.display !== 'none' && node.parentElement.tagName !== 'SCRIPT';
  if (!node.data.trim() || !seen) continue;
  const svg = node.parentElement.closest('svg');
  const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
  sizes.push([parseFloat(style.fontSize) * scale, node.data.trim().slice(0, 40)]);
}
sizes.sort((one, other) => one[0] - other[0]);
const foot = document.querySelector('.record');
tell({smallest: sizes[0], wide: document.documentElement.scrollWidth, room: window.innerWidth,
      record: foot ? foot.getBoundingClientRect().bottom : 0});
"""
ASK_AXE = """
axe.run(document).then(found => tell(found.violations.map(one => one.id + ': ' + one.nodes[0].html.slice(0, 120))));
"""


def chromium() -> str:
    """Return the path of the browser; the test is skipped where there is none."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    return found or pytest.skip("no Chromium here: pages are not looked at")


def axe() -> str:
    """Return the text of axe-core; the test is skipped where its file is not named in the environment."""
    name = os.environ.get(AXE, "")
    return Path(name).read_text(encoding="utf-8") if name else pytest.skip(f"{AXE} names no axe.min.js")


def measured(html: str, folder: Path, *, width: int, print_styles: bool = False) -> dict:
    """Return {"smallest": [px, text], "wide": px, "room": px, "record": px} of the page, ``width`` px wide."""
    return _told(_open(html, print_styles=print_styles), MEASURE, folder, width)


def violations(html: str, folder: Path, *, width: int, dark: bool = False) -> list[str]:
    """Return what axe-core finds against the page, a line each."""
    return _told(_open(html, dark=dark), f"{axe()}\n{ASK_AXE}", folder, width)


def picture(html: str, target: Path, *, width: int, height: int, dark: bool = False) -> None:
    """Write a picture (PNG) of the upper ``height`` px of the page, ``width`` px wide, to ``target``."""
    page = _framed(_open(html, dark=dark), width, height)
    _run(page, target.parent, f"--screenshot={target}", f"--window-size={max(width, 500)},{height}")


def sheets(html: str, folder: Path, *, paper: str, only: str = "") -> int:
    """Return on how many sheets of ``paper`` the page prints; ``only`` (CSS) leaves all else out."""
    style = f"@page {{ size: {PAPERS[paper]}; }}"
    if only:
        style += (
            f" main > :not({only}), footer {{ display: none !important; }} {only} {{ break-after: auto !important; }}"
        )
    target = folder / f"page-{paper}.pdf"
    page = _open(html).replace("</style>", f"{style}</style>", 1)
    _run(page, folder, "--no-pdf-header-footer", f"--print-to-pdf={target}")
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", target.read_bytes()))


def _told(html, script, folder, width):
    """Return what ``script`` tells of the page, run after it in a frame ``width`` px wide."""
    page = html.replace("</body>", f"<script>{OUTSIDE}{script}</script></body>")
    found = _run(_framed(page, width, 900), folder, "--dump-dom", f"--virtual-time-budget={WAIT_MS}")
    return json.loads(markup.unescape(re.search("MEASURED(.*)MEASURED", found, re.S)[1]))


def _framed(html, width, height):
    frame = f'<iframe srcdoc="{markup.escape(html)}" width="{width}" height="{height}" style="border:0"></iframe>'
    return f'<!doctype html><meta charset="utf-8"><body style="margin:0">{frame}</body>'


def _open(html, *, print_styles=False, dark=False):
    """Return the page without its policy, so that a test may add a style or a measure."""
    html = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    html = html.replace("@media (prefers-color-scheme: dark)", "@media all" if dark else "@media not all")
    return html.replace("@media print", "@media all") if print_styles else html


def _run(html, folder, *words):
    path = folder / "page.html"
    path.write_text(html, encoding="utf-8")
    command = (chromium(), *FLAGS, f"--user-data-dir={folder / 'browser'}", *words, path.as_uri())
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", timeout=90, check=True).stdout
