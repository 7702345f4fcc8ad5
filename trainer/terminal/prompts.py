"""Which way of asking fits: the line editor on a terminal, plain lines for pipes and screen readers."""

import shutil

from trainer.terminal import look
from trainer.terminal.plain import PlainPrompt

NO_EDITOR = "This console has no line editor; plain lines it is."


def refit(prompt):
    """Fit the lines to come to the screen as wide as it is now: a person may have drawn the window smaller."""
    if prompt.person:
        prompt.look.width = shutil.get_terminal_size((prompt.look.width, 24)).columns


def prompt_for(screen, clock, *, plain):
    """Return the prompt for the program's own input and output."""
    return editor(screen, clock) if look.interactive(plain=plain) else PlainPrompt(screen, clock=clock)


def editor(screen, clock):
    """Return the line editor, or plain lines on a console that it can't use: some on Windows are none to it."""
    try:
        from trainer.terminal.repl import ReplPrompt, restore_terminal_on_signals

        restore_terminal_on_signals()
        return ReplPrompt(screen, clock=clock)
    except Exception:  # what it raises differs by system, and none of it is worth a session
        prompt = PlainPrompt(screen, clock=clock)
        prompt.say(NO_EDITOR)
        return prompt
