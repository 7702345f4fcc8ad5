"""What the outlook and the plan towards an event say."""

from collections import Counter

from trainer.drills.titles import title
from trainer.memory.event_plan import NO_MINUTES, NOT_BEGUN, STILL_SHAKY
from trainer.memory.outlook import LEVEL
from trainer.model import AREAS
from trainer.practice.minutes_needed import told as minutes_told

BAR = 20  # characters that stand for a share of 1
DAYS_TOLD = 5  # of a plan, before "and n more"
NAMED = 3  # drills named in a line before "and n more"
REASONS = {
    NOT_BEGUN: "not begun, because the minutes buy more elsewhere",
    NO_MINUTES: "left to fade, because the minutes buy more elsewhere",
    STILL_SHAKY: "practised, but still more likely wrong than the plan can mend",
}


def outlook(forecast, look):
    """Return the outlook: areas against the standard, the best ten minutes, and how honest forecasts were."""
    dated = forecast.on > forecast.now
    lines = look.wrap(
        f"Outlook for {forecast.on:%A %d %B %Y %H:%M}, without further practice" if dated else "Outlook: today"
    )
    lines.append("")
    overall = forecast.overall
    if overall.right is None:
        return [*lines, *look.wrap("Nothing has been answered yet, so there is nothing to foresee. Start: trainer")]
    lines += table(forecast.areas, look)
    lines += ["", *look.wrap(f"{forecast.verdict[1].capitalize()} (standard: {forecast.standard.title}).")]
    lines += look.wrap(f"All drills met: {_right(overall)} right, {overall.in_time:.0%} of these in time.")
    lines += look.wrap(
        "Shares are of the drills met, in time is of what is right; the share right lies in the interval"
        f" {LEVEL:.0%} of the time. The chance is that of reaching both shares demanded."
    )
    if forecast.beyond > 1:
        lines += look.wrap(
            f"The date is {forecast.beyond:.1f} times further off than the longest gap seen in your"
            " practice: this leans on the model more than on you."
        )
    return [*lines, "", *_ten_minutes(forecast, look), *honesty(forecast.past, look)]


def table(areas, look):
    """Return a line or two per area: the shares expected and demanded, the chance, the verdict with its reason."""
    bar = look.width >= 90 and look.drawings
    head = f"{'area':10}  {'met':>7}  {'right':{13 + (BAR + 1) * bar}}  in time  demanded  chance  verdict"
    return [head, *(line for one in areas for line in _area(one, look, bar))]


def _area(one, look, bar):
    met = f"{one.area:10}  {f'{one.met}/{one.of}':>7}"
    if one.right is None:
        return [f"{met}  nothing met yet"]
    demanded = f"{one.demand.share:.0%}/{one.demand.in_time:.0%}"
    line = f"{met}  {_bar(one) if bar else ''}{_right(one):13}  {one.in_time:7.0%}  {demanded:>8}  {one.chance:6.0%}"
    because = one.met < one.demand.met * one.of or any(not flow.whole for flow in one.flows)
    return [f"{line}  {one.verdict}", *(look.wrap(one.why, indent=" " * 12, hanging=" " * 12) if because else ())]


def _bar(one):
    """Return a bar: full to the low end of the interval, half to the high end."""
    low, high = round(one.low * BAR), round(one.high * BAR)
    return "█" * low + "▒" * (high - low) + "·" * (BAR - high) + " "


def _right(one):
    return f"{one.right:.0%} ({one.low:.0%}-{one.high:.0%})"


def _ten_minutes(forecast, look):
    best = [one for one in forecast.ten_minutes if one.ids][:2]
    if not best:
        return []
    lines = []
    for place, one in enumerate(best):
        head = "Ten minutes would raise most" if place == 0 else "or then"
        titles = [title(forecast.drills[name]) for name in one.ids]
        text = f"{head}: {one.area} (+{one.chance_gain:.0%} on its chance): {named(titles)}"
        lines += look.wrap(text, hanging="  ")
    return [*lines, *look.wrap(f"trainer practice --area {best[0].area} --minutes 10", indent="  "), ""]


def needed(found, look):
    """Return what it takes to meet the standard beside what is planned; ``found`` is a ``minutes_needed.Needed``."""
    return [line for text in minutes_told(found) for line in look.wrap(text)]


