"""The compute command: what is typed, what is printed, and the one line where something is wrong."""

import json
import shlex

import pytest

from tests.bench import compute_tries
from trainer import cli
from trainer.commands.world import World
from trainer.engine.quantities import QUANTITIES
from trainer.terminal import tables
from trainer.terminal.look import Look


@pytest.fixture
def compute(home, capsys):
    """Return a function that runs the command and returns (exit code, output, errors)."""

    def run(*words):
        code = cli.main(["--home", str(home), "--plain", "compute", *words])
        out, err = capsys.readouterr()
        return code, out, err

    return run


def values(compute, *words):
    code, out, err = compute(*words, "--json")
    assert code == 0, err
    return {name: result["value"] for name, result in json.loads(out)["results"].items()}


def test_without_a_word_every_quantity_is_listed(compute):
    code, out, _ = compute()
    assert code == 0
    assert all(name in out for name in QUANTITIES)


@pytest.mark.parametrize(
    "words", [("--bal_bearing", "--b=rc", " "), ("wind", "--brc", "5"), ("hot", "day"), ("closure",)]
)
def test_the_decks_are_read_once_however_many_quantities_fit(compute, monkeypatch, words):
    """Found by fuzzing: a blank for a name fits all quantities, and the decks were read for each: 50 seconds."""
    read, library = [], World.library
    monkeypatch.setattr(World, "library", lambda *given: read.append(1) or library(*given))
    compute(*words)
    assert len(read) <= 1


def test_a_word_finds_quantities_and_one_find_is_shown(compute):
    _, several, _ = compute("wind")
    assert "wind_over_deck" in several and "sink_rate" not in several
    _, one, _ = compute("sink", "rate")
    assert "--closure-kn" in one and "--glide-slope-deg" in one


def test_what_the_files_know_is_worked_out_below_the_card(compute):
    _, out, _ = compute("tacan_frequencies")
    assert "--channel" in out and "interrogation" in out and "1071 MHz" in out


def test_a_quantity_that_refuses_its_usual_values_still_shows_its_card(compute):
    code, out, _ = compute("grade_point_average")
    assert code == 0 and "--no-grade" in out


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=list(QUANTITIES))
def test_the_card_shows_units_as_they_are_written(quantity):
    card = " ".join(tables.quantity_card(quantity, Look()))
    for word in ("latlon", "count)", "heading)", "clock)", "word)", "minute)", "ratio)", "radials)"):
        assert word not in card


def test_inputs_fit_the_one_quantity_that_takes_them_all(compute):
    assert values(compute, "tsd", "--distance", "210", "--groundspeed", "140") == {"time_min": pytest.approx(90)}
    assert values(compute, "tsd", "--groundspeed", "120", "--time", "1.75 h")["distance_nm"] == pytest.approx(210)
    found = values(
        compute, "wind_triangle", "--course", "0", "--tas", "160", "--wind-from", "310", "--wind-speed", "45"
    )
    assert found["heading_deg"] == pytest.approx(347.558, abs=1e-3)


def test_inputs_that_fit_several_are_refused_with_their_names(compute):
    code, out, err = compute("tsd", "--distance", "210")
    assert code == 2 and out == ""
    assert err.count("\n") == 1 and "time_to_go" in err and "groundspeed_needed" in err


def test_inputs_may_be_written_with_an_equals_sign(compute):
    assert values(compute, "final_bearing", "brc=5", "--deck-angle=9")["final_bearing_deg"] == pytest.approx(356)


def test_json_is_json_line_by_line_and_holds_other_units(compute):
    code, out, _ = compute("isa", "--altitude", "20000", "--json")
    record = json.loads(out)
    assert code == 0 and out.count("\n") > 20
    temperature = record["results"]["temperature_c"]
    assert temperature["value"] == pytest.approx(-24.624)
    assert temperature["also"]["f"] == pytest.approx(-12.3232)
    assert temperature["stated"] == -24.6
    assert record["inputs"]["altitude_ft"] == {"value": 20000.0, "unit": "ft", "from": "given"}


def test_json_of_a_word_is_the_list(compute):
    code, out, _ = compute("horizon", "--json")
    assert code == 0 and {q["name"] for q in json.loads(out)} == {"radio_horizon", "visible_horizon"}


