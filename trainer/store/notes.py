"""What is kept beside reviews: settings, the first question of the next session, events, debriefs."""

import json

from trainer.store import rows
from trainer.store.records import Debrief, Event, Flag
from trainer.store.states import number_of


class Notes:
    """The part of the store that reviews and states have nothing to do with.

    Its host gives ``_read(sql, values)``, which returns all rows, ``_write()``, the block of one
    transaction, which yields the connection, and ``clock``.
    """

    def setting(self, key, default=None):
        """Return the JSON value stored under ``key``."""
        found = self._read("SELECT CAST(value AS BLOB) FROM setting WHERE key = ?", (key,))
        return _loaded(found[0][0], default) if found else default

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
        return _loaded(found[0][0], None) if found else None

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
        turn = {"at": rows.instant, "created": rows.instant, "areas": rows.from_json}
        turn |= dict.fromkeys(("offset_min", "minutes_per_day"), rows.stored_number)
        return [Event(**_turned(names, row, turn)) for row in found]

    def remove_event(self, event_id):
        """Forget an event."""
        with self._write() as connection:
            connection.execute("DELETE FROM event WHERE id = ?", (event_id,))

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
        turn = {"created": rows.instant, "phases": rows.from_json}
        return [Debrief(**_turned(names, row, turn)) for row in found]

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
        turn = {"question": rows.from_json, "at": rows.instant}
        return [Flag(**_turned(names, row, turn)) for row in found]

    def _add(self, sql, values):
        with self._write() as connection:
            return connection.execute(sql, (*values, rows.utc_text(self.clock.now()))).lastrowid


def _loaded(text, default):
    # Settings and the kept question can all be made anew, so damage to them counts as their absence.  They are
    # read as bytes: Python refuses a row whose text is none.
    try:
        return json.loads(text)
    except (ValueError, RecursionError, TypeError):
        return default


def _turned(names, row, turn):
    return {name: turn.get(name, lambda value: value)(value) for name, value in zip(names, row, strict=True)}
