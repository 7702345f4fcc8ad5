"""The page: alone in its file, in the order of use, and deaf to what people write into it."""

import base64
import hashlib
import re
from collections import Counter
from html.parser import HTMLParser

import pytest

from tests.pages.hostile import HOSTILE, filled
from trainer.pages import report_page, roster_page
from trainer.pages.tidy import tidy
from trainer.practice.evidence import squadron


class Page(HTMLParser):
    """What a browser would build: elements, their attributes, the style, the text."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.attributes, self.text, self.style = Counter(), [], "", ""
        self._inside = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        self.attributes += [(tag, name, value) for name, value in attrs]
        self._inside = tag

    def handle_data(self, data):
        if self._inside == "style":
            self.style += data
        self.text += data

    def handle_endtag(self, tag):
        self._inside = ""


def test_nothing_is_fetched_and_nothing_runs(files):
    page = Page(files["html"])
    names = {name for _, name, _ in page.attributes}
    assert not names & {"src", "href", "style", "srcset", "action", "data"}
    assert not any(name.startswith("on") for name in names)
    assert not set(page.tags) & {"script", "img", "iframe", "object", "embed", "link", "form", "base"}
    assert "url(" not in page.style and "@import" not in page.style


def test_the_policy_allows_the_one_style_by_its_digest(files):
    page = Page(files["html"])
    policy = next(value for tag, name, value in page.attributes if tag == "meta" and "default-src" in (value or ""))
    digest = base64.b64encode(hashlib.sha256(page.style.encode()).digest()).decode()
    assert policy == f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def test_what_an_instructor_asks_comes_first_then_the_evidence_in_the_order_of_use(files):
    heads = re.findall(r"<h2[^>]*>(.*?)</h2>", files["html"])
    assert [head for head in heads if head != "Right, but slow"] == [
        "Where it stands",
        "What to brief",
        "Rehearsal and flights",
        "Item by item",
        "Remarks",
        "The weakest drills",
        "How it goes, how far off, how far the forecast can be trusted",
        "What this page can prove",
    ]


def test_every_picture_has_a_title_and_a_description_of_its_own(files):
    html = files["html"]
    labelled = re.findall(r'aria-labelledby="([\w-]+-title) ([\w-]+-description)"', html)
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(labelled) == html.count("<svg") > 8
    assert len(ids) == len(set(ids)) and {one for pair in labelled for one in pair} <= set(ids)


def test_a_verdict_is_told_by_sign_and_word_not_by_colour(files, record):
    for area in record["areas"]:
        assert f"{report_page.MARKS[area['verdict']]} {area['verdict']}" in files["html"]


@pytest.mark.parametrize("text", HOSTILE)
def test_what_people_write_adds_no_element_and_no_attribute_to_the_page(record, text):
    plain = Page(report_page.html(tidy(filled(record, "words"))))
    page = Page(report_page.html(tidy(filled(record, text))))
    assert page.tags == plain.tags
    assert [(tag, name) for tag, name, _ in page.attributes] == [(tag, name) for tag, name, _ in plain.attributes]
    assert not re.search(
        "[\x00-\x08\x0b-\x1f\x7f\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]", page.text
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_what_reports_say_adds_no_element_to_the_squadrons_page(record, text):
    def page(words):
        report = tidy(filled(record, words) | {"seal": "s"})
        together = squadron.together([("a.json", report)], squadron.date(2031, 4, 20))
        return Page(roster_page.html(together, [(words, words)], day="2031-04-20", caution=words))

    assert page(text).tags == page("words").tags


def test_ten_thousand_characters_are_cut(record):
    assert len(report_page.html(tidy(filled(record, "x" * 10_000)))) < 300_000


def test_a_pilot_who_has_answered_nothing_gets_a_page(empty_record):
    page = Page(report_page.html(empty_record))
    assert "No answers yet." in page.text and "Not known yet" in page.text
