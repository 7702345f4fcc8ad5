"""The only thing that text of a deck may ask for: ``{name}``, or ``{name:100}`` rounded to that step.

No attribute, index, conversion or format is known here; ``{{`` and ``}}`` are literal braces.
"""

from trainer.frozen import frozen
from trainer.patterns import Late

_PIECE = Late(r"\{\{|\}\}|\{(?P<name>[a-z][a-z0-9_]{0,59})(?::(?P<step>[0-9]{1,6}(?:\.[0-9]{1,4})?))?\}|[{}]")


@frozen
class Placeholder:
    """``name`` of an input and the ``step`` it is rounded to before it is shown, None for its usual form."""

    name: str
    step: float | None = None


def split(text: str) -> "tuple[str | Placeholder, ...]":
    """Return ``text`` as a tuple of literal texts and ``Placeholder``s; ``ValueError`` on anything else.

    >>> split("angels {angels}, {{literally}}")
    ('angels ', Placeholder(name='angels', step=None), ', {literally}')
    """
    parts, literal, at = [], [], 0
    for match in _PIECE.finditer(text):
        literal.append(text[at : match.start()])
        at = match.end()
        if match.group() in ("{{", "}}"):
            literal.append(match.group()[0])
            continue
        parts += [piece for piece in ("".join(literal),) if piece]
        parts.append(_placeholder(match, text))
        literal = []
    literal.append(text[at:])
    return (*parts, *[piece for piece in ("".join(literal),) if piece])


def plain(text):
    """Return ``text`` that may hold no placeholder, with ``{{`` as ``{``; raises ``ValueError``."""
    if "{" not in text and "}" not in text:
        return text
    literal = ""
    for part in split(text):
        if isinstance(part, Placeholder):
            raise ValueError(f"{{{part.name}}} names no input; write {{{{ and }}}} for literal braces")
        literal += part
    return literal


def _placeholder(match, text):
    if not match.group("name"):
        raise ValueError(
            f"the brace at character {match.start() + 1} is not {{name}} or {{name:100}}; "
            "write {{ or }} for a literal one"
        )
    step = match.group("step")
    if step is not None and float(step) == 0:
        raise ValueError(f"{{{match.group('name')}:{step}}} is rounded to steps of nothing")
    return Placeholder(name=match.group("name"), step=float(step) if step else None)
