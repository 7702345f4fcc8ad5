"""Every number of an evening reckoned by another path: sums by hand, tables read by eye, and flights by time steps.

Nothing of the engine or of the evening's own numbers is used but the scenario, the user's values and the rows of
the tables.  ``of(scenario, library)`` returns {name: (value, allowed difference)}.
"""

import math

from tests.night.flight import Flight, blown, heading_along, true_airspeed, vector

EXACT = 1e-6
HALF_RATE = 1.5


def of(scenario, library):
    """Return {name: (value, allowed difference)} of every number that this Case has."""
    found = {}
    for part in (_weather, _weights, _departure, _fuel, _ball, _divert):
        found |= part(scenario, library.values, library.tables, found)
    if scenario.case != 1:
        found |= _arc(scenario, library.values, found) | _marshal(scenario, library.values, found)
        found |= _descent(scenario, library.values, found)
    if scenario.case != 3:
        found |= _pattern(scenario, library.values, found)
    return found


def _up(value, step):
    return math.ceil(round(value / step, 6)) * step


def _down(value, step):
    return math.floor(round(value / step, 6)) * step


def _to(value, step):
    return math.floor(value / step + 0.5) * step


def _course(value):
    return (math.floor(value + 0.5) - 1) % 360 + 1


def _difference(one, other):
    """Return the turn from one direction to another, right positive."""
    return (other - one + 180) % 360 - 180


def _line(table, argument):
    """Return the value of a table of points, read between the two rows around the argument."""
    rows = list(zip(table.at, table.values, strict=True))
    for (low, under), (high, over) in zip(rows, rows[1:], strict=False):
        if low <= argument <= high:
            return under + (argument - low) / (high - low) * (over - under)
    raise AssertionError(f"{argument} is outside the table")


def _dark(weather, minute):
    since = (minute - weather.sunset_clock - 30) % 1440
    return since < (weather.sunrise_clock - 30 - weather.sunset_clock - 30) % 1440


def _case(weather, minute):
    if _dark(weather, minute) or weather.visibility_nm < 5 or weather.ceiling_ft < 1000:
        return 3
    return 1 if weather.ceiling_ft >= 3000 else 2


def _own_push(scenario):
    stack, times = scenario.stack, scenario.times
    return times.first_push_clock + times.delay_min + (stack.position - 1) * stack.interval_min


def _weather(scenario, values, tables, found):
    ship, weather = scenario.ship, scenario.weather
    east, north = (
        own - blow for own, blow in zip(vector(ship.brc_deg, ship.speed_kn), blown(_wind(weather)), strict=True)
    )  # what is felt comes from there
    felt, off = math.hypot(east, north), _difference(ship.brc_deg, math.degrees(math.atan2(east, north)))
    shown_kn, shown_deg = _to(felt, 1), _to(off, 1)
    bow, angle = math.radians(shown_deg), math.radians(shown_deg + ship.deck_angle_deg)
    return {
        "case": (_case(weather, _own_push(scenario) % 1440), EXACT),
        "departure_case": (_case(weather, scenario.times.launch_clock % 1440), EXACT),
        "wind_over_deck": (felt, 0.51), "relative_wind": (off, 0.51),
        # where the angle stands between two degrees (always, where ship and wind are equally fast and an odd number
        # of degrees apart) it may be shown as either
        "bow_wind": (shown_kn * math.cos(bow), 0.51 + shown_kn * math.radians(1) * abs(math.sin(bow))),
        "angle_wind": (shown_kn * math.cos(angle), 0.6),
        "angle_crosswind": (shown_kn * math.sin(angle), 0.51 + shown_kn * math.radians(1)),
    }  # fmt: skip


def _wind(weather):
    return weather.wind_from_deg, weather.wind_speed_kn


def _aloft(weather):
    return weather.aloft_from_deg, weather.aloft_speed_kn


