"""Calls spoken by the system's own voice, where there is one: in a process of its own, so that nothing waits for it.

The voice is the optional extra ``trainer[voice]``; ``TRAINER_VOICE=off`` silences it.
"""

import os
import subprocess
import sys
from importlib.util import find_spec

LIBRARY = "pyttsx3"
SETTING, SILENT = "TRAINER_VOICE", ("off", "no", "0")
WORDS_A_MINUTE = 170
SPEAK = f"""
import sys
import {LIBRARY}
engine = {LIBRARY}.init()
engine.setProperty("rate", {WORDS_A_MINUTE})
engine.say(sys.stdin.buffer.read().decode("utf-8"))
engine.runAndWait()
"""


class Spoken:
    """A call that is being spoken; ``stop`` ends it at once."""

    def __init__(self, process: "subprocess.Popen[bytes]"):
        self._process = process

    @property
    def over(self) -> bool:
        """Return whether the voice has ended, well or not."""
        return self._process.poll() is not None

    @property
    def failed(self) -> bool:
        """Return whether it has ended without having spoken: the system has no voice."""
        return self._process.poll() not in (None, 0)

    def stop(self) -> None:
        """Silence the voice."""
        if not self.over:
            self._process.kill()
        self._process.wait()


def speak(text: str) -> Spoken | None:
    """Begin to speak ``text`` and return at once; None where no voice is installed, or it was switched off."""
    if os.environ.get(SETTING, "").strip().lower() in SILENT or find_spec(LIBRARY) is None:
        return None
    try:
        process = subprocess.Popen(
            [sys.executable, "-c", SPEAK],
            stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        assert process.stdin is not None, "it was opened as a pipe"
        with process.stdin as words:
            words.write(text.encode("utf-8"))
    except OSError:
        return None
    return Spoken(process)
