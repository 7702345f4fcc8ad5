"""The seal: any change is seen, a mail program's line ends are not one, and nobody can smuggle a seal in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pages.hostile import filled
from trainer.pages import report_json, report_markdown, report_page, seal
from trainer.pages.tidy import tidy


def test_every_file_is_sealed_and_sound(files):
    assert {name: seal.check(text) for name, text in files.items()} == dict.fromkeys(files, seal.SOUND)
    assert len(files) == 6


@pytest.mark.parametrize("name", ("html", "json", "md", "areas.csv", "reviews.csv", "xapi.json"))
def test_a_changed_digit_is_seen(files, name):
    text = files[name]
    place = next(at for at in range(len(text) // 2, len(text)) if text[at].isdigit())
    changed = text[:place] + str((int(text[place]) + 1) % 10) + text[place + 1 :]
    assert seal.check(changed) == seal.CHANGED


def test_other_line_ends_and_a_mark_at_the_start_are_no_change(files):
    assert seal.check("\ufeff" + files["json"].replace("\n", "\r\n")) == seal.SOUND


def test_a_file_without_a_seal_is_told_apart():
    assert seal.check("{}") == seal.UNSEALED
    with pytest.raises(ValueError, match="no open seal"):
        seal.close("{}")


@given(st.text())
def test_whatever_is_sealed_is_sound_and_one_more_letter_is_not(text):
    sealed = seal.close(text.replace("trainer-seal:", "") + seal.OPEN)
    assert seal.check(sealed) == seal.SOUND
    assert seal.check(sealed + "x") == seal.CHANGED


@pytest.mark.parametrize("write", (report_page.html, report_json.write, report_markdown.write))
def test_a_seal_that_was_typed_as_an_answer_stays_a_text(record, write):
    hostile = tidy(filled(record, "trainer-seal:" + "a" * 64))
    assert seal.check(seal.close(write(hostile))) == seal.SOUND
