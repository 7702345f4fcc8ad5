"""The sortie home: check-in, and marshal or the overhead."""

from trainer.practice.night.evening.night import Night
from trainer.practice.night.sortie.approach import approach
from trainer.practice.night.sortie.log import klb, say
from trainer.practice.night.wording import ROMAN

TRANSIT_ANGELS = 20.0  # higher than any stack that is drawn


def fly(log, nights):
    """Write the events from check-in to the groove; ``nights`` is the evening after each disturbance, by kind."""
    night = check_in(log, nights)
    (overhead if night.scenario.case == 1 else marshal)(log, nights, night)
    approach(log, nights)


class Nights:
    """The evening as briefed and after what goes wrong, in the order in which it does."""

    def __init__(self, scenario, library):
        self.scenario = scenario
        self.briefed = Night(scenario, library)
        self.after_case = Night(scenario.after("case"), library)
        self.after_deck = Night(scenario.after("case", "foul deck"), library)
        self.last = Night(scenario.stages()[-1], library)

    def has(self, kind):
        """Return whether this goes wrong tonight."""
        return self.scenario.disturbance(kind) is not None


def check_in(log, nights):
    """Inside fifty miles: the clock, where you are, what is left; return the evening as it stands then."""
    night, scenario = nights.after_case, nights.scenario
    times = scenario.times
    log.phase("check-in", times.check_in_clock - 2)
    ship_minute = (times.check_in_clock - 2) % 60
    own = (ship_minute * 60 + scenario.clock_error_s) % 3600
    log.tell("The mission is flown, the stores are spent but those you keep. Inbound, alone.")
    log.compute("time-hack",
                f"Ship's hack: {say(ship_minute, 'minute')} exactly. Your clock reads"
                f" {say(own // 60, 'minute')}:{own % 60:02.0f}. How many seconds do you add to it?",
                own_minute=own // 60, own_second=own % 60, ship_minute=ship_minute, ship_second=0.0)  # fmt: skip
    log.at(times.check_in_clock)
    log.number(nights.briefed, "check_in_burn", "burn-rounded-up",
               f"{night.said('airframe.cruise_flow_lb_h')} for"
               f" {say(times.check_in_clock - times.launch_clock, 'min')} since the launch. Fuel burnt, rounded as"
               " planning rounds?")  # fmt: skip
    fuel = nights.briefed.fuel_at_check_in_lb
    log.tell(
        f"{say(scenario.load.fuel_lb, 'lb')} in the chocks, {night.said('airframe.taxi_fuel_lb')} to taxi and"
        f" {nights.briefed.text('check_in_burn')} since the launch leave {say(fuel, 'lb')}."
    )
    log.compute("state-to-say", f"{say(fuel, 'lb')}. Which state do you give?", fuel_lb=fuel)
    radial = scenario.check_in_radial_deg
    bearing = (radial + 179) % 360 + 1
    log.compute("position-from-mother",
                f"The needle to the ship points to {say(bearing, 'heading')}. Which radial do you report?",
                bearing_to_ship_deg=bearing)  # fmt: skip
    _report(log, night, radial, klb(fuel))
    if nights.has("case"):
        _weather_down(log, nights)
    log.number(night, "final_bearing", "final-bearing-easy",
               f"BRC {say(night.scenario.ship.brc_deg, 'heading')}, landing area"
               f" {night.scenario.ship.deck_angle_deg:g}° to the left. Which final bearing do you expect?")  # fmt: skip
    if night.scenario.case == 3 and "copy-marshal-night" in log.library.drills:
        _copy(log, night)
    else:
        log.tell(*instructions(night))
    return night


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


def _report(log, night, radial, state_klb):
    scenario = night.scenario
    if scenario.case == 1:
        log.flow("check-in-training-list")
        return
    log.flow("marshal-check-in")
    log.call("call-check-in",
             call_sign=scenario.flight.call_sign, side_number=scenario.flight.side_number, radial_deg=radial,
             distance_nm=scenario.check_in_distance_nm, angels=TRANSIT_ANGELS, state_klb=state_klb)  # fmt: skip


def _weather_down(log, nights):
    night = nights.after_case
    weather = night.scenario.weather
    log.disturb(f'"99, the weather has gone down: ceiling {say(weather.ceiling_ft, "ft")}, visibility'
                f' {say(weather.visibility_nm, "nm")}."')  # fmt: skip
    log.number(night, "case", "case-by-the-clock",
               f"The recovery is at about {say(night.push_clock % 1440, 'clock')}, sunset"
               f" {say(weather.sunset_clock, 'clock')}. Which Case is it now?")  # fmt: skip


def overhead(log, nights, night):
    """Case I: the delta pattern, and the Charlie."""
    times = night.scenario.times
    log.phase("marshal", times.fix_clock)
    log.tell(f"Overhead at angels {night.scenario.stack.angels:g}, ship in sight.")
    log.some(2, "overhead-turns", "overhead-ship-clock", "overhead-diameter", "overhead-separation", "overhead-speed")
    log.at(times.fix_clock + 1)
    _charlie(log, night, times.fix_clock + 1)
    _on_the_ball(log, night, "ball_fuel")
    _with_tanker(log, night)
    if nights.has("foul deck"):
        night = nights.after_deck
        log.at(times.fix_clock + 3)
        log.disturb('The tower: "Delta, delta. Foul deck." Then:')
        _charlie(log, night, times.fix_clock + 3)
        _on_the_ball(log, night, "ball_fuel")


def _charlie(log, night, now):
    number = night.land_clock - now
    log.compute("charlie-clock",
                f"It is {say(now % 1440, 'clock')}. \"Charlie {number:g}.\" When are you to land, on the clock?",
                now_min=now % 1440, charlie=number)  # fmt: skip


def marshal(log, nights, night):
    """Case II and III: the fix, the push, the fuel, the holding."""
    times = night.scenario.times
    log.phase("marshal", times.check_in_clock + 1)
    log.number(night, "marshal_radial", "marshal-radial-easy",
               f"Expected final bearing {night.text('final_bearing')}. Marshal radial?")  # fmt: skip
    log.number(night, "inbound_course", "inbound-at-the-fix",
               f"You hold on the {night.text('marshal_radial')} radial. Inbound course?")  # fmt: skip
    log.number(night, "fix_distance", "fix-from-angels", f"Angels {night.scenario.stack.angels:g}. Your fix?")
    _push(log, night)
    log.at(times.check_in_clock + 3)
    _fuel(log, night)
    log.at(times.fix_clock - 1)
    if nights.has("foul deck"):
        night = nights.after_deck
        delay = nights.scenario.disturbance("foul deck").delay_min
        first = say(night.inputs("push")["first_push_minute"], "minute")
        log.disturb(f'"99, foul deck. All push times {delay:g} minutes later, the lowest pushes at {first}."')
        _push(log, night)
        _on_the_ball(log, night, "ball_fuel")
    log.at(times.fix_clock)
    _hold(log, night)
    log.at(night.push_clock - 3)
    log.flow("hold-and-push")
    log.recall("lost-communications-push")
    log.at(night.push_clock)
    state = klb(night["ball_fuel"] + night.value("airframe.approach_burn_lb"))
    weather = night.scenario.weather
    log.call("call-commencing",
             side_number=night.scenario.flight.side_number, state_klb=state,
             altimeter_inhg=weather.altimeter_inhg)  # fmt: skip


def _push(log, night):
    stack, first = night.scenario.stack, night.inputs("push")["first_push_minute"]
    log.number(night, "push", "push-easy",
               f"The lowest pushes at {say(first, 'minute')}, interval {say(stack.interval_min, 'min')}, you are number"
               f" {stack.position:g} from the bottom. Your push?")  # fmt: skip


def _fuel(log, night):
    pattern = night.said("airframe.pass_fuel_lb")
    log.number(night, "wanted_ball_fuel", "fuel-for-passes",
               f"Bingo {night.text('bingo')}, a bolter pattern costs {pattern}. What must be on the ball for two of"
               " them?")  # fmt: skip
    log.number(night, "ladder_fix", "ladder-fix",
               f"{night.text('wanted_ball_fuel')} on the ball, {night.said('airframe.approach_burn_lb')} for"
               f" the approach, {say(night.hold_min, 'min')} of holding at"
               f" {night.said('airframe.hold_flow_lb_h')}. Needed at the fix?")  # fmt: skip
    _on_the_ball(log, night, "ball_fuel")
    _with_tanker(log, night)


def _on_the_ball(log, night, name):
    log.number(night, name, "fuel-on-the-ball",
               f"You will have {say(night.fuel_at_fix_lb, 'lb')} when the holding begins;"
               f" {say(night.hold_min, 'min')} of it at {night.said('airframe.hold_flow_lb_h')}, and"
               f" {night.said('airframe.approach_burn_lb')} to the ball. Fuel on the ball?")  # fmt: skip


def _with_tanker(log, night):
    give = night.scenario.tanker_give_lb
    ball, bingo = night["ball_fuel"], night["bingo"]
    log.compute("passes-left",
                f"{say(ball, 'lb')} on the ball and {say(give, 'lb')} from the tanker make {say(ball + give, 'lb')};"
                f" bingo {say(bingo, 'lb')}, {night.said('airframe.pass_fuel_lb')} a pattern. How many bolter"
                " patterns before bingo?",
                ball_fuel_lb=ball + give, bingo_lb=bingo)  # fmt: skip


def _hold(log, night):
    times = night.scenario.times
    now, push = times.fix_clock % 60, night["push"]
    log.compute("time-to-lose-easy",
                f"Over the fix at {say(now, 'minute')}, push {say(push, 'minute')}. Time to lose?",
                now_minute=now, now_second=0.0, push_minute=push, push_second=0.0)  # fmt: skip
    hold = say(night.hold_min * 60, "s")
    log.number(night, "patterns", "hold-patterns",
               f"{hold} to lose, two-minute turns, six-minute pattern as usual. How many equal patterns?")  # fmt: skip
    log.number(night, "leg", "hold-legs",
               f"{hold} in {night.text('patterns')} equal pattern{'s' if night['patterns'] > 1 else ''}, two-minute"
               " turns. Seconds of each leg?")  # fmt: skip
