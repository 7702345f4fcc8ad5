"""The unit that a name ends in: ``gross_weight_lb`` is pounds, ``flow_lb_min`` pounds a minute."""

from trainer.decks.shape import MANY, REQUIRED
from trainer.decks.words import listed, nearest, quoted
from trainer.engine.units import UNITS

NO_UNIT = "count"
KNOWN = tuple(name for name in UNITS if name not in ("word", "table"))
_SPELT = {"percent": "%", "pct": "%", "kt": "kn", "dme": "nm", "fpm": "ft/min", "pph": "lb/h"}
_DIRECTIONS = frozenset(("heading", "hdg", "course", "bearing", "radial", "brc", "fb", "track", "direction", "from"))
_TURNS = frozenset(("angle", "bank", "slope", "error", "difference", "turn", "lead", "crab", "variation", "relative"))
_ANGLES = frozenset(("direction", "angle", "coordinate", "trim"))


def read_unit(table, default=REQUIRED):
    """Return the name of a unit at "unit" of ``table``; a spelling of it is pointed out as a fault."""
    value = table.raw("unit", default)
    if value is None:
        return ""
    if value == default or (isinstance(value, str) and value in KNOWN):
        return value
    spellings = {spelling: name for name in KNOWN for spelling in (*UNITS[name].spellings, name)}
    near = spellings.get(str(value).lower()) or spellings.get(_near(value, spellings))
    hint = f'; did you mean "{near}"?' if near else ""
    table.fault("unit", f"{quoted(value)} is no unit{hint or f' (allowed: {listed(KNOWN, MANY)})'}")
    return ""


def _near(value, spellings):
    return nearest(value, spellings, cutoff=0.75).partition('"')[2].rpartition('"')[0]


def unit_of(name):
    """Return the name of the unit that ``name`` ends in, "" when it ends in none.

    >>> unit_of("flow_lb_min"), unit_of("brc_deg"), unit_of("deck_angle_deg"), unit_of("side")
    ('lb/min', 'heading', 'deg', '')
    """
    parts = name.split("_")
    pair, last = "/".join(parts[-2:]), parts[-1]
    if len(parts) > 2 and pair in UNITS:
        return pair
    if last == "deg":
        return "heading" if _DIRECTIONS.intersection(parts) and not _TURNS.intersection(parts) else "deg"
    unit = _SPELT.get(last, last)
    # One letter alone is a symbol of mathematics and not a unit.
    return unit if unit in UNITS and (len(parts) > 1 or len(last) > 2) else ""


def fits(from_unit, to_unit):
    """Return whether a number in ``from_unit`` may stand where ``to_unit`` is meant; unknown ones fit."""
    if "" in (from_unit, to_unit) or NO_UNIT in (from_unit, to_unit) or from_unit == to_unit:
        return True
    return UNITS[from_unit].dimension in _ANGLES and UNITS[to_unit].dimension in _ANGLES
