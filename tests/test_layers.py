"""A module imports only from its own folder or from a lower floor, and heavy libraries only where they live."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[1] / "trainer"

FLOORS = {
    "model": 1, "frozen": 1, "patterns": 1, "errors": 1, "clock": 1, "paths": 1, "bounded_file": 1, "files": 1,
    "safe_text": 1,
    "engine": 2, "store": 2, "memory": 2,
    "decks": 3, "reading": 4, "drills": 5, "practice": 6,
    "terminal": 7, "pages": 7,
    "commands": 8, "cli": 9, "__main__": 10, "__init__": 1,
}  # fmt: skip

# library -> the only places that may import it
HOMES = {
    "prompt_toolkit": ("terminal/repl.py",),
    "jinja2": ("pages/render.py",),
    "sqlite3": ("store/",),
    "sqlite_utils": ("store/",),
    "click": (),
    "time": ("clock.py",),
    "secrets": (),
    "freezegun": (),
    "ephem": ("engine/",),
    "pygeomag": ("engine/",),
    "geographiclib": ("engine/",),
}


def imports(source):
    """Yield (line, dotted name) of everything that ``source`` imports, inside functions too."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: imports are absolute"
            if node.module == "trainer":
                yield from ((node.lineno, f"trainer.{alias.name}") for alias in node.names)
            else:
                yield node.lineno, node.module


def faults(relative, source):
    """Return what is wrong with the imports of the module at ``relative`` (a posix path below trainer/)."""
    folder = relative.split("/")[0].removesuffix(".py")
    found = []
    for line, name in imports(source):
        top = name.split(".")[0]
        if top == "trainer" and "." in name:
            target = name.split(".")[1]
            if target.startswith("__"):  # trainer.__version__
                continue
            own_folder = target == folder or FLOORS[target] == FLOORS[folder] == 1
            if not own_folder and FLOORS[target] >= FLOORS[folder]:
                found.append(f"{relative}:{line}: {folder} may not import {target}")
        homes = HOMES.get(top)
        if homes is not None and not any(relative.startswith(home) for home in homes):
            found.append(f"{relative}:{line}: {top} may be imported only in {', '.join(homes) or 'no module'}")
    return found


def modules():
    return sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("relative", modules())
def test_imports_follow_the_floors(relative):
    assert faults(relative, (PACKAGE / relative).read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("relative", "source"),
    [
        ("engine/wind.py", "from trainer.store import store"),
        ("memory/belief.py", "import trainer.engine.angles"),
        ("decks/check.py", "def late():\n    from trainer.drills import computed"),
        ("reading/freetext/judge.py", "from trainer.drills import flow"),
        ("practice/session.py", "import prompt_toolkit"),
        ("store/store.py", "import time"),
        ("clock.py", "from trainer import engine"),
    ],
)
def test_a_forbidden_import_is_found(relative, source):
    assert len(faults(relative, source)) == 1


def test_allowed_imports_pass():
    assert faults("drills/computed.py", "from trainer.engine.quantities import QUANTITIES") == []
    assert faults("terminal/repl.py", "from prompt_toolkit import PromptSession") == []


def clock_reads(source):
    """Return the lines of ``source`` that read the time behind the clock's back."""
    names = {"now", "today", "utcnow", "fromtimestamp"}
    return [
        node.lineno
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in names
        and isinstance(node.func.value, ast.Name)
        and node.func.value.id in {"datetime", "date"}
        and not (node.func.attr == "fromtimestamp")
    ]


@pytest.mark.parametrize("relative", [m for m in modules() if m != "clock.py"])
def test_only_the_clock_reads_the_time(relative):
    source = (PACKAGE / relative).read_text(encoding="utf-8")
    assert clock_reads(source) == []
    assert "'now'" not in source, "SQL's own clock is not ours"


def test_a_clock_read_is_found():
    assert clock_reads("from datetime import datetime\nwhen = datetime.now()") == [2]
