"""Your own data: where it lies, a copy of it, whether it is sound, and what can be saved of it when it is not."""

import sys
from pathlib import Path

from trainer.errors import UsageError
from trainer.practice.knowledge import after_review, model
from trainer.store import backup
from trainer.store.faults import rescue
from trainer.terminal import look
from trainer.terminal.progress import Progress

EXAMPLE = "trainer data backup my-reviews.db"
OLDER_MEMORY = (
    "What is known of each drill was worked out by an older trainer; your next practice works it out anew from the"
    " reviews."
)


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("what", choices=tuple(ACTIONS), help="what to do")
    parser.add_argument("file", nargs="?", metavar="FILE", help="the copy to write or take, or the damaged file")
    parser.add_argument("--yes", action="store_true", help="erase without asking")
    parser.add_argument("--same-pilot", action="store_true", help="merge: both are yours, with no answer in common")


def run(options, words, world):
    """Carry out one action; return 1 when the data is not sound."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    lines, code = ACTIONS[options.what](options, world)
    for line in lines:
        print(screen.line(line))  # not wrapped: a path must be one piece to be copied
    return code


def _where(options, world):
    found = backup.where(world.home)
    count = "reviews unknown" if found.reviews is None else f"{found.reviews:,} reviews"
    lines = [f"data: {found.database} ({found.size_bytes:,} bytes, {count})"]
    lines += [found.fault] if found.fault else []
    lines += [f"copy: {path}" for path in found.backups]
    return [*lines, f"your own decks, airframes and ships: {Path(world.home) / 'decks'}"], 1 if found.fault else 0


def _verify(options, world):
    backup.require(world.home)
    count = backup.where(world.home).reviews
    with world.store(create=False) as store:
        with Progress("reviews checked", world.clock, total=count) as progress:
            problems = store.verify(progress.counting(after_review), model())
        if problems:
            return [*problems, f"What to do: {rescue(store.path)}."], 1
        if store.outdated(model()):
            return ["Sound: every review is unaltered.", OLDER_MEMORY], 0
    return ["Sound: every review is unaltered, and what is known follows from the reviews."], 0


def _backup(options, world):
    to = options.file or "."
    return [f"copied to {backup.backup(world.home, Path(to), clock=world.clock)}"], 0


def _restore(options, world):
    if not options.file:
        raise UsageError("restore needs the file to take", hint="`trainer data where` lists the copies")
    kept = backup.restore(world.home, Path(options.file), clock=world.clock)
    lines = [f"restored from {options.file}"]
    return lines + ([f"what was there before is kept as {kept}"] if kept else []), 0


def _merge(options, world):
    from trainer.store.merge import merge

    if not options.file:
        raise UsageError("merge needs the other copy", hint="for example: trainer data merge from-the-laptop.db")
    done = merge(
        world.home, Path(options.file), update=after_review, model=model(), clock=world.clock,
        same_pilot=options.same_pilot, progress=Progress,
    )  # fmt: skip
    if done.kept is None:
        return [f"nothing new in {options.file}: its reviews are all here"], 0
    lines = [f"{done.new:,} reviews came in; there are {done.reviews:,} now"]
    for name, (count, head) in zip(("here", "there"), done.ends, strict=True):
        lines.append(f"the chain {name} had {count:,} reviews and ended with {head[:16] or 'nothing'}")
    if done.renumbered:
        lines.append("the chain is made anew in the order of time; reports from before quote the old ends")
    return [*lines, f"what was here before is kept as {done.kept}"], 0


def _salvage(options, world):
    from trainer.store.salvage import salvage

    with Progress("reviews read", world.clock) as progress:
        update = progress.counting(after_review)
        done = salvage(world.home, options.file, update=update, clock=world.clock, model=model())
    lines = [f"saved {done.saved:,} of {done.numbered:,} reviews to {done.path}"]
    if done.from_copies:
        lines.append(f"{done.from_copies:,} of them come from automatic copies")
    if done.from_beside:
        lines.append(f"{done.from_beside:,} more lay beside, from a session whose data were taken away")
    if done.saved > done.proven:
        lines.append(f"{done.saved - done.proven:,} of them can't be proven unaltered")
    return [*lines, f'`trainer data restore "{done.path}"` puts it in place; what is there now is kept'], 0


def _erase(options, world):
    if not options.yes:
        raise UsageError("erase removes every review and copy", hint="add --yes to do it")
    done = backup.erase(world.home)
    lines = [f"removed {path}" for path in done.removed] or ["there was nothing to remove"]
    lines += [f"left {path}" for path in done.left]
    return [*lines, "Copies and reports that you wrote elsewhere stay there."], 0


ACTIONS = {
    "where": _where,
    "verify": _verify,
    "backup": _backup,
    "restore": _restore,
    "merge": _merge,
    "salvage": _salvage,
    "erase": _erase,
}
