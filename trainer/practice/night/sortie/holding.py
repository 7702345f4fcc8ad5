"""The sortie home: holding, in the marshal stack or in the overhead, and the fuel that it leaves."""

from trainer.practice.night.evening.numbers import clock
from trainer.practice.night.sortie.log import klb, say


def overhead(log, nights):
    """Case I: the delta pattern, and the Charlie."""
    night = nights.once("case")
    times = night.scenario.times
    log.phase("marshal", times.fix_clock)
    log.tell(f"Overhead at angels {night.scenario.stack.angels:g}, ship in sight.")
    log.some(2, "overhead-turns", "overhead-ship-clock", "overhead-diameter", "overhead-separation", "overhead-speed")
    log.at(times.fix_clock + 1)
    _charlie(log, night, times.fix_clock + 1)
    _on_the_ball(log, night)
    _with_tanker(log, nights, night)
    if nights.has("foul deck"):
        night = nights.once("foul deck")
        log.at(times.fix_clock + 3)
        log.disturb('The tower: "Delta, delta. Foul deck." Then:')
        _charlie(log, night, times.fix_clock + 3)
        _on_the_ball(log, night)
    _tanker_sour(log, nights)


def _charlie(log, night, now):
    number = night.land_clock - now
    log.compute("charlie-clock",
                f"It is {say(clock(now), 'clock')}. \"Charlie {number:g}.\" When are you to land, on the clock?",
                now_min=clock(now), charlie=number)  # fmt: skip


def marshal(log, nights):
    """Case II and III: the fix, the push, the fuel, the holding."""
    night = nights.once("case")
    times = night.scenario.times
    log.phase("marshal", times.check_in_clock + 1)
    log.number(night, "marshal_radial", "marshal-radial-easy",
               f"Expected final bearing {night.text('final_bearing')}. Marshal radial?")  # fmt: skip
    log.number(night, "inbound_course", "inbound-at-the-fix",
               f"You hold on the {night.text('marshal_radial')} radial. Inbound course?")  # fmt: skip
    _fix(log, night)
    _push(log, night)
    night = _moved(log, nights, night)
    log.at(times.check_in_clock + 2)
    _needed(log, night)
    _on_the_ball(log, night)
    _with_tanker(log, nights, night)
    if nights.has("foul deck"):
        night = nights.once("foul deck")
        delay = nights.scenario.disturbance("foul deck").delay_min
        first = say(night.inputs("push")["first_push_minute"], "minute")
        log.disturb(f'"99, foul deck. All push times {delay:g} minutes later, the lowest pushes at {first}."')
        _push(log, night)
        _on_the_ball(log, night)
    _tanker_sour(log, nights)
    log.at(times.fix_clock)
    _hold(log, night)
    _leave(log, night)


def _fix(log, night):
    log.number(night, "fix_distance", "fix-from-angels", f"Angels {night.scenario.stack.angels:g}. Your fix?")


def _moved(log, nights, night):
    """Another interval, or another level; return the night as it stands then."""
    side = night.scenario.flight.side_number
    if nights.has("interval"):
        night = nights.once("interval")
        log.disturb(f'"99, the interval is {say(night.scenario.stack.interval_min, "min")} now."')
        _push(log, night)
    if nights.has("level"):
        night = nights.once("level")
        stack = night.scenario.stack
        log.disturb(f'"{side:.0f}, take angels {stack.angels:g}. You are number {stack.position:g} from the bottom."')
        _fix(log, night)
        _push(log, night)
    return night


def _push(log, night):
    stack, first = night.scenario.stack, night.inputs("push")["first_push_minute"]
    log.number(night, "push", "push-easy",
               f"The lowest pushes at {say(first, 'minute')}, interval {say(stack.interval_min, 'min')}, you are number"
               f" {stack.position:g} from the bottom. Your push?")  # fmt: skip


