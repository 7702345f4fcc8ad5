"""What the outlook and the plan towards an event say."""

from collections import Counter

from trainer.memory.event_plan import NO_MINUTES, NOT_BEGUN, STILL_SHAKY
from trainer.memory.outlook import LEVEL
from trainer.model import AREAS

BAR = 20  # characters that stand for a share of 1
NAMED = 6  # drills named in a line before "and n more"
REASONS = {
    NOT_BEGUN: "not begun, because the minutes buy more elsewhere",
    NO_MINUTES: "left to fade, because the minutes buy more elsewhere",
    STILL_SHAKY: "practised, but still more likely wrong than the plan can mend",
}


def outlook(prospect, look):
    """Return the outlook: areas with their intervals, the best ten minutes, and how honest forecasts were."""
    dated = prospect.on > prospect.now
    lines = look.wrap(
        f"Outlook for {prospect.on:%A %d %B %Y %H:%M}, without further practice" if dated else "Outlook: today"
    )
    lines.append("")
    if prospect.outlook is None:
        return [*lines, *look.wrap("Nothing has been answered yet, so there is nothing to foresee. Start: trainer")]
    lines += _table(prospect.areas, look)
    overall = prospect.outlook.overall
    lines += ["", *look.wrap(f"All drills met: {_share(overall)} right in time.")]
    few = any(not one.enough_met for one in prospect.areas)
    lines += look.wrap(
        f"Shares are of the drills met; the truth lies in the interval {LEVEL:.0%} of the time. The last column is"
        " the chance of meeting what is asked, with ten questions drawn from the area"
        f"{'; “too few met”: the standard wants more of the area to have been asked' if few else ''}."
    )
    if prospect.outlook.beyond > 1:
        lines += look.wrap(
            f"The date is {prospect.outlook.beyond:.1f} times further off than the longest gap seen in your"
            " practice: this leans on the model more than on you."
        )
    return [*lines, "", *_ten_minutes(prospect.outlook, look), *honesty(prospect.past, look)]


def _table(areas, look):
    """Return one line per area; on a narrow screen without the bar."""
    bar = look.width >= 70 and look.drawings
    head = f"{'area':10}  {'met':>7}  {'right in time':{17 + (BAR + 1) * bar}}  asked  chance"
    return [head, *(line for one in areas for line in _area(one, look, bar))]


def _area(one, look, bar):
    met = f"{one.area:10}  {f'{one.met}/{one.of}':>7}"
    if one.outlook is None:
        return [f"{met}  nothing met yet"]
    chance = f"{one.demanded:5.0%}  {one.outlook.chance:6.0%}"
    if not one.enough_met:
        chance = f"{one.demanded:5.0%}  too few met"
    return [f"{met}  {_bar(one.outlook) if bar else ''}{_share(one.outlook):17}  {chance}"]


def _bar(outlook):
    """Return a bar: full to the low end of the interval, half to the high end."""
    low, high = round(outlook.low * BAR), round(outlook.high * BAR)
    return "█" * low + "▒" * (high - low) + "·" * (BAR - high) + " "


def _share(outlook):
    return f"{outlook.share:.0%} ({outlook.low:.0%}-{outlook.high:.0%})"


def _ten_minutes(outlook, look):
    best = [one for one in outlook.ten_minutes if one.ids][:2]
    if not best:
        return []
    lines = []
    for place, one in enumerate(best):
        head = "Ten minutes would raise most" if place == 0 else "or then"
        text = f"{head}: {one.area} (+{one.chance_gain:.0%} on its chance): {named(one.ids)}"
        lines += look.wrap(text, hanging="  ")
    return [*lines, *look.wrap(f"trainer practice --area {best[0].area} --minutes 10", indent="  "), ""]


def honesty(past, look):
    """Return how earlier forecasts compare with what was answered."""
    found = past.reliability
    if found.too_early:
        count = f"{found.count} answer{'' if found.count == 1 else 's'}"
        return look.wrap(
            f"Were earlier forecasts honest? Too early to say ({count} to drills met before; 50 are needed)."
        )
    lines = look.wrap(
        f"Were earlier forecasts honest? Over {found.count} answers to drills met before they were off by"
        f" {found.calibration_error:.2f} on average ({'too hopeful' if found.bias > 0 else 'too modest'} by"
        f" {abs(found.bias):.2f}); Brier score {found.brier:.3f}, against {found.brier_constant:.3f} for always saying"
        " your average."
    )
    if past.first_answers:
        told = f"Of {past.first_answers} first answers, {past.first_right:.0%} were right; nothing foretells them."
        lines += look.wrap(told)
    for one in found.bins:
        lines.append(f"  said {one.predicted:4.0%}, was {one.observed:4.0%}  ({one.count} answers)")
    return lines


def plan(prepared, look, *, today):
    """Return the plan towards an event: the days, what to expect, what will not be reached."""
    event, planned = prepared.event, prepared.plan
    away = "today" if prepared.days == 0 else f"in {prepared.days} day{'s' if prepared.days > 1 else ''}"
    lines = look.wrap(
        f"{event.name}: {event.at.astimezone(today.tzinfo):%A %d %B %Y %H:%M}, {away},"
        f" {event.minutes_per_day:g} minutes a day over {len(prepared.drills)} drills"
    )
    lines.append("")
    for number, day in enumerate(planned.schedule()):
        lines += _day(number, day, prepared, look, today)
    count = len(prepared.drills)
    lines += ["", *look.wrap(
        f"Kept to, about {planned.expected:.0f} of {count} will be right in time on the day;"
        f" without practice {planned.expected_without:.0f}."
    )]  # fmt: skip
    lines += _unreached(planned.unreached(), prepared, look)
    if planned.minute_value > 0.05:
        lines += look.wrap(
            f"One more minute today is worth about {planned.minute_value:.1f} recall drills, on the day and a month"
            " after it (a computed drill counts as two, a flow as four, unless a deck says otherwise)."
        )
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
        ids = [one.id for one in unreached if one.reason == reason]
        if ids:
            lines += look.wrap(f"Not reached, {len(ids)} {text}: {named(ids)}", hanging="  ")
    return lines


def named(ids):
    """Return the first few of ``ids`` and how many more there are."""
    shown = ", ".join(ids[:NAMED])
    return f"{shown} and {len(ids) - NAMED} more" if len(ids) > NAMED else shown
