"""What is weak goes back to the pilot as a stage file that the trainer reads."""

from trainer.decks import stages
from trainer.practice.evidence import task


def report(*weak, flows=(), slow=(), slips=()):
    return {
        "areas": [{"flows": [{"id": name, "right": right} for name, right in flows]}],
        "weakest": [{"id": name} for name in weak],
        "slow": [{"id": name} for name in slow],
        "slips": [{"drills": [name]} for name in slips],
    }


def test_flows_that_are_not_whole_come_first_and_each_drill_once():
    found = task.weak_ids(report("a", "b", flows=[("f", False), ("g", True)], slow=["s", "a"], slips=["b", "c"]))
    assert found == ["f", "a", "b", "c", "s"]


def test_what_one_pilot_alone_is_weak_in_is_no_matter_of_the_squadron():
    found = task.shared_ids([report("a", "b"), report("b", "c"), report("c", "b")])
    assert found == ["b", "c"]


def test_the_file_is_a_stage_whatever_the_title_says(tmp_path):
    path = tmp_path / "week-12.toml"
    path.write_text(
        task.stage_text("week-12", ["a", "b"], title='Task of 2031: "weak" \\ \x1b[2J\nlines', standard="day-board"),
        encoding="utf-8",
    )
    stage, faults = stages.read(path, drills={"a": None, "b": None})
    assert not faults
    assert (stage.core, stage.standard) == (("a", "b"), "day-board") and '"weak" \\' in stage.title
