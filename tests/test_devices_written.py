"""A device or a pipe is written to; no file ever takes its place."""

import os
import stat
import threading

import pytest

from trainer.errors import StorageError
from trainer.files import write_whole


@pytest.mark.skipif(os.name != "posix", reason="pipes with names are POSIX's")
def test_a_pipe_is_written_to_and_stays_a_pipe(tmp_path):
    """With the rights of the system's owner a device was once in danger of being replaced by a file."""
    pipe, read = tmp_path / "pipe", []
    os.mkfifo(pipe)
    reader = threading.Thread(target=lambda: read.append(pipe.read_bytes()))
    reader.start()
    write_whole(pipe, "through the pipe")
    reader.join(10)
    assert read == [b"through the pipe"] and stat.S_ISFIFO(pipe.stat().st_mode)
    assert list(tmp_path.iterdir()) == [pipe]


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device of Linux")
def test_a_full_device_is_told(tmp_path):
    link = tmp_path / "full"
    link.symlink_to("/dev/full")
    with pytest.raises(StorageError, match="No space left"):
        write_whole(link, "x")
    assert link.is_symlink()
