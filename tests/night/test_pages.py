"""Cards and sheets as HTML: self-contained, escaped, with the caution and text alternatives."""

import base64
import hashlib
import re
from dataclasses import replace

import pytest

from tests.night.test_rehearsal import fly
from trainer.pages import card as card_page
from trainer.pages import sheet as sheet_page
from trainer.practice.night import card
from trainer.practice.night.evening import tonight
from trainer.terminal.screens import CAUTION

HOSTILE = "<script>alert(1)</script>\"'&{{7*7}}"


@pytest.fixture
def pages(library, ready, begin, clock):
    """Return {name: HTML} of a card, an answer sheet and a result sheet in which every text is hostile."""
    hostile = replace(library, notes={**library.notes, "ship.title": HOSTILE})
    values, night = tonight.night_of({"fuel": 11_500.0}, hostile)
    made = card.make(night, flight=values["flight"], labels=(HOSTILE,))
    flown = replace(ready("7", 3, first="marshal", last="marshal"), labels=(HOSTILE,))
    sheet, _ = fly(begin(flown), flown, clock, [HOSTILE, "s", "233", "q"])
    return {
        "a5": card_page.card(made, night, paper="a5", caution=CAUTION),
        "half-letter": card_page.card(made, night, paper="half-letter", caution=CAUTION),
        "answers": sheet_page.answer_sheet(flown, caution=CAUTION),
        "result": sheet_page.result_sheet(flown, sheet, caution=CAUTION),
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
        assert re.search(r"angels 8 at 23 nm pushes :\d\d – you", pages[name])


def test_the_paper_is_as_asked(pages):
    assert "size: 148mm 210mm" in pages["a5"] and "size: 5.5in 8.5in" in pages["half-letter"]


def test_the_answer_sheet_holds_every_question_and_answer(ready):
    flown = ready("7", 3)
    html = sheet_page.answer_sheet(flown, caution=CAUTION)
    assert html.count('class="answer"') == flown.questions


def test_the_result_sheet_tells_what_was_answered_and_what_was_not_flown(pages):
    html = pages["result"]
    assert "not known" in html and "not flown" in html and "NOT PASSED" in html