def _needed(log, night):
    pattern = night.said("airframe.pass_fuel_lb")
    log.number(night, "wanted_ball_fuel", "fuel-for-passes",
               f"Bingo {night.text('bingo')}, a bolter pattern costs {pattern}. What must be on the ball for two of"
               " them?")  # fmt: skip
    log.number(night, "ladder_fix", "ladder-fix",
               f"{night.text('wanted_ball_fuel')} on the ball, {night.said('airframe.approach_burn_lb')} for"
               f" the approach, {say(night.hold_min, 'min')} of holding at"
               f" {night.said('airframe.hold_flow_lb_h')}. Needed at the fix?")  # fmt: skip


def _on_the_ball(log, night):
    log.number(night, "ball_fuel", "fuel-on-the-ball",
               f"You will have {say(night.fuel_at_fix_lb, 'lb')} when the holding begins;"
               f" {say(night.hold_min, 'min')} of it at {night.said('airframe.hold_flow_lb_h')}, and"
               f" {night.said('airframe.approach_burn_lb')} to the ball. Fuel on the ball?")  # fmt: skip


def _with_tanker(log, nights, night):
    give = nights.scenario.tanker_give_lb
    ball, bingo = night["ball_fuel"], night["bingo"]
    log.compute("passes-left",
                f"{say(ball, 'lb')} on the ball and {say(give, 'lb')} from the tanker make {say(ball + give, 'lb')};"
                f" bingo {say(bingo, 'lb')}, {night.said('airframe.pass_fuel_lb')} a pattern. How many bolter"
                " patterns before bingo?",
                ball_fuel_lb=ball + give, bingo_lb=bingo)  # fmt: skip


def _tanker_sour(log, nights):
    if not nights.has("tanker sour"):
        return
    night = nights.once("tanker sour")
    ball, bingo = night["ball_fuel"], night["bingo"]
    log.disturb(f'"99, the tanker is sour, nothing to give." The {say(nights.scenario.tanker_give_lb, "lb")} are gone'
                " from your plan.")  # fmt: skip
    log.compute("passes-left",
                f"{say(ball, 'lb')} on the ball, bingo {say(bingo, 'lb')},"
                f" {night.said('airframe.pass_fuel_lb')} a pattern. How many bolter patterns before bingo is that"
                " without the tanker?",
                ball_fuel_lb=ball, bingo_lb=bingo)  # fmt: skip


def _hold(log, night):
    times = night.scenario.times
    now, push = times.fix_clock % 60, night["push"]
    second = round(push % 1 * 60)
    log.compute("time-to-lose-easy",
                f"Over the fix at {say(now, 'minute')}, push {say(push, 'minute')}. Time to lose?",
                now_minute=now, now_second=0.0, push_minute=float(push // 1), push_second=float(second))  # fmt: skip
    hold = say(night.hold_min * 60, "s")
    log.number(night, "patterns", "hold-patterns",
               f"{hold} to lose, two-minute turns, six-minute pattern as usual. How many equal patterns?")  # fmt: skip
    many = f"{night.text('patterns')} equal pattern{'s' if night['patterns'] > 1 else ''}"
    log.number(night, "leg", "hold-legs",
               f"{hold} in {many}, two-minute turns. Seconds of each leg, without wind?")  # fmt: skip
    against = night.inputs("leg_out")["headwind_inbound_kn"]
    log.number(night, "leg_out", "hold-legs-wind",
               f"{night['hold_tas']:.0f} kt true; wind and the ship's own way make {say(round(against), 'kn')} against"
               f" you inbound over the moving fix. {many.capitalize()} in {hold}: seconds outbound?")  # fmt: skip


def _leave(log, night):
    log.at(night.push_clock - 3)
    log.flow("hold-and-push")
    if night.is_dark(night.push_clock):
        log.recall("lost-communications-push")
    log.at(night.push_clock)
    state = klb(night["ball_fuel"] + night.value("airframe.approach_burn_lb"))
    log.call("call-commencing",
             side_number=night.scenario.flight.side_number, state_klb=state,
             altimeter_inhg=night.scenario.weather.altimeter_inhg)  # fmt: skip
