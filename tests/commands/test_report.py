"""`trainer report`: what is written, shown before, left out, and how a rewritten past comes to light."""

import dataclasses
import json
import shutil
import sqlite3

import pytest

from tests import sample
from trainer import cli, paths
from trainer.commands.world import World
from trainer.pages import seal
from trainer.practice.evidence import custody, record
from trainer.store import schema
from trainer.store.store import Store


@pytest.fixture(scope="module")
def week(tmp_path_factory):
    """Return (home, clock) after a week of the sample pilot's practice; tests take a copy of it."""
    home = tmp_path_factory.mktemp("week") / "home"
    return home, sample.practise(home, weeks=1, minutes=4.0)


@pytest.fixture
def evening(week, home, monkeypatch):
    """Put a week of practice into ``home``; return the clock, at which every command then stands."""
    practised, clock = week
    shutil.copytree(practised, home)
    monkeypatch.setenv("TRAINER_NOW", clock.instant.isoformat())
    return clock


@pytest.fixture
def trainer(home, tmp_path, capsys):
    """Return a function that runs ``trainer report WORDS`` and returns (exit code, what was said)."""

    def run(*words, command="report"):
        code = cli.main(
            [command, "--home", str(home), *words, *(() if "--check" in words else ("--out", str(tmp_path / "out")))]
        )
        said = capsys.readouterr()
        return code, said.out + said.err

    return run


def written(tmp_path):
    out = tmp_path / "out"
    return {path.name: path.read_text(encoding="utf-8-sig") for path in out.iterdir()} if out.exists() else {}


def test_a_page_and_the_exchange_file_are_written_and_sound(evening, trainer, tmp_path):
    code, said = trainer("--call-sign", "Wren")
    assert code == 0
    day = f"{evening.instant:%Y-%m-%d}"
    assert set(written(tmp_path)) == {f"report-wren-{day}.html", f"report-wren-{day}.json"}
    assert said.count("wrote ") == 2
    for name in written(tmp_path):
        assert trainer("--check", str(tmp_path / "out" / name)) == (0, f"{tmp_path / 'out' / name}: unchanged\n")


def test_every_format_is_written(evening, trainer, tmp_path):
    trainer("--format", "html,csv,json,md,xapi")
    assert sorted(name.rpartition("-pilot")[2][11:] for name in written(tmp_path)) == [
        "-areas.csv", "-reviews.csv", "-xapi.json", ".html", ".json", ".md",
    ]  # fmt: skip


def test_a_changed_file_is_told_and_ends_in_one(evening, trainer, tmp_path):
    trainer()
    path = next((tmp_path / "out").glob("*.html"))
    path.write_text(path.read_text(encoding="utf-8").replace("short", "ready", 1), encoding="utf-8")
    code, said = trainer("--check", str(path))
    assert code == 1 and seal.CHANGED in said


def test_a_dry_run_shows_everything_and_writes_nothing(evening, trainer, home, tmp_path):
    code, said = trainer("--dry-run", "--call-sign", "Wren", "--format", "html,csv")
    assert code == 0 and not written(tmp_path)
    assert "They call you Wren (call sign)" in said and "every one in the list of reviews" in said
    assert "THE WEAKEST DRILLS" in said and not any(sign in said for sign in ("##", "**", "~~~", "| ---", "\\"))
    assert [line for line in said.splitlines() if len(line) >= 80 and str(tmp_path) not in line] == []
    with Store.open(home, clock=evening, create=False) as store:
        assert store.setting(custody.EXPORTS) is None and store.setting(custody.CALL_SIGN) is None


def test_answers_are_left_out_of_every_format_on_request(evening, trainer, home, tmp_path):
    from trainer.practice.knowledge import after_review

    with Store.open(home, clock=evening) as store:
        for _ in range(3):
            review = next(one for one in store.reviews(newest_first=True) if one.kind == "computed")
            secret = dataclasses.replace(review, typed="my secret 17", value=17.0, score=0.0, verdict="outside limits")
            store.record(secret, after_review)
    trainer("--format", "html,csv,json,md,xapi")
    assert any("my secret 17" in text for text in written(tmp_path).values())
    trainer("--format", "html,csv,json,md,xapi", "--without-answers")
    assert not any("my secret 17" in text for text in written(tmp_path).values())
    assert the_record(tmp_path)["answers_included"] is False


def the_record(tmp_path):
    path = next(path for path in (tmp_path / "out").glob("*.json") if not path.name.endswith("-xapi.json"))
    return json.loads(path.read_text(encoding="utf-8"))


def test_a_call_sign_stands_instead_of_the_name_and_is_remembered(evening, trainer, home, tmp_path):
    trainer("--name", "Rowan Invented")
    assert the_record(tmp_path)["pilot"]["name"] == "Rowan Invented"
    for path in (tmp_path / "out").iterdir():
        path.unlink()
    trainer("--call-sign", "Wren")
    for path in (tmp_path / "out").iterdir():
        path.unlink()
    trainer()
    assert the_record(tmp_path)["pilot"]["name"] == "Wren"
    assert not any("Rowan" in text for text in written(tmp_path).values())


def test_only_answers_since_a_date_count_but_the_chain_is_told_whole(evening, trainer, home, tmp_path):
    day = f"{evening.instant:%Y-%m-%d}"
    trainer("--since", day)
    record = the_record(tmp_path)
    assert record["period"]["from"] == day and record["period"]["since"] is True
    assert 0 < record["chain"]["covered"] < record["chain"]["reviews"]


