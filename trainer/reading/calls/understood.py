"""A radio call as it was typed, taken apart: every word and number belongs to one item of the call or to none.

What belongs to none decides: a number or a word of the call too many is a fault, as is a denial; small words and the
words of the scene say nothing; a word that nobody can place is asked about.
"""

from collections.abc import Iterable, Mapping

from trainer.frozen import frozen
from trainer.reading.calls.tokens import DENIALS, Number, fits, tokens_of, typed_tokens

# Words that join others and say nothing by themselves.
_JOINING = frozenset("a an and are at by for i in is it its m my of on our re s the this through to we with".split())
_COURTESY = frozenset(
    "afternoon ah call calling check checking currently er evening good have hello hi here morning now over please "
    "report reporting sir that there uh um your".split()
)
_SKIPPED = _JOINING | _COURTESY
LEAST_SIDE = 100  # a side number has three figures
STATIONS = frozenset("approach boss control departure lso marshal mother paddles strike tower".split())


@frozen
class Part:
    """An item of a call as it may be said: ``ways``, and what makes it wrong (``never``); each a row of tokens."""

    name: str
    ways: tuple[tuple[str | Number, ...], ...]
    never: tuple[tuple[str | Number, ...], ...] = ()


@frozen
class Understood:
    """What a call said: ``places`` {item: where it stands}, ``blamed`` {item: what is wrong with it}.

    ``strange`` are words that nobody can place.
    """

    places: Mapping[str, int]
    blamed: Mapping[str, str]
    strange: tuple[str, ...] = ()


def understand(text: str, parts: Iterable[Part], scene: str = "", foreign: Iterable[str] = ()) -> Understood:
    """Return what the call ``text`` says of ``parts``.

    ``scene`` is what the question tells without its drawn values; its words may be said, too.  ``foreign`` are words
    that other draws would have had in the call: another station's call sign.
    """
    parts, scenery = tuple(parts), tokens_of(scene)
    rows = [way for part in parts for way in (*part.ways, *part.never)]
    vocabulary = frozenset(token for row in rows for token in row if isinstance(token, str))
    typed = _without_runs(typed_tokens(text, rows))
    places, used = _placed(typed, parts)
    free = _JOINING | _COURTESY | _stations(scenery) | {one for one in scenery if isinstance(one, str)}
    free -= (vocabulary - _JOINING) | DENIALS | set(foreign)
    blamed, strange = {}, []
    for at, token in enumerate(typed):
        addressed = at == 0 and token in _stations(scenery)
        if (
            at in used
            or addressed
            or token in free
            or _names_number(at, typed, used, parts)
            or (isinstance(token, Number) and _in_scene(token, scenery))
        ):
            continue
        fault = _fault_of(token, vocabulary | set(foreign))
        if fault:
            blamed.setdefault(_beside(at, places, parts, before=fault is _TOO_MUCH), fault.format(_written(token)))
        else:
            strange.append(str(token))
    return Understood(places=places, blamed=blamed, strange=tuple(strange))


_DENIED, _TOO_MUCH = 'denied: "{}"', 'one too many or out of place: "{}"'


def _fault_of(token, known):
    if token in DENIALS:
        return _DENIED
    return _TOO_MUCH if isinstance(token, Number) or token in known else ""


def _names_number(at, typed, used, parts):
    """Return whether the word at ``at`` only names the number beside it, as an item may: "on the 115 radial"."""
    beside = [typed[one] for one in (at - 1, at + 1) if one in used]
    return not isinstance(typed[at], Number) and any(
        typed[at] in way and isinstance(number, Number) and any(_same(number, one) for one in way)
        for number in beside
        for part in parts
        for way in part.ways
    )


def _beside(at, places, parts, *, before):
    """Return the part that stands beside place ``at``: the one behind it, or ``before`` it."""
    order = sorted(places, key=places.get)
    earlier, later = ([one for one in order if (places[one] < at) == side] for side in (True, False))
    if not order:
        return parts[0].name
    return (earlier or later)[-1] if before or not later else later[0]


def _stations(scenery):
    """Return the stations that may be addressed: those of the scene, any where it names none."""
    return STATIONS.intersection(scenery) or STATIONS


def _in_scene(number, scenery):
    return any(isinstance(one, Number) and fits(number, one) for one in scenery)


def _written(token):
    return f"{token.value:g}" if isinstance(token, Number) else token


def _without_runs(typed):
    """Return ``typed`` with three side numbers or more that follow one another as first and last: 205 206 and 207."""
    out, run = [], 0
    for token in typed:
        joined = out[:-1] if out[-1:] == ["and"] else out
        follows = joined and _is_side(token) and _is_side(joined[-1]) and token.value == joined[-1].value + 1
        run = run + 1 if follows else 0 if token != "and" else run
        out = [*joined[:-1], token] if run > 1 else [*out, token]
    return out


def _is_side(token):
    return isinstance(token, Number) and not token.unit and token.value >= LEAST_SIDE


def _placed(typed, parts):
    """Return ({part: its place}, the places that are used up); a part is looked for behind the one before it first."""
    places, used, last = {}, set(), -1
    for part in parts:
        if any(_found(way, typed, set(), -1) for way in part.never):
            continue
        behind = [_found(way, typed, used, last) for way in part.ways]
        span = max(behind, key=len) or max((_found(way, typed, used, -1) for way in part.ways), key=len)
        if span:
            places[part.name] = span[0]
            used |= set(span)
            last = max(last, span[-1])
    return places, used


def _found(way, typed, used, behind):
    """Return the places at which ``way`` is said without a break, () where it is not; joining words are skipped."""
    for start in range(behind + 1, len(typed)):
        span = _span(way, typed, used, start)
        if span:
            return span
    return ()


def _span(way, typed, used, start):
    has_number, span, at = any(isinstance(one, Number) for one in way), [], start
    for wanted in way:
        while span and at < len(typed) and typed[at] in _SKIPPED and typed[at] != wanted:
            at += 1
        if at < len(typed) and at not in used and _same(typed[at], wanted):
            span.append(at)
            at += 1
        elif not (has_number and wanted in _JOINING):
            return ()
    return tuple(span)


def _same(typed, wanted):
    if isinstance(typed, Number) and isinstance(wanted, Number):
        return fits(typed, wanted)
    return typed == wanted
