"""The command line: finds the command, hands it the world, and turns errors into one line.

Nothing is loaded before it is needed: `trainer` alone has its question on the screen before argparse is.
(argparse, not click: 5 ms of start-up against 25.)
"""

import gc
import io
import os
import sys

from trainer import __version__, paths
from trainer.clock import clock_from_environment
from trainer.commands import COMMANDS
from trainer.commands.world import World
from trainer.errors import StorageError, TrainerError, UsageError
from trainer.terminal.complaint import complain

# One thread is enough for our sums; waking the others costs as much processor time as loading numpy.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# Loading makes many things and no circles of them: looking for circles each 700 costs a twentieth of a command.
gc.set_threshold(50_000, 20, 20)


def entry():
    """Run the command line of this process and end it at once.

    What matters is on disk and what is to be read was printed: no thread that still loads something is waited for,
    and nothing is taken apart that the system takes apart anyway.
    """
    code = 130
    try:
        code = main()
    except SystemExit as leaving:  # a closed window, a polite kill
        code = leaving.code
    except KeyboardInterrupt:
        pass
    leave(code if isinstance(code, int) else 1)


def leave(code):
    """End the process with the exit code ``code`` once what was printed has gone out."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (OSError, ValueError, AttributeError):
            pass  # closed, full, or never there
    os._exit(code)


PRIVATE = 0o077  # whatever is written is for its owner alone: answers, copies, reports


def main(argv=None):
    """Run the command line ``argv`` and return the exit code (0 fine, 1 faults, 2 usage, 3 storage)."""
    argv = sys.argv[1:] if argv is None else list(argv)
    os.umask(PRIVATE)
    _open_what_was_closed()
    _speak_utf8()
    try:
        code = (_dispatch(argv) if argv else _today()) or 0
        sys.stdout.flush()
        return code
    except TrainerError as error:
        complain(error)
        return error.exit_code
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        _say_no_more()  # the reader of the pipe has left
        return 0
    except OSError as error:
        if error.filename is not None:
            complain(f"{error.filename}: {error.strerror or error} – check that file and its folder")
            return StorageError.exit_code
        _say_no_more()
        complain(f"what it says can't be written ({error.strerror}) – make room, or print to somewhere else")
        return StorageError.exit_code
    except UnicodeEncodeError as error:
        if all(argument.isascii() or _is_text(argument) for argument in argv):
            return _unforeseen(error)
        complain("what was typed behind `trainer` holds bytes that are no text – type it anew, in UTF-8")
        return UsageError.exit_code
    except Exception as error:
        return _unforeseen(error)


def _unforeseen(error):
    from trainer.terminal import last_net

    return last_net.caught(error)


def _is_text(argument):
    try:
        argument.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _open_what_was_closed():
    """Put nothing in the place of a stream that was closed before the start: else the next file gets its number."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            nothing = os.open(os.devnull, os.O_RDWR)
            setattr(sys, name, open(nothing, mode, encoding="utf-8", closefd=False))  # it lives as long as we do


def _say_no_more():
    # Python would complain once more when it flushes at exit.
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _speak_utf8():
    """Let pipes and files carry any sign; a terminal keeps its encoding and shows ``?`` where it must."""
    for stream in (sys.stdout, sys.stderr, sys.stdin):
        _reconfigure(stream)


def _reconfigure(stream):
    if isinstance(stream, io.TextIOWrapper):  # a test may have put something else in its place
        stream.reconfigure(errors="replace", encoding=None if stream.isatty() else "utf-8")


def _today():
    from trainer.commands import practice

    practice.today(World(home=paths.default_home(), clock=clock_from_environment(), plain=False))


def _dispatch(argv):
    from trainer.commands import arguments

    for word in argv:
        paths.require_shallow(word)
    given, rest = arguments.everywhere().parse_known_args(argv)
    if given.version:
        print(f"trainer {__version__}")
        return 0
    named = bool(rest) and not rest[0].startswith("-")
    if given.help and not named:
        print(arguments.overview(COMMANDS))
        return 0
    name = rest.pop(0) if named else "practice"
    command = arguments.command(name, COMMANDS)
    parser = arguments.parser_of(name, command)
    if given.help:
        print(parser.format_help(), end="")
        return 0
    options, words = parser.parse_known_args(rest)
    if words and not getattr(command, "TAKES_WORDS", False):
        parser.error(f"{words[0]!r} is not understood here")
    home = paths.expanded(given.home) if given.home else paths.default_home()
    return command.run(options, words, World(home=home, clock=clock_from_environment(), plain=given.plain))
