"""The whole report on one pilot as one JSON record: what pages render, and what an export holds.

Its fields are documented in ``trainer/pages/schema/report-1.json``.  It carries no list of reviews: its size does
not grow with the years, so that an instructor's page over 200 pilots is made in seconds.
"""

import hashlib
from datetime import UTC, datetime, timedelta, timezone

import numpy as np

from trainer import __version__
from trainer.engine.quantities import ENGINE_VERSION
from trainer.frozen import frozen
from trainer.practice import aim, goal, knowledge, minutes_needed, standing
from trainer.practice.evidence import areas, briefing, course, custody, deviations, slips, sorties, weak
from trainer.practice.evidence.history import History, as_date
from trainer.practice.forecast import Forecast

FORMAT, VERSION = "trainer report", 1
WITHOUT_EVENT_DAYS = 7


@frozen
class Wish:
    """What is asked for: a ``standard`` (a name, "" the usual one), an event (aware ``on``), reviews ``since`` (aware).

    ``name`` and ``call_sign`` say how to be named; ``answers`` False leaves out what was typed.
    """

    standard: str = ""
    on: datetime | None = None
    since: datetime | None = None
    name: str = ""
    call_sign: str = ""
    answers: bool = True


PARTS = 4  # reading the answers, the forecast and plan, the minutes, what is weak


def gather(store, library, clock, wish, *, caution, home=None, step=lambda: None):
    """Return the report as a record that is ready for JSON.  ``caution`` is the sentence shown on every page.

    ``step()`` is called after each of its ``PARTS`` long pieces of work.
    """
    history, now = History(store, since=wish.since), clock.now()
    step()
    aimed = aim.of(store, library, clock, home, on=wish.on, standard=wish.standard)
    on, standard = aimed.on or now + timedelta(days=WITHOUT_EVENT_DAYS), aimed.standard
    forecast, plan = _foreseen(aimed, on, store, library, clock, home)
    step()
    needed = minutes_needed.of(forecast, planned=plan and float(plan.budgets_of_days_s.sum()) / 60.0)
    step()
    judged = areas.of_areas(history, forecast, needed.by_area, forecast.kept(plan) if plan else ())
    weakest = weak.weakest(history, forecast, store, library, answers=wish.answers)
    common = slips.common(history, store, library, answers=wish.answers)
    step()
    return {
        "format": FORMAT,
        "version": VERSION,
        "made": _made(clock),
        "caution": caution,
        "invented": _invented(library, standard),
        **_whose(store, history, wish),
        "event": _event(aimed, on, now, clock),
        "standard": _standard(standard),
        **dict(zip(("verdict", "verdict_words"), forecast.verdict, strict=True)),
        "areas": judged,
        "minutes": _minutes(needed),
        "weakest": weakest,
        "slow": weak.slow(history, forecast, library),
        "slips": common,
        "deviations": deviations.most_off(history, library, answers=wish.answers),
        **_course(history, forecast),
        "brief": briefing.lines(common, weakest, judged, _causes(judged, history, forecast, common)),
        **_flown(history, store, standard, library.outlines),
        "own": _own(library, aimed, store, forecast.today),
        "answers_included": wish.answers,
        "chain": custody.of_reviews(store, len(history)),
    }


def _whose(store, history, wish):
    return {
        "pilot": custody.pilot(store, store.chain(), name=wish.name, call_sign=wish.call_sign),
        "period": _period(history, store, wish.since),
    }


def _flown(history, store, standard, outlines):
    return {
        "rehearsal": sorties.last_rehearsal(history, store, standard, outlines),
        "flights": sorties.flights(store, outlines),
    }


def _course(history, forecast):
    return {"weeks": course.weeks(history), "calibration": course.honesty(forecast.past)}


def _foreseen(aimed, on, store, library, clock, home):
    """Return (``Forecast``, the plan of the event or None)."""
    forecast = Forecast(store, aimed.drills, clock, standard=aimed.standard, on=on)
    return forecast, goal.prepare(aimed.event, store, library, clock, home)[1].plan if aimed.event else None


def _made(clock):
    return {
        "at": _utc(clock.now()),
        "day": clock.local().date().isoformat(),
        "trainer": __version__,
        "engine": ENGINE_VERSION,
    }


def _standard(standard):
    digest = hashlib.sha256(standard.path.read_bytes()).hexdigest()
    return {"name": standard.name, "title": standard.title, "digest": digest}


def _minutes(needed):
    return {
        "needed": needed.total,
        "planned": needed.planned,
        "drop": list(needed.dropped),
        "out_of_reach": list(needed.out_of_reach),
        "at_best": [
            {"area": area, "minutes": best[0], "share": best[1], "in_time": best[2]}
            for area, best in needed.at_best.items()
        ],
    }


def _own(library, aimed, store, today):
    """Return whose numbers were asked, and how many of the core of the stage hold tomorrow."""
    core = knowledge.beliefs([library.outlines[one] for one in aimed.core], store)
    held, _ = standing.counted(aimed.core, core, today + 1.0)
    return {
        "airframe": library.notes.get("airframe.title", ""),
        "ship": library.notes.get("ship.title", ""),
        "stage": aimed.stage,
        "held": held,
        "of": len(aimed.core),
    }


def _event(aimed, on, now, clock):
    """Return the record of what is forecast for: the event ahead, the date asked for, or a week from now."""
    zone, coming = clock.local().tzinfo, aimed.event
    name = coming.name if coming else "date asked for"
    if aimed.on is None:
        name = f"in {WITHOUT_EVENT_DAYS} days (no event is set)"
    if coming:
        zone = timezone(timedelta(minutes=coming.offset_min))
    return {
        "name": name,
        "at": _utc(on),
        "local": f"{on.astimezone(zone):%Y-%m-%d %H:%M}",
        "days": max(0.0, (on - now).total_seconds() / 86_400.0),
        "set": aimed.on is not None,
        "areas": list(coming.areas) if coming else [],
    }


def _causes(judged, history, forecast, common):
    found = {}
    for area in judged:
        names = [slip["words"] for slip in common if slip["area"] == area["area"]]
        found[area["area"]] = briefing.cause_of(area, history, areas.mask(history, forecast, area["area"]), names)
    return found


def _utc(instant):
    return instant.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


def _period(history, store, since):
    measured = ~np.isnan(history.seconds)
    flown = [debrief.flown for debrief in store.debriefs()]
    return {
        "from": as_date(history.days.min()).isoformat() if len(history) else None,
        "to": as_date(history.days.max()).isoformat() if len(history) else None,
        "since": since is not None,
        "days": len(np.unique(history.days)),
        "answers": len(history),
        "right": int(history.right.sum()),
        "in_time": int((history.right & ~history.late).sum()),
        "minutes": float(history.seconds[measured].sum() / 60.0),
        "unmeasured": int((~measured).sum()),
        "drills": len(history.drills.names),
        "hinted": int(history.hinted.sum()),
        "asked_back": int(history.asked_back.sum()),
        "in_flight": int(history.modes.is_("debrief").sum()) if len(history) else 0,
        "last_flown": max(flown, default=None),
    }


def _invented(library, standard):
    """Return the labels of invented data that this report rests on."""
    labels = [library.notes.get(kind, "") for kind in ("airframe", "ship", "airwing")]
    return list(dict.fromkeys(label for label in (*labels, standard.invented) if label))
