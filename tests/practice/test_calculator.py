"""The calculator: inputs as people write them, what is missing, and the published values asked at the terminal."""

import random
import shlex

import pytest

from tests.authorities.published import deviation, rows
from trainer.decks import library
from trainer.engine.quantities import QUANTITIES
from trainer.engine.units import UNITS, convert
from trainer.errors import DomainError, TrainerError, UsageError
from trainer.practice import calculator, examples, finding, input_names, inputs

ASKED = [
    row for row in rows() if not row.get("refute") and not any(isinstance(v, dict) for v in row["inputs"].values())
]


@pytest.fixture(scope="module")
def shelf():
    return library.load()


def typed(value):
    """Return an input of a row as a person types it: with its unit where the page prints another than ours."""
    if isinstance(value, list):
        unit = UNITS[value[1]]
        return f"{value[0]!r}{unit.symbol}" if unit.symbol else f"{value[0]!r} {unit.name}"
    return value if isinstance(value, str) else repr(value)


def as_typed(quantity, name, value):
    spec = quantity.input(name)
    if not isinstance(value, list | str) and spec.words:
        return spec.words[int(value)]
    if not isinstance(value, list | str) and spec.unit in ("clock", "minute"):
        whole, seconds = divmod(round(value * 60), 60)
        return (
            f"{whole // 60:02d}:{whole % 60:02d}:{seconds:02d}"
            if spec.unit == "clock"
            else f":{whole:02d}:{seconds:02d}"
        )
    return f"{value} lb" if spec.unit == "lb" and not isinstance(value, list) else typed(value)


@pytest.mark.parametrize("row", ASKED, ids=[row["id"] for row in ASKED])
def test_a_published_value_can_be_asked_as_it_is_typed(row, shelf):
    quantity = QUANTITIES[row["quantity"]]
    given = {spec.name: as_typed(quantity, spec.name, row["inputs"].get(spec.name, spec.default))
             for spec in quantity.inputs}  # fmt: skip
    worked = calculator.work_out(quantity, given, shelf, method=row.get("method", ""))
    record = calculator.as_json(worked, ())["results"]
    for name, (printed, tolerance, *unit) in row["outputs"].items():
        result, value = quantity.result(name), record[name]["value"]
        printed = {word: code for code, word in result.words.items()}.get(printed, printed)
        if unit:
            assert record[name]["also"][unit[0]] == pytest.approx(convert(value, result.unit, unit[0]))
            value = record[name]["also"][unit[0]]
        assert abs(deviation(result, value, printed)) <= tolerance + 1e-9 * max(1.0, abs(printed)), name


