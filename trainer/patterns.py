"""Regular expressions that are compiled when they are first used.

A command loads sixty of them and uses five; compiling all takes as long as starting Python.
"""

import re
from typing import Any


class Late:
    """What ``re.compile`` would give for ``pattern``, made when the first of its methods is asked for.

    >>> Late("[0-9]+").findall("12 and 3")
    ['12', '3']
    """

    def __init__(self, pattern: str, flags: int = 0):
        self._late = pattern, flags

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(*self._late), name)
        setattr(self, name, found)
        return found
