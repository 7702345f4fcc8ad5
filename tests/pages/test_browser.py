"""Pages as a browser shows and prints them; skipped with a word where no Chromium is."""

import pytest

from tests.pages import browser
from trainer.model import AREAS
from trainer.pages import report_page, roster_page
from trainer.pages.tidy import tidy
from trainer.practice.evidence import squadron

LEAST_PT = 9.0


def full(record):
    """Return the record of a pilot with all ten areas, nine required flows, a long reason for each, and long lines."""
    one = record["areas"][0]
    flows = [{"id": f"f{at}", "title": "Suspend by the officer on the catapult", "right": at % 2 == 0, "answers": 3}
             for at in range(3)]  # fmt: skip
    areas = [
        one | {"area": name, "flows": flows if at < 3 else [], "why": "44% in time, 75% demanded"}
        for at, name in enumerate(AREAS)
    ]
    return record | {"areas": areas, "brief": [f"{'Long words of a fault ' * 4}→ {'and its rule ' * 3}."] * 3}


@pytest.mark.parametrize("paper", browser.PAPERS)
def test_the_record_is_one_page(record, tmp_path, paper):
    assert browser.sheets(report_page.html(full(record)), tmp_path, paper=paper, only=".record") == 1


def test_nothing_is_printed_smaller_than_nine_points(record, tmp_path):
    found = browser.measured(report_page.html(full(record)), tmp_path, width=718, print_styles=True)  # A4 less margins
    assert found["smallest"][0] * browser.PT_PER_PX >= LEAST_PT - 0.05, found


@pytest.mark.parametrize("width", [500, 1280])
def test_nothing_scrolls_sideways(record, tmp_path, width):
    for html in (report_page.html(full(record)), _roster(record)):
        found = browser.measured(html, tmp_path, width=width)
        assert found["wide"] <= found["room"], found


def _roster(record):
    report = tidy(full(record) | {"seal": "s"})
    together = squadron.together([("a.json", report)], squadron.date(2031, 4, 20))
    return roster_page.html(together, [], day="2031-04-20", caution="Caution.")
