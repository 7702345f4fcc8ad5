"""The whole report on one pilot as one JSON record: what pages render, and what an export holds.

Its fields are documented in ``trainer/pages/schema/report-1.json``.  It carries no list of reviews: its size does
not grow with the years, so that an instructor's page over 200 pilots is made in seconds.
"""

import hashlib
from dataclasses import dataclass
from datetime import UTC, timedelta, timezone
from typing import Any

import numpy as np

from trainer import __version__
from trainer.engine.quantities import ENGINE_VERSION
from trainer.practice import events, honesty, knowledge
from trainer.practice.evidence import areas, briefing, course, custody, deviations, slips, weak
from trainer.practice.evidence.forecast import Knowledge
from trainer.practice.evidence.history import History, as_date

FORMAT, VERSION = "trainer report", 1
WITHOUT_EVENT_DAYS = 7


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What is asked for: a ``standard``, an event (aware ``on``), reviews ``since`` (aware), how to be named.

    ``answers`` False leaves out what was typed.
    """

    standard: Any
    on: Any = None
    since: Any = None
    name: str = ""
    call_sign: str = ""
    answers: bool = True


def gather(store, library, clock, wish, *, caution):
    """Return the report as a record that is ready for JSON.  ``caution`` is the sentence shown on every page."""
    now, local = clock.now(), clock.local()
    history = History(store, since=wish.since)
    drills = library.drills
    event = _event(store, clock, wish.on)
    today, event_day = knowledge.day_of(now), event.pop("day")
    known = Knowledge(library, store, wish.standard, honesty.correction(store, now))
    judged = areas.of_areas(history, known, library.outlines, only=event["areas"], today=today, event_day=event_day)
    verdict, sentence = areas.overall(judged)
    weakest = weak.weakest(history, known, store, library, today=today, event_day=event_day, answers=wish.answers)
    slow = weak.slow(history, known)
    common = slips.common(history, store, drills)
    return {
        "format": FORMAT,
        "version": VERSION,
        "made": {
            "at": _utc(now),
            "day": local.date().isoformat(),
            "trainer": __version__,
            "engine": ENGINE_VERSION,
        },
        "caution": caution,
        "invented": _invented(library, wish.standard),
        "pilot": custody.pilot(store, store.chain(), name=wish.name, call_sign=wish.call_sign),
        "period": _period(history, store, wish.since),
        "event": event,
        "standard": {
            "name": wish.standard.name,
            "title": wish.standard.title,
            "digest": hashlib.sha256(wish.standard.path.read_bytes()).hexdigest(),
        },
        "verdict": verdict,
        "verdict_words": sentence,
        "areas": judged,
        "weakest": weakest,
        "slow": slow,
        "slips": common,
        "deviations": deviations.most_off(history, drills),
        "weeks": course.weeks(history),
        "calibration": course.honesty(history),
        "brief": briefing.lines(common, weakest, judged, slow),
        "answers_included": wish.answers,
        "chain": custody.of_reviews(store, len(history)),
    }


def _event(store, clock, on):
    """Return the event's record with its ``day`` (float, UTC): ``on``, else the next one set, else in a week."""
    now, coming = clock.now(), events.upcoming(store, clock)
    if on is None and coming is not None:
        name, at, zone = coming.name, coming.at, timezone(timedelta(minutes=coming.offset_min))
    elif on is not None:
        name, at, zone = "date asked for", on, clock.local().tzinfo
    else:
        at, zone = now + timedelta(days=WITHOUT_EVENT_DAYS), clock.local().tzinfo
        name = f"in {WITHOUT_EVENT_DAYS} days (no event is set)"
    return {
        "name": name,
        "at": _utc(at),
        "local": f"{at.astimezone(zone):%Y-%m-%d %H:%M}",
        "days": max(0.0, (at - now).total_seconds() / 86_400.0),
        "set": on is not None or coming is not None,
        "areas": list(coming.areas) if on is None and coming is not None else [],
        "day": knowledge.day_of(max(at, now)),
    }


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
        "in_flight": int(history.modes.is_("debrief").sum()) if len(history) else 0,
        "last_flown": max(flown, default=None),
    }


def _invented(library, standard):
    """Return the labels of invented data that this report rests on."""
    labels = [library.notes.get(kind, "") for kind in ("airframe", "ship", "airwing")]
    return list(dict.fromkeys(label for label in (*labels, standard.invented) if label))