def test_both_solutions_are_told(compute):
    found = values(compute, "wanted_wind", "--wind-from", "315", "--wind-speed", "10", "--wanted", "30",
                   "--relative", "10 left")  # fmt: skip
    assert found["ship_course_deg"] == pytest.approx(346.4, abs=0.05)
    assert found["other_course_deg"] == pytest.approx(103.6, abs=0.05)


def test_results_come_in_the_units_typed_as_well(compute):
    _, out, _ = compute("track_made_good", "--heading", "315", "--tas", "150 mph", "--wind-from", "45",
                        "--wind-speed", "30 mph")  # fmt: skip
    assert "(153 mph)" in out
    _, out, _ = compute("fuel_ladder", "--ball", "4.2", "--hold-min", "12")
    assert "fuel needed at the push: 4,900 lb\n" in out


@pytest.mark.parametrize(
    "words",
    [
        ("foxtrot",),
        ("turn", "--speed", "120"),
        ("turn", "--speed", "120", "--bank"),
        ("turn", "--speed", "fast", "--bank", "30"),
        ("turn", "--speed", "120", "--bank", "30", "--wind", "10"),
        ("turn", "--speed", "120", "--bank", "30", "--method", "guess"),
        ("--speed", "120"),
        ("sun_times", "--date", "tomorrow"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(compute, words):
    code, out, err = compute(*words)
    assert code == 2 and out == "" and err.count("\n") == 1 and " – " in err.replace(" - ", " – ")


def test_outside_the_range_is_refused_in_one_line(compute):
    code, out, err = compute("turn", "--speed", "120", "--bank", "89")
    assert code == 1 and out == "" and err.count("\n") == 1 and "1 to 80" in err


@pytest.mark.parametrize(
    ("name", "spec", "told"),
    [
        ("turn", "bank_deg", "1 to 80°"),
        ("final_bearing", "brc_deg", "001 to 360"),
        ("geodesic", "to_latitude_deg", "-90 to 90°"),
        ("push_time", "first_push_minute", ":00 to :59"),
        ("charlie_time", "now_min", "00:00 to 23:59"),
        ("isa_temperature", "altitude_ft", "-16,404.2 to 36,089 ft"),
        ("tas_from_ias", "flight_level", "0 to 450 (flight level)"),
        ("clearing_turn", "side", "bow, waist"),
        ("takeoff_trim_step", "trim_table", "a table of your files"),
    ],
)
def test_ranges_are_told_as_people_write_them(name, spec, told):
    assert tables.limits(QUANTITIES[name].input(spec)) == told


@pytest.mark.parametrize("entry", [*compute_tries.REVIEWED, *compute_tries.OWN], ids=lambda entry: entry[0])
def test_lines_as_pilots_type_them_never_give_a_wrong_number(compute, entry):
    line, wanted, result = (*entry, "")[:3]
    found = compute_tries.told(line, wanted, result, *compute(*shlex.split(line), "--json"))
    assert found.verdict == "right" or (found.verdict == "asked" and line in ASKED_BACK), found


ASKED_BACK = ("mach 0.8 oat -50", "glide slope 3.5")  # two quantities take these, and one is to be named


def test_the_lines_can_be_judged_wrong():
    out = json.dumps({"quantity": "trim", "results": {"trim_deg": {"stated": 23.5, "text": "23.5"}}})
    verdicts = [compute_tries.told("trim 33500", wanted, "", 0, out, "").verdict for wanted in (23.5, 24.5, None)]
    assert verdicts == ["right", "wrong", "wrong"]
    assert compute_tries.told("trim", 23.5, "", 2, "", "which?").verdict == "asked"


def test_what_a_named_quantity_lacks_is_said(compute):
    code, _, err = compute("true", "airspeed", "250", "kt", "15000", "ft")
    assert code == 2 and "true_airspeed needs" in err and "--oat-c" in err


def test_an_indicated_speed_that_stands_for_the_ground_speed_is_said(compute):
    _, out, _ = compute("platform_distance", "--angels", "15")
    assert "careful: an indicated speed stands for the ground speed" in out
    _, out, _ = compute("platform_distance", "--angels", "15", "--groundspeed", "311")
    assert "careful" not in out
