"""Cards and sheets as HTML: self-contained, escaped, with the caution and text alternatives."""

import base64
import datetime
import hashlib
import re
from dataclasses import replace

import pytest

from tests.night.test_rehearsal import fly
from trainer.pages import card as card_page
from trainer.pages import seal
from trainer.pages import sheet as sheet_page
from trainer.practice.night import card
from trainer.practice.night.evening import tonight
from trainer.practice.night.heading import Heading
from trainer.terminal.screens import CAUTION

HOSTILE = "<script>alert(1)</script>\"'&{{7*7}}"
HEAD = Heading(pilot="Wren", issued="2026-12-04 19:00", event="board", aircraft="a jet", ship=HOSTILE)


@pytest.fixture
def pages(library, ready, begin, clock):
    """Return {name: HTML} of a card, an answer sheet and a result sheet in which every text is hostile."""
    hostile = replace(library, notes={**library.notes, "ship.title": HOSTILE})
    filled = tonight.filled({"fuel": 9_500.0}, hostile, datetime.date(2026, 12, 4))
    made = card.make(filled, hostile, labels=(HOSTILE,), buttons=(HOSTILE,), notes=("tanker overhead",))
    night = tonight.night_of(filled.values, hostile)
    flown = replace(ready("7", 3, first="marshal", last="marshal"), labels=(HOSTILE,))
    sheet, _ = fly(begin(flown), flown, clock, [HOSTILE, "s", "233", "q"])
    return {
        "a5": card_page.card(made, night, heading=HEAD, paper="a5", caution=CAUTION),
        "half-letter": card_page.card(made, night, heading=HEAD, paper="half-letter", caution=CAUTION),
        "answers": sheet_page.answer_sheet(flown, heading=HEAD, caution=CAUTION),
        "result": sheet_page.result_sheet(flown, sheet, heading=HEAD, caution=CAUTION),
    }


def test_the_caution_is_on_each(pages):
    for html in pages.values():
        assert "Practice aid for simulation; not for real flight." in html


def test_nothing_that_a_file_says_is_markup(pages):
    for html in pages.values():
        assert "<script" not in html
        assert "&lt;script&gt;" in html
        assert "{{7*7}}" in html and "49" not in re.findall(r"alert\(1\).{0,60}", html)[0]


def test_the_policy_allows_the_one_style_block_and_nothing_else(pages):
    for html in pages.values():
        policy = re.search(r'Content-Security-Policy" content="([^"]+)"', html)[1].replace("&#39;", "'")
        (css,) = re.findall(r"<style>(.*?)</style>", html, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(css.encode()).digest()).decode()
        assert f"style-src 'sha256-{digest}'" in policy and policy.startswith("default-src 'none'")
        assert " style=" not in html and " on" not in re.sub(r">[^<]*<", "><", html).replace(" on-", "")
        assert re.findall(r'(?:src|href)="', html) == []


def test_the_pictures_have_text_alternatives(pages):
    for name in ("a5", "half-letter"):
        assert pages[name].count('role="img"') == 2
        assert "over the deck" in re.search(r"<desc id=\"rose-[^>]*>(.*?)</desc>", pages[name])[1]
        assert re.search(r"angels 8 at 23 nm pushes :\d\d\*? – you", pages[name])


def test_the_paper_is_as_asked(pages):
    assert "size: 148mm 210mm" in pages["a5"] and "size: 5.5in 8.5in" in pages["half-letter"]


def test_the_answer_sheet_holds_every_question_and_answer(ready):
    flown = ready("7", 3)
    html = sheet_page.answer_sheet(flown, heading=HEAD, caution=CAUTION)
    assert html.count('class="answer"') == flown.questions


def test_the_result_sheet_tells_what_was_answered_and_what_was_not_flown(pages):
    html = pages["result"]
    assert "not known" in html and "not flown" in html and "NOT PASSED" in html


def test_each_tells_whose_it_is_and_is_sealed(pages):
    for html in pages.values():
        for text in ("Wren", "2026-12-04 19:00", "board", "a jet"):
            assert text in html
        assert seal.check(html) == seal.SOUND
        assert seal.check(html.replace("Wren", "Kite")) == seal.CHANGED


def test_the_misses_stand_first_and_are_told_without_colour(pages):
    html = pages["result"]
    assert html.index("<h2>Missed</h2>") < html.index("<h2>marshal</h2>")
    assert html.count('<span class="sign">✗</span>') == 4, "two misses, there and in their place"
    answers = pages["answers"]
    assert "Missed" not in answers and "✗" not in answers


def test_sheets_and_card_have_landmarks_and_their_columns_heads(pages):
    for name, html in pages.items():
        assert [html.count(f"<{mark}") for mark in ("main", "footer")] == [1, 1] and "<header>" in html
        for table in re.findall(r"<table.*?</table>", html, re.DOTALL):
            assert table.count('<th scope="col"') >= 3, name


def test_ids_of_drills_are_on_no_page(pages, library):
    for html in pages.values():
        assert not [drill_id for drill_id in library.outlines if "-" in drill_id and f"{drill_id}<" in html]
        assert "marshal-radial-easy" not in html


def test_the_card_marks_what_is_assumed_and_has_room_for_ones_own(pages):
    for name in ("a5", "half-letter"):
        html = pages[name]
        assert "<i>divert assumed</i>" in html and "rests on what nobody gave" in html
        assert "tanker overhead" in html and html.count('class="blank"') == 3 and "MHz" not in html
