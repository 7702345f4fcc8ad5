"""What a command is for and what it takes; without a name, all commands."""

EXAMPLE = "trainer help cram"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("command", nargs="?", default="", metavar="COMMAND", help="the command to tell of")


def candidates(before, world):
    """Return the names of commands when the shell asks."""
    from trainer.commands import COMMANDS

    return [] if before else list(COMMANDS)


def run(options, words, world):
    """Print the help."""
    from trainer.commands import COMMANDS, arguments

    if not options.command:
        return print(arguments.overview(COMMANDS))
    print(arguments.parser_of(options.command, arguments.command(options.command, COMMANDS)).format_help(), end="")
