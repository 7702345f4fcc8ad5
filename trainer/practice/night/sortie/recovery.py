"""The end of the sortie: the ball, bolters and what is decided after them, the trap – or the divert."""

from trainer.practice.night.evening import moments
from trainer.practice.night.evening.numbers import POWER_LB, clock
from trainer.practice.night.sortie.log import klb, say

BETWEEN_PASSES_MIN = 5
DECIDED_MIN = 1  # from the ball to the decision


def fly(log, nights):
    """Write the events from the ball to the chocks, or to the divert field, into ``log``."""
    night, scenario = nights.last, nights.scenario
    ball_clock = night.ball_clock
    log.phase("recovery", ball_clock)
    log.some(1, "clara-when", "lso-power", "low-slow-first", "touchdown-power")
    for bolter in range(scenario.bolters):
        _ball(log, night, bolter)
        log.at(ball_clock + bolter * BETWEEN_PASSES_MIN + DECIDED_MIN)
        _bolter(log, nights, bolter + 1)
        if bolter + 1 < scenario.bolters or scenario.ending == "trap":
            log.at(ball_clock + (bolter + 1) * BETWEEN_PASSES_MIN)
    if scenario.ending == "divert":
        _divert(log, night, ball_clock + (scenario.bolters - 1) * BETWEEN_PASSES_MIN + DECIDED_MIN)
        return
    _ball(log, night, scenario.bolters)
    log.tell("A wire.")
    log.flow("trap-and-clear")
    log.phase("shutdown", ball_clock + scenario.bolters * BETWEEN_PASSES_MIN + 2)
    log.flow("wires-to-chocks")
    log.some(1, "signal-hook-up", "foul-line", "pull-back-means")
    log.recall("signal-shut-down")
    log.tell("Chained, shut down. You walk back the way you came.")
    log.close()


def _state(night, bolters):
    """Return the fuel on the ball after ``bolters`` patterns."""
    return night["ball_fuel"] - bolters * night.value("airframe.pass_fuel_lb")


def _ball(log, night, bolters):
    flight, state = night.scenario.flight, klb(_state(night, bolters))
    if bolters == 0:
        log.flow("ball-call")
    log.call("call-the-ball",
             side_number=flight.side_number, type_name=flight.type_name, state_klb=state)  # fmt: skip


def _bolter(log, nights, count):
    """No wire; whether there is another pattern is decided before it is flown."""
    night, scenario = nights.last, nights.scenario
    visual = night.scenario.case != 3
    airborne, after = _state(night, count - 1) - POWER_LB, _state(night, count)
    log.disturb("No wire: bolter." if count == 1 else "No wire again.")
    if count == 1:
        log.flow("bolter-case-1" if visual else "bolter-case-3")
    if not visual:
        log.call("call-bolter",
                 f"Climbing ahead, side number {scenario.flight.side_number:.0f}, the gauge shows"
                 f" {say(airborne, 'lb')}. Tell approach.",
                 side_number=scenario.flight.side_number, state_klb=klb(airborne))  # fmt: skip
    log.compute("bingo-or-continue",
                f"The gauge shows {say(airborne, 'lb')}. Another pattern would bring you to the ball with"
                f" {say(after, 'lb')}; bingo {night.text('bingo')}, and no tanker. Divert or continue?",
                state_lb=after, bingo_lb=night["bingo"], in_groove=0.0)  # fmt: skip


def _divert(log, night, at):
    divert, weather = night.scenario.divert, night.scenario.weather
    log.phase("divert", at)
    log.tell("You divert.")
    log.flow("bingo")
    log.some(2, "bingo-first", "bingo-squawk", "bingo-from-180")
    high = say(moments.divert_altitude_ft(night), "ft")
    log.number(night, "divert_time", "time-to-go",
               f"{divert.title} is {say(divert.distance_nm, 'nm')} away; at {high} and"
               f" {night.said('airwing.push_airspeed_kn')} indicated the wind leaves {night.text('divert_speed')} over"
               " the ground. How long?")  # fmt: skip
    log.at(at + night["divert_time"])
    log.number(night, "divert_crosswind", "divert-crosswind",
               f"{divert.title} lands {say(divert.runway_deg, 'heading')}, wind"
               f" {say(weather.wind_from_deg, 'heading')} at {say(weather.wind_speed_kn, 'kn')}. Crosswind, from the"
               " right positive?")  # fmt: skip
    log.tell(f"On the ground at {divert.name}, {say(clock(round(at + night['divert_time'])), 'clock')}. The aircraft"
             " is safe, and so are you.")  # fmt: skip
    log.close()
