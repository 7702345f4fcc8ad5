"""What the reports of many pilots show together: who is ready, what is weak, what to teach on Thursday.

Reports are records as ``record.gather`` makes them, read from files that may come from anybody; nothing of them is
believed beyond what they say.
"""

from collections import Counter
from datetime import date

from trainer.model import AREAS
from trainer.practice.standard_met import CLOSE, READY, SHORT, UNKNOWN

MOST_WEAK, MOST_SLIPS, BRIEF_LINES = 10, 8, 3
LONG_AWAY_DAYS = 14
FEWEST_SHARING = 2  # pilots; what one alone does is no matter of the squadron
INVENTED = "(invented)"  # ends the name of a pilot who is none


def together(reports, today):
    """Return the squadron's record; ``reports`` are (file name, report), ``today`` a date.

    Of several reports on one pilot the newest counts; the others are named in ``notes``.
    """
    reports, samples = _apart(reports)
    kept, notes, before = _newest(reports)
    notes = [*samples, *notes]
    events = Counter((report["event"]["at"], report["event"]["name"]) for _, report in kept)
    event = events.most_common(1)[0][0] if events else ("", "")
    found = [_pilot(name, report, event[0], today, before.get(name)) for name, report in kept]
    pilots = sorted(found, key=_order)
    notes += _namesakes(pilots)
    past = sum(report["event"]["at"][:10] < today.isoformat() for _, report in kept)
    if past:
        notes.append(f"The event of {past} of {len(kept)} reports is past: ask these pilots for new ones.")
    slips, areas = _slips(kept), _areas(kept)
    return {
        "event": {"at": event[0], "name": event[1]},
        "areas": areas,
        "pilots": pilots,
        "weakest": _weakest(kept),
        "slips": slips,
        "away": [pilot["name"] for pilot in pilots if (pilot["idle_days"] or 0) >= LONG_AWAY_DAYS],
        "brief": _brief(slips, areas, len(pilots)),
        "notes": notes,
    }


def newest(reports):
    """Return [(file, report)]: the newest report on each pilot, invented ones left out."""
    return _newest(_apart(reports)[0])[0]


def _apart(reports):
    """Return (reports on pilots, notes on those of an invented one, as the shipped sample is)."""
    invented = [name for name, report in reports if report["pilot"]["name"].endswith(INVENTED)]
    notes = [f"{name} is on an invented pilot and does not count." for name in invented]
    return [(name, report) for name, report in reports if name not in invented], notes


def _newest(reports):
    """Return ([(file, report)] with one report per pilot, notes on those left out, {file: the report before it})."""
    groups = {}
    for name, report in reports:
        # Without any answer there is no id yet: then the name is all there is.
        groups.setdefault(report["pilot"]["id"] or f"name {report['pilot']['name']}", []).append((name, report))
    kept, notes, before = [], [], {}
    for group in groups.values():
        group.sort(key=lambda one: (one[1]["made"]["at"], one[1]["chain"]["reviews"], one[0]))
        kept.append(group[-1])
        earlier = [report for _, report in group[:-1] if report["made"]["day"] < group[-1][1]["made"]["day"]]
        if earlier:
            before[group[-1][0]] = earlier[-1]
        notes += [_left_out(*older, *group[-1]) for older in group[:-1]]
    return kept, notes, before


def _left_out(old_file, old, new_file, new):
    who = new["pilot"]["name"]
    if old["seal"] == new["seal"]:
        return f"{old_file} is the same report as {new_file} ({who}); it counts once."
    return f"{old_file} is an older report on {who} and does not count; {_agreement(old, new)}"


def _agreement(old, new):
    """Return whether the newer report continues the chain that the older one quotes."""
    number, head = old["chain"]["reviews"], old["chain"]["head"]
    quoted = {one["reviews"]: one["digest"] for one in new["chain"]["earlier"]}
    quoted[new["chain"]["reviews"]] = new["chain"]["head"]
    if new["chain"]["reviews"] < number:
        return f"it has more answers than the newer one ({number:,}): ask the pilot about the data that are missing."
    if number not in quoted:
        return "the newer one does not mention it, so the two can't be compared."
    if quoted[number] != head:
        return "the two DISAGREE about the answers before it: some were changed or left out since."
    return "the newer one continues it unchanged."


def _pilot(file, report, event_at, today, before):
    last = report["period"]["to"]
    earlier = {area["area"]: area for area in before["areas"]} if before else {}
    return {
        "name": report["pilot"]["name"],
        "id": report["pilot"]["id"],
        "file": file,
        "verdict": report["verdict"],
        "words": report["verdict_words"],
        "areas": {area["area"]: _area(area, earlier.get(area["area"])) for area in report["areas"]},
        "since": before["made"]["day"] if before else "",
        "task": _task(report, before),
        "answers": report["period"]["answers"],
        "last": last,
        "idle_days": _days_since(last, today),
        "last_flown": report["period"]["last_flown"],
        "grounded_days": _days_since(report["period"]["last_flown"], today),
        "made": report["made"]["day"],
        "other_event": "" if report["event"]["at"] == event_at else report["event"]["local"],
        "faults": report["chain"]["faults"],
        "standard": report["standard"]["digest"],
    }


