"""The line editor of a real terminal.  The only module that imports prompt_toolkit."""

import asyncio
import os
import signal
import sys
from threading import Event, Thread

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.application import get_app, run_in_terminal
from prompt_toolkit.formatted_text import ANSI
from prompt_toolkit.history import DummyHistory
from prompt_toolkit.input.typeahead import clear_typeahead
from prompt_toolkit.key_binding import KeyBindings
from prompt_toolkit.keys import Keys

from trainer.terminal import voice

CLOCK_EVERY_S = 1.0
VOICE_EVERY_S = 0.05
LISTEN = "  … "
PATIENCE_S = 0.25  # from a signal to the end
LONGEST_TYPED = 4_000  # characters; a megabyte pasted by accident is not drawn again at every key


class ReplPrompt:
    """Asks with a line editor and shows the clocks in the prompt line.

    ``input`` and ``output`` are prompt_toolkit's, None for the terminal; tests hand in their own.
    """

    person = True

    def __init__(self, look, *, clock, input=None, output=None):
        self._look, self.clock = look, clock
        self._live_since = None
        self._once_live = None
        # Nothing is drawn below the prompt, so the place of the cursor need not be asked for: a terminal that
        # can't tell it would be complained about in the middle of a question.
        os.environ.setdefault("PROMPT_TOOLKIT_NO_CPR", "1")
        # An answer must not be one press of "up" away from the next question.
        self._session = PromptSession(
            history=DummyHistory(),
            key_bindings=_keys(self._suspended),
            input=input,
            output=output,
            erase_when_done=False,
        )
        self._session.default_buffer.on_text_changed += _shorten

    @property
    def look(self):
        """Return the look of the screen as it is now: windows are made wider and narrower."""
        self._look.width = self._session.output.get_size().columns
        return self._look

    def say(self, text="", tone=""):
        """Print one line."""
        print_formatted_text(ANSI(self.look.line(text, tone)), output=self._session.output)

    def ask(self, status):
        """Return (line, seconds).  ``status(seconds)`` gives the text before the cursor, renewed each second.

        Raises ``EOFError`` for Ctrl-D and ``KeyboardInterrupt`` for Ctrl-C.
        """
        self._live_since = None

        def message():
            spent = 0.0 if self._live_since is None else self.clock.seconds() - self._live_since
            return ANSI(self.look.line(status(spent)))

        line = self._prompt(message, refresh=CLOCK_EVERY_S)
        return line, self.clock.seconds() - (self._live_since or self.clock.seconds())

    def hear(self, text, seconds):
        """Let a call be heard, then take it off the screen; Enter does so sooner.

        Where the system has a voice it is spoken and not shown; else it stands for as long as it would be spoken.
        """
        shown = "\n".join(self.look.line(line) for line in self.look.wrap(text, indent="  "))
        session = PromptSession(
            input=self._session.input, output=self._session.output, erase_when_done=True, history=DummyHistory()
        )
        spoken = voice.speak(text)

        async def over():
            while spoken and not spoken.over:
                await asyncio.sleep(VOICE_EVERY_S)
            if not spoken or spoken.failed:
                get_app().invalidate()
                await asyncio.sleep(seconds)
            get_app().exit(result="")

        def begin() -> None:
            get_app().create_background_task(over())

        def message():
            return ANSI(LISTEN if spoken and not spoken.failed else shown + " ")

        clear_typeahead(session.input)
        try:
            session.prompt(message, pre_run=begin)
        finally:
            if spoken:
                spoken.stop()

    def pause(self, text):
        """Wait for Enter and return what was typed."""
        return self._prompt(ANSI(self.look.line(f"{text} ")), refresh=0)

    def _prompt(self, message, *, refresh):
        # What was typed while the last verdict was on screen is not an answer to this question.
        clear_typeahead(self._session.input)
        return self._session.prompt(message, refresh_interval=refresh, pre_run=self._now_live)

    def when_live(self, action):
        """Call ``action`` once, when the next prompt accepts keys."""
        self._once_live = action

    def _now_live(self):
        self._live_since = self.clock.seconds()
        action, self._once_live = self._once_live, None
        if action is not None:
            action()

    def _suspended(self):
        """Stop this process until the shell takes it up again; the clock stands meanwhile."""
        before = self.clock.seconds()
        stop()
        self.clock.leave_out(self.clock.seconds() - before)


def stop():
    """Suspend this process and those it runs with."""
    os.kill(0, signal.SIGTSTP)


def _keys(suspended):
    keys = KeyBindings()

    @keys.add("c-z")
    def _(event):
        """Suspend; nothing where the system knows no such thing."""
        if hasattr(signal, "SIGTSTP"):
            run_in_terminal(suspended)

    @keys.add(Keys.BracketedPaste)
    def _(event):
        event.current_buffer.insert_text(event.data[:LONGEST_TYPED])

    @keys.add(Keys.Vt100MouseEvent)
    def _(event):
        """Nothing: text with colours that is pasted as keys looks like a mouse, of which it then makes no sense."""

    return keys


def _shorten(buffer):
    if len(buffer.text) > LONGEST_TYPED:
        buffer.text = buffer.text[:LONGEST_TYPED]


def restore_terminal_on_signals(end=os._exit):
    """Turn a closed window or a polite kill into an exit that gives the terminal back in order.

    ``end`` ends the process ``PATIENCE_S`` later, whatever is being done then: what was answered is on disk.
    """

    def leave(received, frame):
        # A timer of `threading` would be waited for.
        Thread(target=lambda: (Event().wait(PATIENCE_S), end(128 + received)), daemon=True).start()
        _leave(128 + received)

    for name in ("SIGTERM", "SIGHUP", "SIGBREAK"):
        number = getattr(signal, name, None)
        if number is not None:
            signal.signal(number, leave)


def _leave(code):
    """Leave by way of the line editor where it runs: it gives the terminal back, and is never caught half-way."""
    app = get_app()
    if app.is_running and not app.is_done and app.loop is not None:
        leaving = SystemExit(code)
        app.loop.call_soon_threadsafe(lambda: None if app.is_done else app.exit(exception=leaving))
    else:
        sys.exit(code)
