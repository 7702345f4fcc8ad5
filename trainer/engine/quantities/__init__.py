"""The table of quantities: everything that the trainer can compute, by name.

``trainer compute``, computed drills, the card and the rehearsal all read this one table.  A new quantity
is one function in a module of the engine, one entry in a module of this folder, and its published check
under ``tests/authorities/``.
"""

from trainer.engine.quantities import (
    airspeed,
    approach,
    arcs,
    atmosphere,
    balance,
    beacon,
    bingo,
    calls,
    conversion,
    departure,
    descent,
    earth,
    encounter,
    fuel,
    grades,
    holding,
    launch,
    loading,
    marshal,
    meeting,
    moon,
    navigation,
    pattern,
    ranges,
    reach,
    slope,
    steering,
    sun,
    triangle,
    turns,
    wind,
    wind_course,
)

QUANTITIES = {
    quantity.name: quantity
    for module in (
        loading, launch, departure, marshal, holding, approach, slope,
        pattern, grades, fuel, bingo, reach, calls,
        atmosphere, airspeed, sun, moon, earth, beacon, balance, conversion,
        wind, wind_course, triangle, turns, arcs, navigation, steering, descent, ranges, encounter, meeting,
    )
    for quantity in module.QUANTITIES
}  # fmt: skip

ENGINE_VERSION = "1"  # raised when a truth changes, so that stored reviews can be graded again
