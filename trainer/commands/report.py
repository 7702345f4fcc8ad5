"""The report for your instructor: where you are weak, why, and what to brief.

Written to exports/ as one page that needs no network, and as JSON for `trainer roster`. `--dry-run` shows everything
that would be handed out and writes nothing; `--without-answers` leaves out what you typed.
"""

import sys
from pathlib import Path

from trainer import bounded_file
from trainer.errors import StorageError, UsageError
from trainer.files import write_whole
from trainer.terminal import look
from trainer.terminal.screens import CAUTION

EXAMPLE = 'trainer report --call-sign Wren --on "2026-12-04 20:00"'
FORMATS = ("html", "json", "csv", "md", "xapi")
USUAL = "html,json"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--format", default=USUAL, metavar="F,…", help=f"of {', '.join(FORMATS)} ({USUAL})")
    parser.add_argument("--out", default="exports", metavar="DIR", help="the folder to write to (exports)")
    parser.add_argument("--on", default="", metavar="WHEN", help="the date to forecast for (the next event)")
    parser.add_argument("--since", default="", metavar="DATE", help="only answers from this date on")
    parser.add_argument("--standard", default="", metavar="NAME", help="what is demanded: a name or a file")
    parser.add_argument("--name", default="", metavar="NAME", help="your name on the report; it is remembered")
    parser.add_argument("--call-sign", default="", metavar="SIGN", help="a call sign instead of the name")
    parser.add_argument("--without-answers", action="store_true", help="leave out what you typed or what tells of it")
    parser.add_argument("--stage-out", default="", metavar="FILE", help="write what is weak as a stage to hand back")
    parser.add_argument("--dry-run", action="store_true", help="show what would be handed out; write nothing")
    parser.add_argument("--check", action="append", default=[], metavar="FILE", help="was this file changed since?")


def run(options, words, world):
    """Write the report, show it, or check one; return 1 when a checked file was changed."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    if options.check:
        return _check(options.check, screen)
    formats = _formats(options.format)
    wish = _wish(options, world)
    with world.store_to_read() as store:
        record, files = made(store, world, wish, formats)
    if options.dry_run:
        lines = _announced(record, files, options.out, screen)
    else:
        written = save(files, options.out)
        if options.stage_out:
            written.append(_task(options.stage_out, record))
        lines = [f"wrote {path}" for path in written]
        _remember(world, record)
    for line in lines:
        print(screen.line(line))
    return 0


def export(home, clock, to, *, formats, call_sign="", stem=""):
    """Write the report on the data in ``home`` into the folder ``to`` and return the paths; nothing is said."""
    from trainer.commands.world import World
    from trainer.practice.evidence.record import Wish

    world = World(home=home, clock=clock, plain=True)
    with _store(home, clock) as store:
        wish = Wish(call_sign=call_sign)
        _, files = made(store, world, wish, formats, stem=stem)
    return save(files, to)


def _store(home, clock):
    from trainer.store.store import Store

    return Store.open(home, clock=clock, create=False)


def _formats(text):
    wanted = [name.strip().lower() for name in text.split(",") if name.strip()]
    for name in wanted:
        if name not in FORMATS:
            raise UsageError(f"{name[:20]!r} is no format", hint=f"formats are {', '.join(FORMATS)}")
    if not wanted:
        raise UsageError("--format names no format", hint=f"formats are {', '.join(FORMATS)}")
    return tuple(dict.fromkeys(wanted))


def _wish(options, world):
    from trainer.practice import when
    from trainer.practice.evidence.record import Wish

    return Wish(
        standard=options.standard,
        on=when.read(options.on, world.clock) if options.on else None,
        since=_since(options.since, world.clock) if options.since else None,
        name=options.name.strip(),
        call_sign=options.call_sign.strip(),
        answers=not options.without_answers,
    )


def _since(text, clock):
    from datetime import datetime, time

    from trainer.practice import when

    return clock.at(datetime.combine(when.read(text, clock).date(), time(0)))


def made(store, world, wish, formats, *, stem=""):
    """Return (record, {file name: text with its seal})."""
    from trainer.pages.tidy import tidy
    from trainer.practice.evidence import record as evidence

    watched = store.progress("parts of the report", world.clock, total=evidence.PARTS + len(formats))
    with watched as progress:
        gathered = evidence.gather(
            store, world.library(), world.clock, wish, caution=CAUTION, home=world.home, step=progress.step
        )
        record = tidy(gathered)
        return record, _written(record, store, wish, formats, stem, progress)


def _written(record, store, wish, formats, stem, progress):
    """Return {file name: text with its seal} of ``record`` in ``formats``; each counts as a step of ``progress``."""
    from trainer.pages import csvfile, report_json, report_markdown, report_page, seal, xapi
    from trainer.pages.text import slug

    stem = stem or f"report-{slug(record['pilot']['name'])}-{record['made']['day']}"
    writers = {
        "html": lambda: {f"{stem}.html": report_page.html(record)},
        "json": lambda: {f"{stem}.json": report_json.write(record)},
        "md": lambda: {f"{stem}.md": report_markdown.write(record)},
        "csv": lambda: {
            f"{stem}-areas.csv": csvfile.areas(record),
            f"{stem}-reviews.csv": csvfile.reviews(
                store.table(csvfile.REVIEW_COLUMNS, since=wish.since), answers=wish.answers
            ),
        },
        "xapi": lambda: {
            f"{stem}-xapi.json": xapi.statements(
                store.table(xapi.COLUMNS, since=wish.since), record["pilot"], answers=wish.answers
            )
        },
    }
    files = {}
    for wanted in formats:
        files |= writers[wanted]()
        progress.step()
    return {name: seal.close(text) if seal.OPEN in text else text for name, text in files.items()}


def save(files, to):
    """Write ``files`` into the folder ``to``, each whole or not at all; return their paths."""
    # A spreadsheet takes a CSV file for UTF-8 only if it begins with the mark.
    return [
        write_whole(
            Path(to) / name,
            text.encode("utf-8-sig" if name.endswith(".csv") else "utf-8"),
            hint="choose another folder with --out",
        )
        for name, text in files.items()
    ]


def write_stage(target, ids, *, title, standard):
    """Write the stage file ``target`` that asks for the drills ``ids``; return its path."""
    from trainer.practice.evidence import task

    path = Path(target)
    if path.suffix != ".toml":
        raise UsageError(f"{target[:60]!r} is no name of a stage file", hint="it ends in .toml: --stage-out task.toml")
    return write_whole(path, task.stage_text(path.stem, ids, title=title, standard=standard))


def _task(target, record):
    from trainer.practice.evidence import task

    ids = task.weak_ids(record)
    if not ids:
        raise UsageError("there is nothing weak to practise", hint="leave --stage-out away")
    title = f"Task of {record['made']['day']}: what is weak"
    return write_stage(target, ids, title=title, standard=record["standard"]["name"])


def _remember(world, record):
    """Keep in the store when this was handed out; an export from data that can't be written to stands all the same."""
    from trainer.practice.evidence import custody
    from trainer.store.store import Store

    if not record["chain"]["reviews"]:
        return
    try:
        with Store.open(world.home, clock=world.clock) as store:
            custody.remember(store, record)
    except StorageError:
        return


