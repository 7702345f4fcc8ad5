"""What nobody foresaw: one line that names a file with the details, and exit code 1.  No other test may need it."""

import os
import tempfile

import pytest

from trainer import cli
from trainer.commands import data
from trainer.terminal import last_net


@pytest.fixture
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


@pytest.mark.parametrize("error", [KeyError("angels"), RecursionError(), MemoryError(), ZeroDivisionError("1 / 0")])
def test_the_unforeseen_ends_in_one_line_and_a_file(own_folder, monkeypatch, capsys, error):
    def fail(*_):
        raise error

    monkeypatch.setitem(data.ACTIONS, "where", fail)
    assert cli.main(["data", "where"]) == 1
    (line,) = capsys.readouterr().err.splitlines()
    (kept,) = own_folder.glob("trainer-fault-*")
    assert str(kept) in line and type(error).__name__ in line and "Traceback" not in line
    text = kept.read_text(encoding="utf-8")
    assert "Traceback" in text and "in fail" in text and "trainer " in text
    assert os.name == "nt" or os.stat(kept).st_mode & 0o777 == 0o600


def test_where_no_file_can_be_written_the_line_says_so(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "none"))
    assert last_net.caught(KeyError()) == 1
    assert (
        capsys.readouterr().err == "trainer: a mistake of this program (KeyError), and its details can't be written\n"
    )


def test_the_net_is_watched(_last_net_stays_unused):
    """Programs that tests start write there as well; the fixture fails the suite if one did."""
    assert os.environ["TMPDIR"] == tempfile.gettempdir() == str(_last_net_stays_unused)
    assert not list(_last_net_stays_unused.glob("trainer-fault-*"))
