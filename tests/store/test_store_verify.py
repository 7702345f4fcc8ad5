"""Whatever is changed behind the program's back is told in a sentence."""

import sqlite3
from contextlib import closing

import pytest

from tests.store import invented
from tests.store.invented import fill, standing, update
from trainer.errors import StorageError
from trainer.store import history
from trainer.store.store import Store


@pytest.fixture
def tampered(home, filled):
    """Run statements on a store of 12 reviews, two of them withdrawn, and return what verify says."""

    def tamper(*statements):
        with Store.open(filled(12), clock=invented.clock()) as store:
            store.withdraw(12, update)
            store.withdraw(5, update)
            assert store.verify(update) == []
        with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as other:
            kept = other.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
            for name, _ in kept:
                other.execute(f"DROP TRIGGER {name}")
            for statement in statements:
                other.execute(statement)
            for _, sql in kept:
                other.execute(sql)
        with Store.open(home, clock=invented.clock(), create=False) as store:
            return store.verify(update)

    return tamper


def test_nothing_changed_nothing_told(tampered):
    assert tampered() == []


@pytest.mark.parametrize(
    "change",
    ["score = 1 - score", "typed = typed || ' '", "at = '2026-12-05T20:02:00.123Z'", "predicted = 0.81",
     "inputs = '{}'", "seconds = NULL", "guess = 0.5", "items = '[\"fix-1\"]'", "truth = 'not JSON'",
     "at = 'xxxxxxxxxxxxxxxxxxxxxxxx'", "kind = 'unknown'"],
)  # fmt: skip
def test_a_changed_review_is_told(tampered, change):
    assert tampered(f"UPDATE review SET {change} WHERE id = 3") == ["Review 3 was changed after it was stored."]


def test_every_column_of_a_review_is_covered(tampered, home):
    with Store.open(home, clock=invented.clock()) as store:
        columns = [(row[1], row[2]) for row in store._read("PRAGMA table_info(review)")]
    changes = {"TEXT": "substr({0} || 'Z', 2) || 'x'", "REAL": "coalesce({0} / 2 + 0.01, 0.5)"}
    for column, kind in columns:
        if column in ("id", "digest", "at", "hint_used", "offset_min"):
            continue
        told = tampered(f"UPDATE review SET {column} = {changes[kind].format(column)} WHERE id = 3")
        assert told == ["Review 3 was changed after it was stored."], column
    for change in ("hint_used = 1", "offset_min = 0"):
        assert tampered(f"UPDATE review SET {change} WHERE id = 3") != []


def test_a_missing_review_is_told(tampered):
    told = tampered("DELETE FROM before", "UPDATE belief SET last_review = 12", "DELETE FROM review WHERE id = 4")
    assert told == ["Reviews 4 to 4 are missing."]


def test_a_missing_end_is_told(tampered):
    told = tampered("PRAGMA foreign_keys=OFF", "DELETE FROM review WHERE id > 9")
    assert any("points to a row of review" in sentence for sentence in told)


def test_a_missing_end_with_all_that_points_to_it_is_told(tampered):
    told = tampered(
        "DELETE FROM withdrawal",
        "DELETE FROM before",
        "DELETE FROM belief WHERE last_review > 9",
        "DELETE FROM review WHERE id > 9",
    )
    assert any("of the learner differs" in sentence for sentence in told)


def test_a_forged_digest_is_told_one_review_later(tampered):
    told = tampered("UPDATE review SET digest = zeroblob(32) WHERE id = 3")
    assert told == [f"Review {number} was changed after it was stored." for number in (3, 4)]


def test_a_changed_withdrawal_is_told(tampered):
    told = tampered("UPDATE withdrawal SET review_id = 6 WHERE id = 2")
    assert told[0] == "Withdrawal 2 or the review it takes back was changed after it was stored."
    assert any("'fix-0' differs" in sentence for sentence in told)


def test_a_removed_withdrawal_is_told(tampered):
    assert tampered("DELETE FROM withdrawal WHERE id = 2") != []