SPELLINGS = [
    ("angle_crosswind", "relative_wind_deg", "10 left", -10),
    ("angle_crosswind", "relative_wind_deg", "L10", -10),
    ("angle_crosswind", "relative_wind_deg", "10L", -10),
    ("angle_crosswind", "relative_wind_deg", "-10", -10),
    ("angle_crosswind", "relative_wind_deg", "10° port", -10),
    ("angle_crosswind", "relative_wind_deg", "040", 40),
    ("angle_crosswind", "relative_wind_deg", "right 7.5", 7.5),
    ("magnetic_from_true", "variation_deg", "15W", -15),
    ("magnetic_from_true", "variation_deg", "3 deg east", 3),
    ("last_leg_change", "early_s", "20 s late", -20),
    ("last_leg_change", "early_s", "early 0:30", 30),
    ("hold_legs_in_wind", "headwind_inbound_kn", "15 kt tailwind", -15),
    ("geodesic", "to_latitude_deg", "35 36.5 N", 35 + 36.5 / 60),
    ("geodesic", "to_latitude_deg", "S12", -12),
    ("geodesic", "to_longitude_deg", "41°30'30\"W", -(41 + 30.5 / 60)),
    ("geodesic", "to_longitude_deg", "-41.5", -41.5),
    ("geodesic_destination", "bearing_deg", "-32.5", 327.5),
    ("isa", "altitude_ft", "3000 m", 3000 / 0.3048),
    ("isa", "altitude_ft", "FL180", 18_000),
    ("true_airspeed", "oat_c", "59 °F", 15),
    ("true_airspeed", "cas_kn", "150 mph", 150 * 1609.344 / 1852),
    ("pressure_altitude", "altimeter_inhg", "1013.25 hPa", 1013.25 / 33.86389),
    ("distance_covered", "time_min", "1.75 h", 105),
    ("distance_covered", "time_min", "1+45", 105),
    ("time_to_go", "distance_nm", "134 sm", 134 * 1609.344 / 1852),
    ("fuel_burn", "time_min", "1 min 30 s", 1.5),
    ("fuel_burn", "time_min", "1+30", 90),
    ("hold_split", "hold_s", "12:00", 720),
    ("gross_weight", "fuel_lb", "5.4", 5400),
    ("fuel_rounded_up", "step_lb", "10", 10),
    ("weight_and_balance", "station_1_lb", "40", 40),
    ("weight_and_balance", "empty_weight_lb", "2100", 2100),
    ("time_to_go", "distance_nm", "134 mi", 134 * 1609.344 / 1852),
    ("push_time", "first_push_minute", ":24", 24),
    ("charlie_time", "now_min", "1245", 765),
    ("clearing_turn", "side", "Waist", -1),
]


@pytest.mark.parametrize(("quantity", "name", "text", "value"), SPELLINGS)
def test_inputs_are_read_as_the_trade_writes_them(quantity, name, text, value, shelf):
    assert inputs.read(QUANTITIES[quantity].input(name), text, shelf) == pytest.approx(value, abs=1e-8)


REFUSED = [
    ("angle_crosswind", "relative_wind_deg", "-10 left"),
    ("wind_over_deck", "wind_from_deg", "10 left"),
    ("wind_over_deck", "wind_from_deg", "361"),
    ("geodesic", "to_latitude_deg", "35 75 N"),
    ("turn", "bank_deg", "10 kt"),
    ("turn", "bank_deg", "steep"),
    ("distance_covered", "time_min", "1:45"),  # 105 min or 1 min 45 s
]


@pytest.mark.parametrize(("quantity", "name", "text"), REFUSED)
def test_what_can_not_be_read_is_refused_in_one_line(quantity, name, text, shelf):
    with pytest.raises(UsageError) as refusal:
        inputs.read(QUANTITIES[quantity].input(name), text, shelf)
    assert input_names.option(name) in str(refusal.value) and "\n" not in str(refusal.value)


def test_a_channel_with_its_band_is_no_channel_without():
    assert input_names.texts_by_name(QUANTITIES["tacan_vhf"], {"channel": "72Y"}) == {"channel": "72", "band": "Y"}
    assert input_names.texts_by_name(QUANTITIES["tacan_vhf"], {"channel": "72"}) == {"channel": "72"}


def test_a_date_stands_for_its_parts():
    sun = input_names.texts_by_name(QUANTITIES["sun_times"], {"date": "2018-09-12"})
    assert sun == {"year": "2018", "month": "9", "day": "12"}
    field = input_names.texts_by_name(QUANTITIES["magnetic_variation"], {"date": "2025-07-02"})
    assert float(field["year"]) == pytest.approx(2025.5, abs=0.002)
    for wrong in ("2018-13-01", "12 Sep"):
        with pytest.raises(UsageError, match="2026-03-10"):
            input_names.texts_by_name(QUANTITIES["sun_times"], {"date": wrong})
    with pytest.raises(UsageError, match="takes no date"):
        input_names.texts_by_name(QUANTITIES["turn"], {"date": "2018-09-12"})


