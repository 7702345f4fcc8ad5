"""Reading one table of a deck: checked values out, every fault noted, unknown keys found at the end."""

import math

from trainer.decks.placeholders import Placeholder, plain, split
from trainer.decks.words import listed, nearest, one_line, printable, quoted, refused_characters
from trainer.patterns import Late

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LONGEST_TEXT = 2_000
MOST_IN_LIST = 100
LARGEST_NUMBER = 1e12
FEW, MANY = 12, 60
ID = Late(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?")
NAME = Late(r"[a-z][a-z0-9_]{0,59}")
REQUIRED: "Any" = object()


class Table:
    """A table at ``place``.  Getters return the value; after noting a fault the default, ``None`` or ""."""

    def __init__(self, data, place, findings, drill="", *, absent=False):
        self.data, self.place, self.findings, self.drill = data, tuple(place), findings, drill
        self.absent = absent  # the table itself is missing, which is told: nothing in it is missed again
        self.known = []

    def fault(self, key, message, *, missing=False):
        """Note a fault at ``key`` (at the table itself for "")."""
        place = (*self.place, key) if key != "" else self.place
        self.findings.add(place, message, self.drill, missing=missing)

    def has(self, key):
        """Return whether ``key`` stands in the table; it counts as known from now on."""
        self.known.append(key)
        return key in self.data

    def raw(self, key, default=None):
        """Return the value of ``key`` as it stands, noting a fault when it is missing and required."""
        if self.has(key):
            return self.data[key]
        if default is REQUIRED and not self.absent:
            self.fault("", f'"{key}" is missing', missing=True)
        return None if default is REQUIRED else default

    def text(self, key, default="", *, longest=LONGEST_TEXT, literal=True):
        """Return a text on one line.  ``literal`` text may hold no placeholders; else they are kept."""
        value = self.raw(key, default)
        if value is None or value == default:
            return value or ""
        return self.checked_text(key, value, longest=longest, literal=literal)

    def checked_text(self, key, value, *, longest=LONGEST_TEXT, literal=True):
        """Return ``value`` as a text fit for a screen, "" after noting what is wrong with it."""
        if not isinstance(value, str):
            self.fault(key, f"{quoted(value)} must be a text in quotes")
            return ""
        if len(value) > longest:
            self.fault(key, f"the text is longer than {longest:,} characters")
            return ""
        bad = refused_characters(value)
        if bad:
            self.fault(key, f"the text holds a character that may not reach a screen: {printable(bad[0])}")
            return ""
        value = one_line(value)
        if not value:
            self.fault(key, "the text is empty")
            return ""
        try:
            return plain(value) if literal else value
        except ValueError as error:
            self.fault(key, str(error))
            return ""

    def asked(self, key, default="", names=None):
        """Return a text with placeholders; each must be one of ``names``."""
        text = self.text(key, default, literal=False)
        self.check_placeholders(key, text, names)
        return text

    def check_placeholders(self, key, text, names):
        """Note each placeholder of ``text`` that is not one of ``names``; return the names it uses."""
        try:
            used = [part.name for part in split(text) if isinstance(part, Placeholder)]
        except ValueError as error:
            self.fault(key, str(error))
            return []
        for name in used:
            if names is not None and name not in names:
                known = listed(names) or "none"
                self.fault(key, f"{{{name}}} names no input{nearest(name, names)} (known: {known})")
        return used

    def number(self, key, default=None, *, low=-LARGEST_NUMBER, high=LARGEST_NUMBER):
        """Return a finite number as float, ``None`` after a fault."""
        value = self.raw(key, default)
        if value is None:
            return None
        return self.checked_number(key, value, low=low, high=high)

    def checked_number(self, key, value, *, low=-LARGEST_NUMBER, high=LARGEST_NUMBER):
        """Return ``value`` as float, ``None`` after noting that it is no number or out of range."""
        if type(value) not in (int, float):
            self.fault(key, f"{quoted(value)} must be a number")
        elif isinstance(value, float) and not math.isfinite(value):
            self.fault(key, f"{quoted(value)} is not a finite number")
        elif not low <= value <= high:
            self.fault(key, f"{quoted(value)} must be from {low:g} to {high:g}")
        else:
            return float(value)
        return None

    def yes_no(self, key, default):
        """Return true or false."""
        value = self.raw(key, default)
        if not isinstance(value, bool):
            self.fault(key, f"{quoted(value)} must be true or false")
            return default
        return value

    def word(self, key, options, default=REQUIRED, *, what=""):
        """Return one of ``options``, "" after a fault."""
        value = self.raw(key, default)
        if value is None:
            return ""
        if value != default and (not isinstance(value, str) or value not in options):
            near = nearest(value, options) if isinstance(value, str) else ""
            # A long list beside a good suggestion only hides it.
            allowed = "" if near and len(options) > FEW else f" (allowed: {listed(options, MANY)})"
            self.fault(key, f"{quoted(value)} is no {what or key}{near}{allowed}")
            return ""
        return value

    def texts(self, key, *, most=MOST_IN_LIST, literal=True, required=False):
        """Return a tuple of texts; faulty ones are left out."""
        value = self.list(key, most=most, required=required)
        texts = [self.at(key, i).checked_text("", text, literal=literal) for i, text in enumerate(value)]
        return tuple(text for text in texts if text)

    def list(self, key, *, most=MOST_IN_LIST, required=False):
        """Return a list, [] when it is missing or after a fault."""
        value = self.raw(key, REQUIRED if required else [])
        if value is None:
            return []
        if not isinstance(value, list):
            self.fault(key, f"{quoted(value)} must be a list in [ ]")
            return []
        if len(value) > most:
            self.fault(key, f"the list has {len(value):,} entries; at most {most:,} are read")
            return []
        return value

    def at(self, *keys):
        """Return an empty table whose faults are noted below ``keys``: a place in a list."""
        return Table({}, (*self.place, *keys), self.findings, self.drill)

    def table(self, key, *, required=False):
        """Return the table at ``key``, an empty one when it is missing or after a fault."""
        value = self.raw(key, REQUIRED if required else {})
        absent = not isinstance(value, dict)
        if absent and value is not None:
            self.fault(key, f"{quoted(value)} must be a table")
        return Table({} if absent else value, (*self.place, key), self.findings, self.drill, absent=absent)

    def tables(self, key, *, most=MOST_IN_LIST):
        """Return the tables of a list ``[[key]]``."""
        tables = []
        for index, value in enumerate(self.list(key, most=most)):
            if isinstance(value, dict):
                tables.append(Table(value, (*self.place, key, index), self.findings, self.drill))
            else:
                self.fault(key, f"{quoted(value)} must be a table, written under [[…{key}]]")
        return tables

    def identifier(self, key="id"):
        """Return an id of lower case, digits and hyphens, 2 to 60 characters; "" after a fault."""
        value = self.raw(key, REQUIRED)
        if value is None:
            return ""
        fits = isinstance(value, str) and 2 <= len(value) <= 60 and ID.fullmatch(value)
        if not fits:
            self.fault(key, f"{quoted(value)} is no id: 3 to 60 lower-case letters, digits and hyphens")
            return ""
        return value

    def finish(self):
        """Note every key that nobody asked for."""
        for key in self.data:
            if key not in self.known:
                known = sorted(set(self.known))
                hint = nearest(key, known) or f" (allowed: {listed(known, MANY)})"
                self.fault(key, f"unknown key {quoted(key)}{hint}")
