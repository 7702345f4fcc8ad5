"""States that another version of the memory made: worked out anew from the reviews, and never called damage."""

import sqlite3
from contextlib import closing

import pytest

from tests.faults import driving, killing
from tests.store.test_store_schema import SAVED
from trainer.errors import StorageError
from trainer.practice import knowledge
from trainer.store import backup, copies, schema
from trainer.store.store import Store

LATER = "2035-03-01T19:00:00+00:00"
SESSION = ("practice", "--questions", "2")
OLDER = {
    "another width": ("zeroblob(24)", "zeroblob(16)"),
    "another content": ("zeroblob(length(state))", "zeroblob(length(state))"),
}


@pytest.fixture(scope="module")
def after_a_session(tmp_path_factory):
    """The database after a session over the shipped decks, as bytes."""
    home = tmp_path_factory.mktemp("practised")
    assert driving.run("practice", "--questions", "6", home=home, typed="s\n" * 6).returncode == 0
    return (home / "reviews.db").read_bytes()


@pytest.fixture
def practised(home, after_a_session):
    """A home after that session, of which there is no copy yet."""
    home.mkdir()
    (home / "reviews.db").write_bytes(after_a_session)
    return home


@pytest.fixture(params=OLDER)
def grow_older(request, practised):
    """Return a function that puts states of an older memory in the place of today's."""
    item, learner = OLDER[request.param]

    def make():
        with closing(sqlite3.connect(practised / "reviews.db", isolation_level=None)) as connection:
            connection.execute(f"UPDATE belief SET state = {item}")
            connection.execute(f"UPDATE before SET state = {item}, learner = {learner.replace('state', 'learner')}")
            connection.execute(f"UPDATE learner SET state = {learner}, model = 'older'")

    return make


@pytest.fixture
def older(practised, grow_older):
    grow_older()
    return practised


def standing(home):
    """Return (states, learner with its model) as they lie in the file."""
    with closing(sqlite3.connect(f"{(home / 'reviews.db').as_uri()}?mode=ro", uri=True)) as connection:
        states = dict(connection.execute("SELECT item, state FROM belief"))
        return states, connection.execute("SELECT state, model FROM learner").fetchone()


def sound(home):
    """Assert that the states in the file are those of today's memory, and follow from the reviews."""
    assert standing(home)[1][1] == knowledge.model()
    assert killing.stored(home).problems == []


def test_verify_tells_of_an_older_memory_and_changes_nothing(trainer, older):
    before = standing(older)
    done = trainer("data", "verify")
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Sound: every review is unaltered.") and "older trainer" in done.out
    assert standing(older) == before


def test_real_damage_is_told_all_the_same(trainer, older):
    with closing(sqlite3.connect(older / "reviews.db", isolation_level=None)) as connection:
        connection.execute("DROP TRIGGER review_stays_update")
        connection.execute("UPDATE review SET typed = typed || 'x' WHERE id = 2")
        connection.execute(next(sql for sql in schema._FIRST if "review_stays_update" in sql))
    done = trainer("data", "verify")
    assert done.code == 1 and "Review 2 was changed" in done.out and "older" not in done.out


@pytest.mark.parametrize(
    "change", ["drill_id = 'x' || substr(drill_id, 2)", "kind = 'flux'", "score = 9.5", "items = '5'", "items = '[1]'"]
)
def test_a_damaged_review_that_must_be_read_again_is_told_in_one_line(trainer, older, refused, change):
    """States of today's memory hid it; to work them out anew it must be read, and that ended in a traceback."""
    with closing(sqlite3.connect(older / "reviews.db", isolation_level=None)) as connection:
        connection.execute("PRAGMA ignore_check_constraints=ON")
        connection.execute("DROP TRIGGER review_stays_update")
        connection.execute(f"UPDATE review SET {change} WHERE id = 2")
        connection.execute(next(sql for sql in schema._FIRST if "review_stays_update" in sql))
    refused(trainer(*SESSION, typed="s\ns\n"), "is damaged", "`trainer data salvage` saves all the others")
    done = trainer("data", "salvage")
    assert done.code == 0 and done.out.startswith("saved 5 of 6")


def test_a_session_begins_with_states_worked_out_anew(trainer, older):
    done = trainer(*SESSION, typed="s\nu\ns\ns\n")
    assert (done.code, done.err) == (0, "") and len(done.judged) == 3
    sound(older)
    assert "what is known follows from the reviews" in trainer("data", "verify").out


