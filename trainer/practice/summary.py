"""The end of a session: what was asked, what was shaky, what it bought, when to come back."""

from collections import Counter
from dataclasses import dataclass, field

from trainer.model import AREAS, OUT_OF_TIME

LATER_DAYS = 7.0  # "what today bought" is counted a week ahead
FADED = 0.8  # a drill that one would miss more than one time in five is worth coming back for


@dataclass(frozen=True, kw_only=True)
class Summary:
    """``areas`` maps an area to (right, asked); ``seconds`` is None where time is not measured.

    ``moved`` maps an area to the mean chance of a right answer a week from now, before and after, of the
    drills asked.
    """

    asked: int = 0
    right: int = 0
    seconds: float | None = None
    areas: dict[str, tuple[int, int]] = field(default_factory=dict)
    moved: dict[str, tuple[float, float]] = field(default_factory=dict)
    shaky: tuple[str, ...] = ()
    bought: float = 0.0
    bought_text: str = ""
    next_text: str = ""


def nothing():
    """Return the summary of a session in which nothing was answered."""
    return Summary(next_text="The first question waits for you.")


def of(outcomes, library, *, seconds, bought, beliefs, new, tomorrow):
    """Return the ``Summary`` of ``outcomes``; ``bought`` is expected right answers gained a week ahead."""
    asked, right = Counter(), Counter()
    for outcome in outcomes:
        area = library.drills[outcome.question.drill_id].area
        asked[area] += 1
        right[area] += outcome.right
    return Summary(
        asked=len(outcomes),
        right=sum(right.values()),
        seconds=seconds,
        areas={area: (right[area], asked[area]) for area in AREAS if asked[area]},
        moved=_moved(outcomes),
        shaky=_shaky(outcomes),
        bought=bought,
        bought_text=_bought_text(bought),
        next_text=_next_text(beliefs, new, tomorrow),
    )


def _moved(outcomes):
    first, last = {}, {}
    for outcome in outcomes:
        place = (outcome.question.area, outcome.question.drill_id)
        first.setdefault(place, outcome.before)
        last[place] = outcome.before + outcome.gain
    moved = {}
    for area in AREAS:
        places = [place for place in first if place[0] == area]
        if places:
            mean_before, mean_after = (sum(values[place] for place in places) / len(places) for values in (first, last))
            moved[area] = (mean_before, mean_after)
    return moved


def _shaky(outcomes):
    lines = []
    for outcome in outcomes:
        if outcome.clean:
            continue
        reason = outcome.grade.slip.words if outcome.grade.slip else ""
        if outcome.grade.verdict == OUT_OF_TIME:
            reason = "right, but slow"
        drill_id, area = outcome.question.drill_id, outcome.question.area
        lines.append(f"{drill_id} ({area}){': ' + reason if reason else ''}")
    return tuple(dict.fromkeys(lines))


def _bought_text(bought):
    if bought < 0.05:
        return "Today refreshed what you had; it will show on the day you need it."
    return f"Today bought about {bought:.1f} more right answers a week from now."


def _next_text(beliefs, new, tomorrow):
    chances = beliefs.chances(tomorrow)
    met = [beliefs.seen(drill_id) for drill_id in beliefs.ids]
    faded = sum(seen and chance < FADED for chance, seen in zip(chances, met, strict=True))
    return (
        f"Come back tomorrow: by then {faded} of the {sum(met)} drills you have met will have faded below"
        f" {FADED:.0%}{f', and {new} are still new' if new else ''}."
    )