def _weights(scenario, values, tables, found):
    load = scenario.load
    empty = values["airframe.basic_weight_lb"] + values["airframe.crew_lb"]
    on_the_catapult = empty + load.fuel_lb - values["airframe.taxi_fuel_lb"] + load.stores_lb
    table, shown = tables["airframe.trim_steps"], _to(on_the_catapult, 100)
    trim = next(trim for upto, trim in zip(table.upto, table.values, strict=True) if shown <= upto)
    off = shown - load.board_weight_lb
    bow = _to(found["bow_wind"][0], 1)
    heaviest = values["airframe.max_trap_weight_lb"] - empty - load.retained_stores_lb
    return {
        "gross_weight": (on_the_catapult, 51), "trim": (trim, EXACT),
        "board": (0 if abs(off) <= values["airframe.board_tolerance_lb"] else math.copysign(1, off), EXACT),
        "endspeed": (values["airframe.min_end_airspeed_kn"] + values["airframe.excess_kn"] - bow, 1.01),
        "max_trap_fuel": (_down(heaviest, 100), EXACT),
    }  # fmt: skip


def _departure(scenario, values, tables, found):
    ship, wind = scenario.ship, _wind(scenario.weather)
    speed, feet = values["airwing.departure_airspeed_kn"], values["airwing.departure_altitude_ft"]
    out = Flight(ship.brc_deg, ship.speed_kn, feet=feet)
    climb_nm, gate_nm = values["airwing.climb_distance_nm"], values["airwing.first_gate_nm"]
    out.fly(ship.brc_deg, speed, wind, lambda f: f.beacon_nm >= climb_nm, over_ship=False)
    water = Flight(ship.brc_deg, 0.0, feet=feet).fly(ship.brc_deg, speed, wind, lambda f: f.seconds >= 60)
    opening = Flight(ship.brc_deg, ship.speed_kn, feet=feet).fly(ship.brc_deg, speed, wind, lambda f: f.seconds >= 60)
    right = ship.catapult <= 2
    found = {
        "departure_tas": (true_airspeed(speed, feet), 0.2), "departure_speed": (water.beacon_nm * 60, 1.0),
        "climb_time": (out.seconds, 1.6), "opening": (opening.beacon_nm * 60, 1.0),
        "clearing_side": (1 if right else -1, EXACT),
        "clearing_heading": (
            _course(ship.brc_deg + (1 if right else -1) * values["airwing.clearing_turn_deg"]), EXACT
        ),
    }  # fmt: skip
    if scenario.case == 3:
        found["gate_climb"] = (values["airwing.first_gate_ft"] / gate_nm * opening.beacon_nm, 32)
    return found


def _arc(scenario, values, found):
    ship, wind, arc = scenario.ship, _wind(scenario.weather), values["airwing.departure_arc_nm"]
    speed = values["airwing.departure_airspeed_kn"]
    feet = values["airwing.first_gate_ft"] / values["airwing.first_gate_nm"] * arc
    tas = true_airspeed(speed, feet)
    turn = _difference(ship.brc_deg, scenario.departure_radial_deg)
    way, degrees = math.copysign(1, turn), abs(turn)
    out = Flight(ship.brc_deg, ship.speed_kn, feet=feet)
    out.fly(ship.brc_deg, speed, wind, lambda f: f.seconds >= 60)
    amid = ship.brc_deg + way * (degrees / 2 + 90)
    along = Flight(ship.brc_deg, ship.speed_kn, feet=feet).fly(amid, speed, wind, lambda f: f.seconds >= 60)
    opening, arcing = out.beacon_nm * 60, along.beacon_nm * 60
    return {
        "arc_tas": (tas, 0.2), "arc_way": (way, EXACT), "arc_degrees": (degrees, EXACT),
        "outbound_speed": (opening, 1.5), "arc_speed": (arcing, 1.5),
        "arc_turn": (arc - opening / 100, 0.07), "arc_time": (degrees * arc / 60 / arcing * 3600, 2),
        "arc_lead": (60 / arc * arcing / 100, 0.6),
        "rendezvous": (_course(scenario.departure_radial_deg - 10), EXACT),
    }  # fmt: skip


