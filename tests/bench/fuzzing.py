"""What is fuzzed: each target takes bytes, hands them to what reads them, and raises what must not happen."""

import contextlib
import datetime
import io
import json
import sys
import tempfile
import zlib
from functools import cache
from pathlib import Path
from types import SimpleNamespace

ROOT = Path(__file__).resolve().parents[2]
FOLDER = Path(tempfile.gettempdir()) / "trainer-fuzz"


class Finding(AssertionError):
    """Something that must not happen."""


def shown(text):
    """Assert that ``text`` could go to a screen."""
    from trainer.decks.words import refused_characters

    bad = refused_characters(text.replace("\n", ""))
    if bad:
        raise Finding(f"control characters {bad[:5]!r} in {text[:200]!r}")


def file_of(data, name="sample.toml"):
    """Return a file that holds ``data``."""
    FOLDER.mkdir(exist_ok=True)
    path = FOLDER / name
    path.write_bytes(data)
    return path


@cache
def shelf():
    """Return the shipped decks."""
    from trainer.decks import library

    return library.load()


# Targets: each takes bytes and raises what it must not.


def deck(data):
    """A deck from a stranger: read, checked, asked, answered, explained."""
    from trainer.decks import deckfile, library
    from trainer.drills import check_deck, grading, questions, worked_solution
    from trainer.errors import AnswerError, TrainerError

    path = file_of(data)
    faults = deckfile.read_file(path).faults
    if not faults or zlib.crc32(data) % 32 == 0:  # the whole check reads all ships and airframes too
        faults = check_deck.check([path], draws=20)
    for fault in faults:
        shown(str(fault))
    if faults:
        return
    try:
        stranger = library.load(files=[path])
    except TrainerError as error:
        shown(str(error))
        return
    for drill in list(stranger.drills.values())[:8]:
        try:
            question = questions.make(drill, stranger, "1")
            shown(question.text)
            for typed in ("1", "left", question.truth_text):
                with contextlib.suppress(AnswerError):
                    grading.grade(question, drill, stranger, typed, 1.0)
            for line in worked_solution.worked(question, drill, stranger):
                shown(line)
        except TrainerError as error:
            shown(str(error))


def said(data):
    """What people say of the steps of a flow, from a stranger: read, and heard while steps are typed."""
    from dataclasses import replace

    from trainer.decks.said import read_said
    from trainer.drills import recitation
    from trainer.errors import AnswerError

    flow = shelf().drills["ball-call"]
    path = file_of(data, "ball-call.toml")
    read = read_said(path, [step.id for step in flow.steps])
    for fault in read.faults:
        shown(str(fault))
    for typed in ("say ball", "say the state", "no ball", *read.near.get("ball", ())[:2]):
        with contextlib.suppress(AnswerError):
            recitation.read_line(typed, replace(flow, said=str(path)))


def data_file(data):
    """A ship, an airframe, an air wing or a standard from a stranger."""
    from trainer.decks import standards
    from trainer.decks.datafile import read_data

    path = file_of(data)
    faults = [*read_data(path).faults, *standards.read(path, drills=shelf().drills)[1]]
    for fault in faults:
        shown(str(fault))


def formula(data):
    """A formula: compiled and evaluated on numbers and arrays."""
    import numpy as np

    from trainer.decks import formula as formulas
    from trainer.errors import TrainerError

    text = data.decode("utf-8", "replace")
    names = {"fuel_lb": "lb", "x": "count", "angels": "angels"}
    for condition in (False, True):
        try:
            compiled = formulas.compile_formula(text, names, condition=condition)
            value = compiled.evaluate({"fuel_lb": 5000.0, "x": 3.0, "angels": 12.0}, shelf().tables, shelf().values)
            if not np.isfinite(np.asarray(value, dtype=float)).all():
                raise Finding(f"{text[:100]!r} is {value}")
            compiled.evaluate(
                {"fuel_lb": np.arange(4.0), "x": 3.0, "angels": np.full(4, 9.0)}, shelf().tables, shelf().values
            )
        except TrainerError as error:
            shown(str(error))


