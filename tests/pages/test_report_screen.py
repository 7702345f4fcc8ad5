"""The report on a screen: all of it, without markup, and within the screen."""

import pytest

from trainer.pages import report_outline, report_screen
from trainer.terminal.look import Look


@pytest.mark.parametrize("width", [40, 80, 200])
def test_no_line_is_wider_than_the_screen(record, width):
    found = report_screen.lines(record, Look(width=width))
    assert [line for line in found if len(line) > max(width, report_screen.LEAST_FIXED + 4)] == []


def test_all_that_markdown_tells_is_told(record):
    text = " ".join(" ".join(report_screen.lines(record, Look(width=80))).split())
    for kind, found in report_outline.outline(record):
        for words in found if kind in (report_outline.ITEMS, report_outline.NUMBERED, report_outline.WORDS) else ():
            assert " ".join(words.split()) in text
    assert not any(sign in text for sign in ("**", "##", "~~~", "| ", "trainer-seal"))


def test_a_table_stands_under_its_heads_where_there_is_room(record):
    wide, narrow = (report_screen.lines(record, Look(width=width)) for width in (200, 60))
    (heads,) = [line for line in wide if line.startswith("week from")]
    week = record["weeks"][0]["from"]
    row = next(line for line in wide if line.startswith(week))
    assert heads.index("days") == row.index(str(record["weeks"][0]["days"]), len(week))
    area = record["areas"][0]["area"]
    assert any(line.startswith(f"{area}: ") for line in narrow) and any("required: right" in line for line in narrow)
