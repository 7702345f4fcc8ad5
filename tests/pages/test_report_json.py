"""The exchange file: documented, versioned, and read from anybody without harm."""

import json

import pytest

from tests.pages.hostile import HOSTILE, filled
from trainer.pages import report_json, seal
from trainer.pages.tidy import tidy

SCHEMA = json.loads(report_json.SCHEMA.read_text(encoding="utf-8"))


LATER = {"minutes", "rehearsal", "flights", "own"}


def sealed(record):
    return seal.close(report_json.write(record))


@pytest.fixture
def put(tmp_path):
    """Return a function that writes a text to a file and returns its path."""

    def write(text):
        path = tmp_path / "report.json"
        path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
        return path

    return write


def refusal(path):
    with pytest.raises(report_json.NotAReport) as caught:
        report_json.read(path)
    return str(caught.value)


def test_what_is_written_can_be_read(put, record, files):
    assert report_json.read(put(files["json"])) == record | {"seal": report_json.read(put(files["json"]))["seal"]}


def test_every_field_is_documented(record):
    def undocumented(value, schema, place):
        options = schema.get("anyOf", [schema])
        if isinstance(value, dict):
            known = next(one["properties"] for one in options if "properties" in one)
            for key, entry in value.items():
                yield from [f"{place}.{key}"] if key not in known else undocumented(entry, known[key], f"{place}.{key}")
        elif isinstance(value, list):
            items = next(one["items"] for one in options if "items" in one)
            for entry in value:
                yield from undocumented(entry, items, place)

    assert list(undocumented(record, SCHEMA, "")) == []


def test_every_documented_field_is_written(record):
    """What came after the first release of version 1 is not required, so that older reports can be read."""
    assert set(SCHEMA["properties"]) == {*record, "seal"}
    assert set(SCHEMA["properties"]) - set(SCHEMA["required"]) == LATER


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_come_back_as_harmless_texts(put, record, text):
    found = report_json.read(put(sealed(tidy(filled(record, text)))))
    assert found["pilot"]["name"].isprintable() and len(found["pilot"]["name"]) <= 81


def test_a_report_on_nobody_is_a_report(put, empty_record):
    assert report_json.read(put(sealed(empty_record)))["period"]["answers"] == 0


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "damaged"),
        ("{", "damaged"),
        ("[]", "is no report"),
        ('{"format": "other"}', "is no report"),
        ('{"format": "trainer report", "version": 2}', "has version 2; this trainer reads version 1"),
        ('{"format": "trainer report", "version": true}', "has version True"),
        ('{"format": "trainer report", "version": 1}', "without a seal"),
        ('{"format": "trainer report", "format": "x"}', "stands twice"),
        ('{"format": NaN}', "no number of JSON"),
        ("[" * 100_000, "nested too deeply"),
        ('{"a": ' + "9" * 10_000 + "}", "damaged"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"\x00" * 6_000_000, "larger than"),
    ],
)
def test_what_is_no_report_is_refused_in_words(put, text, why):
    assert why in refusal(put(text))


def test_a_file_that_is_not_there_is_refused_in_words(tmp_path):
    assert "can't be read" in refusal(tmp_path / "none.json")
    assert "can't be read" in refusal(tmp_path)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda record: record.pop("areas"),
        lambda record: record["areas"][0].update(verdict="splendid"),
        lambda record: record["areas"][0].update(drills=-1),
        lambda record: record["areas"][0]["forecast"].update(share=1e9),
        lambda record: record.update(weakest=[record["weakest"][0]] * 11),
        lambda record: record["pilot"].update(id="../../etc"),
        lambda record: record["made"].update(day="yesterday"),
        lambda record: record["pilot"].update(name="x" * 1_000),
        lambda record: record["chain"].update(reviews=10**30),
    ],
)
def test_a_sealed_file_that_breaks_the_schema_is_refused(put, record, spoil):
    spoil(record)
    assert "not a whole report" in refusal(put(sealed(record)))


def test_a_field_of_a_later_trainer_is_passed_over(put, record):
    record["weather"] = {"wind": "calm"}
    found = report_json.read(put(sealed(record)))
    assert "weather" not in found and found["pilot"] == record["pilot"]


def test_a_changed_number_is_refused(put, files):
    assert "changed after it was written" in refusal(put(files["json"].replace('"asked": 1', '"asked": 2', 1)))
