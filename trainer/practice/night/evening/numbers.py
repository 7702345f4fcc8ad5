"""Every number of the evening, each computed by one quantity of the engine from the scenario.

The card, the rehearsal and the answer sheet all read this one table.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from trainer.engine.quantities import QUANTITIES
from trainer.frozen import frozen
from trainer.practice.night.evening import moments
from trainer.practice.night.evening.scenario import MINUTES_PER_DAY

if TYPE_CHECKING:
    from trainer.practice.night.evening.night import Night

POWER_LB = 100.0  # from the ball to the decision after a bolter; a figure of ours
CROSSWIND_LIMIT_KN = 7  # CNATRAINST 3740.9D, Table II-3 note 1
OUTBOUND, INSTRUMENT, VISUAL = 1.0, (2, 3), (1, 2)
ALL = (1, 2, 3)
RULE = "rule of thumb"
DEPARTURE, PUSH = "airwing.departure_airspeed_kn", "airwing.push_airspeed_kn"


@frozen
class Number:
    """One number: ``give(night)`` returns the inputs that the scenario supplies; ``cases`` in which it is used.

    Where ``method`` is a rule of thumb, ``flown(night)`` may tell what it comes to in tonight's wind.
    """

    name: str
    title: str
    quantity: str
    give: Callable[["Night"], dict[str, float]]
    result: str = ""
    method: str = ""
    cases: tuple[int, ...] = ALL
    flown: Callable[["Night"], float] | None = None


def _side(night):
    return 1.0 if night["clearing_side"] > 0 else -1.0  # bow catapults clear to the right


def _burn_until(name):
    def give(night):
        times = night.scenario.times
        minutes = getattr(times, name) - times.launch_clock
        return {"flow_lb_h": night.value("airframe.cruise_flow_lb_h"), "time_min": minutes}

    return give


def _case(at):
    def give(night):
        weather = night.scenario.weather
        return {
            "ceiling_ft": weather.ceiling_ft, "visibility_nm": weather.visibility_nm,
            "clock_min": clock(at(night)), "sunrise_min": weather.sunrise_clock, "sunset_min": weather.sunset_clock,
        }  # fmt: skip

    return give


def _wind(night):
    ship, weather = night.scenario.ship, night.scenario.weather
    return {
        "ship_course_deg": ship.brc_deg, "ship_speed_kn": ship.speed_kn,
        "wind_from_deg": weather.wind_from_deg, "wind_speed_kn": weather.wind_speed_kn,
    }  # fmt: skip


def _felt(night):
    return {"wind_over_deck_kn": night["wind_over_deck"], "relative_wind_deg": night["relative_wind"]}


def _on_the_angle(night):
    return _felt(night) | {"deck_angle_deg": night.scenario.ship.deck_angle_deg, "limit_kn": CROSSWIND_LIMIT_KN}


def _clearing(night):
    return {"brc_deg": night.scenario.ship.brc_deg, "side": _side(night)}


def _brc(night):
    return night.scenario.ship.brc_deg


def _speed(name):
    return lambda night: {"groundspeed_kn": night[name]}


def _outbound(name):
    return lambda night: {"groundspeed_kn": night[name], "direction": OUTBOUND}


def _felt_below(night):
    return moments.over_the_ship(night, moments.surface_wind(night))


def _felt_aloft(night):
    return moments.over_the_ship(night, moments.wind_aloft(night))


def _legs(night):
    return {
        "pattern_s": night.hold_min * 60.0 / night["patterns"], "airspeed_kn": night["hold_tas"],
        "headwind_inbound_kn": moments.headwind_in_holding(night),
    }  # fmt: skip


def _arc(night):
    return {"from_radial_deg": night.scenario.ship.brc_deg, "to_radial_deg": night.scenario.departure_radial_deg}


def _push(night):
    scenario = night.scenario
    first = clock(scenario.times.first_push_clock + scenario.times.delay_min) % 60
    return {
        "first_push_minute": first, "position": scenario.stack.position,
        "interval_min": scenario.stack.interval_min,
    }  # fmt: skip


def _hold(night):
    return {"hold_s": night.hold_min * 60.0}


def _ladder(night):
    return {"ball_fuel_lb": night["wanted_ball_fuel"], "hold_min": night.hold_min}


def _passes(night):
    return {"ball_fuel_lb": night["ball_fuel"], "bingo_lb": night["bingo"]}


_N = Number
NUMBERS = {
    number.name: number
    for number in (
        _N(name="case", title="Case of the recovery", quantity="case_by_clock", give=_case(lambda n: n.push_clock)),
        _N(name="departure_case", title="Case of the departure", quantity="case_by_clock",
           give=_case(lambda n: n.scenario.times.launch_clock)),
        _N(name="wind_over_deck", title="wind over deck", quantity="wind_over_deck", give=_wind),
        _N(name="relative_wind", title="wind off the bow, port negative", quantity="wind_over_deck", give=_wind,
           result="relative_wind_deg"),
        _N(name="bow_wind", title="wind down the bow", quantity="wind_down_the_bow", give=_felt),
        _N(name="angle_wind", title="wind down the angle", quantity="angle_crosswind", give=_on_the_angle,
           result="down_the_angle_kn"),
        _N(name="angle_crosswind", title="crosswind on the angle, from the right positive",
           quantity="angle_crosswind", give=_on_the_angle),
        _N(name="gross_weight", title="gross weight", quantity="gross_weight",
           give=lambda n: {"fuel_lb": n.fuel_on_catapult_lb, "stores_lb": n.scenario.load.stores_lb}),
        _N(name="trim", title="take-off trim", quantity="takeoff_trim_step",
           give=lambda n: {"gross_weight_lb": n["gross_weight"]}),
        _N(name="board", title="weight board", quantity="weight_board_check",
           give=lambda n: {"own_weight_lb": n["gross_weight"], "board_weight_lb": n.scenario.load.board_weight_lb}),
        _N(name="endspeed", title="catapult end speed needed", quantity="needed_endspeed",
           give=lambda n: {"wod_kn": n["bow_wind"]}),
        _N(name="clearing_side", title="side of the clearing turn", quantity="clearing_turn_side",
           give=lambda n: {"catapult": n.scenario.ship.catapult}, cases=VISUAL),
        _N(name="clearing_heading", title="heading in the clearing turn", quantity="clearing_turn",
           give=_clearing, cases=VISUAL),
        _N(name="departure_tas", title="true airspeed in the departure", quantity="true_airspeed",
           give=moments.true_airspeed(DEPARTURE, lambda n: n.value("airwing.departure_altitude_ft"))),
        _N(name="departure_speed", title="ground speed outbound", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(_brc, "departure_tas", moments.surface_wind)),
        _N(name="climb_time", title="time to the climb point on the beacon", quantity="beacon_climb_point",
           give=lambda n: {"groundspeed_kn": n["departure_speed"], "ship_speed_kn": n.scenario.ship.speed_kn}),
        _N(name="opening", title="opening from the ship outbound", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(_brc, "departure_tas", _felt_below)),
        _N(name="gate_climb", title="mean climb to the first gate", quantity="gate_climb_rate",
           give=_speed("opening"), cases=(3,)),
        _N(name="arc_tas", title="true airspeed at the arc", quantity="true_airspeed",
           give=moments.true_airspeed(DEPARTURE, moments.arc_altitude_ft), cases=INSTRUMENT),
        _N(name="outbound_speed", title="speed over the ship at the turn onto the arc", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(_brc, "arc_tas", _felt_below), cases=INSTRUMENT),
        _N(name="arc_turn", title="turn onto the arc at", quantity="arc_turn_point", method=RULE,
           give=_outbound("outbound_speed"), cases=INSTRUMENT, flown=moments.arc_turn_flown),
        _N(name="arc_way", title="which way onto the arc", quantity="arc_direction", result="way", give=_arc,
           cases=INSTRUMENT),
        _N(name="arc_degrees", title="degrees of arc", quantity="arc_direction", give=_arc, cases=INSTRUMENT),
        _N(name="arc_speed", title="speed over the ship on the arc", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(moments.course_amid_the_arc, "arc_tas", _felt_below),
           cases=INSTRUMENT),
        _N(name="arc_time", title="time on the arc", quantity="arc_time", method=RULE, result="arc_time_s",
           give=lambda n: {"groundspeed_kn": n["arc_speed"], "arc_deg": n["arc_degrees"]}, cases=INSTRUMENT,
           flown=moments.arc_time_flown),
        _N(name="arc_lead", title="lead radials off the arc", quantity="lead_radials", method=RULE,
           give=_outbound("arc_speed"), cases=INSTRUMENT, flown=moments.arc_lead_flown),
        _N(name="rendezvous", title="rendezvous radial", quantity="rendezvous_radial",
           give=lambda n: {"departure_radial_deg": n.scenario.departure_radial_deg}, cases=INSTRUMENT),
        _N(name="check_in_burn", title="fuel burnt until check-in", quantity="fuel_burn",
           give=_burn_until("check_in_clock")),
        _N(name="fix_burn", title="fuel burnt until the fix", quantity="fuel_burn", give=_burn_until("fix_clock")),
        _N(name="final_bearing", title="final bearing", quantity="final_bearing",
           give=lambda n: {"brc_deg": n.scenario.ship.brc_deg, "deck_angle_deg": n.scenario.ship.deck_angle_deg}),
        _N(name="marshal_radial", title="marshal radial", quantity="marshal_radial",
           give=lambda n: {"final_bearing_deg": n["final_bearing"]}, cases=INSTRUMENT),
        _N(name="inbound_course", title="inbound course", quantity="marshal_inbound_course",
           give=lambda n: {"marshal_radial_deg": n["marshal_radial"]}, cases=INSTRUMENT),
        _N(name="fix_distance", title="marshal fix", quantity="marshal_fix_distance",
           give=lambda n: {"angels": n.scenario.stack.angels}, cases=INSTRUMENT),
        _N(name="push", title="push time", quantity="push_time", give=_push, cases=INSTRUMENT),
        _N(name="patterns", title="equal patterns in holding", quantity="hold_split", give=_hold, cases=INSTRUMENT),
        _N(name="leg", title="seconds of each leg", quantity="hold_split", result="leg_s", give=_hold,
           cases=INSTRUMENT),
        _N(name="hold_tas", title="true airspeed in holding", quantity="true_airspeed",
           give=moments.true_airspeed(PUSH, lambda n: n.scenario.stack.angels * 1000), cases=INSTRUMENT),
        _N(name="leg_out", title="outbound leg in the wind, over the moving fix", quantity="hold_legs_in_wind",
           give=_legs, cases=INSTRUMENT),
        _N(name="leg_in", title="inbound leg in the wind, over the moving fix", quantity="hold_legs_in_wind",
           result="inbound_s", give=_legs, cases=INSTRUMENT),
        _N(name="descent_tas", title="true airspeed half way to platform", quantity="true_airspeed",
           give=moments.true_airspeed(PUSH, moments.half_way_to_platform_ft), cases=INSTRUMENT),
        _N(name="closing", title="closing the ship on the way to platform", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(lambda n: n["inbound_course"], "descent_tas", _felt_aloft),
           cases=INSTRUMENT),
        _N(name="platform", title="platform at", quantity="platform_distance",
           give=lambda n: {"angels": n.scenario.stack.angels, "groundspeed_kn": n["closing"]}, cases=INSTRUMENT),
        _N(name="gate_tas", title="true airspeed below platform", quantity="true_airspeed",
           give=moments.true_airspeed(PUSH, moments.half_way_to_the_gate_ft), cases=INSTRUMENT),
        _N(name="gate_closing", title="closing the ship below platform", quantity="heading_for_course",
           result="groundspeed_kn", give=moments.along(lambda n: n["inbound_course"], "gate_tas", _felt_below),
           cases=INSTRUMENT),
        _N(name="level_off", title="level at the gate altitude at", quantity="level_off_distance",
           give=lambda n: {"platform_distance_nm": n["platform"], "groundspeed_kn": n["gate_closing"]},
           cases=INSTRUMENT),
        _N(name="tip_over", title="glide slope at", quantity="glide_slope_intercept", method="exact",
           give=lambda n: {"glide_slope_deg": n.scenario.ship.glide_slope_deg}, cases=INSTRUMENT),
        _N(name="bingo", title="bingo", quantity="bingo_fuel",
           give=lambda n: {"divert_distance_nm": n.scenario.divert.distance_nm}),
        _N(name="max_trap_fuel", title="most fuel to trap with", quantity="max_trap_fuel",
           give=lambda n: {"stores_lb": n.scenario.load.retained_stores_lb}),
        _N(name="wanted_ball_fuel", title="fuel on the ball for two bolter patterns", quantity="fuel_for_passes",
           give=lambda n: {"bingo_lb": n["bingo"], "passes": 2.0}),
        _N(name="ladder_push", title="needed at the push for that", quantity="fuel_ladder", result="push_fuel_lb",
           give=_ladder),
        _N(name="ladder_fix", title="needed at the fix for that", quantity="fuel_ladder", give=_ladder),
        _N(name="ball_fuel", title="fuel on the ball", quantity="ball_fuel",
           give=lambda n: {"fuel_at_fix_lb": n.fuel_at_fix_lb, "hold_min": n.hold_min}),
        _N(name="passes", title="bolter patterns above bingo", quantity="passes_left", give=_passes),
        _N(name="landing_weight", title="weight on the ball", quantity="gross_weight",
           give=lambda n: {"fuel_lb": n["ball_fuel"], "stores_lb": n.scenario.load.retained_stores_lb}),
        _N(name="on_speed", title="on-speed airspeed", quantity="on_speed",
           give=lambda n: {"landing_weight_lb": n["landing_weight"]}),
        _N(name="closure", title="closure", quantity="closure",
           give=lambda n: {"airspeed_kn": n["on_speed"], "wind_down_angle_kn": n["angle_wind"]}),
        _N(name="sink_rate", title="sink rate on the ball", quantity="sink_rate", method=RULE,
           give=lambda n: {"closure_kn": n["closure"], "glide_slope_deg": n.scenario.ship.glide_slope_deg}),
        _N(name="downwind", title="downwind heading", quantity="downwind_heading",
           give=lambda n: {"brc_deg": n.scenario.ship.brc_deg}, cases=VISUAL),
        _N(name="break_spacing", title="spacing in the break", quantity="break_spacing", cases=VISUAL,
           give=lambda n: {"interval_s": n.scenario.flight.break_interval_s,
                           "airspeed_kn": n.scenario.flight.break_airspeed_kn}),
        _N(name="groove", title="length of the groove", quantity="groove_distance",
           give=lambda n: {"closure_kn": n["closure"]}, cases=VISUAL),
        _N(name="partner", title="your air-to-air channel", quantity="tacan_partner",
           give=lambda n: {"channel": n.scenario.flight.lead_channel}),
        _N(name="divert_crosswind", title="crosswind at the divert, from the right positive",
           quantity="runway_wind", method="exact",
           give=lambda n: {"runway_deg": n.scenario.divert.runway_deg,
                           "wind_from_deg": n.scenario.weather.wind_from_deg,
                           "wind_speed_kn": n.scenario.weather.wind_speed_kn}),
        _N(name="divert_tas", title="true airspeed to the divert", quantity="true_airspeed",
           give=moments.true_airspeed(PUSH, moments.divert_altitude_ft)),
        _N(name="divert_speed", title="ground speed to the divert", quantity="heading_for_course",
           result="groundspeed_kn",
           give=moments.along(lambda n: n.scenario.divert.bearing_deg, "divert_tas", moments.wind_aloft)),
        _N(name="divert_time", title="time to the divert", quantity="time_to_go",
           give=lambda n: {"distance_nm": n.scenario.divert.distance_nm, "groundspeed_kn": n["divert_speed"]}),
    )
}  # fmt: skip


def result_of(name):
    """Return the engine's record of the result of the number ``name``."""
    number = NUMBERS[name]
    return QUANTITIES[number.quantity].result(number.result)


def clock(minutes):
    """Return a clock time that may lie past midnight within the day."""
    return minutes % MINUTES_PER_DAY
