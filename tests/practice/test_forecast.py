"""One forecast: outlook, cram, report, roster and rehearsal say the same of one pilot at one minute."""

import io
import json
from dataclasses import replace
from datetime import timedelta

import pytest

from tests import sample
from tests.practice.conftest import SMALL
from trainer import cli
from trainer.decks import library, standards
from trainer.practice import aim, forecast, knowledge, minutes_needed, outlook_record
from trainer.practice.forecast import Forecast
from trainer.practice.standard_met import VERDICTS, lacking
from trainer.store.store import Store


@pytest.fixture
def shelf():
    return library.load(files=(SMALL,))


@pytest.fixture
def foreseen(store, clock, shelf):
    """Return a function that forecasts ``foreseen(days)`` ahead."""

    def see(days):
        on = clock.local() + timedelta(days=days)
        return Forecast(store, shelf.drills, clock, standard=standards.find(), on=on)

    return see


@pytest.fixture(scope="module")
def pilot(tmp_path_factory):
    """Return (home, clock) of the sample pilot after two weeks of five minutes an evening, some helped, some flown."""
    home = tmp_path_factory.mktemp("pilot") / "home"
    clock = sample.practise(home, weeks=2, minutes=5.0)
    with Store.open(home, clock=clock) as store:
        met = list({review.drill_id: review for review in store.reviews()}.values())[:12]
        for review in met:  # none of these says anything about how honest the forecasts were
            for helped in ({"hint_used": True}, {"asked_back": "did you mean it?"}, {"mode": "debrief"}):
                given = replace(review, at=clock.now(), score=0.5, predicted=0.9, **helped)
                store.record(given, knowledge.after_review, model=knowledge.model())
    return home, clock


def test_five_commands_say_the_same_of_one_pilot_at_one_minute(pilot, tmp_path, monkeypatch, capsys):
    home, clock = pilot
    monkeypatch.setenv("TRAINER_NOW", clock.instant.isoformat())
    monkeypatch.setenv("COLUMNS", "100")

    def trainer(*words):
        assert cli.main([*words, "--home", str(home)]) in (0, None)
        return capsys.readouterr().out

    outlook = json.loads(trainer("outlook", "--json"))
    trainer("report", "--out", str(tmp_path))
    (exchange,) = tmp_path.glob("report-*.json")
    report = json.loads(exchange.read_text(encoding="utf-8"))
    cram, roster = trainer("cram"), trainer("roster", str(exchange), "--out", str(tmp_path))

    told = {one["area"]: (one["verdict"], one["why"]) for one in outlook["areas"]}
    assert {one["area"]: (one["verdict"], one["why"]) for one in report["areas"]} == told
    assert len(told) > 3 and any(one["forecast"] for one in report["areas"])
    for one, other in zip(outlook["areas"], report["areas"], strict=True):
        if other["forecast"]:
            assert one["right"] == pytest.approx(other["forecast"]["share"], abs=1e-6)
            assert one["in_time"] == pytest.approx(other["forecast"]["in_time"], abs=1e-6)
            assert one["chance"] == pytest.approx(other["forecast"]["chance"], abs=1e-6)
        assert one["demanded"] == {"right": other["demanded"]["share"], "in_time": other["demanded"]["in_time"],
                                   "met": other["demanded"]["met"]}  # fmt: skip
    assert outlook["past_forecasts"]["answers"] == (report["calibration"] or outlook["past_forecasts"])["answers"]
    assert outlook["verdict_words"] == report["verdict_words"]
    assert outlook["verdict_words"] in " ".join(cram.split()).replace("Without practice", "")
    assert f"1 {report['verdict']}: " in roster
    assert report["standard"]["name"] == outlook["standard"] == "day-board", "that of the stage one begins with"
    needed = minutes_needed.Needed(
        by_area={one["area"]: one["minutes"] for one in report["areas"]}, planned=report["minutes"]["planned"],
        at_best={one["area"]: (one["minutes"], one["share"], one["in_time"]) for one in report["minutes"]["at_best"]},
    )  # fmt: skip
    assert all(" ".join(line.split()) in " ".join(cram.split()) for line in minutes_needed.told(needed))
    monkeypatch.setattr("sys.stdin", io.StringIO("q\n"))
    trainer("rehearse", "--seed", "3", "--out", str(tmp_path / "sheet.html"))
    judged_by = f"{report['standard']['title']}; "
    assert judged_by in (tmp_path / "sheet.html").read_text(encoding="utf-8")


