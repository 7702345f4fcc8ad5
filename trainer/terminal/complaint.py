"""A complaint: one line on standard error."""

import sys


def complain(what: object) -> None:
    """Say ``what`` on standard error, as one line that can't steer the terminal."""
    from trainer.terminal.look import printable

    try:
        print("trainer: " + printable(" ".join(str(what).split())), file=sys.stderr)
    except OSError:
        pass  # a window that was closed takes no complaints
