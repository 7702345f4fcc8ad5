"""The transcript of a whole rehearsal is the one that was read."""

from tests.golden import rehearsal


def test_the_transcript_reads_as_it_did(tmp_path):
    wanted = rehearsal.FILE.read_text(encoding="utf-8")
    assert rehearsal.transcript(tmp_path / "home") == wanted, "`python -m tests.golden.rehearsal` writes it anew"