@cache
def asked():
    """Return a question of every form and unit, with its drill."""
    from trainer.drills import questions

    found = {}
    for drill in shelf().drills.values():
        for seed in "12":
            question = questions.make(drill, shelf(), seed)
            found.setdefault((question.form, question.unit, bool(question.choices)), (question, drill))
    return list(found.values())


def answer(data):
    """What a person types, read and graded at a question of every sort."""
    from trainer.drills import answers, grading, recitation
    from trainer.errors import AnswerError
    from trainer.reading.freetext.asking_back import Unsure

    number, text = (data[0] if data else 0), data[1:].decode("utf-8", "replace")
    question, drill = asked()[number % len(asked())]
    try:
        grade = grading.grade(question, drill, shelf(), text[:2_000], 3.0)
        if not 0.0 <= grade.score <= 1.0:
            raise Finding(f"score {grade.score}")
        json.dumps(grade.value, allow_nan=False)
        for line in grade.said:
            shown(line)
    except AnswerError as error:
        shown(str(error).replace("\x7f", ""))
        if isinstance(error, Unsure) and error.meant:
            with contextlib.suppress(AnswerError):
                grading.grade(question, drill, shelf(), error.meant, 3.0)
    with contextlib.suppress(AnswerError):
        answers.normalise(text)
    if question.form == "recite":
        with contextlib.suppress(AnswerError):
            recitation.read_line(text[:2_000], drill)


def report(data):
    """A report (JSON) from a stranger, sealed anew, as an instructor puts it on the squadron's page."""
    from trainer.pages import report_json, roster_page, seal
    from trainer.pages.tidy import tidy
    from trainer.practice.evidence import squadron

    with contextlib.suppress(ValueError, UnicodeDecodeError):
        text = data.decode("utf-8")
        data = seal.close(seal._SEALS.sub(seal.OPEN, text)).encode("utf-8", "surrogatepass")
    try:
        record = tidy(report_json.read(file_of(data, "report.json")))
    except report_json.NotAReport:
        return
    together = squadron.together([("a.json", record), ("b.json", record)], datetime.date(2030, 3, 1))
    html = roster_page.html(together, [("\x1b", "<b>")], day="2030-03-01", caution="")
    if "<script" in html.lower() or "javascript:" in html.lower() or "\x1b" in html:
        raise Finding("a page that runs something")
    for line in (roster_page.headline(together, "x"), *roster_page.ready_lines(together), *together["brief"]):
        from trainer.terminal.look import printable

        shown(printable(line))


def name(data):
    """Names and dates on the command line; nothing is written outside its folder."""
    from trainer.clock import StillClock
    from trainer.commands import arguments
    from trainer.decks import standards, templates
    from trainer.errors import TrainerError
    from trainer.pages.text import slug
    from trainer.practice import when

    text = data.decode("utf-8", "replace")
    clock = StillClock(datetime.datetime(2030, 3, 1, tzinfo=datetime.UTC))
    made = slug(text)
    if not made.isascii() or set(made) & set('/\\:*?"<>|.\0') or made.startswith("-") or len(made) > 100:
        raise Finding(f"file name {made!r}")
    for attempt in (
        lambda: when.read(text, clock),
        lambda: standards.find(text),
        lambda: arguments.command(text, {"practice": ""}),
    ):
        with contextlib.suppress(TrainerError):
            attempt()
    folder = FOLDER / "new"
    folder.mkdir(parents=True, exist_ok=True)
    if "/" not in text and "\\" not in text:
        with contextlib.suppress(TrainerError):
            written = templates.write("flow", folder / f"{text}.toml")
            if written.parent.resolve() != folder.resolve():
                raise Finding(f"wrote {written}")
            written.unlink()


