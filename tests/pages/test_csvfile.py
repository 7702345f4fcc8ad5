"""CSV: what RFC 4180 asks for, and nothing that a spreadsheet would run."""

import csv
import io

import pytest

from tests.pages.hostile import HOSTILE, filled
from trainer.pages import csvfile
from trainer.pages.text import cell
from trainer.pages.tidy import tidy


def read(text):
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_every_review_is_a_row_with_the_digest_that_chains_it(files, record):
    rows = read(files["reviews.csv"])
    assert len(rows) == record["period"]["answers"]
    assert rows[-1]["digest"] == record["chain"]["head"]
    assert [row["id"] for row in rows] == [str(number) for number in range(1, len(rows) + 1)]
    assert tuple(rows[0]) == (*csvfile.REVIEW_COLUMNS, "seal")


def test_areas_agree_with_the_record(files, record):
    rows = read(files["areas.csv"])
    assert [(row["area"], row["verdict"]) for row in rows] == [(a["area"], a["verdict"]) for a in record["areas"]]
    shares = [float(row["forecast_share"]) if row["forecast_share"] else None for row in rows]
    assert shares == [(area["forecast"] or {}).get("share") for area in record["areas"]] and any(shares)


def test_lines_end_as_the_standard_says_and_every_row_is_as_long(files):
    # RFC 4180, section 2: lines end in CRLF (1), every line has the same number of fields (4).
    for name in ("areas.csv", "reviews.csv"):
        text = files[name]
        assert text.endswith("\r\n") and text.count("\n") == text.count("\r\n")
        assert len({len(row) for row in csv.reader(io.StringIO(text, newline=""))}) == 1


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_begins_as_a_formula(record, text):
    hostile = tidy(filled(record, text))
    review = ("1", *(text for _ in csvfile.REVIEW_COLUMNS[1:-1]), b"\x01\x02")
    for written in (csvfile.areas(hostile), csvfile.reviews([review])):
        for row in csv.reader(io.StringIO(written, newline="")):
            assert not any(one.lstrip().startswith(("=", "+", "-", "@", "\t", "\r")) for one in row)
            assert all(len(one) < 2_100 and one.isprintable() for one in row)


def test_negative_numbers_stay_numbers():
    assert cell(-3.5) == -3.5 and cell("-3.5") == "'-3.5" and cell(None) == ""


def test_what_was_typed_and_what_it_follows_from_can_be_left_out():
    """The truth and the deviation were left in: 15 and 62 say that 77 was typed."""
    review = [f"told-{name}" for name in csvfile.REVIEW_COLUMNS[:-1]] + [b"\x01"]
    (whole,), (bare,) = read(csvfile.reviews([review])), read(csvfile.reviews([review], answers=False))
    assert whole["typed"] == "told-typed"
    for name in ("typed", "truth", "deviation", "slip", "question", "digest"):
        assert bare[name] == "" != whole[name]
    assert bare["score"] == "told-score" and bare["asked_back"] == "1" and whole["asked_back"] == "told-asked_back"


def test_without_a_row_the_table_is_empty():
    assert read(csvfile.reviews([])) == []
