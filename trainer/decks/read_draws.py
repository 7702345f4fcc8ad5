"""``[….draw]``: how each input of a drill is drawn."""

import keyword

from trainer.decks.formula import compile_formula
from trainer.decks.functions import RESERVED
from trainer.decks.read_common import Reference, Wanted
from trainer.decks.shape import NAME, REQUIRED
from trainer.decks.unit_names import NO_UNIT, read_unit, unit_of
from trainer.decks.words import listed, nearest, normalise, quoted
from trainer.errors import FormulaError
from trainer.model import Draw
from trainer.patterns import Late

REFERENCE = Late(r"(ship|airframe|airwing)\.([a-z][a-z0-9_]{0,59})")
CALLED = ".called"  # the one thing of the user's files that is a word: what it is called on the radio
MOST_DRAWS = 40
MOST_STEPS_OF_A_SPAN = 1_000_000


class Draws:
    """The draws of one drill, with what the rest of the drill may name."""

    def __init__(self, table, specs=(), *, words_allowed=False):
        self.table = table
        self.specs = {spec.name: spec for spec in specs}
        self.words_allowed = words_allowed
        self.draws = {}
        self.references = []
        self.formulas = {}
        self.used = set()
        self.read()

    def read(self):
        """Read every entry in the order of the file."""
        if len(self.table.data) > MOST_DRAWS:
            self.table.fault("", f"there are {len(self.table.data):,} inputs; at most {MOST_DRAWS} are drawn")
            return
        for name, value in self.table.data.items():
            if name not in self.specs and not _can_name_an_input(name):
                message = f"{quoted(name)} can't name an input: lower case, digits, _ and no word of formulas"
                self.table.fault(name, message)
            else:
                self.draws[name] = self.one(name, value)
        for name, spec in self.specs.items():
            if name not in self.table.data and spec.take:
                self.refer(name, spec.take, spec, spec.default is not None)

    @property
    def units(self):
        """Return {name: unit} of everything a formula of this drill may name."""
        left_out = {name: spec.unit for name, spec in self.specs.items() if name not in self.table.data}
        return left_out | {name: draw.unit for name, draw in self.draws.items()}

    @property
    def shown(self):
        """Return the names that a text of this drill may show."""
        return [name for name, unit in self.units.items() if unit != "table"]

    def one(self, name, value):
        """Return the ``Draw`` of the input ``name``."""
        spec = self.specs.get(name)
        unit = spec.unit if spec else unit_of(name) or NO_UNIT
        if isinstance(value, str):
            return Draw(name=name, take=self.take(name, value, spec), unit=unit)
        if spec and spec.unit == "table":
            self.table.fault(name, f'{quoted(name)} is a table; name it as in "airframe.trim"')
            return Draw(name=name, unit=unit)
        if type(value) in (int, float):
            return Draw(name=name, any_of=self.values(self.table, name, [value], spec), unit=unit)
        if not isinstance(value, dict):
            self.table.fault(name, f'{quoted(value)} must be {{ from = …, to = …, step = … }} or "ship.…"')
            return Draw(name=name, unit=unit)
        return self.from_table(name, self.table.table(name), spec, unit)

    def from_table(self, name, entry, spec, unit):
        """Return the ``Draw`` that the table ``entry`` describes."""
        forms = [form for form in ("from", "any_of", "formula") if form in entry.data]
        if not spec:
            unit = read_unit(entry, unit)
        fields: dict = {}
        if len(forms) != 1:
            entry.fault("", "a draw has exactly one of: from/to/step, any_of, formula")
            entry.known += ("from", "to", "step", "any_of", "formula")
        elif forms[0] == "from":
            of = self.share_of(entry, spec)
            fields = {"span": self.span(entry, None if of else spec), "of": of}
        elif forms[0] == "any_of":
            fields = {"any_of": self.values(entry, "any_of", entry.list("any_of", required=True), spec)}
        else:
            fields = {"formula": self.formula(name, entry)}
        entry.finish()
        return Draw(name=name, unit=unit or NO_UNIT, **fields)

    def share_of(self, entry, spec):
        """Return the number or table of the user's files that from and to are shares of, "" for none."""
        if "of" not in entry.data:
            return ""
        reference = entry.text("of")
        if not REFERENCE.fullmatch(reference):
            entry.fault("of", f'{quoted(reference)} is no value or table of your files, like "airframe.trim_steps"')
            return ""
        self.references.append(
            Reference(
                place=(*entry.place, "of"), drill=entry.drill, name=reference, is_table=None, spec=Wanted.of(spec)
            )
        )
        return reference

    def span(self, entry, spec):
        """Return (from, to, step)."""
        low, high, step = (entry.number(key, REQUIRED) for key in ("from", "to", "step"))
        if None in (low, high, step):
            return None
        if step <= 0:
            entry.fault("step", f"{step:g} must be more than 0")
        elif high < low:
            entry.fault("to", f"{high:g} is less than from = {low:g}")
        elif (high - low) / step > MOST_STEPS_OF_A_SPAN:
            entry.fault("step", f"from {low:g} to {high:g} are more than {MOST_STEPS_OF_A_SPAN:,} steps")
        elif spec:
            in_range(entry, "from", low, spec)
            in_range(entry, "to", high, spec)
        return (low, high, step)

    def values(self, table, key, values, spec):
        """Return the tuple of numbers (or plain words, for calls) that a draw chooses from."""
        if values == [] and isinstance(table.data.get(key), list):
            table.fault(key, "the list is empty")
        numbers = []
        for index, value in enumerate(values):
            place = table.at(key, index) if isinstance(table.data.get(key), list) else table.at(key)
            number = self.value(place, value, spec)
            if number is not None:
                numbers.append(number)
        return tuple(numbers)

    def value(self, place, value, spec):
        """Return one value: a word of a coded input becomes its number."""
        if isinstance(value, str) and spec and spec.words:
            codes = {normalise(word): code for code, word in spec.words.items()}
            if normalise(value) not in codes:
                known = listed(spec.words.values())
                near = nearest(value, spec.words.values())
                place.fault("", f"{quoted(value)} is no word for {spec.title}{near} (allowed: {known})")
                return None
            return float(codes[normalise(value)])
        if isinstance(value, str) and self.words_allowed:
            return place.checked_text("", value) or None
        number = place.checked_number("", value)
        if number is not None and spec:
            in_range(place, "", number, spec)
        return number

    def take(self, name, reference, spec):
        """Return a reference to the user's files."""
        if not REFERENCE.fullmatch(reference):
            how = "words stand in any_of = […]" if spec and spec.words else 'write it as "ship.deck_angle_deg"'
            self.table.fault(name, f"{quoted(reference)} is no value of your files; {how}")
            return ""
        if reference.endswith(CALLED) and not self.words_allowed:
            self.table.fault(name, f"{quoted(reference)} is a word, and a calculation takes numbers")
            return ""
        self.refer(name, reference, spec, False)
        return reference

    def refer(self, name, reference, spec, has_default):
        """Remember that the drill needs ``reference``, unless a default stands in for it."""
        if not has_default:
            place = (*self.table.place, name) if name in self.table.data else self.table.place
            is_table = bool(spec) and spec.unit == "table"
            self.references.append(
                Reference(place=place, drill=self.table.drill, name=reference, is_table=is_table, spec=Wanted.of(spec))
            )

    def formula(self, name, entry):
        """Return the text of a formula over the inputs above ``name``."""
        text = entry.text("formula")
        compiled = self.compile(entry, "formula", text)
        if compiled:
            self.formulas[name] = compiled
        return text

    def compile(self, table, key, text, *, condition=False):
        """Return the compiled formula, ``None`` after noting what is wrong; remembers the tables it needs."""
        if not text:
            return None
        try:
            compiled = compile_formula(text, self.units, condition=condition)
        except FormulaError as error:
            column = f", column {error.column}" if error.column > 1 else ""
            table.fault(key, f"formula{column}: {error}")
            return None
        self.used |= compiled.names
        for name in compiled.tables:
            if not REFERENCE.fullmatch(name):
                table.fault(key, f'{quoted(name)} is no table of your files; write it as "airframe.trim"')
            else:
                reference = Reference(place=(*table.place, key), drill=table.drill, name=name, is_table=True)
                self.references.append(reference)
        return compiled


def _can_name_an_input(name):
    return NAME.fullmatch(name) and not keyword.iskeyword(name) and name not in RESERVED


def in_range(table, key, value, spec):
    """Note a value outside the range of the input ``spec``."""
    if spec.words and value not in spec.words:
        allowed = ", ".join(f"{code:g} ({word})" for code, word in spec.words.items())
        table.fault(key, f"{value:g} is outside the range of {spec.title} (allowed: {allowed})")
    elif not spec.words and not spec.low <= value <= spec.high:
        table.fault(key, f"{value:g} is outside the range of {spec.title}, {spec.low:g} to {spec.high:g}")
