"""Parsers for the commands, and what help says."""

import argparse
import importlib
from textwrap import fill

from trainer.errors import UsageError
from trainer.terminal.screens import CAUTION


class Parser(argparse.ArgumentParser):
    """An argument parser that raises ``UsageError`` instead of printing usage and leaving."""

    def error(self, message):
        raise UsageError(message, hint=f"`{self.prog} --help` shows how")


def command(name, known):
    """Return the module of the command ``name``; raises ``UsageError`` with the nearest of ``known``."""
    if name not in known:
        from difflib import get_close_matches

        close = get_close_matches(name, known, 1, 0.7)
        hint = f"did you mean {close[0]}?" if close else f"`trainer practice {name[:40]}` practises what it finds;"
        raise UsageError(f"there is no command {name!r}", hint=f"{hint} `trainer help` lists the commands")
    return importlib.import_module(f"trainer.commands.{name}")


def everywhere():
    """Return the parser of the options that every command takes, before or after its name."""
    parser = Parser(prog="trainer", add_help=False, allow_abbrev=False)
    group = parser.add_argument_group("everywhere")
    group.add_argument("--home", metavar="DIR", help="where your data lies (or set TRAINER_HOME)")
    group.add_argument("--plain", action="store_true", help="no colour, no cursor movement (or set NO_COLOR)")
    group.add_argument("--help", "-h", action="store_true", help="show this and stop")
    group.add_argument("--version", action="store_true", help="show the version and stop")
    return parser


def parser_of(name, module):
    """Return the parser of one command."""
    summary, _, details = (module.__doc__ or "").partition("\n\n")  # -OO leaves none
    parser = Parser(
        prog=f"trainer {name}",
        parents=[everywhere()],
        add_help=False,
        allow_abbrev=False,
        description=f"{summary}\n\n{details}".strip(),
        epilog=f"example: {module.EXAMPLE}\n\n{fill(CAUTION, 78)}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    module.arguments(parser)
    return parser


def overview(commands):
    """Return what `trainer --help` says."""
    width = max(map(len, commands))
    lines = ["Spaced practice of computed drills, flows and calls for carrier operations in a simulator.", ""]
    lines += [f"  trainer {name:{width}}  {text}" for name, text in commands.items()]
    lines += ["", "`trainer` alone starts today's five minutes; `trainer help COMMAND` tells of one command."]
    return "\n".join([*lines, "", fill(CAUTION, 78)])