def _announced(record, files, to, screen):
    """Return what a dry run says: the files, what in them is personal, and the report in full."""
    from trainer.pages import report_screen

    typed = sum(bool(wrong["typed"]) for drill in record["weakest"] for wrong in drill["wrong"])
    lines = screen.wrap(f"Nothing was written. `trainer report` without --dry-run would write to {to}:")
    lines += [f"  {name} ({len(text.encode('utf-8')):,} bytes)" for name, text in files.items()]
    said = "call sign" if record["pilot"]["is_call_sign"] else "name"
    for text in (
        f"They call you {record['pilot']['name']} ({said}) and carry the id {record['pilot']['id'] or 'none'},"
        " made from your first answer; nothing else tells who you are or what computer this is.",
        f"Answers as you typed them: {f'{typed} in the report' if record['answers_included'] else 'left out'}"
        f"{_every_answer(files, record)}.",
    ):
        lines += screen.wrap(text)
    return [*lines, *report_screen.lines(record, screen)]


def _every_answer(files, record):
    if not any(name.endswith(("-reviews.csv", "-xapi.json")) for name in files):
        return ""
    return ", every one in the list of reviews" if record["answers_included"] else ", in the list of reviews too"


MOST_CHECKED = 500_000_000  # bytes: a list of all reviews of many years


def _check(names, screen):
    from trainer.pages import seal

    changed = False
    for name in names:
        try:
            text = bounded_file.read(name, MOST_CHECKED).decode("utf-8-sig")
        except bounded_file.Unfit as error:
            raise UsageError(f"{name} {error}", hint="name a file that `trainer report` wrote") from None
        except UnicodeDecodeError:
            raise UsageError(f"{name} is not text", hint="name a file that `trainer report` wrote") from None
        state = seal.check(text)
        changed |= state != seal.SOUND
        print(screen.line(f"{look.printable(name)}: {state}"))
    return 1 if changed else 0
