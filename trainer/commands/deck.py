"""Check, list and show decks, and start a new one.

`check FILE…` reports every fault (without a name: of all that would be loaded), `list` the decks (or one deck's
drills), `show DRILL` a sample question, `new KIND FILE` a commented template (computed, flow, recall, call, listen,
airframe, ship, air-wing, stage, standard, said), `use airframe|ship NAME` chooses whose numbers are asked, `off NAME`
and `on NAME` switch a deck, a drill or a flow off and on again, `find WORDS` looks for drills, `flags` tells what you
marked as faulty and `flags --lift` asks it again, `print STAGE|DECK --out FILE` writes a study sheet for paper.
"""

import sys
from pathlib import Path

from trainer.commands.world import CHOSEN
from trainer.decks.files import FOLDERS
from trainer.decks.words import in_shell
from trainer.errors import DeckError, UsageError
from trainer.terminal import deck_lists, look, screens
from trainer.terminal.look import printable

EXAMPLE = "trainer deck check decks/fuel.toml"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("what", choices=tuple(ACTIONS), help="what to do")
    parser.add_argument("names", nargs="*", metavar="NAME", help="files to check; a deck to list; a drill to show")
    parser.add_argument("--draws", type=int, default=10_000, metavar="N", help="draws per computed drill (10000)")
    parser.add_argument("--seed", default="sample", metavar="N", help="which sample question to show")
    parser.add_argument("--out", type=Path, metavar="FILE", help="where the study sheet is written (HTML)")
    parser.add_argument("--lift", action="store_true", help="lift flags: those of the drills named, else all")


