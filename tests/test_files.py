"""A file is written whole or not at all, and never through a link that somebody planted."""

import os

import pytest

from trainer.errors import StorageError
from trainer.files import write_whole


def test_the_file_is_written_and_nothing_is_left_beside_it(tmp_path):
    path = tmp_path / "new" / "page.html"
    assert write_whole(path, "é\n") == path
    assert path.read_bytes() == "é\n".encode() and [one.name for one in path.parent.iterdir()] == ["page.html"]


def test_a_failure_leaves_what_was_there(tmp_path, monkeypatch):
    path = tmp_path / "page.html"
    write_whole(path, b"old")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(StorageError, match="No space left"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old" and len(list(tmp_path.iterdir())) == 1


def test_a_planted_link_leads_nowhere(tmp_path):
    elsewhere = tmp_path / "elsewhere.txt"
    elsewhere.write_text("precious", encoding="utf-8")
    try:
        (tmp_path / ".page.html.part").symlink_to(elsewhere)
    except OSError:
        pytest.skip("no links here")
    write_whole(tmp_path / "page.html", "page")
    assert elsewhere.read_text(encoding="utf-8") == "precious"


def test_a_folder_in_the_way_is_one_sentence(tmp_path):
    with pytest.raises(StorageError, match="can't be written"):
        write_whole(tmp_path, "text")