@pytest.mark.parametrize(
    ("quantity", "typed_name", "name"),
    [
        ("isa", "pressure-altitude", "altitude_ft"),
        ("turn", "bank", "bank_deg"),
        ("turn", "tas", "speed_kn"),
        ("turn", "wind", None),
        ("turn_time", "heading-change", "turn_deg"),
        ("true_wind", "relative-wind-speed", "wind_over_deck_kn"),
        ("geodesic", "lon2", "to_longitude_deg"),
        ("visible_horizon", "height-2", "other_height_ft"),
        ("next_outbound_leg", "target-inbound", "wanted_inbound_s"),
        ("sun_position", "time", "local_clock"),
        ("geodesic", "from-lat", "from_latitude_deg"),
        ("geodesic", "lat", None),
        ("sun_times", "lon", "longitude_deg"),
        ("time_to_go", "gs", "groundspeed_kn"),
        ("descent_rate", "angle", "glide_slope_deg"),
        ("true_airspeed", "temperature", "oat_c"),
        ("closest_approach", "own-speed", "own_speed_kn"),
    ],
)
def test_inputs_are_found_by_short_names(quantity, typed_name, name):
    if name is None:
        with pytest.raises(UsageError, match="has no input"):
            input_names.input_name(QUANTITIES[quantity], typed_name)
    else:
        assert input_names.input_name(QUANTITIES[quantity], typed_name) == name


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=list(QUANTITIES))
@pytest.mark.parametrize("with_files", [True, False])
def test_every_example_that_is_printed_works_when_it_is_typed(quantity, with_files, shelf):
    """With the user's files, and without any value of theirs."""
    files = shelf if with_files else _without_values(shelf)
    try:
        calculator.work_out(quantity, {}, files)
    except DomainError:
        return  # nothing is lacking
    except UsageError as refusal:
        missing = [spec for spec in quantity.inputs if input_names.option(spec.name) in refusal.message]
        if any(spec.unit == "table" for spec in missing):
            return  # there is no table to name where there are no files
        command = shlex.split(refusal.hint.removeprefix("for example: "))
        assert command[:3] == ["trainer", "compute", quantity.name]
        given = {name.removeprefix("--"): text for name, text in zip(command[3::2], command[4::2], strict=True)}
        assert calculator.work_out(quantity, given, files).results


def _without_values(shelf):
    from dataclasses import replace

    return replace(shelf, values={}, tables={})


def test_an_example_keeps_what_was_given(shelf):
    with pytest.raises(UsageError) as refusal:
        calculator.work_out(QUANTITIES["turn"], {"speed": "312"}, shelf)
    assert "--speed 312 --bank-deg " in refusal.value.hint


def test_an_example_is_always_the_same(shelf):
    quantity = QUANTITIES["wind_over_deck"]
    one, two = (examples.example(quantity, shelf, {}, quantity.inputs, lambda texts: True) for _ in range(2))
    assert one == two


def test_results_are_told_again_in_the_units_that_were_typed(shelf):
    worked = calculator.work_out(
        QUANTITIES["track_made_good"],
        {"heading": "315", "tas": "150 mph", "wind-from": "45", "wind-speed": "30 mph"},
        shelf,
    )
    result, value, _ = worked.results[1]
    assert calculator.told_again(result, value, worked.units) == ["153 mph"]
    assert calculator.told_again(worked.results[0][0], worked.results[0][1], worked.units) == []


def test_fuel_is_read_and_told_in_litres_and_kilograms(shelf):
    """3,000 L at 0.8 kg/L are 2,400 kg: 2,400 / 0.45359237 lb (NIST SP 811)."""
    worked = calculator.work_out(QUANTITIES["fuel_weight"], {"fuel": "3000 L", "density": "0.8 kg/L"}, shelf)
    result, value, _ = worked.results[0]
    assert value == pytest.approx(2400 / 0.45359237)
    assert calculator.told_again(result, value, worked.units) == ["2,400 kg"]
    assert calculator.in_other_units(result, value) == {"kg": pytest.approx(2400)}