def flown(night, values):
    """Return what breaks where the flown values of the arc are flown step by step: (name, miles, degrees, seconds)."""
    scenario = night.scenario
    ship, wind, arc = scenario.ship, _wind(scenario.weather), values["airwing.departure_arc_nm"]
    way, degrees = (1 if night["arc_way"] > 0 else -1), night["arc_degrees"]
    tas, found = night["arc_tas"], []
    onto = Flight(ship.brc_deg, ship.speed_kn, radial_deg=ship.brc_deg, distance_nm=_flown(night, "arc_turn"))
    heading = heading_along(ship.brc_deg, tas, onto.drift(wind, over_ship=True))
    off = onto.turn(heading, way * HALF_RATE, 180, tas, wind) - arc
    found += [("arc_turn", off)] if abs(off) > 0.05 else []
    radial = scenario.departure_radial_deg
    begin = radial - way * _flown(night, "arc_lead")
    leave = Flight(ship.brc_deg, ship.speed_kn, radial_deg=begin, distance_nm=arc)
    heading, end = (
        heading_along(course, tas, leave.drift(wind, over_ship=True)) for course in (begin + way * 90, radial)
    )
    leave.turn(heading, -way * HALF_RATE, abs(_difference(heading, end)), tas, wind)
    off = _difference(radial, leave.radial_deg)
    found += [("arc_lead", off)] if abs(off) > 0.3 else []
    along, gone = Flight(ship.brc_deg, ship.speed_kn, radial_deg=ship.brc_deg, distance_nm=arc), 0.0
    drift, aimed = along.drift(wind, over_ship=True), 0.0
    while gone < degrees:
        before = along.radial_deg
        if along.seconds >= aimed:  # every other second, and back onto the arc where it drifts off
            course = before + way * (90 + (along.beacon_nm - arc) * 40)
            moves, aimed = along.moves(heading_along(course, tas, drift), tas, wind), along.seconds + 2
        along.moved(moves)
        gone += abs(_difference(before, along.radial_deg))
    off = along.seconds - _flown(night, "arc_time")
    return found + ([("arc_time", off)] if abs(off) > 2 else [])


def _flown(night, name):
    from trainer.practice.night.evening.numbers import NUMBERS

    return NUMBERS[name].flown(night)


def _marshal(scenario, values, found):
    stack, times = scenario.stack, scenario.times
    bearing = _course(scenario.ship.brc_deg - scenario.ship.deck_angle_deg)
    radial = _course(bearing + 180)
    hold_s = (_own_push(scenario) - times.fix_clock) * 60
    fits = [count for count in range(1, 40) if hold_s / count >= 240]
    patterns = min(fits, key=lambda count: (abs(hold_s / count - 360), count))
    tas = true_airspeed(values["airwing.push_airspeed_kn"], stack.angels * 1000)
    ship, aloft = scenario.ship, _aloft(scenario.weather)
    drift = Flight(ship.brc_deg, ship.speed_kn).drift(aloft, over_ship=True)
    axis = vector(bearing, 1)
    behind = drift[0] * axis[0] + drift[1] * axis[1]  # with you on the inbound leg
    # Along the axis: (tas + behind) in = (tas - behind) out - behind x the two turns; in and out make up the rest.
    straight = hold_s / patterns - 240
    out = (straight * (tas + behind) + 240 * behind) / (2 * tas)
    return {
        "marshal_radial": (radial, EXACT), "inbound_course": (bearing, EXACT),
        "fix_distance": (stack.angels + 15, EXACT), "push": (_own_push(scenario) % 60, EXACT),
        "patterns": (patterns, EXACT), "leg": (straight / 2, 2.6), "hold_tas": (tas, 0.2),
        "leg_out": (out, 1.1), "leg_in": (straight - out, 1.1),
    }  # fmt: skip


def _descent(scenario, values, found):
    ship, speed = scenario.ship, values["airwing.push_airspeed_kn"]
    course, aloft = found["inbound_course"][0], _aloft(scenario.weather)
    top, gate = scenario.stack.angels * 1000, values["airwing.gate_ft"]
    down = Flight(ship.brc_deg, ship.speed_kn, radial_deg=course + 180, distance_nm=top / 1000 + 15, feet=top)
    fix = down.beacon_nm
    down.fly(course, speed, aloft, lambda f: f.feet <= 5000, climb_ft_min=-values["airwing.penetration_rate_ft_min"])
    platform, first = down.beacon_nm, down.seconds
    down.fly(
        course, speed, _wind(scenario.weather), lambda f: f.feet <= gate,
        climb_ft_min=-values["airwing.platform_rate_ft_min"],
    )  # fmt: skip
    level, second = down.beacon_nm, down.seconds - first
    per_foot = math.tan(math.radians(scenario.ship.glide_slope_deg)) * 1852 / 0.3048
    return {
        "descent_tas": (true_airspeed(speed, (top + 5000) / 2), 0.2),
        "gate_tas": (true_airspeed(speed, (gate + 5000) / 2), 0.2),
        "closing": ((fix - platform) / first * 3600, 2.0), "gate_closing": ((platform - level) / second * 3600, 2.0),
        # shown to a tenth; the speed to a knot, for the middle of the descent (0.8 kt off its mean from angels 19)
        "platform": (platform, 0.06 + 1.3 * first / 3600), "level_off": (level, 0.2),
        "tip_over": (gate / per_foot, 0.06),
    }  # fmt: skip


