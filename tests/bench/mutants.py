"""Do the tests bite?  One thing at a time is changed in the program, and the tests of its room must fail.

``python -m tests.bench.mutants [--count 200] [--seed N] [--since COMMIT] [--kept FILE] [--only FOLDER …]`` draws
mutants over the modules of ``trainer`` (with ``--since`` over those changed since then): a comparison turned, a sign,
an operator, a number one off, a branch never or always taken, a value returned as nothing.  Each is written into a
copy of the tree, where first the tests called after the module run, then those of its room, then those of the rooms
above it.  What was found goes to ``FILE``, line by line; a run that was broken off goes on where it stopped.  It
prints the survivors and the share that was killed.
"""

import argparse
import ast
import compileall
import copy
import json
import os
import py_compile
import random
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LONGEST_S = 900  # for one mutant; what is not killed by then has survived (a test that hangs fails by itself)
GOAL = 0.9
UNTOUCHED = ("__init__.py", "__main__.py")
TURNED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
ABOVE = {  # the rooms whose tests also stand behind one
    "engine": ("drills", "night"), "reading": ("drills", "faults"), "decks": ("drills", "practice"),
    "drills": ("practice", "terminal"), "memory": ("practice",), "store": ("faults", "practice"),
    "practice": ("commands", "terminal", "pages"), "night": ("commands", "pages"),
    "pages": ("commands",), "terminal": ("commands", "faults"),
    "commands": ("faults",),
}  # fmt: skip


def places(tree):
    """Return the nodes of ``tree`` that can be changed, each with the kinds of change it allows."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare) and type(node.ops[0]) in TURNED:
            found.append((node, "turned"))
        elif isinstance(node, ast.BinOp) and type(node.op) in TURNED and not _is_text(node):
            found.append((node, "operator"))
        elif isinstance(node, ast.BoolOp):
            found.append((node, "and for or"))
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            found.append((node, "not"))
        elif isinstance(node, (ast.If, ast.IfExp)):
            found += [(node, "never"), (node, "always")]
        elif isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
            found.append((node, "nothing"))
        elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
            found.append((node, "one off"))
    return found


def _is_text(node):
    return any(isinstance(one, (ast.JoinedStr, ast.List)) or _text(one) for one in (node.left, node.right))


def _text(node):
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def change(node, kind):
    """Change ``node`` in place as ``kind`` says."""
    if kind == "turned":
        node.ops[0] = TURNED[type(node.ops[0])]()
    elif kind in ("operator", "and for or"):
        node.op = TURNED[type(node.op)]()
    elif kind == "not":
        node.op, node.operand = ast.Not(), ast.UnaryOp(op=ast.Not(), operand=node.operand)
    elif kind in ("never", "always"):
        node.test = ast.Constant(value=kind == "always")
    elif kind == "nothing":
        node.value = ast.Constant(value=None)
    else:
        node.value += 1


def drawn(modules, count, seed):
    """Return ``count`` mutants as (module, number of its place): a module is drawn by how much can be changed in it."""
    every = [
        (module, number)
        for module in modules
        for number in range(len(places(ast.parse((ROOT / module).read_text(encoding="utf-8")))))
    ]
    return random.Random(seed).sample(every, min(count, len(every)))


def written(module, number):
    """Return (the text of ``module`` with its place ``number`` changed, what was changed)."""
    tree = ast.parse((ROOT / module).read_text(encoding="utf-8"))
    node, kind = places(tree)[number]
    before = ast.unparse(copy.deepcopy(node)).splitlines()[0]
    change(node, kind)
    ast.fix_missing_locations(tree)
    return ast.unparse(tree), f"line {node.lineno}, {kind}: {before[:90]}"


def rounds(module):
    """Return the tests that stand behind ``module``, the nearest first, as lists of paths."""
    parts, tests = Path(module).with_suffix("").parts, ROOT / "tests"
    room = "night" if "night" in parts else parts[1]
    own = sorted(tests.rglob(f"test*_{parts[-1]}*.py"))
    around = [tests / room] if (tests / room).is_dir() else [tests / "test_cli.py"]
    above = [tests / one for one in ABOVE.get(room, ())]
    return [[str(one.relative_to(ROOT)) for one in paths] for paths in (own, around, above) if paths]


def killed(tree, module):
    """Return what killed the mutant in ``tree``: a test, or "" for a survivor."""
    end = time.monotonic() + LONGEST_S
    for paths in rounds(module):
        command = [sys.executable, "-m", "pytest", "-q", "-x", "--no-header", "-p", "no:cacheprovider", *paths]
        environment = {**os.environ, "PYTHONPATH": str(tree), "PYTHONDONTWRITEBYTECODE": "1"}
        left = max(1.0, end - time.monotonic())
        try:
            done = subprocess.run(
                command,
                cwd=tree,
                env=environment,
                capture_output=True,
                text=True,
                timeout=left,
            )
        except subprocess.TimeoutExpired:
            return ""
        if done.returncode not in (0, 5):
            told = [line for line in done.stdout.splitlines() if line.startswith(("FAILED", "ERROR"))]
            return (told or ["it could not be loaded"])[0][:160]
    return ""


def modules_of(since, only):
    """Return the modules that are looked at, as paths below the root."""
    if since:
        command = ["git", "diff", "--name-only", "--diff-filter=AMR", since, "--", "trainer"]
        names = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.split()
    else:
        names = [one.relative_to(ROOT).as_posix() for one in sorted((ROOT / "trainer").rglob("*.py"))]
    chosen = [one for one in names if one.endswith(".py") and Path(one).name not in UNTOUCHED]
    return [one for one in chosen if not only or one.split("/")[1] in only]


def main():
    """Draw, kill, and print what survived; exit code 1 below the goal."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--since", default="", help="a commit; only modules changed since then")
    parser.add_argument("--kept", type=Path, help="the file that keeps what was found")
    parser.add_argument("--only", nargs="*", default=[], help="folders of trainer")
    options = parser.parse_args()
    found = {}
    if options.kept and options.kept.exists():
        lines = options.kept.read_text(encoding="utf-8").splitlines()
        found = {(one["module"], one["place"]): one for one in map(json.loads, lines)}
    chosen = drawn(modules_of(options.since, options.only), options.count, options.seed)
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".venv", ".git", "__pycache__", ".*_cache"))
        # Compiled once, and found valid by its text: a mutant is never taken for the sound module, nor the other way.
        compileall.compile_dir(tree, quiet=1, invalidation_mode=py_compile.PycInvalidationMode.CHECKED_HASH)
        for number, (module, place) in enumerate(chosen, start=1):
            if (module, place) not in found:
                text, what = written(module, place)
                (tree / module).write_text(text, encoding="utf-8")
                by = killed(tree, module)
                shutil.copyfile(ROOT / module, tree / module)
                found[module, place] = {"module": module, "place": place, "what": what, "by": by}
                if options.kept:
                    with options.kept.open("a", encoding="utf-8") as file:
                        file.write(json.dumps(found[module, place]) + "\n")
            one = found[module, place]
            if not one["by"]:
                print(f"{number:4} SURVIVED {module} {one['what']}", flush=True)
    dead = sum(bool(found[one]["by"]) for one in chosen)
    print(f"{dead} of {len(chosen)} mutants were killed: {dead / len(chosen):.0%}")
    return dead >= GOAL * len(chosen)


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
