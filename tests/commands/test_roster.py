"""`trainer roster`: from files alone, and from any files."""

import copy
import json

import pytest

from trainer import cli
from trainer.pages import report_json, seal
from trainer.practice.evidence import squadron


@pytest.fixture(scope="module")
def report(tmp_path_factory):
    """Return the sample pilot's report as it is read from a file."""
    from pathlib import Path

    return json.loads((Path(__file__).resolve().parents[2] / "exports" / "sample.json").read_text(encoding="utf-8"))


@pytest.fixture
def put(tmp_path, report):
    """Return a function that writes a report, changed by keywords, into the folder and returns its file name."""

    def write(file, *, name="Wren", pilot="0" * 16, at="2031-04-11T20:00:00Z", spoil=None, **chain):
        record = copy.deepcopy(report)
        del record["seal"]
        record["pilot"] |= {"name": name, "id": pilot}
        record["made"] |= {"at": at, "day": at[:10]}
        if spoil:
            spoil(record)
        record["chain"] |= chain
        folder = tmp_path / "in"
        folder.mkdir(exist_ok=True)
        (folder / file).write_text(seal.close(report_json.write(record)), encoding="utf-8")
        return folder / file

    return write


@pytest.fixture
def roster(tmp_path, capsys, monkeypatch):
    """Return a function that runs ``trainer roster`` over the folder: (exit code, said, page)."""
    monkeypatch.setenv("TRAINER_NOW", "2031-04-15T20:00:00+00:00")

    def run(*words):
        words = words or (str(tmp_path / "in"),)
        code = cli.main(["roster", *map(str, words), "--out", str(tmp_path / "out")])
        said = capsys.readouterr()
        pages = list((tmp_path / "out").glob("*.html"))
        return code, said.out + said.err, pages[0].read_text(encoding="utf-8") if pages else ""

    return run


def test_pilots_by_areas_with_what_they_share(put, roster):
    put("a.json", name="Wren")
    put("b.json", name="Teal", pilot="1" * 16)
    code, said, page = roster()
    assert code == 0 and "2 pilots" in said
    assert page.count("Teal") >= 2 and page.count('<tr><th scope="row">') >= 4
    assert "(2 of 2 pilots" in page and seal.check(page) == seal.SOUND
    assert "4 days ago" in page


def test_damaged_changed_and_foreign_files_are_named_and_left_out(put, roster, tmp_path):
    put("good.json")
    bad = {
        "cut.json": b'{"format": "trainer rep',
        "foreign.json": b'{"hello": 1}',
        "noise.json": bytes(range(256)),
        "newer.json": b'{"format": "trainer report", "version": 9}',
        "<script>.json": b"[]",
    }
    for name, data in bad.items():
        (tmp_path / "in" / name).write_bytes(data)
    changed = put("changed.json", name="Teal", pilot="1" * 16)
    changed.write_text(changed.read_text(encoding="utf-8").replace("Teal", "Ouzel"), encoding="utf-8")
    code, said, page = roster()
    assert code == 1
    for name in (*bad, "changed.json"):
        assert f"skipped: {name} " in said
    assert "6 files skipped" in page and "1 pilot," in page and "<script>" not in page and "Ouzel" not in page


def test_the_same_report_twice_counts_once_and_is_named(put, roster):
    put("a.json")
    put("copy.json")
    code, said, page = roster()
    assert code == 0 and "1 pilot," in said and "a.json is the same report as copy.json" in page


def test_the_newest_report_of_a_pilot_counts_and_the_chain_is_compared(put, roster):
    old = {"reviews": 100, "head": "a" * 64, "earlier": []}
    put("old.json", at="2031-03-01T20:00:00Z", name="Old call sign", **old)
    put("new.json", earlier=[{"at": "2031-03-01T20:00:00Z", "reviews": 100, "digest": "a" * 64}])
    _, said, page = roster()
    assert "Old call sign" not in page
    assert "old.json is an older report on Wren and does not count; the newer one continues it unchanged" in said


