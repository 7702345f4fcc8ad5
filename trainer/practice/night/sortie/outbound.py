"""The sortie from the ready room to the mission: brief, man-up, catapult, departure."""

from trainer.practice.night.evening.numbers import clock
from trainer.practice.night.sortie.log import say


def fly(log, nights):
    """Write the events up to the end of the departure into ``log``."""
    brief(log, nights.briefed)
    man_up(log, nights.briefed)
    catapult(log, nights)
    departure(log, nights.once("radial"))


def brief(log, night):
    """The ready room: the evening is told, and what can be known beforehand is asked."""
    scenario = night.scenario
    ship, weather, flight = scenario.ship, scenario.weather, scenario.flight
    log.phase("brief", scenario.times.launch_clock - 90)
    log.tell(*situation(night))
    log.number(night, "case", "case-by-the-clock",
               f"The recovery is planned for about {say(clock(night.push_clock), 'clock')}. Which Case?")  # fmt: skip
    log.number(night, "wind_over_deck", "wod-speed",
               f"The ship on {say(ship.brc_deg, 'heading')} at {say(ship.speed_kn, 'kn')}, wind"
               f" {say(weather.wind_from_deg, 'heading')} at {say(weather.wind_speed_kn, 'kn')}:"
               " wind over deck?")  # fmt: skip
    log.number(night, "angle_crosswind", "angle-crosswind",
               f"It is felt {night.text('relative_wind')} off the bow (port is negative). Crosswind on the angle,"
               " from the right positive?")  # fmt: skip
    bingo(log, night)
    log.number(night, "max_trap_fuel", "max-trap-fuel-sum",
               f"Max trap {night.said('airframe.max_trap_weight_lb')}, basic"
               f" {night.said('airframe.basic_weight_lb')}, crew {night.said('airframe.crew_lb')},"
               f" and you bring back {say(scenario.load.retained_stores_lb, 'lb')} of stores. Most fuel to trap"
               " with?")  # fmt: skip
    log.number(night, "partner", "beacon-partner",
               f"On the way out you fly wing; your lead has air-to-air channel {flight.lead_channel:.0f}. Which do you"
               " set?")  # fmt: skip


def bingo(log, night):
    """Ask for the bingo of the divert field as it is now."""
    divert = night.scenario.divert
    log.number(night, "bingo", "bingo-fuel-table",
               f"{divert.title} will be {say(divert.distance_nm, 'nm')} away when you recover. Bingo, from your"
               " table?")  # fmt: skip


def situation(night):
    """Return the evening in four sentences: ship, weather, you, divert and tanker."""
    scenario = night.scenario
    ship, weather, times, flight = scenario.ship, scenario.weather, scenario.times, scenario.flight
    return (
        f"{ship.title or 'The ship'}: BRC {say(ship.brc_deg, 'heading')}, {say(ship.speed_kn, 'kn')};"
        f" landing area {ship.deck_angle_deg:g}° to the left; beacon channel {ship.beacon_channel:.0f}X.",
        f"Wind {say(weather.wind_from_deg, 'heading')} at {say(weather.wind_speed_kn, 'kn')}, aloft"
        f" {say(weather.aloft_from_deg, 'heading')} at {say(weather.aloft_speed_kn, 'kn')}; ceiling"
        f" {say(weather.ceiling_ft, 'ft')}, visibility {say(weather.visibility_nm, 'nm')}, altimeter"
        f" {weather.altimeter_inhg:.2f}. Sunrise {say(weather.sunrise_clock, 'clock')}, sunset"
        f" {say(weather.sunset_clock, 'clock')}.",
        f"You are {flight.call_sign} {flight.side_number:.0f} in a {flight.type_name}. Launch"
        f" {say(clock(times.launch_clock), 'clock')} off catapult {ship.catapult:.0f}, check-in"
        f" {say(clock(times.check_in_clock), 'clock')}.",
        f"{field(scenario.divert)} A tanker is airborne with {say(scenario.tanker_give_lb, 'lb')} to give.",
    )


