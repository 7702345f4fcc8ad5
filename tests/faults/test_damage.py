"""The database is damaged, replaced, or from elsewhere: one line, nothing made worse, and a way on."""

import random
import sqlite3
from contextlib import closing

import pytest

from tests.faults import killing
from tests.faults.conftest import LONG
from trainer.store import schema

TYPED = "s\n27\nu\ns\nf\ns\n5000\n"
SESSION = ("practice", "--questions", "3")


@pytest.fixture
def practised(trainer, home):
    """A home after a few sessions, with a copy."""
    for _ in range(3):
        assert trainer("practice", "--questions", "6", typed="s\n27\n5000\ns\ns\ns\ns\ns\n").code == 0
    assert list((home / "backups").iterdir())
    return home


def write(home, content):
    for name in ("reviews.db-wal", "reviews.db-shm"):
        (home / name).unlink(missing_ok=True)
    (home / "reviews.db").write_bytes(content)


def flipped(content, chance):
    """Return ``content`` with one to many bits or bytes changed."""
    data = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 8, 64))):
        at = chance.randrange(len(data))
        data[at] = chance.choice((data[at] ^ (1 << chance.randrange(8)), 0, 255, chance.randrange(256)))
    return bytes(data)


def met(trainer, home, content):
    """Practise, look and verify on a database of ``content``; return what was said on the way."""
    write(home, content)
    said = []
    for words in (SESSION, ("data", "where"), ("data", "verify"), ("data", "salvage")):
        done = trainer(*words, typed=TYPED)
        said.append(done)
        assert "Traceback" not in done.err + done.out
        assert len(done.err.splitlines()) <= 1
        assert done.code in (0, 1, 3), done.err
        assert not done.code or done.err or words[0] == "data"
    return said


@pytest.mark.parametrize("seed", range(20 if LONG else 1))
def test_flipped_bits_are_told_or_do_no_harm(trainer, practised, home, seed):
    whole, chance = (practised / "reviews.db").read_bytes(), random.Random(seed)
    for _ in range(12 if LONG else 8):
        met(trainer, home, flipped(whole, chance))


def test_every_place_of_the_first_page_may_be_hit(trainer, practised, home):
    whole = (practised / "reviews.db").read_bytes()
    for at in (*range(0, 100, 1 if LONG else 12), *range(100, 4096, 41 if LONG else 900)):
        content = bytearray(whole)
        content[at] ^= 0xFF
        met(trainer, home, bytes(content))


@pytest.mark.parametrize(
    ("sql", "what"),
    [
        ("UPDATE belief SET state = zeroblob(7)", "a state of the wrong length"),
        ("UPDATE belief SET state = randomblob(length(state))", "a state of noise"),
        ("UPDATE learner SET state = x'00'", "the learner of the wrong length"),
        ("UPDATE learner SET state = randomblob(length(state))", "a learner of noise"),
        ("DELETE FROM learner", "no learner"),
        ("UPDATE setting SET value = '{'", "a setting that is no JSON"),
        ("UPDATE setting SET value = '\"x\"'", "a setting of another kind"),
        ("UPDATE setting SET value = '[null, \"a\", 1e999]'", "a setting of the wrong numbers"),
        ("UPDATE setting SET value = '[1.0]'", "prices of another number of slots"),
        ("UPDATE setting SET value = replace(value, '[', '[1e300,')", "prices without bounds"),
        ("UPDATE setting SET value = '[' || replace(hex(zeroblob(20)), '00', '1e18,') || '1e18]'", "large prices"),
        ("UPDATE opening SET record = CAST(x'7bff0c' AS TEXT)", "an opening that is no text"),
        ("UPDATE setting SET value = CAST(x'ff0c' AS TEXT)", "a setting that is no text"),
        ("UPDATE learner SET model = CAST(x'ff0c' AS TEXT)", "a name of the memory that is no text"),
        ("UPDATE belief SET item = CAST(x'ff' || item AS TEXT)", "an item that is no text"),
        ("UPDATE opening SET record = '{'", "an opening that is no JSON"),
        ("UPDATE opening SET record = '[1, 2]'", "an opening of another kind"),
        ("UPDATE opening SET record = '{\"signature\": 1}'", "an opening without a question"),
        ("UPDATE opening SET record = json_set(record, '$.question', 5)", "an opening with another question"),
        ("UPDATE opening SET record = json_set(record, '$.question.drill_id', 'gone')", "a drill that is gone"),
        ("UPDATE opening SET record = json_set(record, '$.question.inputs', 3)", "inputs that are none"),
        ("UPDATE opening SET record = json_set(record, '$.question.limit_s', 'x')", "a limit that is none"),
        ("UPDATE opening SET record = json_set(record, '$.question.truth', json('{}'))", "a truth that is none"),
    ],
)
def test_what_can_be_computed_again_is_computed_again(trainer, practised, home, sql, what):
    """States, settings and the kept question all follow from the reviews: no damage to them may stop a session."""
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute(sql)
    done = trainer(*SESSION, typed="s\n" * 4)
    assert (done.code, done.err) == (0, ""), what
    assert len(done.judged) == 3
    assert trainer(*SESSION, typed="s\n" * 4).code == 0