def words(data):
    """Words of a whole command line, none of which may end in a traceback."""
    from trainer import cli

    typed = data.decode("utf-8", "replace").replace("\0", "").split("\n")[:8]
    if any(
        word.startswith(("--out", "--home", "--cal", "--cu", "--he")) or "/" in word or "\\" in word for word in typed
    ):
        return
    if typed[0] in ("report", "roster", "brief") or typed[:2] == ["data", "backup"] or typed[:2] == ["deck", "new"]:
        return  # these write where the person stands
    home = FOLDER / "home"
    streams = SimpleNamespace(stdin=sys.stdin, stdout=sys.stdout, stderr=sys.stderr)
    sys.stdin = io.TextIOWrapper(io.BytesIO(b"s\n" * 5), encoding="utf-8")
    sys.stdout, sys.stderr = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2))
    out, err = sys.stdout, sys.stderr
    try:
        code = cli.main(["--home", str(home), *typed])
        said = []
        for stream in (out, err):
            stream.flush()
            said.append(stream.buffer.getvalue().decode("utf-8"))
    finally:
        sys.stdin, sys.stdout, sys.stderr = streams.stdin, streams.stdout, streams.stderr
    if code not in (0, 1, 2, 3) or (code >= 2 and len(said[1].splitlines()) != 1):
        raise Finding(f"{typed} ended with {code}: {said[1][-500:]!r}")
    shown(said[0])
    shown(said[1])


def keys(data):
    """Keys of a keyboard at the line editor: no key and no order of keys may break it."""
    from prompt_toolkit.application import create_app_session
    from prompt_toolkit.input import create_pipe_input
    from prompt_toolkit.output import DummyOutput

    from trainer.clock import SystemClock
    from trainer.terminal.look import Look
    from trainer.terminal.repl import ReplPrompt

    broken = []

    def watch(loop, context):
        broken.append(context.get("exception") or context.get("message"))

    with create_pipe_input() as pipe, create_app_session(input=pipe, output=DummyOutput()):
        prompt = ReplPrompt(Look(), clock=SystemClock(), input=pipe, output=DummyOutput())
        prompt._session.app._handle_exception = watch
        prompt.when_live(
            lambda: (
                pipe.send_bytes(data[:4_000].replace(b"\x1a", b"")),
                pipe.send_bytes(b"\x1b[201~\x07\x04\r"),
                pipe.close(),
            )
        )
        with contextlib.suppress(EOFError, KeyboardInterrupt):
            line, _ = prompt.ask(lambda spent: "> ")
            if len(line) > 4_000:
                raise Finding(f"a line of {len(line)} characters")
    if broken:
        raise Finding(f"the editor broke: {broken[0]!r}")


def database(data):
    """A database from anywhere: what is salvaged of it is sound."""
    from trainer.clock import SystemClock
    from trainer.errors import StorageError
    from trainer.practice.knowledge import after_review
    from trainer.store.salvage import salvage

    FOLDER.mkdir(exist_ok=True)
    home = FOLDER / "damaged"
    home.mkdir(exist_ok=True)
    (home / "reviews.db").write_bytes(data)
    with contextlib.suppress(StorageError):
        salvage(home, update=after_review, clock=SystemClock()).path.unlink()


def samples_of_decks():
    """Return sound decks and hostile ones."""
    from tests.decks.samples import ALL
    from tests.decks.test_hostile import CORPUS

    hostile = [text.encode("utf-8", "surrogatepass") for text in CORPUS.values() if len(text) < 3_000]
    shipped = sorted((ROOT / "decks").glob("*.toml"))
    return [ALL.encode(), *hostile, *(path.read_bytes()[:6_000] for path in shipped)]


def samples_of_said():
    """Return a shipped file of what people say, and one with few texts."""
    whole = (ROOT / "decks" / "said" / "ball-call.toml").read_bytes()
    steps = [step.id for step in shelf().drills["ball-call"].steps]
    few = "\n".join(f"[{step}]\nright = [{many(step, 'a')}]\nwrong = [{many(step, 'b')}]" for step in steps)
    return [few.encode(), whole]


