"""The seal of a file: a digest of all that stands in it, so that a later change is seen.

The seal is the SHA-256 of the file's text with the seal itself written as 64 zeros and line ends as LF.  It
shows that a file was changed after it was written, not who wrote it: whoever has the program can seal anew.
"""

import hashlib
import re

from trainer.pages.text import SEAL
from trainer.patterns import Late

OPEN = SEAL + "0" * 64  # what stands in a file that is not sealed yet
_SEALS = Late(re.escape(SEAL) + "([0-9a-f]{64})")
SOUND, CHANGED, UNSEALED = "unchanged", "changed after it was written", "without a seal"


def close(text):
    """Return ``text`` with every open seal in it replaced by its digest; raises ``ValueError`` without one."""
    if OPEN not in text:
        raise ValueError("there is no open seal in the text")
    return text.replace(OPEN, SEAL + _digest(text))


def check(text):
    """Return ``SOUND``, ``CHANGED`` or ``UNSEALED`` for the text of a file."""
    seals = set(_SEALS.findall(text))
    if not seals:
        return UNSEALED
    return SOUND if seals == {_digest(_SEALS.sub(OPEN, text))} else CHANGED


def _digest(text):
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n")
    return hashlib.sha256(lines.encode("utf-8", "surrogatepass")).hexdigest()
