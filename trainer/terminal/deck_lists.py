"""What the deck commands say: lists of decks and drills, and one drill."""

from trainer.drills.titles import without_keys
from trainer.errors import UsageError


def deck_list(library, look):
    """Return the decks with their title and how many drills of each kind they hold."""
    lines = []
    width = max(len(name) for name in library.decks)
    for name, deck in library.decks.items():
        drills = [drill for drill in library.outlines.values() if drill.deck == name]
        counts = ", ".join(
            f"{sum(drill.kind == kind for drill in drills)} {kind}"
            for kind in ("computed", "flow", "recall")
            if any(drill.kind == kind for drill in drills)
        )
        lines += look.wrap(f"{name:{width}}  {deck.title} ({counts})", hanging=" " * (width + 2))
    lines.append("")
    return lines + look.wrap(
        f"{len(library.drills)} drills in {len(library.decks)} decks; `trainer deck list NAME` lists one."
    )


def drill_list(drills, look):
    """Return the drills of a deck, one line each."""
    width = max(len(drill.id) for drill in drills)
    lines = []
    for drill in drills:
        lines += look.wrap(
            f"{drill.id:{width}}  {drill.kind:8}  {without_keys(drill.label)}", hanging=" " * (width + 12)
        )
    return lines


def drill_card(drill, library, look):
    """Return what a drill is: kind, area, worth, prerequisites, where it stands."""
    deck = library.decks[drill.deck]
    lines = look.wrap(
        f"{drill.id}: {drill.kind}, area {drill.area}, level {drill.level}, worth {drill.worth:g},"
        f" limit {drill.limit_s:g} s",
    )
    if drill.after:
        lines += look.wrap(f"comes after: {', '.join(drill.after)}", hanging="  ")
    return [*lines, *look.wrap(f"{deck.path}:{drill.line}", hanging="  ")]


def drill_named(library, name):
    """Return the drill with the id ``name``; raises ``UsageError`` with the nearest id."""
    if name in library.drills:
        return library.drills[name]
    from difflib import get_close_matches

    close = get_close_matches(name, library.drills, 1, 0.5)
    hint = f"did you mean {close[0]}?" if close else "`trainer deck list NAME` lists the ids of a deck"
    raise UsageError(f"there is no drill {name!r}", hint=hint)