def test_a_rewritten_past_comes_to_light(put, roster):
    put("old.json", at="2031-03-01T20:00:00Z", reviews=100, head="a" * 64, earlier=[])
    put("new.json", earlier=[{"at": "2031-03-01T20:00:00Z", "reviews": 100, "digest": "b" * 64}])
    assert "the two DISAGREE about the answers before it" in roster()[1]


def test_an_older_report_that_the_newer_does_not_mention_or_exceeds_is_told(put, roster):
    put("old.json", at="2031-03-01T20:00:00Z", reviews=100, head="a" * 64, earlier=[])
    put("more.json", at="2031-03-02T20:00:00Z", reviews=10**6, head="a" * 64, earlier=[])
    put("new.json", earlier=[])
    said = roster()[1]
    assert "the newer one does not mention it" in said and "it has more answers than the newer one (1,000,000)" in said


def test_two_pilots_of_one_name_are_two(put, roster):
    put("a.json", name="Wren")
    put("b.json", name="wren", pilot="1" * 16)
    _, said, page = roster()
    assert "2 pilots," in said and "2 different pilots are called" in page


def test_no_file_is_a_question_of_usage(roster):
    assert roster("--out", "x")[0] == 2


def test_a_file_that_is_not_there_is_named(put, roster, tmp_path):
    put("a.json")
    code, said, _ = roster(tmp_path / "in" / "a.json", tmp_path / "gone.json")
    assert code == 1 and "skipped: gone.json can't be read" in said


def test_pilots_are_ordered_by_readiness(report):
    def of(name, verdict):
        record = copy.deepcopy(report) | {"verdict": verdict}
        record["pilot"] = {"name": name, "is_call_sign": True, "id": name[0] * 16}
        return f"{name}.json", record

    reports = [of("a", "short"), of("b", "ready"), of("c", "close")]
    together = squadron.together(reports, squadron.date(2031, 4, 20))
    assert [pilot["name"] for pilot in together["pilots"]] == ["b", "c", "a"]


def test_what_became_of_a_task_and_of_each_area_since_the_report_before(put, roster):
    def worse(record):
        record["own"] = {"airframe": "", "ship": "", "stage": "Task of 2031-04-01", "held": 3, "of": 20}
        for area in record["areas"]:
            if area["forecast"]:
                area["forecast"]["share"] = 0.5

    def better(record):
        worse(record)
        record["own"]["held"] = 11
        for area in record["areas"]:
            if area["forecast"]:
                area["forecast"]["share"] = 0.75

    put("old.json", at="2031-04-04T20:00:00Z", reviews=10, spoil=worse)
    put("new.json", at="2031-04-11T20:00:00Z", spoil=better)
    code, _, page = roster()
    assert code == 0 and "11 of 20 hold, +8 since 2031-04-04" in page and "▲ 25" in page


def test_the_shipped_sample_is_no_pilot(put, roster):
    put("sample.json", name="Wren (invented)")
    put("a.json", name="Teal", pilot="1" * 16)
    code, said, page = roster()
    assert code == 0 and "1 pilot," in said and "sample.json is on an invented pilot" in said
    assert page.count("Wren") == 0


def test_what_several_share_is_handed_back_as_a_stage(put, roster, tmp_path):
    from trainer.decks import stages

    put("a.json", name="Wren")
    put("b.json", name="Teal", pilot="1" * 16)
    code, said, _ = roster(str(tmp_path / "in"), "--stage-out", str(tmp_path / "thursday.toml"))
    assert code == 0 and "thursday.toml" in said
    stage, faults = stages.read(tmp_path / "thursday.toml")
    assert not faults and len(stage.core) > 5 and stage.title.startswith("Task of 2031-04-15")


def test_one_pilots_slips_are_not_called_shared(put, roster):
    put("a.json", name="Wren")
    assert "Slips that at least two" not in roster()[2]