def test_the_copy_of_the_day_is_made_before(trainer, older):
    before = standing(older)
    trainer(*SESSION, typed="s\ns\n")
    (copy,) = copies.listed(older)
    assert copy.name.endswith("-6.db"), "before anything was answered"
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("SELECT state, model FROM learner").fetchone() == before[1]


def test_a_copy_that_cannot_be_made_does_not_stop_the_session(trainer, older, monkeypatch):
    def full(*_, **__):
        raise StorageError("the disk is full", hint="free some space")

    monkeypatch.setattr(backup, "daily", full)
    done = trainer(*SESSION, typed="s\ns\n")
    assert done.code == 3 and "not today's automatic copy: the disk is full" in done.err and len(done.judged) == 2
    sound(older)


@pytest.mark.parametrize("words", [("outlook",), ("report", "--dry-run")])
def test_what_only_reads_says_the_same_and_keeps_the_beliefs_it_worked_out(practised, grow_older, words):
    """At 50,000 reviews each report worked them out anew, for 40 s, until the next practice."""
    said = driving.run(*words, home=practised, TRAINER_NOW=LATER)
    grow_older()
    before = standing(practised)
    done = driving.run(*words, home=practised, TRAINER_NOW=LATER)
    assert (done.returncode, done.stdout, done.stderr) == (0, said.stdout, "") and len(said.stdout) > 300
    renewed = standing(practised)
    assert renewed != before
    sound(practised)
    driving.run(*words, home=practised, TRAINER_NOW=LATER)
    assert standing(practised) == renewed, "once"


@pytest.mark.parametrize("words", [("rehearse", "--seed", "7", "--to", "brief"), ("debrief",)], ids=" ".join)
def test_the_other_ways_of_answering_renew_them_too(older, words):
    done = driving.run(*words, home=older, typed="s\n-\n\nq\n")
    assert (done.returncode, done.stderr) == (0, "")
    assert len(killing.stored(older).reviews) > 6
    sound(older)


def test_a_window_that_is_open_goes_on_over_states_of_another_memory(older, grow_older, clock):
    """An older copy is put back, or an older trainer still answers, while this window has its question on screen."""
    with Store.open(older, clock=clock) as store:
        knowledge.known(store)
        grow_older()
        review = store.last_review()[1]
        recorded = store.record(review, knowledge.after_review, model=knowledge.model())
        sound(older)
        grow_older()
        store.withdraw(recorded.id, knowledge.after_review, knowledge.model())
        sound(older)


def test_two_windows_that_start_at_once_renew_them_once_each_and_agree(older, clock):
    with Store.open(older, clock=clock) as one, Store.open(older, clock=clock) as two:
        assert knowledge.known(one) == knowledge.known(two)
        assert one.record(two.last_review()[1], knowledge.after_review, model=knowledge.model()).id == 7
    sound(older)


def test_a_window_over_a_copy_of_an_older_schema_that_is_put_back(practised, tmp_path, clock):
    """The tables it knows were gone, and its answers could not be stored."""
    old = tmp_path / "old.db"
    with closing(sqlite3.connect(old)) as connection:
        connection.executescript(SAVED[0].read_text(encoding="utf-8"))
        connection.execute("PRAGMA user_version=1")
        connection.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
    with Store.open(practised, clock=clock) as store:
        review = store.last_review()[1]
        backup.restore(practised, old, clock=clock)
        count = store.count()
        assert count == 14
        recorded = store.record(review, knowledge.after_review, model=knowledge.model())
        assert store.count() == count + 1
        store.withdraw(recorded.id, knowledge.after_review, knowledge.model())
    sound(practised)
    assert list(practised.glob("*part*")) == []


def test_an_older_trainer_cannot_mix_in_states_of_its_own(practised):
    """One of schema 1 that was open when the file was brought up to date: its answer is refused, not mixed in."""
    with closing(sqlite3.connect(practised / "reviews.db", isolation_level=None)) as connection:
        with pytest.raises(sqlite3.OperationalError, match="3 columns but 2 values"):
            connection.execute("INSERT INTO learner VALUES (1, x'00') ON CONFLICT (id) DO UPDATE SET state = x'00'")


def test_long_work_is_told_step_by_step(older, clock):
    told = []

    class Watching:
        def __init__(self, what, clock, *, total=None):
            told.append([what, total, 0])

        def __enter__(self):
            return self

        def __exit__(self, *_):
            pass

        def step(self):
            told[-1][2] += 1

        def counting(self, function):
            return lambda *arguments: (self.step(), function(*arguments))[1]

    with Store.open(older, clock=clock, progress=Watching) as store:
        knowledge.known(store)
    assert told == [["reviews checked", 6, 6], ["reviews read again", 6, 6]]