def _fuel(scenario, values, tables, found):
    times, load = scenario.times, scenario.load
    per_minute = values["airframe.cruise_flow_lb_h"] / 60
    taxi, pattern = values["airframe.taxi_fuel_lb"], values["airframe.pass_fuel_lb"]
    to_fix = _up(per_minute * (times.fix_clock - times.launch_clock), 10)
    hold_min = _own_push(scenario) - times.fix_clock
    hold, burn = hold_min * values["airframe.hold_flow_lb_h"] / 60, values["airframe.approach_burn_lb"]
    ball = _down(load.fuel_lb - taxi - to_fix - hold - burn, 100)
    bingo = _up(_line(tables["airframe.bingo"], scenario.divert.distance_nm), 100)
    wanted = _up(bingo + 2 * pattern, 100)
    return {
        "check_in_burn": (_up(per_minute * (times.check_in_clock - times.launch_clock), 10), EXACT),
        "fix_burn": (to_fix, EXACT), "ball_fuel": (ball, EXACT), "bingo": (bingo, EXACT),
        "wanted_ball_fuel": (wanted, EXACT), "ladder_push": (_up(wanted + burn, 100), EXACT),
        "ladder_fix": (_up(wanted + burn + hold, 100), EXACT), "passes": (math.floor((ball - bingo) / pattern), EXACT),
        "final_bearing": (_course(scenario.ship.brc_deg - scenario.ship.deck_angle_deg), EXACT),
    }  # fmt: skip


def _ball(scenario, values, tables, found):
    empty = values["airframe.basic_weight_lb"] + values["airframe.crew_lb"]
    weight = empty + scenario.load.retained_stores_lb + found["ball_fuel"][0]
    on_speed = _to(_line(tables["airframe.approach_speed"], _to(weight, 100)), 1)
    closure = on_speed - _to(found["angle_wind"][0], 1)
    return {
        "landing_weight": (weight, 51), "on_speed": (on_speed, 1.01), "closure": (closure, 1.01),
        # down the slope at the closure; the rule that is asked (six times it at 3.5 degrees) is 3 % below
        "sink_rate": (closure * 1852 / 0.3048 / 60 * math.tan(math.radians(scenario.ship.glide_slope_deg)), 25),
    }  # fmt: skip


def _divert(scenario, values, tables, found):
    divert, weather = scenario.divert, scenario.weather
    across = vector(divert.runway_deg + 90, 1)
    blow = blown(_wind(weather))
    feet = values["airframe.divert_altitude_ft"]
    there = Flight(0.0, 0.0, feet=feet)
    there.fly(divert.bearing_deg, values["airwing.push_airspeed_kn"], _aloft(weather),
              lambda f: f.beacon_nm >= divert.distance_nm)  # fmt: skip
    channel = scenario.flight.lead_channel
    return {
        "divert_tas": (true_airspeed(values["airwing.push_airspeed_kn"], feet), 0.2),
        "divert_time": (there.seconds / 60, 0.12), "divert_speed": (divert.distance_nm / there.seconds * 3600, 1.0),
        "divert_crosswind": (-(blow[0] * across[0] + blow[1] * across[1]), 0.51),
        "partner": (channel + 63 if channel <= 63 else channel - 63, EXACT),
    }  # fmt: skip


def _pattern(scenario, values, found):
    flight = scenario.flight
    return {
        "downwind": (_course(scenario.ship.brc_deg + 180), EXACT),
        "break_spacing": (flight.break_interval_s * flight.break_airspeed_kn / 3600, 0.026),
        "groove": (15 * found["closure"][0] / 3600, 0.011),
    }  # fmt: skip