def many(*words):
    """Return six texts of ``words`` as TOML."""
    return ", ".join(f'"{" ".join(words)} {number}"' for number in range(6))


def samples_of_data():
    """Return the shipped ships, airframes and standards."""
    folders = ("ships", "airframes", "standards")
    return [path.read_bytes() for folder in folders for path in sorted((ROOT / "decks" / folder).glob("*.toml"))]


def samples_of_reports():
    """Return a report of an invented pilot."""
    from trainer import cli

    home = FOLDER / "pilot"
    streams = sys.stdin, sys.stdout
    for arguments in (
        ["practice", "--questions", "12"],
        ["report", "--call-sign", "Wren", "--format", "json", "--out", str(home)],
    ):
        sys.stdin, sys.stdout = io.TextIOWrapper(io.BytesIO(b"s\n27\n5000\n" * 20), encoding="utf-8"), io.StringIO()
        try:
            cli.main(["--home", str(home), *arguments])
        finally:
            sys.stdin, sys.stdout = streams
    return [path.read_bytes() for path in home.glob("*.json")]


def samples_of_databases():
    """Return a small database."""
    samples_of_reports()
    return [(FOLDER / "pilot" / "reviews.db").read_bytes()]


ANSWERS = [
    "27 nm", "3,500 lb", "1+30", "12:45", "1245", "left", "port", "angels 2", "355°", "3.5", "brakes off; flaps",
    "2 1 3", "201 Harrow ball 5.2", "½", "٣", "1_000", "nan", "1e309", "-0", "0x1F", "five thousand", "5'000",
]  # fmt: skip
FORMULAS = [
    "fuel_lb / 100 + x ** 2", "wrap360(x - 9)", 'table("airframe.trim", fuel_lb)', "marshal_fix_distance(angels)",
    "fuel_lb > 2000 and not x < 1", "round(x, 0.1) // 3 % 2", 'marshal_fix_distance(angels=angels, method="exact")',
    "min(x, max(1, fuel_lb), abs(-x)) ** 0.5", "sin(x) + cos(x) - tan(45)",
]  # fmt: skip
NAMES = [
    "Wren", "../../etc/passwd", "CON", "a b", "night-cq", "in 10 days", "2030-02-30 25:61", "20:00", "ä",
    "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx",
]  # fmt: skip
WORDS = [
    "practice\n--questions\n2", "compute\nfinal_bearing\n--brc\n5", "deck\nshow\nplatform-altitude",
    "outlook\n--on\ntoday", "cram\n--on\nin 9 days\n--minutes-per-day\n9\n--area\nfuel", "data\nwhere",
    "practice\n--seed\n1\n--area\nmarshal\n--minutes\n1", "deck\nlist\nmarshal", "compute\nwind", "debrief",
    "rehearse\n--seed\n7\n--sheet",
]  # fmt: skip
KEYS = [
    b"355\r", b"\x1b[A\x1b[B\x1b[C", b"\x1b[200~a\nb\x1b[201~", b"\x1b[31m", b"\x1b[<0;1;1M", b"\x12abc\r",
    b"\x18\x05", b"\x1bx", b"\x16\x01", b"\x00\x1f\x1c\x1d", b"\x1b[1;5D\x1b[3~", b"\x1b[24;80R", b"\xff\xfe\xc3(",
    b"\x1bOP\x1b[15~",
]  # fmt: skip

TARGETS = {
    "deck": (deck, samples_of_decks),
    "said": (said, samples_of_said),
    "data_file": (data_file, samples_of_data),
    "formula": (formula, lambda: [text.encode() for text in FORMULAS]),
    "answer": (answer, lambda: [bytes([n]) + text.encode() for n, text in enumerate(ANSWERS * 6)]),
    "report": (report, samples_of_reports),
    "name": (name, lambda: [text.encode() for text in NAMES]),
    "words": (words, lambda: [text.encode() for text in WORDS]),
    "keys": (keys, lambda: KEYS),
    "database": (database, samples_of_databases),
}