def field(divert):
    """Return the divert field in a sentence."""
    return (
        f"Divert: {divert.name}, pigeons at the recovery {say(divert.bearing_deg, 'heading')} for"
        f" {say(divert.distance_nm, 'nm')}, runway {say(divert.runway_deg, 'heading')}."
    )


def man_up(log, night):
    """From the island to the catapult queue."""
    launch = night.scenario.times.launch_clock
    log.phase("man-up", launch - 45)
    log.tell("You walk.")
    log.flow("man-up")
    log.some(2, "escort-from-whom", "hook-point-greased", "start-signals-from", "chains-need-brakes")
    log.at(launch - 22)
    log.tell("Engines running, checks done.")
    log.flow("break-down-taxi")
    if night.is_dark(launch):
        log.some(2, "wand-launch-bar-down", "wand-wipe-out", "wand-flaps-down", "lost-director")
    else:
        log.some(2, "signal-spread-wings", "signal-steering-off", "lost-director")
    log.some(1, "brakes-failed-hook", "brakes-failed-light", "second-director")


def catapult(log, nights):
    """Behind the blast deflector, the board, the shuttle, the stroke."""
    night = nights.briefed
    load, launch = night.scenario.load, night.scenario.times.launch_clock
    log.phase("catapult", launch - 10)
    log.tell(f"Behind the blast deflector of catapult {night.scenario.ship.catapult:.0f}.")
    if nights.has("catapult"):
        taken = nights.once("catapult").scenario.ship.catapult
        log.disturb(f"The catapult is down; a director takes you to catapult {taken:.0f}.")
    log.number(night, "gross_weight", "gross-weight-after-taxi",
               f"Basic {night.said('airframe.basic_weight_lb')}, crew"
               f" {night.said('airframe.crew_lb')}, stores {say(load.stores_lb, 'lb')}; {say(load.fuel_lb, 'lb')} in"
               f" the chocks, {night.said('airframe.taxi_fuel_lb')} burnt to get here. Gross weight on the"
               " catapult?",
               state_klb=load.fuel_lb / 1000, taxi_lb=night.value("airframe.taxi_fuel_lb"))  # fmt: skip
    log.flow("take-off-checks")
    log.number(night, "trim", "trim-step-round",
               f"{night.text('gross_weight')}: take-off trim from the step table?")  # fmt: skip
    log.at(launch - 6)
    log.number(night, "board", "board-accept",
               f"The board shows {say(load.board_weight_lb, 'lb')}; yours is {night.text('gross_weight')}, the limit"
               f" {night.said('airframe.board_tolerance_lb')}. Accept, or have it changed up or"
               " down?")  # fmt: skip
    if night["board"]:
        log.tell(f"The crew changes the board; it shows {night.text('gross_weight')} now.")
    log.flow("weight-board")
    log.number(night, "endspeed", "end-speed-needed",
               f"Minimum end airspeed {night.said('airframe.min_end_airspeed_kn')}, excess"
               f" {night.said('airframe.excess_kn')}, {night.text('bow_wind')} down the bow. End speed"
               " needed?")  # fmt: skip
    log.at(launch - 4)
    log.flow("hook-up-catapult")
    _stroke(log, nights, launch)


def _stroke(log, nights, launch):
    log.at(launch - 2)
    if nights.has("suspend"):
        log.disturb("Tension is on, you are at full power – and the officer crosses his arms overhead.")
        log.flow("suspend-by-officer")
        log.recall("suspend-power")
        log.tell("The fault is found in a minute. Again.")
    log.at(launch - 1)
    dark = nights.briefed.is_dark(launch)
    if nights.has("radial"):
        radial = nights.once("radial").scenario.departure_radial_deg
        log.disturb(f'Departure: "{nights.scenario.flight.side_number:.0f}, your departure radial is now'
                    f' {say(radial, "heading")}."')  # fmt: skip
    log.flow("tension-night" if dark else "tension-day")
    log.recall("ready-night" if dark else "ready-day")


