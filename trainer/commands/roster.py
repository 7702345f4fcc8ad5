"""An instructor's page over many pilots' reports: who is ready, what they share, what to teach.

It works from the JSON files of `trainer report` alone (or folders of them). A file that is damaged, was changed after
it was written, or comes from a newer trainer is named and left out.
"""

import sys
from pathlib import Path

from trainer.errors import UsageError
from trainer.terminal import look
from trainer.terminal.screens import CAUTION

EXAMPLE = "trainer roster reports/ --out exports"
MOST_FILES = 2_000


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("files", nargs="*", metavar="FILE", help="reports (JSON), or folders that hold them")
    parser.add_argument("--stage-out", default="", metavar="FILE", help="write what they share as a stage to hand back")
    parser.add_argument("--out", default="exports", metavar="DIR", help="the folder to write to (exports)")


def run(options, words, world):
    """Write the page; return 1 when a file had to be left out."""
    from trainer.commands.report import save
    from trainer.pages import roster_page, seal
    from trainer.practice.evidence import squadron

    if not options.files:
        raise UsageError("roster needs the reports of your pilots", hint=f"for example: {EXAMPLE}")
    today = world.clock.local().date()
    reports, skipped = _read(_paths(options.files))
    record = squadron.together(reports, today)
    page = roster_page.html(record, skipped, day=today.isoformat(), caution=CAUTION)
    written = save({f"roster-{today.isoformat()}.html": seal.close(page)}, options.out)
    if options.stage_out:
        written += [_task(options.stage_out, reports, today)]
    screen = look.look_for(sys.stdout, plain=world.plain)
    lines = [
        roster_page.headline(record, today.isoformat()),
        *roster_page.ready_lines(record),
        *record["brief"],
        *record["notes"],
    ]
    lines += [f"skipped: {file} {why}" for file, why in skipped]
    for line in [*lines, *(f"wrote {path}" for path in written)]:
        print(screen.line(look.printable(line)))
    return 1 if skipped else 0


def _task(target, reports, today):
    """Write what several of the pilots are weak in as a stage file; return its path."""
    from trainer.commands.report import write_stage
    from trainer.practice.evidence import squadron, task

    newest = [report for _, report in squadron.newest(reports)]
    ids = task.shared_ids(newest, min(squadron.FEWEST_SHARING, max(1, len(newest))))
    if not ids:
        raise UsageError("the pilots share nothing that is weak", hint="`trainer report --stage-out` is for one pilot")
    standard = newest[0]["standard"]["name"]
    return write_stage(target, ids, title=f"Task of {today.isoformat()}: what the squadron shares", standard=standard)


def _paths(names):
    """Return the files meant by ``names``: themselves, or the JSON files in a folder; each once."""
    found = []
    for name in names:
        path = Path(name)
        inside = sorted(path.glob("*.json")) if path.is_dir() else [path]
        found += [one for one in inside if not one.name.endswith("-xapi.json")] if path.is_dir() else inside
    found = list(dict.fromkeys(found))
    if len(found) > MOST_FILES:
        raise UsageError(f"{len(found):,} files are too many", hint=f"give at most {MOST_FILES:,}")
    return found


def _read(paths):
    """Return ([(file name, report)], [(file name, why it was skipped)])."""
    from trainer.pages import report_json
    from trainer.pages.tidy import tidy

    reports, skipped = [], []
    for path in paths:
        name = look.printable(path.name)[:120]
        try:
            reports.append((name, tidy(report_json.read(path))))
        except report_json.NotAReport as error:
            skipped.append((name, look.printable(str(error))))
    return reports, skipped