def test_a_method_may_be_begun(shelf):
    rule = calculator.work_out(QUANTITIES["crab"], CRAB, shelf, method="rule")
    assert rule.method == "rule of thumb"
    with pytest.raises(UsageError, match="no method"):
        calculator.work_out(QUANTITIES["crab"], CRAB, shelf, method="guess")


CRAB = {"course": "090", "crosswind": "20", "side": "right", "tas": "300"}
# The words by which somebody who has the pages, but not our names, looks for a quantity.
SOUGHT = {
    "wind_triangle": {"heading_for_course", "track_made_good", "airspeed_for_schedule", "wind_found"},
    "ship_true_wind": {"true_wind"},
    "desired_wod": {"wanted_wind", "recovery_course"},
    "crosswind": {"runway_wind", "angle_crosswind"},
    "tsd": {"time_to_go", "distance_covered", "groundspeed_needed"},
    "cpa": {"closest_approach", "plotted_approach", "target_motion"},
    "turn_offset": {"section_after_turn"},
    "turn_bank": {"bank_for_rate"},
    "airspeed": {"true_airspeed", "calibrated_airspeed", "airspeeds_from_tas"},
    "atmosphere": {"isa", "isa_geometric"},
    "altimetry": {"pressure_altitude", "density_altitude"},
    "descent": {"descent_rate", "descent_gradient", "gradient_rate"},
    "glide slope height": {"glide_slope_height"},
    "arc_lead": {"lead_radials", "arc_turn_point"},
    "course_intercept": {"turn_lead"},
    "holding": {"next_outbound_leg", "standard_inbound_leg"},
    "fuel": {"fuel_flow_per_minute", "fuel_rounded_up", "fuel_burn"},
    "weight_balance": {"weight_and_balance"},
    "tacan": {"tacan_frequencies", "tacan_vhf"},
    "magvar": {"magnetic_variation"},
    "magvar_hr": {"magnetic_variation"},
    "heading_conversion": {"magnetic_from_true"},
    "geodesy": {"geodesic"},
    "horizon": {"visible_horizon"},
    "sun": {"sun_times", "sun_position", "twilight"},
    "units": {"nm_to_ft", "kn_to_mph"},
    "wind": {"wind_over_deck", "true_wind"},
    "ETA": {"time_to_go"},
    "trim": {"takeoff_trim_step"},
    "marshal": {"marshal_fix_distance"},
    "bingo": {"bingo_fuel", "bingo_decision"},
}


@pytest.mark.parametrize("words", SOUGHT)
def test_a_quantity_is_found_by_the_words_of_the_trade(words):
    assert SOUGHT[words] <= {quantity.name for quantity in finding.find(words.split())}


def test_other_names_are_of_inputs_that_exist():
    known = {spec.name for quantity in QUANTITIES.values() for spec in quantity.inputs}
    assert set(input_names.KNOWN_AS) <= known


def test_a_word_inside_another_does_not_crowd_the_list():
    assert "isa" not in {quantity.name for quantity in finding.find(["eta"])}


def test_no_such_quantity_names_the_nearest():
    assert "did you mean sink_rate?" in str(finding.no_such_quantity(["sink_rte"]))
    assert "lists them all" in str(finding.no_such_quantity(["zzz"]))


def test_inputs_outside_the_range_are_refused_with_the_range(shelf):
    with pytest.raises(DomainError, match="80"):
        calculator.work_out(QUANTITIES["turn"], {"speed": "120", "bank": "89"}, shelf)
    with pytest.raises(TrainerError, match="given twice"):
        calculator.work_out(QUANTITIES["turn"], {"speed": "120", "speed-kn": "89", "bank": "30"}, shelf)


def test_random_is_not_needed_for_the_answer(shelf):
    before = random.getstate()
    with pytest.raises(UsageError):
        calculator.work_out(QUANTITIES["turn"], {}, shelf)
    assert random.getstate() == before
