"""The study sheet of a stage or a deck: tables, flows, rules and facts, whole."""

import re
from html import unescape

import pytest

from trainer import cli
from trainer.decks import library
from trainer.drills import questions, shown_table
from trainer.pages import study_page
from trainer.practice import study_sheet
from trainer.practice.stage import Syllabus


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.fixture(scope="module")
def sheet(shelf):
    ids = Syllabus(shelf, None, "day-departure").members().core
    return study_sheet.of("Day departure", ids, shelf)


def test_every_table_that_its_drills_draw_on_is_there_whole(shelf, sheet):
    (trim,) = sheet.tables
    table = shelf.tables["airframe.trim_steps"]
    assert trim.title == "trim steps of the airframe"
    assert len(trim.rows) == len(table.values) and trim.rows[0][0].startswith("up to ")


def test_a_long_table_is_thinned_out_on_the_screen_and_never_on_paper(shelf, monkeypatch):
    monkeypatch.setattr(shown_table, "MOST_ROWS", 3)
    assert len(shown_table.shown("airframe.trim_steps", shelf)) == 3
    assert len(shown_table.rows("airframe.trim_steps", shelf)) == len(shelf.tables["airframe.trim_steps"].values)


def test_every_flow_has_all_its_steps_and_every_drill_known_by_heart_its_answer(shelf, sheet):
    ids = Syllabus(shelf, None, "day-departure").members().core
    drills = [shelf.drills[one] for one in ids]
    flows = {one.title: len(one.steps) for one in drills if one.kind == "flow"}
    assert {one.title: len(one.steps) for one in sheet.flows} == flows
    facts = [fact for _, found in sheet.facts for fact in found]
    assert len(facts) == sum(one.kind == "recall" for one in drills)
    assert all(fact.answer for fact in facts)


def test_each_rule_is_worked_once_and_the_answer_is_that_of_its_question(shelf, sheet):
    ids = Syllabus(shelf, None, "day-departure").members().core
    computed = [shelf.drills[one] for one in ids if shelf.drills[one].kind == "computed"]
    assert len(sheet.rules) == len({(one.quantity or one.id, one.result) for one in computed})
    for rule in sheet.rules:
        drill = next(d for d in computed if questions.make(d, shelf, study_sheet.SEED).text == rule.ask)
        assert rule.answer == questions.make(drill, shelf, study_sheet.SEED).truth_text
        assert rule.lines and rule.rule.startswith("rule: ")


def test_what_is_invented_is_said_on_it(sheet, shelf):
    assert shelf.notes["airframe"] in sheet.labels


def test_the_page_holds_all_of_it_and_no_id(shelf, sheet):
    html = study_page.html(sheet, caution="Not for real flight.")
    text = " ".join(unescape(re.sub(r"<style.*?</style>|<[^>]*>", " ", html, flags=re.DOTALL)).split())
    for one in sheet.flows:
        assert all(" ".join(step.split()) in text for step, _ in one.steps), one.title
    assert all(" ".join(one.answer.split()) in text for _, facts in sheet.facts for one in facts)
    assert html.count("<figure>") == sum(bool(one.picture) for one in sheet.rules) > 0
    assert "Not for real flight." in text and "<script" not in html
    assert not [one for one in shelf.outlines if "-" in one and f" {one} " in text]


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("day-departure", "--out", "sheet.html"), 0, "wrote sheet.html"),
        (("LSO", "--out", "sheet.html"), 0, "wrote sheet.html"),
        (("night", "--out", "sheet.html"), 0, "wrote sheet.html"),
        (("galley", "--out", "sheet.html"), 2, "'galley' is neither a deck nor a stage – stages are day-departure"),
        (("lso",), 2, "print needs a stage or a deck, and a file"),
        (("--out", "sheet.html"), 2, "print needs a stage or a deck, and a file"),
    ],
)
def test_the_command_takes_a_stage_or_a_deck(tmp_path, monkeypatch, capsys, words, code, says):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["deck", "print", *words]) == code
    said = capsys.readouterr()
    assert says in said.out + said.err
    assert (tmp_path / "sheet.html").exists() == (code == 0)
