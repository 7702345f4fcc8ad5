"""The chain as an export quotes it, and what it shows of a changed past."""

import sqlite3

import pytest

from tests.store import invented
from tests.store.invented import update
from trainer.store.store import Store


@pytest.fixture
def tamper(home):
    """Return a function that changes the file behind the store's back: the triggers are taken off first."""

    def change(statement):
        connection = sqlite3.connect(home / "reviews.db", isolation_level=None)
        triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            connection.execute(f"DROP TRIGGER {name}")
        connection.execute("PRAGMA foreign_keys = OFF")
        connection.execute(statement)
        for _, sql in triggers:
            connection.execute(sql)
        connection.close()

    return change


def test_the_chain_tells_its_length_and_its_ends(store):
    done = invented.fill(store, 6)
    store.withdraw(done[-1].id, update)
    chain = store.chain([2, 5, 99])
    digests = dict(store.table(("id", "digest")))
    assert (chain.reviews, chain.withdrawn) == (6, 1)
    assert chain.first == digests[1].hex() and chain.links == {2: digests[2].hex(), 5: digests[5].hex()}
    assert len(chain.head) == len(chain.withdrawals) == 64 and chain.head != chain.first
    assert store.chain_faults(100) == []


def test_an_empty_store_has_an_empty_chain(store):
    chain = store.chain([1])
    assert (chain.reviews, chain.first, chain.head, chain.withdrawals, chain.links) == (0, "", "", "", {})
    assert store.chain_faults(100) == []


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("UPDATE review SET typed = '28 nm' WHERE id = 4", ["Review 4 was changed after it was stored."]),
        (
            "UPDATE review SET at = '2026-12-01T00:00:00.000Z' WHERE id = 1",
            ["Review 1 was changed after it was stored."],
        ),
        ("DELETE FROM review WHERE id = 3", ["Reviews 3 to 3 are missing."]),
    ],
)
def test_a_change_behind_its_back_is_told(filled, tamper, statement, told):
    home = filled(6)
    tamper(statement)
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert store.chain_faults(100)[:1] == told


def test_only_the_newest_are_compared_on_request(filled, tamper):
    home = filled(6)
    tamper("UPDATE review SET typed = '28 nm' WHERE id = 2")
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert len(store.chain_faults(6)) == 1
        assert len(store.chain_faults(5)) == 1
        assert store.chain_faults(4) == []
