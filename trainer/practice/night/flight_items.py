"""What a debrief walks through: the phases flown, and in each the few things that go wrong in the air.

An item names the drill whose evidence it is.  ``unit`` is that of a deviation that one may know.
"""

from trainer.frozen import frozen

ALL, VISUAL, INSTRUMENT, NIGHT, DAY = (1, 2, 3), (1, 2), (2, 3), (3,), (1,)


@frozen
class Item:
    """One thing of a flight: ``words`` for the person, ``cases`` in which it is flown.

    What is ``rare``, such as a bolter, counts as not flown unless it is told.
    """

    drill_id: str
    words: str
    unit: str = ""
    cases: tuple[int, ...] = ALL
    rare: bool = False


RARE = ("bolter-case-1", "bolter-case-3", "bingo")


def _items(*rows):
    return tuple(
        Item(
            drill_id=row[0],
            words=row[1],
            unit=row[2] if len(row) > 2 else "",
            cases=row[3] if len(row) > 3 else ALL,
            rare=row[0] in RARE,
        )  # fmt: skip
        for row in rows
    )


PHASES = {
    "deck": _items(
        ("break-down-taxi", "break-down and taxi"),
        ("gross-weight-odd", "gross weight", "lb"),
        ("trim-step-round", "take-off trim", "trim"),
        ("weight-board", "weight board"),
        ("hook-up-catapult", "hook-up"),
        ("tension-day", "tension to launch, day", "", VISUAL),
        ("tension-night", "tension to launch, night", "", NIGHT),
    ),
    "departure": _items(
        ("clearing-heading-catapult", "clearing turn", "deg", VISUAL),
        ("band-altitude-high", "altitude until the climb", "ft", VISUAL),
        ("band-airspeed-low", "airspeed until the climb", "kn"),
        ("beacon-climb-round", "climb point", "nm", VISUAL),
        ("gate-climb", "first gate", "ft", NIGHT),
        ("arc-onto-out", "turn onto the arc", "nm", INSTRUMENT),
        ("lead-off-arc", "lead off the arc", "radials", INSTRUMENT),
        ("rendezvous-radial", "join-up on its side", "deg", INSTRUMENT),
        ("calls-departure-case-3", "departure calls", "", NIGHT),
    ),
    "marshal": _items(
        ("call-check-in", "check-in call", "", INSTRUMENT),
        ("marshal-radial-easy", "marshal radial", "deg", INSTRUMENT),
        ("fix-from-angels", "fix distance", "nm", INSTRUMENT),
        ("hold-legs", "pattern and legs", "s", INSTRUMENT),
        ("push-easy", "push on time", "s", INSTRUMENT),
        ("call-commencing", "commencing call", "", INSTRUMENT),
        ("charlie-clock", "Charlie time", "s", DAY),
        ("overhead-to-break", "overhead to break", "", DAY),
    ),
    "approach": _items(
        ("penetration", "penetration", "ft/min", INSTRUMENT),
        ("platform-easy", "platform", "nm", INSTRUMENT),
        ("level-off-gate", "level at the gate", "ft", INSTRUMENT),
        ("correct-to-final-bearing", "onto the final bearing", "deg", INSTRUMENT),
        ("dirty-up-final", "dirty-up", "nm", NIGHT),
        ("recovery-case-2", "see you and 800 ft", "", (2,)),
        ("calls-approach-case-3", "approach calls", "", NIGHT),
    ),
    "pattern": _items(
        ("break-spacing-round", "break interval", "s", VISUAL),
        ("downwind-round", "downwind heading", "deg", VISUAL),
        ("fleet-pattern", "abeam to groove", "ft", VISUAL),
        ("groove-length", "groove length", "s", VISUAL),
        ("on-speed-weight", "on speed", "kn"),
        ("sink-rate-in-the-head", "sink rate", "ft/min"),
        ("call-the-ball", "ball call"),
        ("bolter-case-1", "bolter", "", VISUAL),
        ("bolter-case-3", "bolter", "", NIGHT),
        ("trap-and-clear", "trap and clear"),
    ),
    "fuel": _items(
        ("bingo-fuel-table", "bingo known", "lb"),
        ("ladder-fix", "ladder at the fix", "lb"),
        ("fuel-on-the-ball", "fuel on the ball", "lb"),
        ("state-to-say", "states as they are said"),
        ("bingo", "bingo flown", ""),
    ),
}
