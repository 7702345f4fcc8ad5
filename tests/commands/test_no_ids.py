"""No screen that a person reads names a drill by its id: all of them are walked on a home with something on each."""

import io
import re
from contextlib import redirect_stderr, redirect_stdout

import pytest

from trainer import cli
from trainer.decks import library

GAVE_UP = "s\n" * 60
A_WORD = {"join-up"}  # of the trade, and an id as well
SCREENS = {
    "practice": (("practice", "--questions", "25"), GAVE_UP),
    "one thing": (("practice", "trim", "--questions", "4"), "h\ns\nw\n" * 4),
    "share of the day": (("cram", "--start"), GAVE_UP),
    "stage": (("stage",), ""),
    "drills of a stage": (("stage", "--list"), ""),
    "find out": (("stage", "--find-out"), GAVE_UP),
    "plan": (("cram",), ""),
    "events": (("cram", "--list"), ""),
    "outlook": (("outlook",), ""),
    "rehearsal": (("rehearse", "--seed", "7", "--case", "3", "--phase", "marshal"), GAVE_UP),
    "answer sheet": (("rehearse", "--seed", "7", "--case", "3", "--sheet"), ""),
    "debrief": (("debrief",), "2m 3m\n1m\n\n\nq\n"),
    "after a debrief": (("practice", "--questions", "3"), GAVE_UP),
    "logbook": (("logbook",), ""),
    "record": (("report", "--dry-run"), ""),
    "reports": (("report", "--format", "html,md"), ""),
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Return a folder with the reports of a pilot whose home holds answers of every kind, and all that was said."""
    return tmp_path_factory.mktemp("screens")


@pytest.fixture(scope="module")
def said(folder):
    """Return {screen: what it said}."""
    found = {}
    with pytest.MonkeyPatch.context() as patched:
        patched.chdir(folder)

        def run(day, words, typed):
            patched.setenv("TRAINER_NOW", f"2030-03-{day:02}T19:00:00+00:00")
            patched.setattr("sys.stdin", io.StringIO(typed))
            with redirect_stdout(io.StringIO()) as out, redirect_stderr(out):
                assert cli.main(["--home", str(folder / "home"), *words]) == 0, out.getvalue()
            return out.getvalue()

        for day in (1, 2, 3):
            run(day, ("practice", "--questions", "20", "--seed", str(day)), GAVE_UP)
        run(4, ("cram", "--on", "2030-03-12 20:00", "--stage", "night-recovery", "--minutes-per-day", "10"), "")
        for name, (words, typed) in SCREENS.items():
            found[name] = run(5, words, typed)
        run(6, ("report", "--format", "json"), "")
        found["squadron"] = run(6, ("roster", "exports"), "")
        for page in folder.rglob("exports/*"):
            if page.suffix in (".html", ".md"):
                found[page.name] = re.sub(r"<style.*?</style>|<[^>]*>", " ", page.read_text("utf-8"), flags=re.DOTALL)
    return found


def ids_in(text):
    """Return the ids of shipped drills that stand in ``text``; those of one word may be words of the trade."""
    known = library.load().outlines
    return sorted({one for one in re.findall(r"\w+(?:-\w+)+", text) if one in known} - A_WORD)


def test_no_screen_names_a_drill_by_its_id(said):
    assert len(said) > len(SCREENS) + 2, "the pages, too"
    found = {name: ids for name, text in said.items() if (ids := ids_in(text))}
    assert not found


def test_an_id_would_be_found():
    assert ids_in("Shaky: trim-step-round (18 %)") == ["trim-step-round"]
    assert ids_in("a trim-step-rounded thing") == []
