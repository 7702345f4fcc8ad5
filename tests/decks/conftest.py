"""Decks below tmp_path, and a shipped library that holds nothing but what a test puts there."""

import pytest

from trainer import paths
from trainer.decks.deckfile import read_file


@pytest.fixture
def shipped(tmp_path, monkeypatch):
    """Return the folder of shipped decks, empty."""
    folder = tmp_path / "shipped"
    folder.mkdir()
    monkeypatch.setattr(paths, "shipped_decks", lambda: folder)
    return folder


@pytest.fixture
def deck(tmp_path):
    """Return a function that writes a deck and reads it."""

    def write(text, name="sample"):
        path = tmp_path / f"{name}.toml"
        path.write_text(text, encoding="utf-8", newline="\n")
        return read_file(path)

    return write


@pytest.fixture
def told(deck):
    """Return a function that writes a deck and returns its faults as "line: drill: message"."""

    def faults(text, name="sample"):
        return [f"{fault.line}: {fault.drill}: {fault.message}" for fault in deck(text, name).faults]

    return faults
