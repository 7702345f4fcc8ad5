"""What the logbook says in the terminal: days and weeks, areas, what became solid, what was flown."""

from datetime import date

from trainer.practice.logbook import Entry, Logbook, Week
from trainer.terminal.look import Look, printable

SHOWN = 5  # of anything, before "and n more"
BAR = 20  # characters for the longest week
NOTHING = "The logbook is empty: nothing was answered yet. Start: trainer"


def lines(book: Logbook, look: Look, today: date) -> list[tuple[str, str]]:
    """Return the (text, tone) lines of ``book`` as read on ``today``."""
    if not book.answers and not book.entries:
        return [(text, "") for text in look.wrap(NOTHING)]
    found = [(text, "ask") for text in look.wrap(head(book))]
    found += _weeks(book, look, today)
    found += _areas(book, look)
    solid = [Entry(day=day, text=title) for day, title in book.solid]
    found += _entries(f"Became solid ({len(solid)})", solid, look, today)
    found += _entries("Flown, rehearsed, ahead", book.entries, look, today)
    return found


def head(book: Logbook) -> str:
    """Return the sum of it all in a sentence."""
    text = f"Logbook: {_count(book.days, 'day')} of practice, {_count(book.answers, 'answer')}, {book.minutes:.0f} min"
    if book.unmeasured:
        text += f" (the time of {_count(book.unmeasured, 'answer')} was not measured)"
    return f"{text}; {_count(len(book.solid), 'drill')} solid."


def _weeks(book, look, today):
    shown, before = book.weeks[-SHOWN:], book.weeks[:-SHOWN]
    longest = max((week.minutes for week in shown), default=0.0)
    found = [("", ""), *_heading(f"{'week from':11}  {'days':7}  {'min':>4}  {'right':>6}  solid", look)]
    for week in shown[::-1]:
        found += [(text, "") for text in look.wrap(_week(week, longest, look, today), hanging="  ")]
    if before:
        minutes = sum(week.minutes for week in before)
        found += [(text, "quiet") for text in look.wrap(f"and {_count(len(before), 'week')} before: {minutes:.0f} min")]
    return found


def _week(week: Week, longest: float, look: Look, today: date) -> str:
    drawn = look.drawings
    days = "".join("▪" if day else "·" for day in week.days) if drawn else f"{sum(week.days)} of 7"
    right = f"{week.right / week.answers:.0%}" if week.answers else "–"
    bar = "█" * round(BAR * week.minutes / longest) if drawn and longest and look.width >= 66 else ""
    return f"{_day(week.monday, today):11}  {days:7}  {week.minutes:4.0f}  {right:>6}  {week.solid:5}  {bar}".rstrip()


def _areas(book, look):
    ordered = sorted(book.areas, key=lambda one: -one.answers)
    found = [("", ""), *_heading(f"{'area':10}  {'answers':>7}  {'min':>4}  {'right':>6}  solid", look)]
    for one in ordered[:SHOWN]:
        text = f"{one.area:10}  {one.answers:7}  {one.minutes:4.0f}  {one.right / one.answers:>6.0%}"
        found += [(line, "") for line in look.wrap(f"{text}  {one.solid} of {one.met} met", hanging="  ")]
    return found + _more(len(ordered) - SHOWN, look)


def _entries(heading, entries, look, today):
    if not entries:
        return []
    found = [("", ""), (heading, "quiet")]
    for one in entries[:SHOWN]:
        day = "today" if one.day == today else _day(one.day, today)
        found += [(text, "") for text in look.wrap(f"  {day:11}  {printable(one.text)}", hanging=" " * 15)]
    return found + _more(len(entries) - SHOWN, look)


def _more(count, look):
    return [(text, "quiet") for text in look.wrap(f"  and {count} more")] if count > 0 else []


def _heading(text, look):
    return [(line, "quiet") for line in look.wrap(text, hanging="  ")]


def _day(day, today):
    return f"{day.day} {day:%b}" if day.year == today.year else f"{day.day} {day:%b %Y}"


def _count(number, noun):
    return f"{number:,} {noun}{'' if number == 1 else 's'}"
