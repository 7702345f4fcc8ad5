"""The sortie home: the check-in with marshal, the clock, where you are, what is left."""

from trainer.practice.night.evening.numbers import clock
from trainer.practice.night.sortie import holding, outbound
from trainer.practice.night.sortie.approach import approach
from trainer.practice.night.sortie.log import klb, say
from trainer.practice.night.wording import ROMAN


def fly(log, nights):
    """Write the events from check-in to the groove into ``log``."""
    check_in(log, nights)
    if nights.once("case").scenario.case == 1:
        holding.overhead(log, nights)
    else:
        holding.marshal(log, nights)
    approach(log, nights)


def check_in(log, nights):
    """Inside fifty miles: the clock, where you are, what is left, and marshal's answer."""
    night, scenario = nights.once("divert field"), nights.scenario
    times = scenario.times
    log.phase("check-in", times.check_in_clock - 2)
    log.tell("The mission is flown, the stores are spent but those you keep. Inbound, alone.")
    _hack(log, times.check_in_clock - 2, scenario.clock_error_s)
    if nights.has("divert field"):
        log.disturb(f'"99, {scenario.divert.name} has closed." {outbound.field(night.scenario.divert)}')
        outbound.bingo(log, night)
    log.at(times.check_in_clock)
    fuel = _fuel(log, nights.briefed)
    radial = scenario.inbound.radial_deg
    bearing = (radial + 179) % 360 + 1
    log.compute("position-from-mother",
                f"The needle to the ship points to {say(bearing, 'heading')}. Which radial do you report?",
                bearing_to_ship_deg=bearing)  # fmt: skip
    _report(log, night, klb(fuel))
    if nights.has("case"):
        _weather_down(log, nights.once("case"))
    _answer(log, nights.once("case"))


def _hack(log, at, error_s):
    ship_minute = at % 60
    own = (ship_minute * 60 + error_s) % 3600
    log.compute("time-hack",
                f"Ship's hack: {say(ship_minute, 'minute')} exactly. Your clock reads"
                f" {say(own // 60, 'minute')}:{own % 60:02.0f}. How many seconds do you add to it?",
                own_minute=own // 60, own_second=own % 60, ship_minute=ship_minute, ship_second=0.0)  # fmt: skip


def _fuel(log, night):
    """Ask what is burnt and which state it leaves; return the fuel in pounds."""
    times, load = night.scenario.times, night.scenario.load
    log.number(night, "check_in_burn", "burn-rounded-up",
               f"{night.said('airframe.cruise_flow_lb_h')} for"
               f" {say(times.check_in_clock - times.launch_clock, 'min')} since the launch. Fuel burnt, rounded as"
               " planning rounds?")  # fmt: skip
    fuel = night.fuel_at_check_in_lb
    log.tell(
        f"{say(load.fuel_lb, 'lb')} in the chocks, {night.said('airframe.taxi_fuel_lb')} to taxi and"
        f" {night.text('check_in_burn')} since the launch leave {say(fuel, 'lb')}."
    )
    log.compute("state-to-say", f"{say(fuel, 'lb')}. Which state do you give?", fuel_lb=fuel)
    return fuel


def _report(log, night, state_klb):
    scenario = night.scenario
    if scenario.case != 3:
        log.flow("check-in-controllers-list")
        return
    log.flow("marshal-check-in")
    log.call("call-check-in",
             call_sign=scenario.flight.call_sign, side_number=scenario.flight.side_number,
             radial_deg=scenario.inbound.radial_deg, distance_nm=scenario.inbound.distance_nm,
             angels=scenario.inbound.angels, state_klb=state_klb)  # fmt: skip


def _weather_down(log, night):
    weather = night.scenario.weather
    log.disturb(f'"99, the weather has gone down: ceiling {say(weather.ceiling_ft, "ft")}, visibility'
                f' {say(weather.visibility_nm, "nm")}."')  # fmt: skip
    log.number(night, "case", "case-by-the-clock",
               f"The recovery is at about {say(clock(night.push_clock), 'clock')}, sunset"
               f" {say(weather.sunset_clock, 'clock')}. Which Case is it now?")  # fmt: skip


def _answer(log, night):
    """Marshal's answer: at night, and in the weather, it is copied by ear."""
    ship = night.scenario.ship
    log.number(night, "final_bearing", "final-bearing-easy",
               f"BRC {say(ship.brc_deg, 'heading')}, landing area {ship.deck_angle_deg:g}° to the left. Which final"
               " bearing do you expect?")  # fmt: skip
    if night.scenario.case == 3 and "copy-marshal-night" in log.library.drills:
        _copy(log, night)
    else:
        log.tell(*instructions(night))


def _copy(log, night):
    """Have marshal's answer copied by ear; what was copied wrongly is told, and stands in the questions to come."""
    scenario = night.scenario
    log.call(
        "copy-marshal-night",
        side_number=scenario.flight.side_number,
        bearing_deg=night["final_bearing"],
        altimeter_inhg=scenario.weather.altimeter_inhg,
        angels=scenario.stack.angels,
        place=scenario.stack.position,
        first_minute=scenario.times.first_push_clock % 60,
        button=scenario.flight.approach_button,
    )


def instructions(night):
    """Return what marshal answers."""
    scenario = night.scenario
    stack, altimeter, side = scenario.stack, scenario.weather.altimeter_inhg, scenario.flight.side_number
    if scenario.case == 1:
        return (
            f'Marshal: "{side:.0f}, Case I recovery, angels {stack.angels:g} overhead, altimeter {altimeter:.2f}, BRC'
            f' {say(scenario.ship.brc_deg, "heading")}, see me at ten."',
        )
    first = say(scenario.times.first_push_clock % 60, "minute")
    return (
        f'Marshal: "{side:.0f}, Case {ROMAN[scenario.case]} recovery, expected final bearing'
        f" {night.text('final_bearing')}, altimeter {altimeter:.2f}. Marshal angels {stack.angels:g}. The lowest pushes"
        f' at {first}, you are number {stack.position:g} from the bottom, interval {say(stack.interval_min, "min")}."',
    )
