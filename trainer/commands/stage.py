"""What you work towards now: the stages, how far each is, and what comes next.

`trainer stage NAME` chooses one; `trainer stage FILE.toml` takes in one that somebody gave you and chooses it.
`--list` shows a stage's drills with their state, `--find-out` asks for five minutes what you know of it already.
"""

import sys

from trainer.commands import practice
from trainer.practice import stage, stage_files
from trainer.practice.wish import Wish
from trainer.terminal import look, stage_screens

EXAMPLE = "trainer stage night-recovery"
TAKES_WORDS = True


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument(
        "name", nargs="*", metavar="NAME", help="the stage to choose: its name, a word of it, or a file"
    )
    parser.add_argument("--list", action="store_true", help="show its drills with their state")
    parser.add_argument("--find-out", action="store_true", help="find out in five minutes what you know already")


def candidates(before, world):
    """Return the names of stages when the shell asks."""
    from trainer.decks import stages

    return [] if before else list(stages.listing(world.home))


def run(options, words, world):
    """Show, choose, list, or find out."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    shelf = world.library()
    named = " ".join(options.name)
    changes = bool(named and not options.list) or options.find_out
    with world.store(create=changes) as store:
        if named and not options.list:
            stage_files.choose(store, shelf, world.home, named)
        syllabus = stage.chosen(store, shelf, world.home)
        stage_files.require(syllabus)
        name = stage_files.named(syllabus, named) if named and options.list else ""
        if not options.find_out:
            show = stage_screens.drills if options.list else stage_screens.overview
            lines = show(syllabus, store, world.clock, screen, name)
    if options.find_out:
        practice.practise(Wish(minutes=practice.MINUTES, find_out=True), world)
        with world.store(create=False) as store:
            lines = stage_screens.told(stage.chosen(store, shelf, world.home), store, screen)
    for line in lines:
        print(screen.line(line))