def rewritten(home, sql):
    """Carry out ``sql`` on the database of ``home`` although its rows are never changed."""
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE name LIKE '%_stays_%'").fetchall()
        for name, _ in triggers:
            connection.execute(f"DROP TRIGGER {name}")
        connection.execute(sql)
        for _, trigger in triggers:
            connection.execute(trigger)


@pytest.mark.parametrize("column", ["inputs", "value", "truth", "parts", "at", "items"])
@pytest.mark.parametrize("text", ["{", "x" * 24])
def test_a_review_that_cannot_be_read_is_told_in_one_line(trainer, practised, home, column, text):
    rewritten(home, f"UPDATE review SET {column} = '{text[:1] if column != 'at' else 'x' * 24}'")
    for words in (SESSION, ("data", "verify"), ("outlook",), ("data", "salvage")):
        done = trainer(*words, typed="s\n" * 4)
        assert "Traceback" not in done.err and len(done.err.splitlines()) <= 1
        assert done.code in (0, 1, 3)


@pytest.mark.parametrize("table", ["event", "debrief", "flag"])
def test_a_note_that_cannot_be_read_is_told_in_one_line(trainer, practised, home, table):
    assert trainer("cram", "--on", "in 10 days").code == 0
    assert trainer("practice", "--questions", "1", typed="f\n").code == 0
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute("INSERT INTO debrief VALUES (NULL, '2030-01-01', '', '{}', '2030-01-01T00:00:00.000Z')")
    column = {"event": "areas", "debrief": "phases", "flag": "question"}[table]
    rewritten(home, f"UPDATE {table} SET {column} = '['")
    for words in (SESSION, ("cram", "--list"), ("deck", "flags"), ("outlook",)):
        done = trainer(*words, typed="s\n" * 4)
        assert "Traceback" not in done.err and len(done.err.splitlines()) <= 1
        assert done.code in (0, 1, 3)


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("empty", b""),
        ("a picture", b"\x89PNG\r\n" * 2000),
        ("text", b"my notes\n" * 900),
        ("half of it", None),
    ],
)
def test_a_replaced_file_is_told_left_alone_and_the_copy_put_back(trainer, practised, home, refused, name, content):
    whole = (practised / "reviews.db").read_bytes()
    content = whole[: len(whole) // 2 + 100] if content is None else content
    write(home, content)
    done = trainer(*SESSION, typed=TYPED)
    (copy,) = (home / "backups").glob("reviews-2*.db")
    refused(done, str(home / "reviews.db"), f'trainer data restore "{copy}"')
    assert (home / "reviews.db").read_bytes() == content
    restored = trainer("data", "restore", copy)
    assert restored.code == 0 and "is kept as" in restored.out
    assert trainer(*SESSION, typed="s\n" * 4).code == 0
    assert killing.stored(home).problems == []


def test_a_newer_database_is_told_and_left_alone(trainer, practised, home, refused):
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute(f"PRAGMA user_version={schema.SCHEMA + 1}")
    content = (home / "reviews.db").read_bytes()
    for words in (SESSION, ("data", "verify"), ("outlook",)):
        refused(trainer(*words, typed=TYPED), "newer trainer", "install the newer trainer")
    where = trainer("data", "where")
    assert where.code == 1 and "newer trainer" in where.out
    assert (home / "reviews.db").read_bytes() == content


def test_where_the_data_lie_is_told_though_they_are_damaged(trainer, practised, home):
    """The number of reviews of a damaged file is not known, and printing it ended in a traceback."""
    write(home, b"x" * 5000)
    done = trainer("data", "where")
    assert done.code == 1 and "reviews unknown" in done.out and "salvage" in done.out and "copy: " in done.out


def test_salvage_and_restore_as_the_messages_say(trainer, practised, home):
    whole = (practised / "reviews.db").read_bytes()
    stood = killing.stored(home)
    page = whole.index(b'"angels"') // 4096 * 4096
    write(home, whole[:page] + b"\xa5" * 4096 + whole[page + 4096 :])
    assert trainer("data", "verify").code == 1
    done = trainer("data", "salvage")
    assert done.code == 0 and f" of {len(stood.reviews)} reviews to " in done.out
    count = int(done.out.split()[1])
    assert 6 <= count < len(stood.reviews), "the copy of the day has the first six"
    path = done.out.split('restore "')[1].split('"')[0]
    assert trainer("data", "restore", path).code == 0
    assert trainer("data", "verify").out.startswith("Sound")
    assert len(killing.stored(home).reviews) == count
