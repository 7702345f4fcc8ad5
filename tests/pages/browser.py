"""A page in a headless browser, where there is one: how it measures, and on how many sheets it prints."""

import json
import re
import shutil
import subprocess

import pytest

NAMES = ("chromium", "chromium-browser")
FLAGS = ("--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run", "--disable-extensions")
PAPERS = {"A4": "210mm 297mm", "Letter": "8.5in 11in"}
PT_PER_PX = 0.75
MEASURE = """
<script>
const sizes = [];
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walk.nextNode(); node; node = walk.nextNode()) {
  const box = node.parentElement.getBoundingClientRect(), style = getComputedStyle(node.parentElement);
  if (!node.data.trim() || box.width < 2 || style.display === 'none') continue;
  const svg = node.parentElement.closest('svg');
  const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
  sizes.push([parseFloat(style.fontSize) * scale, node.data.trim().slice(0, 40)]);
}
sizes.sort((one, other) => one[0] - other[0]);
const out = {smallest: sizes[0], wide: document.documentElement.scrollWidth, room: window.innerWidth};
document.body.innerHTML = '<pre>MEASURED' + JSON.stringify(out) + 'MEASURED</pre>';
</script></body>"""


def chromium():
    """Return the path of the browser; the test is skipped where there is none."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    return found or pytest.skip("no Chromium here: pages are not looked at")


def measured(html, folder, *, width, print_styles=False):
    """Return {"smallest": [px, text], "wide": px, "room": px} of the page in a window of ``width`` px."""
    found = _run(
        _open(html, print_styles).replace("</body>", MEASURE), folder, "--dump-dom", f"--window-size={width},900"
    )
    return json.loads(re.search("MEASURED(.*)MEASURED", found.replace("&amp;", "&"), re.S)[1])


def sheets(html, folder, *, paper, only=""):
    """Return on how many sheets of ``paper`` the page prints; ``only`` (CSS) leaves all else out."""
    style = f"@page {{ size: {PAPERS[paper]}; }}"
    if only:
        style += (
            f" main > :not({only}), footer {{ display: none !important; }} {only} {{ break-after: auto !important; }}"
        )
    target = folder / "page.pdf"
    _run(
        _open(html).replace("</style>", f"{style}</style>", 1),
        folder,
        "--no-pdf-header-footer",
        f"--print-to-pdf={target}",
    )
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", target.read_bytes()))


def _open(html, print_styles=False):
    """Return the page without its policy, so that a test may add a style or a measure."""
    html = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    return html.replace("@media print", "@media all") if print_styles else html


def _run(html, folder, *words):
    path = folder / "page.html"
    path.write_text(html, encoding="utf-8")
    command = (chromium(), *FLAGS, f"--user-data-dir={folder / 'browser'}", *words, path.as_uri())
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", timeout=90, check=True).stdout