def run(options, words, world):
    """Carry out one action; return 1 when a deck has faults."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    lines, code = ACTIONS[options.what](options, world, screen)
    print("\n".join(screen.line(line) for line in lines))
    return code


def candidates(before, world):
    """Return the decks or drills that may follow the words ``before`` when the shell asks."""
    if before[:1] == ["list"]:
        return list(world.library().decks)
    if before[:1] == ["show"]:
        return list(world.library().drills)
    if before == ["print"]:
        from trainer.decks import stages

        return [*stages.listing(world.home), *world.library().decks]
    return []


def _check(options, world, screen):
    from trainer.drills.check_deck import check, everything
    from trainer.terminal.progress import Progress

    with Progress("computed drills tried", world.clock) as progress:
        names = options.names or everything(world.home)
        faults = check(names, draws=options.draws, tell=progress.step, home=world.home)
    if faults:
        return [*map(str, faults), "", f"{len(faults)} fault{'s' if len(faults) > 1 else ''}"], 1
    return ["no faults"], 0


def _list(options, world, screen):
    shelf = world.library()
    if not options.names:
        return deck_lists.deck_list(shelf, screen), 0
    name = options.names[0].removesuffix(".toml")
    if name not in shelf.decks:
        raise UsageError(f"there is no deck {name!r}", hint=f"decks are {', '.join(shelf.decks)}")
    return deck_lists.drill_list([one for one in shelf.outlines.values() if one.deck == name], screen), 0


def _show(options, world, screen):
    if len(options.names) != 1:
        raise UsageError("show needs the id of one drill", hint="`trainer deck list NAME` lists the ids of a deck")
    from trainer.drills import questions, worked_solution

    shelf = world.library()
    drill = deck_lists.drill_named(shelf, options.names[0])
    question = questions.make(drill, shelf, options.seed)
    lines = deck_lists.drill_card(drill, shelf, screen)
    lines += [text for text, _ in screens.question(question, None, screen)]
    worked = worked_solution.worked(question, drill, shelf, ascii_only=not screen.unicode)
    return [*lines, "", *(text for text, _ in screens.solution(worked, screen))], 0


def _new(options, world, screen):
    if len(options.names) != 2:
        raise UsageError("new needs a kind and a file", hint="for example: trainer deck new flow start-up.toml")
    from trainer.decks import templates

    kind, path = options.names
    drills = world.library().drills if kind == templates.SAID else {}
    written = templates.write(kind, Path(path), {name: drills[name] for name in drills if name == Path(path).stem})
    return screen.wrap(f"wrote {written}; edit it, then `trainer deck check {in_shell(written)}`"), 0


def _use(options, world, screen):
    chosen = world.chosen()
    if options.names:
        if len(options.names) != 2 or options.names[0] not in FOLDERS:
            raise UsageError("use needs a kind and a name", hint="for example: trainer deck use ship hollenmere")
        kind, name = options.names[0], options.names[1].removesuffix(".toml")
        shelf = world.library(tell=lambda line: None, **{kind: name})  # refuses a name that no file has
        _require_sound(shelf.notes[f"{kind}.path"])
        with world.store() as store:
            store.set_setting(CHOSEN, {**chosen, kind: name})
    shelf = world.library()
    notes = shelf.notes
    lines = [f"{kind}: {notes.get(f'{kind}.name', 'none')} – {notes.get(f'{kind}.title', '')}" for kind in FOLDERS]
    return [text for line in lines for text in screen.wrap(printable(line), hanging="  ")], 0


def _require_sound(path):
    from trainer.decks.datafile import read_data

    faults = read_data(path).faults
    if faults:
        raise DeckError(faults)


def _flags(options, world, screen):
    from trainer.practice import left_out

    with world.store(create=options.lift) as store:
        if options.lift:
            shelf = world.library()
            flagged = [flag.drill_id for flag in left_out.flags(store)]
            wanted = [left_out.meant(name, shelf) for name in options.names] if options.names else flagged
            count = left_out.lift(store, wanted)
            return [f"{count} flag{'' if count == 1 else 's'} lifted"], 0
        flags = left_out.flags(store)
    if not flags:
        return ["nothing is flagged; `f` in practice flags a question"], 0
    lines = [f"{flag.at:%Y-%m-%d}  {flag.deck}  {flag.drill_id}: {flag.question['text']}" for flag in flags]
    return [text for line in lines for text in screen.wrap(printable(line), hanging="  ")], 0


def _off(options, world, screen):
    from trainer.practice import left_out

    return _switched(options, world, screen, left_out.switch_off)


def _on(options, world, screen):
    from trainer.practice import left_out

    return _switched(options, world, screen, left_out.switch_on)


def _switched(options, world, screen, switch):
    """Switch what is named off or on; then tell what is off."""
    from trainer.practice import left_out

    shelf = world.library()
    with world.store(create=bool(options.names)) as store:
        if options.names:
            known = left_out.switched_off(store)
            switch(store, [name if name in known else left_out.meant(name, shelf) for name in options.names])
        off = left_out.switched_off(store)
    lines = [_named_off(name, shelf) for name in off]
    return [text for line in lines for text in screen.wrap(printable(line), hanging="  ")] or ["nothing is off"], 0


def _named_off(name, shelf):
    from trainer.drills import titles

    if name in shelf.outlines:
        return f"off: {name} – {titles.title(shelf.outlines[name])}"
    return f"off: the deck {name}" if name in shelf.decks else f"off: {name} (not here any more)"


def _find(options, world, screen):
    from trainer.practice import finding

    if not options.names:
        raise UsageError("find needs words", hint="for example: trainer deck find clearing turn")
    shelf = world.library()
    found = [shelf.outlines[name] for name in finding.drills(options.names, shelf)]
    if not found:
        raise finding.no_such_drill(options.names, shelf)
    return deck_lists.drill_list(found, screen), 0


def _print(options, world, screen):
    if len(options.names) != 1 or not options.out:
        raise UsageError(
            "print needs a stage or a deck, and a file", hint="trainer deck print day-departure --out sheet.html"
        )
    from trainer.pages import render, study_page
    from trainer.practice import study_sheet

    name, ids = _stage_or_deck(options.names[0], world)
    sheet = study_sheet.of(name, ids, world.library())
    render.write(options.out, study_page.html(sheet, caution=screens.CAUTION))
    return [f"wrote {printable(str(options.out))}"], 0


def _stage_or_deck(text, world):
    """Return (title, ids of the drills) of the deck called ``text``, else of the core of the stage that it means."""
    from trainer.practice import stage_files
    from trainer.practice.stage import Syllabus

    shelf = world.library()
    if (name := text.removesuffix(".toml").lower()) in shelf.decks:
        return shelf.decks[name].title, [one.id for one in shelf.outlines.values() if one.deck == name]
    syllabus = Syllabus(shelf, world.home)
    try:
        name = stage_files.named(syllabus, text)
    except UsageError as error:
        raise UsageError(f"{text[:60]!r} is neither a deck nor a stage", hint=error.hint) from None
    members = syllabus.members(name)
    return syllabus.stages[name].title, members.core or members.all


ACTIONS = {
    "check": _check, "list": _list, "find": _find, "show": _show, "new": _new, "use": _use, "off": _off, "on": _on,
    "flags": _flags, "print": _print,
}  # fmt: skip