def honesty(past, look):
    """Return how earlier forecasts compare with what was answered."""
    found = past.reliability
    if found.too_early:
        count = f"{found.count} answer{'' if found.count == 1 else 's'}"
        return look.wrap(
            f"Were earlier forecasts honest? Too early to say ({count} to drills met before; 50 are needed)."
        )
    off = f"too {'hopeful' if found.bias > 0 else 'modest'} by {abs(found.bias):.0%}"
    lines = look.wrap(
        f"Were earlier forecasts honest? Over {found.count} answers to drills met before what was said and what came"
        f" were {found.calibration_error:.0%} apart, on the whole {off}; that is"
        f" {'nearer than' if found.brier < found.brier_constant else 'no nearer than'} to say your average each time."
    )
    if past.first_answers:
        told = f"Of {past.first_answers} first answers, {past.first_right:.0%} were right; nothing foretells them."
        lines += look.wrap(told)
    for one in found.bins:
        lines.append(f"  said {one.predicted:4.0%}, was {one.observed:4.0%}  ({one.count} answers)")
    return lines


def plan(prepared, goal, look, *, today, forecast, needed_min):
    """Return the plan towards an event: what it takes, the days, what to expect, what will not be reached.

    ``forecast`` is the ``Forecast`` for the event and ``needed_min`` the ``minutes_needed.Needed`` for it.
    """
    event, planned = prepared.event, prepared.plan
    away = "today" if prepared.days == 0 else f"in {prepared.days} day{'s' if prepared.days > 1 else ''}"
    lines = look.wrap(
        f"{event.name}: {event.at.astimezone(today.tzinfo):%A %d %B %Y %H:%M}, {away},"
        f" {event.minutes_per_day:g} minutes a day"
    )
    lines += ["", *_towards(goal, prepared, look), *needed(needed_min, look), ""]
    lines += _days(planned.schedule(), prepared, look, today)
    lines += ["", *look.wrap(f"Without practice ({forecast.standard.title}): {forecast.verdict[1]}.")]
    kept = forecast.kept(planned)
    lines += [*look.wrap("Kept to, on the day:"), *table(kept, look)]
    lines += _unreached(planned.unreached(), prepared, look)
    return lines


def _towards(goal, prepared, look):
    """Return what the event is for: how many drills, which flows, and what of them the minutes do not reach."""
    what = f"{goal.title.partition(':')[0]}: to meet it you need" if goal.title else "You need"
    lines = look.wrap(f"{what} these {len(goal.core)} drills.")
    unreached = {one.id for one in prepared.plan.unreached()}
    if goal.required:
        flows = [title(goal.core[one]) for one in goal.required]
        lines += look.wrap(f"Required flows: {named(flows)}.", hanging="  ")
        missing = [title(goal.core[one]) for one in goal.required if one in unreached]
        if missing:
            lines += look.wrap(f"Of these the minutes will hardly make sure: {named(missing)}.", hanging="  ")
    return lines


def _days(schedule, prepared, look, today):
    """Return a line for each of the next days, and one for all that come after."""
    lines = []
    for number, day in enumerate(schedule[:DAYS_TOLD]):
        lines += _day(number, day, prepared, look, today)
    if later := [day.seconds for day in schedule[DAYS_TOLD:] if day.ids]:
        days = f"{len(later)} more day{'s' if len(later) > 1 else ''}"
        lines += look.wrap(f"and {days}, {sum(later) / 60:.0f} min in all; `--calendar FILE.ics` writes every day")
    return lines


def _day(number, day, prepared, look, today):
    from datetime import timedelta

    date = today + timedelta(days=number)
    name = "today" if number == 0 else f"{date:%a %d %b}"
    areas = Counter(prepared.drills[drill_id].area for drill_id in day.ids)
    kinds = Counter(prepared.drills[drill_id].kind for drill_id in day.ids)
    if not day.ids:
        return look.wrap(f"{name:10}  nothing left for today" if number == 0 else f"{name:10}  rest")
    parts = ", ".join(f"{area} {areas[area]}" for area in AREAS if areas[area])
    mix = ", ".join(f"{kinds[kind]} {kind}" for kind in ("computed", "flow", "recall") if kinds[kind])
    return look.wrap(f"{name:10}  {day.seconds / 60:2.0f} min  {mix}: {parts}", hanging=" " * 12)


def _unreached(unreached, prepared, look):
    lines = []
    for reason, text in REASONS.items():
        titles = [title(prepared.drills[one.id]) for one in unreached if one.reason == reason]
        if titles:
            lines += look.wrap(f"Not reached, {len(titles)} {text}: {named(titles)}", hanging="  ")
    return lines


def named(titles):
    """Return the first few of ``titles``, each once, and how many more there are."""
    titles = list(dict.fromkeys(titles))
    shown = "; ".join(titles[:NAMED])
    return f"{shown}; and {len(titles) - NAMED} more" if len(titles) > NAMED else shown
