"""What is kept beside reviews: settings, the first question of the next session, events, debriefs."""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from datetime import date
from sqlite3 import Connection
from typing import Any

from trainer.clock import Clock
from trainer.errors import StorageError
from trainer.store import rows, shapes
from trainer.store.records import Debrief, Event, Flag
from trainer.store.states import number_of


class Notes:
    """The part of the store that reviews and states have nothing to do with.

    Its host gives ``_read(sql, values)``, which returns all rows, ``_write()``, the block of one
    transaction, which yields the connection, ``clock``, and ``tell(line)``, which says what was passed over.
    """

    clock: Clock

    def _read(self, sql: str, values: Sequence[Any] = ()) -> list[Any]:
        raise NotImplementedError

    def _write(self) -> AbstractContextManager[Connection]:
        raise NotImplementedError

    def tell(self, line: str) -> None:
        """Say ``line`` to whoever opened the store."""
        raise NotImplementedError

    def setting(self, key, default=None):
        """Return the JSON value stored under ``key``; one that lost its shape counts as never set, and is told."""
        found = self._read("SELECT CAST(value AS BLOB) FROM setting WHERE key = ?", (key,))
        if not found:
            return default
        try:
            return shapes.setting(key, found[0][0])
        except shapes.Misshapen:
            if key not in shapes.MADE_ANEW:
                self.tell(f"the setting {key!r} is damaged and counts as never made; making it anew repairs it")
            return default

    def set_setting(self, key, value):
        """Store ``value`` (anything JSON can hold) under ``key``."""
        text = rows.to_json(value)
        with self._write() as connection:
            connection.execute(
                "INSERT INTO setting VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                (key, text),
            )

    def opening(self):
        """Return the record of the question that the next session begins with, or None."""
        found = self._read("SELECT CAST(record AS BLOB) FROM opening")
        try:
            return shapes.loaded(found[0][0], shapes.MAPPING) if found else None
        except shapes.Misshapen:
            return None  # it is made anew after every session

    def set_opening(self, record):
        """Store the record (a JSON mapping) that the next session begins with; None takes it away."""
        text = None if record is None else rows.to_json(record)
        with self._write() as connection:
            connection.execute("DELETE FROM opening")
            if text is not None:
                connection.execute("INSERT INTO opening VALUES (1, ?)", (text,))

    def add_event(self, event):
        """Store ``event`` and return its number."""
        return self._add(
            "INSERT INTO event (name, at, offset_min, minutes_per_day, areas, standard, created)"
            " VALUES (?, ?, ?, ?, ?, ?, ?)",
            (
                rows.plain(event.name),
                rows.utc_text(event.at),
                int(event.offset_min),
                rows.number(event.minutes_per_day),
                rows.to_json(list(event.areas)),
                rows.plain(event.standard),
            ),
        )

    def events(self):
        """Return every ``Event``, the newest entry first."""
        names = ("id", "name", "at", "offset_min", "minutes_per_day", "areas", "standard", "created")
        found = self._read(f"SELECT {', '.join(names)} FROM event ORDER BY id DESC")
        turn = {"at": rows.instant, "created": rows.instant, "areas": _texts}
        turn |= {"offset_min": rows.offset, "minutes_per_day": _minutes, "name": _text, "standard": _text}
        return self._sound("event", Event, names, found, turn, "`trainer cram --cancel {}` removes it")

    def remove_event(self, event_id):
        """Forget an event, a damaged one as well; return whether there was one of that number."""
        with self._write() as connection:
            return connection.execute("DELETE FROM event WHERE id = ?", (event_id,)).rowcount > 0

    def add_debrief(self, debrief):
        """Store ``debrief`` and return its number."""
        return self._add(
            "INSERT INTO debrief (flown, remarks, phases, created) VALUES (?, ?, ?, ?)",
            (rows.plain(debrief.flown), rows.plain(debrief.remarks), rows.to_json(debrief.phases)),
        )

    def debriefs(self):
        """Return every ``Debrief``, the newest entry first."""
        names = ("id", "flown", "remarks", "phases", "created")
        found = self._read(f"SELECT {', '.join(names)} FROM debrief ORDER BY id DESC")
        turn = {"created": rows.instant, "phases": _phases, "flown": _day, "remarks": _text}
        return self._sound("debrief", Debrief, names, found, turn, "its reviews are not touched")

    def flag(self, question, *, drill_id, deck, deck_hash, at, answer=None, note=""):
        """Mark ``question`` (a JSON mapping) as faulty, for good, and return the number of the mark.

        ``answer`` is the ``Recorded`` answer to it; the mark stays without it where the data no longer hold it.
        """
        named = (rows.plain(drill_id), rows.plain(deck), rows.plain(deck_hash))
        with self._write() as connection:
            review_id = number_of(connection, answer.id, answer.digest) if answer else None
            return connection.execute(
                "INSERT INTO flag (id, drill_id, deck, deck_hash, question, review_id, at, note)"
                " VALUES ((SELECT coalesce(max(id), 0) + 1 FROM flag), ?, ?, ?, ?, ?, ?, ?)",
                (*named, rows.to_json(question), review_id, rows.utc_text(at), rows.plain(note)),
            ).lastrowid

    def flags(self):
        """Return every ``Flag``, the newest first."""
        names = ("id", "drill_id", "deck", "deck_hash", "question", "review_id", "at", "note")
        found = self._read(f"SELECT {', '.join(names)} FROM flag ORDER BY id DESC")
        turn = {"question": _mapping, "at": rows.instant}
        turn |= dict.fromkeys(("drill_id", "deck", "deck_hash", "note"), _text)
        return self._sound("flag", Flag, names, found, turn, "`trainer data salvage` saves all the others")

    def _add(self, sql, values):
        with self._write() as connection:
            return connection.execute(sql, (*values, rows.utc_text(self.clock.now()))).lastrowid

    def _sound(self, what, make, names, found, turn, hint):
        """Return the rows ``found`` as records, without those that damage has changed, which are told."""
        sound = []
        for row in found:
            try:
                values = [turn.get(name, _as_is)(value) for name, value in zip(names, row, strict=True)]
            except StorageError:
                self.tell(f"{what} {row[0]} is damaged and passed over; {hint.format(row[0])}")
            else:
                sound.append(make(**dict(zip(names, values, strict=True))))
        return sound


def _texts(text):
    return tuple(_loaded(text, shapes.TEXTS))


def _phases(text):
    """Return what was told of each phase: {phase: {drill: {"how": text, …}}}; the "case" beside them is a number."""
    told = _mapping(text)
    for one in (drill for phase in told.values() if isinstance(phase, dict) for drill in phase.values()):
        if not isinstance(one, dict) or not isinstance(one.get("how", ""), str):
            raise rows.damaged("what was told of a drill has no shape")
    return told


def _mapping(text) -> dict[str, Any]:
    return rows.tuples(_loaded(text, shapes.MAPPING))


def _loaded(text, shape):
    try:
        return shapes.loaded(text, shape)
    except shapes.Misshapen as error:
        raise rows.damaged(error) from error


def _as_is(value):
    return value


def _text(value):
    if not isinstance(value, str):
        raise rows.damaged(f"{value!r} is no text")
    return value


def _day(value):
    try:
        return date.fromisoformat(_text(value)).isoformat()
    except ValueError as error:
        raise rows.damaged(error) from error


def _minutes(value):
    if not 0 < rows.stored_number(value) <= rows.MINUTES_PER_DAY:
        raise rows.damaged(f"{value} is no number of minutes a day")
    return value