def _area(area, before):
    forecast, earlier = area["forecast"], before["forecast"] if before else None
    return {
        "verdict": area["verdict"],
        "share": forecast["share"] if forecast else None,
        "rise": forecast["share"] - earlier["share"] if forecast and earlier else None,
        "why": area["why"],
    }


def _task(report, before):
    """Return what the pilot works towards: how much of it holds, and how much more than before; None where untold."""
    own = report.get("own", {})
    if not own.get("stage") or "held" not in own:
        return None
    earlier = before.get("own", {}) if before else {}
    more = own["held"] - earlier["held"] if earlier.get("stage") == own["stage"] and "held" in earlier else None
    return {"stage": own["stage"], "held": own["held"], "of": own["of"], "more": more}


def _days_since(day, today):
    try:
        return max(0, (today - date.fromisoformat(day)).days) if day else None
    except ValueError:
        return None


def _order(pilot):
    """Order pilots: ready ones first, then by how many areas are."""
    counts = Counter(area["verdict"] for area in pilot["areas"].values())
    return (
        (READY, CLOSE, UNKNOWN, SHORT).index(pilot["verdict"]),
        counts[SHORT],
        -counts[READY],
        pilot["name"].casefold(),
    )


def _namesakes(pilots):
    names = Counter(pilot["name"].casefold() for pilot in pilots)
    notes = [
        f"{count} different pilots are called {next(p['name'] for p in pilots if p['name'].casefold() == name)};"
        " each has a row of their own."
        for name, count in names.items()
        if count > 1
    ]
    if len({pilot["standard"] for pilot in pilots}) > 1:
        notes.append(
            "The reports were not all made against the same standard: their verdicts can't be compared as they are."
        )
    notes += [
        f"{pilot['name']}: {pilot['faults']} stored answers did not agree with their digests when the report was made."
        for pilot in pilots
        if pilot["faults"]
    ]
    return notes


def _areas(kept):
    """Return, per area that any report judges, how many pilots have each verdict, and the mean forecast."""
    found = []
    for area in AREAS:
        judged = [one for _, report in kept for one in report["areas"] if one["area"] == area]
        shares = [one["forecast"]["share"] for one in judged if one["forecast"]]
        if judged:
            counts = Counter(one["verdict"] for one in judged)
            found.append({
                "area": area, "share": sum(shares) / len(shares) if shares else None, "ready": counts[READY],
                "close": counts[CLOSE], "short": counts[SHORT], "unknown": counts[UNKNOWN],
            })  # fmt: skip
    return found


def _weakest(kept):
    """Return the drills that are weak with several pilots."""
    groups = {}
    for _, report in kept:
        for drill in report["weakest"]:
            groups.setdefault(drill["id"], []).append(drill)
    found = [
        {
            "id": drill_id, "title": drills[0]["title"], "area": drills[0]["area"], "pilots": len(drills),
            "at_event": sum(one["at_event"] for one in drills) / len(drills),
        }
        for drill_id, drills in groups.items()
        if len(drills) >= FEWEST_SHARING
    ]  # fmt: skip
    return sorted(found, key=lambda one: (-one["pilots"], one["at_event"], one["id"]))[:MOST_WEAK]


def _slips(kept):
    """Return the slips that several pilots share."""
    groups = {}
    for _, report in kept:
        for slip in report["slips"]:
            groups.setdefault((slip["area"], slip["name"]), []).append(slip)
    found = [
        {
            "name": name, "area": area, "words": slips[0]["words"], "title": slips[0]["title"], "pilots": len(slips),
            "count": sum(one["count"] for one in slips), "of": sum(one["of"] for one in slips),
        }
        for (area, name), slips in groups.items()
        if len(slips) >= FEWEST_SHARING
    ]  # fmt: skip
    return sorted(found, key=lambda one: (-one["pilots"], -one["count"], one["area"], one["name"]))[:MOST_SLIPS]


def _brief(slips, areas, pilots):
    """Return what to teach: the area that holds most pilots back, then the slips that most of them share."""
    lines = []
    held = [area for area in areas if area["short"] + area["close"]]
    if held:
        worst = max(held, key=lambda area: (area["short"], area["close"]))
        behind = worst["short"] + worst["close"]
        lines.append(f"{worst['area'].capitalize()} holds most back: {behind} of {pilots} are short or close.")
    for slip in slips:
        who = f"{slip['pilots']} of {pilots} pilots"
        lines.append(f"{slip['area'].capitalize()} – {slip['title']}: {slip['words']} ({who}, {slip['count']} times).")
    return lines[:BRIEF_LINES]
