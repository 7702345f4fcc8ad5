"""What the stages look like in the terminal: how far each is, and the drills of one with their state."""

from trainer.decks import stages
from trainer.drills.titles import title, without_keys
from trainer.practice import find_out, knowledge, standing
from trainer.terminal import screens

BAR = 20  # characters
NEXT = 5  # drills named
HOW = (
    "`trainer` practises it, `trainer stage NAME` chooses another, `--list` shows its drills, `--find-out` asks what"
    " you know already."
)


def _known(syllabus, members, store, clock):
    """Return (beliefs of the members, tomorrow's day)."""
    ids = members.core or members.all
    return ids, knowledge.beliefs([syllabus.drills[one] for one in ids], store), knowledge.day_of(clock.now()) + 1.0


def overview(syllabus, store, clock, look, name=""):
    """Return a line for every stage, the chosen one with what comes next."""
    lines, today = [], clock.local().date()
    first = [one.name for one in syllabus.following(stages.FIRST)]
    others = [one for one in syllabus.stages if one not in (*first, stages.REFERENCE)]
    order = [one for one in (*first, *others, stages.REFERENCE) if one in syllabus.stages]
    width = max(len(one) for one in order)
    for one in order:
        ids, beliefs, day = _known(syllabus, syllabus.members(one), store, clock)
        holds, learning = standing.counted(ids, beliefs, day)
        mark = "▸" if one == syllabus.chosen.name else " "
        bar = _bar(holds, learning, len(ids)) if look.width >= 76 and look.drawings else ""
        told = f"{holds} of {len(ids)} hold{f', {learning} being learned' if learning else ''}"
        lines += look.wrap(f"{mark} {one:{width}}  {bar}{told}", hanging=" " * (width + 4))
    ids, beliefs, day = _known(syllabus, syllabus.members(), store, clock)
    now = standing.standing(store, syllabus.chosen, ids, beliefs, day=day, today=today)
    lines += ["", *(text for text, _ in screens.standing(now, look, today))]
    ahead = [drill for drill in syllabus.order() if not (beliefs.has(drill) and beliefs.seen(drill))]
    named = list(dict.fromkeys(title(syllabus.drills[one]) for one in ahead if one in ids))
    if named:
        lines += look.wrap(f"Next: {'; '.join(named[:NEXT])}{' …' if len(named) > NEXT else ''}", hanging="  ")
    return [*lines, *look.wrap(HOW)]


def told(syllabus, store, look):
    """Return of how much of the chosen stage it is told whether it is known."""
    members = syllabus.members()
    ids = members.core or members.all
    count = find_out.told_of(store, ids)
    text = f"Of {count} of the {len(ids)} drills of its core it is told now whether you know them"
    rest = "" if count == len(ids) else "; `trainer stage --find-out` goes on where it stopped"
    return look.wrap(f"{text}{rest}.")


def _bar(holds, learning, of):
    full = round(BAR * holds / of) if of else 0
    half = round(BAR * (holds + learning) / of) - full if of else 0
    return "█" * full + "▒" * half + "·" * (BAR - full - half) + "  "


def drills(syllabus, store, clock, look, name=""):
    """Return the drills of the stage called ``name`` ("": the chosen one) with their state."""
    members, one = syllabus.members(name), syllabus.stages[name] if name else syllabus.chosen
    ids = members.all
    beliefs = knowledge.beliefs([syllabus.drills[drill] for drill in ids], store)
    chances = beliefs.chances(knowledge.day_of(clock.now()) + 1.0)
    lines = look.wrap(one.title)
    for heading, part in (("core", members.core), ("more", members.more)):
        if part:
            lines += ["", f"{heading} ({len(part)})"]
        for drill in part:
            state = _state(beliefs, chances, drill)
            lines += look.wrap(f"  {state:13}  {without_keys(syllabus.drills[drill].label)}", hanging=" " * 17)
    return lines


def _state(beliefs, chances, drill):
    if not beliefs.seen(drill):
        return "not yet"
    return "holds" if chances[beliefs.index(drill)] >= standing.HOLDS else "being learned"