def test_a_later_report_quotes_the_chain_as_it_stood_at_the_earlier(evening, trainer, home, tmp_path, monkeypatch):
    trainer()
    first = the_record(tmp_path)
    _one_more_answer(home, evening, monkeypatch)
    trainer()
    second = the_record(tmp_path)
    assert second["chain"]["reviews"] == first["chain"]["reviews"] + 1
    assert second["chain"]["earlier"] == [
        {"at": first["made"]["at"], "reviews": first["chain"]["reviews"], "digest": first["chain"]["head"]}
    ]
    assert second["pilot"]["id"] == first["pilot"]["id"] != ""


def _one_more_answer(home, clock, monkeypatch):
    from trainer.practice.session import Session
    from trainer.practice.wish import Wish

    with Store.open(home, clock=clock) as store:
        library = World(home=home, clock=clock, plain=True).library()
        session = Session(
            store=store, clock=clock, wish=Wish(questions=1, seed="1"), load_library=lambda: library, signature=""
        )
        session.next()
        session.give_up(1.0)


def test_a_changed_review_is_told_on_the_report(evening, trainer, home, tmp_path):
    connection = sqlite3.connect(paths.database(home))
    connection.execute("DROP TRIGGER review_stays_update")
    connection.execute(
        "UPDATE review SET score = 1.0 - score, typed = typed || '!' WHERE id = (SELECT max(id) - 3 FROM review)"
    )
    connection.execute(next(sql for sql in schema._FIRST if "review_stays_update" in sql))  # whose text is compared
    connection.commit()
    connection.close()
    trainer("--format", "html,json")
    assert the_record(tmp_path)["chain"]["faults"] == 1
    assert any("1 do not agree, so something was changed" in text for text in written(tmp_path).values())


def test_withdrawn_answers_are_counted_and_do_not_count(evening, trainer, home, tmp_path):
    from trainer.practice.knowledge import after_review

    with Store.open(home, clock=evening) as store:
        store.withdraw(store.last_review()[0], after_review)
    trainer()
    chain = the_record(tmp_path)["chain"]
    assert (chain["withdrawn"], chain["covered"], chain["faults"]) == (1, chain["reviews"] - 1, 0)


def test_the_forecast_is_for_the_date_asked_for(evening, trainer, tmp_path):
    trainer("--on", "in 30 days")
    event = the_record(tmp_path)["event"]
    assert event["set"] and event["name"] == "date asked for" and 29 < event["days"] < 31


def test_a_standard_of_the_instructors_own_decides(evening, trainer, tmp_path):
    strict = tmp_path / "strict.toml"
    strict.write_text('format = 1\nname = "strict"\ntitle = "Strict"\n[all]\nshare = 1.0\n', encoding="utf-8")
    trainer("--standard", str(strict))
    record = the_record(tmp_path)
    assert record["standard"]["title"] == "Strict"
    assert {area["verdict"] for area in record["areas"]} <= {"short", "close", "not known"}  # to err never is too much


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["--format", "docx"], 2, "'docx' is no format"),
        (["--on", "some day"], 2, "can't read 'some day' as a date"),
        (["--standard", "nobody"], 2, "no standard 'nobody'"),
        (["--check", "none.html"], 2, "none.html can't be read"),
    ],
)
def test_what_is_not_understood_is_one_line(home, trainer, words, code, said):
    found, line = trainer(*words)
    assert found == code and said in line and line.count("\n") == 1


def test_a_folder_that_cannot_be_made_is_one_line(evening, trainer, tmp_path):
    (tmp_path / "out").write_text("in the way", encoding="utf-8")
    code, line = trainer()
    assert code == 3 and "can't be written" in line and line.count("\n") == 1


def test_what_is_weak_is_handed_back_as_a_stage_and_taken_in(evening, trainer, home, tmp_path):
    target = tmp_path / "week-12.toml"
    code, said = trainer("--stage-out", str(target))
    assert code == 0 and "week-12.toml" in said
    weak = [drill["id"] for drill in the_record(tmp_path)["weakest"]]
    text = target.read_text(encoding="utf-8")
    assert weak and all(f'"{drill}",' in text for drill in weak)
    assert cli.main(["stage", str(target), "--home", str(home)]) in (0, None)
    trainer()
    own = the_record(tmp_path)["own"]
    assert own["stage"].startswith("Task of ") and own["of"] >= len(weak)
    code, line = trainer("--stage-out", str(tmp_path / "week"))
    assert code == 2 and "ends in .toml" in line


def test_nobody_has_practised_yet(trainer, home, tmp_path):
    code, _ = trainer()
    assert code == 0 and not home.exists()
    assert the_record(tmp_path)["verdict"] == "not known"


def test_a_long_report_counts_its_parts_and_ctrl_c_leaves_nothing_half_written(evening, trainer, tmp_path, monkeypatch):
    steps, stop_at = [], [None]

    def step(progress):
        steps.append(progress._total)
        if len(steps) == stop_at[0]:
            raise KeyboardInterrupt

    monkeypatch.setattr("trainer.terminal.progress.Progress.step", step)
    folder = tmp_path / "out"
    assert trainer("--format", "html,json,csv")[0] == 0
    assert steps == [len(steps)] * len(steps) and len(steps) == record.PARTS + 3
    before = {file.name: file.read_bytes() for file in folder.iterdir()}
    for stopped in (1, record.PARTS, record.PARTS + 2):
        steps.clear()
        stop_at[0] = stopped
        assert trainer("--format", "html,json,csv")[0] == 130
        assert {file.name: file.read_bytes() for file in folder.iterdir()} == before
