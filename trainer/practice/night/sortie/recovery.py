"""The end of the sortie: the ball, bolters, the tanker that is sour, the trap – or the divert."""

from trainer.practice.night.sortie.log import klb, say

BETWEEN_PASSES_MIN = 5
APPROACH_MIN = {1: 5, 2: 9, 3: 9}  # from the push to the ball
DIVERT_GROUNDSPEED_KN = 360.0
POWER_LB = 100.0  # from the ball to the call after a bolter; a figure of ours


def fly(log, nights):
    """Write the events from the ball to the chocks, or to the divert field, into ``log``."""
    night, scenario = nights.last, nights.scenario
    ball_clock = night.push_clock + APPROACH_MIN[night.scenario.case]
    log.phase("recovery", ball_clock)
    log.some(1, "clara-when", "own-waveoff", "low-slow-first", "touchdown-power")
    for bolter in range(scenario.bolters):
        _ball(log, night, bolter)
        log.at(ball_clock + bolter * BETWEEN_PASSES_MIN + 1)
        _bolter(log, nights, bolter + 1)
        log.at(ball_clock + (bolter + 1) * BETWEEN_PASSES_MIN)
    if scenario.ending == "divert":
        _divert(log, night, ball_clock + scenario.bolters * BETWEEN_PASSES_MIN - 3)
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
    night, scenario = nights.last, nights.scenario
    visual = night.scenario.case != 3
    before, after = _state(night, count - 1), _state(night, count)
    airborne = before - POWER_LB
    log.disturb("No wire: bolter." if count == 1 else "No wire again.")
    if count == 1:
        log.flow("bolter-case-1" if visual else "bolter-case-3")
    if not visual:
        log.call("call-bolter",
                 f"Climbing ahead, side number {scenario.flight.side_number:.0f}, the gauge shows"
                 f" {say(airborne, 'lb')}. Tell approach.",
                 side_number=scenario.flight.side_number, state_klb=klb(airborne))  # fmt: skip
    if count == 1 and nights.has("tanker sour"):
        log.disturb(f'"The tanker is sour, nothing to give." The {say(scenario.tanker_give_lb, "lb")} are gone'
                    " from your plan.")  # fmt: skip
        log.compute("passes-left",
                    f"You had {say(before, 'lb')} on that ball; bingo {night.text('bingo')},"
                    f" {night.said('airframe.pass_fuel_lb')} a pattern. How many bolter patterns before bingo"
                    " was that, without the tanker?",
                    ball_fuel_lb=before, bingo_lb=night["bingo"])  # fmt: skip
    log.compute("bingo-or-continue",
                f"Abeam again the gauge shows {say(after, 'lb')}; bingo {night.text('bingo')}. Divert or continue?",
                state_lb=after, bingo_lb=night["bingo"], in_groove=0.0)  # fmt: skip


def _divert(log, night, at):
    divert, weather = night.scenario.divert, night.scenario.weather
    log.phase("divert", at)
    log.tell("You are at bingo.")
    log.flow("bingo")
    log.some(2, "bingo-first", "bingo-squawk", "bingo-join", "bingo-from-180")
    minutes = divert.distance_nm / DIVERT_GROUNDSPEED_KN * 60
    log.compute("time-to-go",
                f"{divert.title} is {say(divert.distance_nm, 'nm')} away, {say(DIVERT_GROUNDSPEED_KN, 'kn')} over the"
                " ground. How long?",
                distance_nm=divert.distance_nm, groundspeed_kn=DIVERT_GROUNDSPEED_KN)  # fmt: skip
    log.at(at + minutes)
    log.number(night, "divert_crosswind", "divert-crosswind",
               f"{divert.title} lands {say(divert.runway_deg, 'heading')}, wind"
               f" {say(weather.wind_from_deg, 'heading')} at {say(weather.wind_speed_kn, 'kn')}. Crosswind, from the"
               " right positive?")  # fmt: skip
    log.tell(f"On the ground at {divert.name}. The aircraft is safe, and so are you.")
    log.close()
