"""The paths that a Windows console takes, walked here with a console that is made up."""

import builtins
import io
import signal
import sys
from queue import Queue

import pytest

from trainer import cli, paths
from trainer.clock import SystemClock
from trainer.store import connection, files
from trainer.terminal import look, prompts
from trainer.terminal.plain import PlainPrompt


class Console(io.TextIOWrapper):
    """A console of an old code page, which can't show everything."""

    def __init__(self, encoding, typed="", person=True):
        super().__init__(io.BytesIO(typed.encode(encoding)), encoding=encoding, newline="\r\n")
        self.person = person

    def isatty(self):
        return self.person


@pytest.fixture
def console(monkeypatch):
    """Put a console of ``encoding`` in the place of the three streams; a plain one, whose lines end as Windows' do."""

    def put(encoding, typed=""):
        out, err = Console(encoding), Console(encoding)
        monkeypatch.setattr(sys, "stdin", Console(encoding, typed))
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(sys, "stderr", err)
        return out, err

    return put


@pytest.mark.parametrize("encoding", ["cp437", "cp850", "cp1252", "cp932", "ascii"])
def test_a_session_on_an_old_code_page(console, small_shelf, home, encoding):
    out, err = console(encoding, "s\r\n\r\nw\r\ns\r\n\r\n")
    assert cli.main(["practice", "--questions", "2", "--plain"]) == 0
    out.flush()
    said = out.buffer.getvalue()
    assert said.isascii() and said.count(b"Not known") == 2 and b"?" in said
    assert b"\x1b" not in said and err.buffer.getvalue() == b""


def test_a_console_that_shows_everything_gets_everything(console, small_shelf, home):
    out, _ = console("utf-8", "s\r\n\r\n")
    assert cli.main(["practice", "--questions", "1", "--plain"]) == 0
    out.flush()
    assert "·" in out.buffer.getvalue().decode("utf-8")


@pytest.mark.parametrize("error", [RuntimeError("NoConsoleScreenBuffer"), OSError("handle"), ImportError("no editor")])
def test_a_console_that_the_line_editor_cannot_use_is_read_line_by_line(console, monkeypatch, error):
    """In Git's own window on Windows the program ended with a traceback of the line editor."""
    from trainer.terminal import repl

    out, _ = console("utf-8", "355\r\n")
    monkeypatch.delenv("TERM", raising=False)

    def no_console(*args, **kwargs):
        raise error

    monkeypatch.setattr(repl, "PromptSession", no_console)
    prompt = prompts.prompt_for(look.Look(), SystemClock(), plain=False)
    assert isinstance(prompt, PlainPrompt)
    assert prompt.ask(lambda spent: "")[0] == "355"
    out.flush()
    assert "plain lines" in out.buffer.getvalue().decode("utf-8")


def test_the_first_question_is_asked_in_plain_lines_too(console, monkeypatch, small_shelf, home):
    """The question kept for today is shown before the line editor is loaded, and that may fail."""
    from trainer.terminal import repl

    console("utf-8", "s\r\n\r\n")
    assert cli.main(["practice", "--questions", "1", "--plain"]) == 0
    out, _ = console("utf-8", "s\r\n\r\n")
    monkeypatch.delenv("TERM", raising=False)
    monkeypatch.setattr(repl, "PromptSession", lambda **_: 1 / 0)
    assert cli.main(["practice", "--questions", "1"]) == 0
    out.flush()
    said = out.buffer.getvalue().decode("utf-8")
    assert said.count("1 · ") == 1 and "plain lines" in said and "1 question in" in said


def test_a_console_without_a_size_has_eighty_columns(console):
    out, _ = console("utf-8")
    assert look.look_for(out, plain=False).width == 80


def test_signals_that_windows_lacks_are_left_out(monkeypatch):
    from trainer.terminal import repl

    set_for = []
    for name in ("SIGHUP",):
        monkeypatch.delattr(signal, name, raising=False)
    monkeypatch.setattr(signal, "SIGBREAK", 21, raising=False)
    monkeypatch.setattr(repl.signal, "signal", lambda number, handler: set_for.append((number, handler)))
    ended = Queue()
    repl.restore_terminal_on_signals(end=ended.put)
    assert [number for number, _ in set_for] == [signal.SIGTERM, 21]
    with pytest.raises(SystemExit) as caught:
        set_for[1][1](21, None)
    assert caught.value.code == 149
    assert ended.get(timeout=5) == 149  # and if something had stood in the way, this would have been the end


def test_the_home_of_windows(tmp_path):
    home = paths.default_home({"LOCALAPPDATA": str(tmp_path)}, "win32")
    assert home == tmp_path / "trainer"
    assert paths.default_home({}, "win32").parts[-3:] == ("AppData", "Local", "trainer")


def test_a_folder_that_cannot_be_opened_is_no_reason_to_fail(monkeypatch, tmp_path):
    """Windows opens no folders, so names are not flushed there; it writes them by itself."""
    import os

    def refused(*args):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refused)
    files.flush_folder(tmp_path)


def test_a_file_system_without_links_publishes_by_a_rename(monkeypatch, tmp_path):
    import os

    def no_links(*args):
        raise OSError(1, "Incorrect function")

    monkeypatch.setattr(os, "link", no_links)
    (tmp_path / "part").write_text("x", encoding="utf-8")
    files.publish(tmp_path / "part", tmp_path / "whole")
    assert (tmp_path / "whole").read_text(encoding="utf-8") == "x"
    (tmp_path / "part").write_text("y", encoding="utf-8")
    files.publish(tmp_path / "part", tmp_path / "whole")
    assert (tmp_path / "whole").read_text(encoding="utf-8") == "x", "another's file is never replaced"


@pytest.mark.parametrize("path", ["C:/Users/me/a b/reviews.db", "//server/share/reviews.db"])
def test_addresses_of_windows_paths(path):
    from pathlib import PureWindowsPath

    class Windows(PureWindowsPath):
        def absolute(self):
            return self

    # https://www.sqlite.org/uri.html: file:///C:/…; a share has an empty authority and keeps its two slashes.
    assert connection.uri(Windows(path), "mode=rw") == f"file://{'' if path[0] == '/' else '/'}{path}?mode=rw"


def test_nothing_that_only_posix_has_is_imported(small_shelf, home, monkeypatch, console):
    real = builtins.__import__

    def without_posix(name, *args, **kwargs):
        if name.partition(".")[0] in {"fcntl", "termios", "pty", "tty", "pwd", "grp", "resource", "curses", "readline"}:
            caller = (args[0] or {}).get("__name__", "") if args else ""
            if caller.startswith("trainer"):
                raise ImportError(f"{caller} imports {name}")
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without_posix)
    console("cp1252", "s\r\n\r\n")
    assert cli.main(["practice", "--questions", "1", "--plain"]) == 0