@pytest.mark.parametrize(
    "change",
    ["UPDATE belief SET state = x'00' WHERE item = 'fix-2'", "DELETE FROM belief WHERE item = 'fix-2'",
     "UPDATE belief SET last_review = 1 WHERE item = 'fix-2'"],
)  # fmt: skip
def test_a_changed_state_is_told_and_can_be_repaired(tampered, home, change):
    assert tampered(change) == ["What is stored of 'fix-2' differs from what its reviews lead to."]
    with Store.open(home, clock=invented.clock()) as store:
        store.repair(update)
        assert store.verify(update) == []


@pytest.mark.parametrize("change", ["UPDATE learner SET state = x'00'", "DELETE FROM learner"])
def test_a_changed_learner_is_told(tampered, change):
    assert tampered(change) == ["What is stored of the learner differs from what the reviews lead to."]


def test_a_made_up_state_is_told(tampered):
    assert tampered("INSERT INTO belief VALUES ('made-up', x'00', 3)") == [
        "What is stored of 'made-up' differs from what its reviews lead to."
    ]


def test_many_faults_are_counted(tampered):
    told = tampered("UPDATE review SET score = 0.25")
    assert len(told) == 6 and told[-1] == "So it is with 7 more reviews."


def test_the_check_goes_on_over_pieces(store, monkeypatch):
    monkeypatch.setattr(history, "PIECE", 4)
    fill(store, 18)
    assert store.verify(update) == [] and store.rebuild(update).states == standing(store)[0]


def test_a_check_sees_one_state_while_another_window_writes(home, store):
    fill(store, 3)

    def slow(states, learner, review):
        with Store.open(home, clock=invented.clock()) as other:
            fill(other, 1, start=50)
        return update(states, learner, review)

    assert store.verify(slow) == []
    assert store.count() == 6 and store.verify(update) == []


def test_what_is_quoted_of_a_damaged_row_cannot_steer_the_screen(tampered):
    """Found by fuzzing: text that is no UTF-8 is quoted by the library, control characters and all."""
    told = tampered("UPDATE review SET typed = CAST(x'ff0c1b5b324a' AS TEXT) WHERE id = 3")
    assert any("typed" in sentence for sentence in told)
    assert all(sentence.isprintable() for sentence in told)


def test_a_message_of_sqlite_that_is_no_text_is_damage(home, filled, monkeypatch):
    """Found by fuzzing: the integrity check quoted a damaged name, and Python failed to read the message."""
    from trainer.store import verify

    filled(3)

    def unreadable(read):
        b"row 4 missing from index \xa5".decode("utf-8")

    monkeypatch.setattr(verify, "_file", unreadable)
    with Store.open(home, clock=invented.clock()) as store:
        (told,) = store.verify(update)
    assert told.startswith("The file is damaged: 'utf-8' codec") and told.isprintable()


def test_a_page_that_leads_astray_is_damage_and_no_bug(home):
    """Found by fuzzing: reviews that are met one after another and not found by their number ended in a traceback."""
    path = home / "reviews.db"
    with Store.open(home, clock=invented.clock()) as store:
        for number in range(40):
            store.record(invented.review(number, drill_id=f"drill-{number}"), update)
    with closing(sqlite3.connect(path)) as connection:
        (root,) = connection.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'review'").fetchone()
    content = bytearray(path.read_bytes())
    page = 4096 * (root - 1)
    assert content[page] == 5, "an inner page: https://www.sqlite.org/fileformat.html, section 1.6"
    cell = page + int.from_bytes(content[page + 12 : page + 14], "big")
    assert content[cell + 4] > 9, "the highest number on the first leaf"
    content[cell + 4] -= 3
    path.write_bytes(content)
    with Store.open(home, clock=invented.clock()) as store:
        assert len(list(store.reviews())) == 40
        with pytest.raises(StorageError, match="is damaged.*data salvage"):
            store.repair(update)
        assert store.verify(update) != [] and len(store.states()) == 40


def test_a_damaged_page_is_told_in_sentences(home, filled):
    filled(60)
    content = bytearray((home / "reviews.db").read_bytes())
    page = content.index(b"Marshal gives you") // 4096 * 4096
    content[page : page + 4096] = b"\xa5" * 4096
    (home / "reviews.db").write_bytes(content)
    with Store.open(home, clock=invented.clock(), create=False) as store:
        told = store.verify(update)
    assert any(sentence.startswith("The file is damaged") for sentence in told)
    assert all(sentence.endswith(".") and "\n" not in sentence for sentence in told)
