"""What to brief: three lines, each a fault and the rule that mends it.

First the required flows that are not whole, then what holds the worst area back (slips, speed, what is forgotten, what
was never met), then slips with enough answers behind them to be more than chance.
"""

LINES = 3
LONGEST = 90
FEWEST_BEHIND = 5  # answers in which a slip happened, below which it is not briefed
SLIP, SPEED, FORGOTTEN, NEVER_MET = "slips", "speed", "forgotten", "never met"
MEND = {
    SPEED: "against the clock, answer before the second look",
    FORGOTTEN: "a few minutes every day, not one long sitting",
}


def lines(slips, weakest, areas, causes):
    """Return three lines for the instructor, the most costly first; fewer where there is no more to say.

    ``causes`` are those of ``cause_of`` by area.
    """
    found = [*_flows(areas, weakest), *_causes(areas, causes), *_slips(slips, weakest)]
    return list(dict.fromkeys(found))[:LINES]


def cause_of(area, history, mine, slip_names):
    """Return the record of what holds ``area`` back most over the answers ``mine`` (a mask); None where nothing does.

    A wrong answer with a slip is a slip, one to a drill that was right before is forgotten, a right one that was late
    is speed; drills that the standard wants and that were never asked are never met.
    """
    right, late = history.right & mine, history.late & history.right & mine
    wrong = mine & ~history.right
    slipped = wrong & ~history.slips.is_("")
    forgotten = wrong & ~slipped & history.right_before
    missing = max(0, round(area["demanded"]["met"] * area["drills"] + 0.499) - area["met"])
    counts = {
        SLIP: int(slipped.sum()), SPEED: int(late.sum()), FORGOTTEN: int(forgotten.sum()), NEVER_MET: missing,
    }  # fmt: skip
    cause = max(counts, key=lambda name: counts[name])
    if not counts[cause]:
        return None
    of = {SPEED: int(right.sum()), NEVER_MET: area["drills"]}.get(cause, int(wrong.sum()))
    names = [name for name in slip_names if name] if cause == SLIP else []
    return {"cause": cause, "count": counts[cause], "of": of, "slip": names[0] if names else ""}


def _flows(areas, weakest):
    """Yield a line for every required flow that is not whole: the step that is missed, and why it matters."""
    slips = {drill["id"]: drill["slip"] for drill in weakest if drill["kind"] == "flow" and drill["slip"]}
    for area in areas:
        broken = [flow for flow in area["flows"] if not flow["right"]]
        never = [short(flow["title"], LONGEST // 2) for flow in broken if not flow["answers"]]
        for flow in broken:
            if flow["answers"]:
                slip = slips.get(flow["id"])
                fault, _, rule = (slip["words"] if slip else "not whole in its latest answers").partition("; skipped: ")
                yield _line(area["area"], f"{short(flow['title'])}: {fault}", rule or "recite it whole, in its order")
        if never:
            way = "practise it whole" if len(never) == 1 else "practise each whole"
            yield _line(area["area"], f"{'; '.join(never)}: demanded, and never asked", way)


def _causes(areas, causes):
    """Yield a line for each area that is short, then for each that is close: what holds it back."""
    for verdict in ("short", "close", "not known"):
        for area in areas:
            found = causes.get(area["area"])
            if area["verdict"] != verdict or found is None or found["cause"] == SLIP:
                continue
            count, of = found["count"], found["of"]
            if found["cause"] == SPEED and count >= 2:
                yield _line(area["area"], f"slow: {count} of {of} right answers late", MEND[SPEED])
            elif found["cause"] == FORGOTTEN and count >= 2:
                yield _line(
                    area["area"], f"forgotten: {count} of {of} wrong answers were right before", MEND[FORGOTTEN]
                )
            elif found["cause"] == NEVER_MET:
                yield _line(area["area"], f"never met: {count} drills that the standard wants", f"begin {count} more")


def _slips(slips, weakest):
    rules = {drill["id"]: drill["worked"] for drill in weakest}
    for slip in slips:
        if slip["count"] >= FEWEST_BEHIND:
            fault = f"{short(slip['title'])}: {slip['words']} ({slip['count']} of {slip['of']} wrong answers)"
            yield _line(slip["area"], fault, slip.get("rule") or _rule(rules.get(slip["drills"][0], ())))


def _rule(worked):
    """Return the line of a worked solution that says how it is done: the first that is no number put in."""
    return next((line for line in worked if not line.startswith(("given:", "first:", "exactly:", "answer:"))), "")


def _line(area, fault, rule):
    return f"{area.capitalize()} – {fault}{f' → {rule}' if rule else ''}."


def short(text, most=LONGEST):
    """Return ``text`` cut to ``most`` characters."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
