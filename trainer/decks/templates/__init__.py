"""Templates for ``trainer deck new``: commented files that pass the check as they are."""

from pathlib import Path

from trainer.decks.files import AIRWING
from trainer.decks.words import nearest, printable
from trainer.errors import StorageError, UsageError
from trainer.patterns import Late

KINDS = ("computed", "flow", "recall", "call", "listen", "airframe", "ship", "air-wing", "stage", "standard", "said")
AIR_WING, SAID = "air-wing", "said"
NAME = "@NAME@"
_GOOD_NAME = Late(r"[a-z][a-z0-9-]{0,38}[a-z0-9]")
_NOT_IN_A_NAME = Late(r"[^a-z0-9]+")


def write(kind, path, flows=None):
    """Write the template of ``kind`` to ``path`` and return the path; ``.toml`` is added where it is missing.

    ``flows`` are the flows by id: a file that tells how the steps of one are said is called after it, and holds its
    steps.  Raises ``UsageError`` for a kind that does not exist, a name that a deck can't have, and a file that
    stands there already; ``StorageError`` where the file can't be written.
    """
    if kind not in KINDS:
        raise UsageError(f"there is no template {kind!r}{nearest(kind, KINDS)}", hint=f"one of {', '.join(KINDS)}")
    path = Path(path)
    path = path if path.suffix == ".toml" else path.with_name(path.name + ".toml")
    text = filled(kind, path.stem)
    if kind == SAID:
        text += _steps(path.stem, flows or {})
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise UsageError(f"{printable(path)} is there already", hint="choose another name") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise StorageError(f"{printable(path)} can't be written: {reason}") from None
    return path


def filled(kind, name):
    """Return the text of the template of ``kind`` for a file called ``name``."""
    if not _GOOD_NAME.fullmatch(name):
        good = _NOT_IN_A_NAME.sub("-", name.lower()).strip("-0123456789") or "start-up"
        raise UsageError(
            f"{printable(name[:60])!r} can't be a name: lower-case letters, digits and hyphens, 2 to 40",
            hint=f"for example {good[:40].strip('-')}.toml",
        )
    if kind == AIR_WING and f"{name}.toml" != AIRWING:
        raise UsageError(f"an air wing's file is called {AIRWING}", hint=f"trainer deck new air-wing {AIRWING}")
    text = Path(__file__).with_name(f"{kind}.toml").read_text(encoding="utf-8")
    return text.replace(NAME, name)


def _steps(name, flows):
    """Return an empty table for each step of the flow ``name``, its wording as a remark above it."""
    if name not in flows:
        near = nearest(name, flows)
        raise UsageError(f"there is no flow {name!r}{near}", hint="the file is called after the flow, as bingo.toml")
    return "\n".join(f"# {step.do}\n[{step.id}]\nright = []\nwrong = []\nnear = []\n" for step in flows[name].steps)