def departure(log, night):
    """From the bow to the mission."""
    scenario = night.scenario
    case, launch = scenario.case, scenario.times.launch_clock
    log.phase("departure", launch)
    log.tell(f"The stroke. Case {'I' * case} departure, BRC {say(scenario.ship.brc_deg, 'heading')}.")
    if case == 3:
        log.recall("departure-first-call")
        if night["clearing_side"] > 0:  # the drill asks about the bow
            log.recall("clearing-turn-case-3")
        log.number(night, "gate_climb", "gate-climb",
                   f"{night.said('airwing.first_gate_ft')} is wanted by {night.said('airwing.first_gate_nm')}; the"
                   f" beacon opens at {night.text('opening')}. Mean rate of climb?")  # fmt: skip
        log.flow("departure-case-3")
    else:
        _clear(log, night, launch)
    if case != 1:
        _arc(log, night, launch)
    log.at(launch + 8)
    if case == 3:
        log.flow("calls-departure-case-3")
    log.recall("kilo-say")


def _clear(log, night, launch):
    scenario = night.scenario
    log.recall("clearing-turn-first")
    log.number(night, "clearing_side", "clearing-side",
               f"Catapult {scenario.ship.catapult:.0f}: clearing turn which way?")  # fmt: skip
    log.number(night, "clearing_heading", "clearing-heading-catapult",
               f"BRC {say(scenario.ship.brc_deg, 'heading')}, {night.value('airwing.clearing_turn_deg'):g}° of"
               " clearing turn. Heading?")  # fmt: skip
    log.flow(f"departure-case-{scenario.case}")
    log.number(night, "climb_time", "beacon-climb-round",
               f"Parallel to the BRC, {night.said('airwing.departure_airspeed_kn')} indicated make"
               f" {night.text('departure_speed')} over the water in this wind; the ship comes after you at"
               f" {say(scenario.ship.speed_kn, 'kn')}. How long from the bow until the beacon shows"
               f" {night.said('airwing.climb_distance_nm')}?")  # fmt: skip
    log.at(launch + night["climb_time"] / 60)


def _arc(log, night, launch):
    scenario = night.scenario
    brc, radial = say(scenario.ship.brc_deg, "heading"), say(scenario.departure_radial_deg, "heading")
    arc = night.said("airwing.departure_arc_nm")
    log.tell(f"Your departure radial is {radial}.")
    log.number(night, "arc_turn", "arc-onto-out",
               f"Outbound, the beacon opens at {night.text('outbound_speed')}, half standard rate. By the rule of one"
               f" per cent: where do you begin the turn onto the {arc} arc?")  # fmt: skip
    log.number(night, "arc_way", "arc-way", f"From {brc} to radial {radial}: left or right?")
    log.number(night, "arc_degrees", "arc-degrees", f"From {brc} to radial {radial}: how many degrees of arc?")
    onto = launch + night["arc_turn"] / night["opening"] * 60
    log.at(onto)
    speed = night.text("arc_speed")
    log.number(night, "arc_time", "arc-seconds",
               f"{night['arc_degrees']:g}° of the {arc} arc at {speed} over the ship, sixty to one: how"
               " long?")  # fmt: skip
    log.number(night, "arc_lead", "lead-off-arc",
               f"Off the arc outbound at {speed} over the ship, half standard rate. By the rule, without the"
               " correction for a close arc: how many radials of lead?")  # fmt: skip
    log.at(onto + night["arc_time"] / 60)
    log.number(night, "rendezvous", "rendezvous-radial",
               f"Outbound on {radial}. The join-up is {night.inputs('rendezvous')['offset_deg']:g}° left of it."
               " Its radial?")  # fmt: skip
