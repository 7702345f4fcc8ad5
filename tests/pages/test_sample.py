"""The sample in exports/ is what its command makes; the page and the README's picture show it.

After a change that is meant: `python -m tests.sample`, then read the differences as an instructor would.
"""

import json

from tests import sample
from trainer.pages import seal


def test_the_sample_is_what_its_command_makes(tmp_path):
    made = sample.make(tmp_path)
    differing = [
        path.name
        for path in made
        if path.read_text(encoding="utf-8") != (sample.EXPORTS / path.name).read_text(encoding="utf-8")
    ]
    assert differing == [], "run `python -m tests.sample` and read what changed"


def test_the_sample_is_sealed_invented_and_small():
    paths = [path for path in sample.EXPORTS.iterdir() if path.name.startswith("sample")]
    for path in paths:
        assert path.stat().st_size < 200_000
        if path.suffix != ".png":
            text = path.read_text(encoding="utf-8")
            assert seal.check(text) == seal.SOUND and "invented" in text and "not for real flight" in text
    assert {path.suffix for path in paths} == {".html", ".json", ".md", ".png"}


def test_the_sample_shows_every_part_of_a_report():
    record = json.loads((sample.EXPORTS / "sample.json").read_text(encoding="utf-8"))
    verdicts = {area["verdict"] for area in record["areas"]}
    assert len(verdicts) >= 2 and record["slow"] and record["calibration"] and len(record["weeks"]) == 6
    assert len(record["weakest"]) == 10 and all(drill["worked"] for drill in record["weakest"])
    assert sum(bool(drill["wrong"]) for drill in record["weakest"]) >= 7  # a flow that was given up has none
    assert len(record["deviations"]) >= 3
    assert len(record["brief"]) == 3 and record["chain"]["faults"] == 0
