"""The sortie home: from the push, or from the overhead, to the groove."""

from trainer.practice.night.sortie.log import say


def approach(log, nights):
    """From the push, or from the overhead, to the groove."""
    night = nights.once("foul deck")
    if night.scenario.case == 1:
        _visual_entry(log, nights, night)
    else:
        _penetration(log, nights, night)
    last = nights.last
    if last.scenario.case != 3:
        _pattern(log, last)
    _on_speed(log, last)


def _penetration(log, nights, night):
    push = night.push_clock
    log.phase("approach", push)
    log.number(night, "platform", "platform-easy",
               f"From angels {night.scenario.stack.angels:g} on your fix;"
               f" {night.said('airwing.push_airspeed_kn')} indicated, this wind and the ship's own way close the beacon"
               f" at {night.text('closing')}, and you come down"
               f" {say(night.inputs('platform')['penetration_rate_ft_min'], 'ft/min')}. Platform at?")  # fmt: skip
    log.flow("penetration")
    down = (night["fix_distance"] - night["platform"]) / night["closing"] * 60
    log.at(push + down)
    log.some(1, "platform-altitude", "platform-rate", "platform-action")
    log.number(night, "level_off", "level-off-gate",
               f"Platform at {night.text('platform')}, then"
               f" {say(night.inputs('level_off')['platform_rate_ft_min'], 'ft/min')}, closing at"
               f" {night.text('gate_closing')}. Level at"
               f" {say(night.inputs('level_off')['gate_altitude_ft'], 'ft')} at?")  # fmt: skip
    if nights.has("brc"):
        _new_bearing(log, nights, night)
    log.at(push + down + (night["platform"] - night["level_off"]) / night["gate_closing"] * 60)
    if night.scenario.case == 2:
        log.flow("recovery-case-2")
        log.recall("case-2-see-you")
    else:
        log.flow("dirty-up-final")
        last = nights.last
        log.number(last, "tip_over", "tip-over-distance",
                   f"Level at {say(last.inputs('tip_over')['altitude_ft'], 'ft')}, slope"
                   f" {last.scenario.ship.glide_slope_deg:g}°. Tip over at?")  # fmt: skip
        log.flow("calls-approach-case-3")


def _new_bearing(log, nights, night):
    _new_course(log, nights)
    radial, bearing = night["marshal_radial"], nights.last["final_bearing"]
    text = f"Down the {say(radial, 'heading')} radial to 20 nm, final bearing now {say(bearing, 'heading')}."
    inputs = {"marshal_radial_deg": radial, "final_bearing_deg": bearing}
    log.compute("correction-degrees",
                f"{text} How many degrees right of your inbound course does it lie (left: minus)?",
                **inputs)  # fmt: skip
    log.compute("correction-at-twenty", f"{text} Gradual, or turn 30?", **inputs)
    log.flow("correct-to-final-bearing")


def _new_course(log, nights):
    ship = nights.last.scenario.ship
    log.disturb(f'"99, the wind has shifted. New BRC {say(ship.brc_deg, "heading")}."')
    log.number(nights.last, "final_bearing", "final-bearing-easy",
               f"BRC {say(ship.brc_deg, 'heading')}, landing area {ship.deck_angle_deg:g}° to the left. Final bearing"
               " now?")  # fmt: skip


def _visual_entry(log, nights, night):
    log.phase("approach", night.push_clock)
    if nights.has("brc"):
        _new_course(log, nights)
    log.flow("overhead-to-break")
    log.some(1, "initial-altitude", "initial-distance")


def _pattern(log, night):
    log.at(night.ball_clock - 2)
    inputs = night.inputs("break_spacing")
    log.number(night, "break_spacing", "break-spacing-round",
               f"You break {say(inputs['interval_s'], 's')} after the one ahead at {say(inputs['airspeed_kn'], 'kn')}."
               " How far apart are you?")  # fmt: skip
    log.number(night, "downwind", "downwind-round",
               f"BRC {say(night.scenario.ship.brc_deg, 'heading')}. Downwind?")  # fmt: skip
    log.flow("fleet-pattern")
    log.some(1, "ninety-altitude-fleet", "forty-five-ball", "downwind-altitude")


def _on_speed(log, night):
    log.number(night, "on_speed", "on-speed-weight",
               f"{night.text('ball_fuel')} on the ball make a landing weight of {night.text('landing_weight')}."
               " On-speed, from your table?")  # fmt: skip
    log.number(night, "closure", "closure-easy",
               f"On speed at {night.text('on_speed')}, {night.text('angle_wind')} down the angle."
               " Closure?")  # fmt: skip
    log.number(night, "sink_rate", "sink-rate-in-the-head",
               f"Closure {night.text('closure')}, slope {night.scenario.ship.glide_slope_deg:g}°. Sink rate, in the"
               " head?")  # fmt: skip
    if night.scenario.case != 3:
        log.number(night, "groove", "groove-length",
                   f"{say(night.inputs('groove')['groove_s'], 's')} in the groove at {night.text('closure')}: how"
                   " long is it?")  # fmt: skip