def test_helped_answers_and_flights_count_the_same_for_outlook_and_report(pilot, tmp_path, monkeypatch, capsys):
    home, clock = pilot
    monkeypatch.setenv("TRAINER_NOW", clock.instant.isoformat())
    assert cli.main(["outlook", "--json", "--home", str(home)]) in (0, None)
    outlook = json.loads(capsys.readouterr().out)["past_forecasts"]
    assert cli.main(["report", "--out", str(tmp_path), "--home", str(home)]) == 0
    report = json.loads(next(tmp_path.glob("report-*.json")).read_text(encoding="utf-8"))
    with Store.open(home, clock=clock, create=False) as store:
        later, seen = 0, set()
        for review in store.reviews():
            plain = review.mode != "debrief" and not review.hint_used and not review.asked_back
            later += plain and review.drill_id in seen
            seen.add(review.drill_id)
    assert outlook["answers"] == report["calibration"]["answers"] == later
    helped = [report["period"][name] for name in ("hinted", "asked_back", "in_flight")]
    assert min(helped) >= 12, "what this is about was there"


def test_a_flow_that_is_not_whole_takes_three_recitals_at_least(pilot):
    """An area was "short" for its flow, and a minute was said to be all that helps."""
    home, clock = pilot
    shelf = library.load()
    with Store.open(home, clock=clock, create=False) as store:
        aimed = aim.of(store, shelf, clock, home)
        found = Forecast(store, aimed.drills, clock, standard=aimed.standard, on=clock.local() + timedelta(days=7))
        needed = minutes_needed.of(found)
    told = {area: minutes or needed.at_best[area][0] for area, minutes in needed.by_area.items() if minutes != 0.0}
    broken = {one.area: [flow.id for flow in one.flows if not flow.whole] for one in found.areas}
    assert any(broken.values())
    for area, flows in broken.items():
        least = 3 * sum(found.beliefs.spec(flow).limit_s for flow in flows) / 60.0
        assert told.get(area, 0.0) >= least


def test_the_rehearsal_is_judged_by_the_same_definition():
    from trainer.practice.night import result

    assert result.standard_met.lacking is lacking


def test_before_anything_was_answered_there_is_nothing_to_foresee_but_a_task(foreseen):
    found = foreseen(9)
    assert found.overall.right is None and found.past.reliability.too_early and not found.ten_minutes
    assert {one.verdict for one in found.areas} == {"not known"}
    json.dumps(outlook_record.of(found), allow_nan=False)
    needed = minutes_needed.of(found)
    assert all(minutes >= 1.0 for minutes in needed.by_area.values() if minutes is not None)


def test_the_forecast_falls_with_time_and_its_interval_widens(foreseen, begin):
    session = begin(questions=8)
    while (question := session.next()) is not None:
        session.submit("5000", 1.0) if question.drill_id == "small-platform" else session.give_up(1.0)
    soon, late = foreseen(1), foreseen(30)
    assert late.overall.right < soon.overall.right and late.beyond > 1
    for one in (*soon.areas, *late.areas):
        assert one.verdict in VERDICTS
        if one.right is not None:
            assert 0 <= one.low <= one.right <= one.high <= 1 and 0 <= one.in_time <= 1
    record = outlook_record.of(late)
    assert {area["area"] for area in record["areas"]} == {"marshal", "approach", "comms"}
    json.dumps(record, allow_nan=False)


def test_both_chances_bear_on_the_verdict_and_the_lower_one_counts():
    from tests.practice.test_standard_met import area

    assert area(chance_right=0.9, chance_in_time=0.2).chance == 0.2
    slow = forecast.Forecast._judged(area(in_time=0.5), 0.05)
    assert slow.chance_right > 0.9 and slow.chance < 0.01


def test_what_does_not_fit_is_dropped_the_dearest_first_and_emergencies_last():
    by_area = {"fuel": 30.0, "comms": 60.0, "marshal": 10.0, "emergency": 40.0, "deck": 0.0, "launch": None}
    needed = minutes_needed.Needed(by_area=by_area, planned=85.0)
    assert needed.total == 140.0 and needed.dropped == ("comms",) and needed.out_of_reach == ("launch",)
    first, second = minutes_needed.told(needed)
    assert first.startswith("To meet the standard takes about 2.3 h; 85 min are planned until then: drop comms (fuel")
    assert second == "No practice until then is sure to be enough for launch."
    little = minutes_needed.Needed(by_area=by_area | {"launch": 0.0}, planned=9.0)
    assert ": no area fits whole, begin with marshal (" in minutes_needed.told(little)[0]
    hopeless = minutes_needed.Needed(by_area=by_area, at_best={"launch": (20.0, 0.6, 0.9)}, planned=85.0)
    assert hopeless.total == 160.0 and hopeless.dropped == ("comms", "launch")
    assert "launch (20 min: 60% right, 90% in time)" in minutes_needed.told(hopeless)[1]
    assert not minutes_needed.Needed(by_area=by_area, planned=200.0).dropped
    assert "enough for the rest (" in minutes_needed.told(minutes_needed.Needed(by_area=by_area, planned=200.0))[0]
    assert not minutes_needed.Needed(by_area=by_area).dropped
