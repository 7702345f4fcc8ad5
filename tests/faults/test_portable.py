"""No call that only POSIX has, outside one module; what Windows can't do is never reached there."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "trainer"
MODULES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))

# https://docs.python.org/3/library/os.html and signal.html: "Availability: Unix".
POSIX_MODULES = {
    "fcntl",
    "termios",
    "pty",
    "tty",
    "pwd",
    "grp",
    "resource",
    "syslog",
    "posix",
    "crypt",
    "spwd",
    "readline",
}
WINDOWS_MODULES = {"msvcrt", "winreg", "winsound", "_winapi"}
POSIX_CALLS = {
    "os": {
        "fork",
        "forkpty",
        "getuid",
        "geteuid",
        "getgid",
        "getegid",
        "setuid",
        "setgid",
        "setsid",
        "getpgid",
        "killpg",
        "chown",
        "lchown",
        "fchown",
        "fchmod",
        "mkfifo",
        "mknod",
        "nice",
        "uname",
        "wait",
        "getloadavg",
        "statvfs",
        "fstatvfs",
        "openpty",
        "ttyname",
        "tcgetpgrp",
        "posix_spawn",
        "sysconf",
        "getgroups",
        "setpgid",
        "chroot",
        "pread",
        "pwrite",
        "readv",
        "writev",
        "sendfile",
        "sync",
        "fdatasync",
        "lockf",
        "O_CLOEXEC",
        "O_DIRECTORY",
        "O_NOFOLLOW",
        "O_SYNC",
        "WNOHANG",
    },
    "signal": {
        "SIGHUP",
        "SIGKILL",
        "SIGALRM",
        "SIGUSR1",
        "SIGUSR2",
        "SIGPIPE",
        "SIGWINCH",
        "SIGTSTP",
        "SIGCONT",
        "SIGQUIT",
        "SIGCHLD",
        "alarm",
        "setitimer",
        "pause",
        "pthread_kill",
        "sigwait",
    },
    "time": {"tzset", "clock_gettime", "clock_settime"},
    "select": {"poll", "epoll", "kqueue"},
    "socket": {"AF_UNIX"},
}
FEW = ("terminal/repl.py",)  # the one module that may know what system it runs on, by getattr


def posix_only(source):
    """Return (line, what) of everything in ``source`` that only one family of systems has."""
    found = []
    for node in ast.walk(ast.parse(source)):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module or ""]
            of = POSIX_CALLS.get(node.module, set())
            found += [(node.lineno, f"{node.module}.{alias.name}") for alias in node.names if alias.name in of]
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if node.attr in POSIX_CALLS.get(node.value.id, ()):
                found.append((node.lineno, f"{node.value.id}.{node.attr}"))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            if node.value.startswith(("/tmp", "/dev/", "/proc", "/etc", "/usr")):
                found.append((node.lineno, node.value))
        found += [(node.lineno, name) for name in names if name.partition(".")[0] in POSIX_MODULES | WINDOWS_MODULES]
    return found


@pytest.mark.parametrize("module", MODULES)
def test_a_module_runs_on_every_system(module):
    if module not in FEW:
        assert posix_only((PACKAGE / module).read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "source",
    [
        "import fcntl",
        "import os\nos.fork()",
        "from os import geteuid",
        "import signal\nsignal.SIGHUP",
        "def f():\n    import termios",
        "import msvcrt",
        "open('/dev/tty')",
    ],
)
def test_what_only_one_system_has_is_found(source):
    assert len(posix_only(source)) == 1


# What could run a stranger's code, start another program, or leave the computer.
DANGEROUS_MODULES = {
    "socket", "ssl", "http", "urllib", "ftplib", "smtplib", "xmlrpc", "requests", "webbrowser", "subprocess", "ctypes",
    "pickle", "marshal", "shelve", "dill", "code", "codeop", "runpy", "multiprocessing", "yaml",
}  # fmt: skip
BUILTINS = {"eval", "exec", "compile", "__import__", "breakpoint"}
METHODS = {"system", "popen", "startfile", "load_extension", "enable_load_extension"}
ALLOWED = (
    ("decks/formula.py", "compile"),  # makes a tree that is walked, never run: tests/decks/test_hostile
    ("terminal/voice.py", "subprocess"),  # this Python; what is spoken goes in by a pipe
)


def ways_out(source):
    """Return (line, what) of everything in ``source`` that could run code or reach a network."""
    found = []
    for node in ast.walk(ast.parse(source)):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module or ""]
        elif isinstance(node, ast.Call):
            names_called = {getattr(node.func, "id", "")} & BUILTINS | {getattr(node.func, "attr", "")} & METHODS
            found += [(node.lineno, name) for name in names_called]
        found += [(node.lineno, name) for name in names if name.partition(".")[0] in DANGEROUS_MODULES]
    return found


@pytest.mark.parametrize("module", MODULES)
def test_a_module_runs_no_code_of_strangers_and_reaches_no_network(module):
    found = ways_out((PACKAGE / module).read_text(encoding="utf-8"))
    assert [name for _, name in found if (module, name) not in ALLOWED] == []


OUT = ["import socket", "from urllib.request import urlopen", "eval('1')", "import os\nos.system('x')", "import pickle"]


@pytest.mark.parametrize("source", OUT)
def test_a_way_out_is_found(source):
    assert len(ways_out(source)) == 1
