"""Every template passes the check as it is written."""

import tomllib

import pytest

from trainer import paths
from trainer.decks import library, templates
from trainer.drills.check_deck import check
from trainer.errors import StorageError, UsageError

FOLDERS = {"airframe": "airframes", "ship": "ships", "stage": "stages", "standard": "standards", "said": "said"}
NAMES = {"air-wing": "airwing", "said": "bingo"}


@pytest.mark.parametrize("kind", templates.KINDS)
@pytest.mark.parametrize("in_place", [True, False])
def test_a_template_passes_the_check(kind, in_place, tmp_path):
    folder = tmp_path / FOLDERS.get(kind, "decks") if in_place else tmp_path
    folder.mkdir(exist_ok=True)
    name = NAMES.get(kind, "my-own")
    path = templates.write(kind, folder / name, library.load().drills)
    assert path == folder / f"{name}.toml"
    assert check([path], draws=1000) == []
    text = path.read_text(encoding="utf-8")
    assert templates.NAME not in text
    assert sum(line.startswith("#") or " # " in line for line in text.split("\n")) > 8
    assert max(map(len, text.split("\n"))) <= 120


def test_an_air_wing_template_has_all_that_the_shipped_one_has(tmp_path):
    template = tomllib.loads(templates.filled("air-wing", "airwing"))
    shipped = tomllib.loads((paths.shipped_decks() / "airwing.toml").read_text(encoding="utf-8"))
    assert template["values"].keys() == shipped["values"].keys()
    with pytest.raises(UsageError, match=r"is called airwing\.toml"):
        templates.write("air-wing", tmp_path / "ours")


def test_how_a_flow_is_said_is_called_after_the_flow_and_holds_its_steps(tmp_path):
    drills = library.load().drills
    path = templates.write("said", tmp_path / "suspend-by-pilot.toml", drills)
    steps = tomllib.loads(path.read_text(encoding="utf-8"))
    assert list(steps) == [step.id for step in drills["suspend-by-pilot"].steps]
    with pytest.raises(UsageError, match="there is no flow 'suspend'"):
        templates.write("said", tmp_path / "suspend.toml", drills)


@pytest.mark.parametrize("kind", ["airframe", "ship"])
def test_a_template_has_all_that_the_shipped_one_has(kind):
    template = tomllib.loads(templates.filled(kind, "my-own"))
    for path in (paths.shipped_decks() / FOLDERS[kind]).glob("*.toml"):
        shipped = tomllib.loads(path.read_text(encoding="utf-8"))
        assert list(template["values"]) == list(shipped["values"])
        assert set(template.get("table", ())) == set(shipped.get("table", ()))


def test_nothing_is_written_over(tmp_path):
    path = templates.write("flow", tmp_path / "mine.toml")
    path.write_text("dear to me", encoding="utf-8")
    with pytest.raises(UsageError, match="is there already"):
        templates.write("flow", path)
    assert path.read_text(encoding="utf-8") == "dear to me"


@pytest.mark.parametrize(
    ("name", "good"),
    [
        ("Start Up.toml", "start-up.toml"),
        ("x", "x.toml"),
        ("7up", "up.toml"),
        ('a"b', "a-b.toml"),
        ("日本", "start-up.toml"),
    ],
)
def test_a_name_that_a_deck_can_not_have(tmp_path, name, good):
    with pytest.raises(UsageError) as caught:
        templates.write("flow", tmp_path / name)
    assert str(caught.value).isprintable()
    assert caught.value.hint == f"for example {good}"
    assert list(tmp_path.iterdir()) == []


def test_a_kind_that_does_not_exist(tmp_path):
    with pytest.raises(UsageError, match='did you mean "flow"'):
        templates.write("flows", tmp_path / "mine.toml")


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(StorageError, match="can't be written"):
        templates.write("flow", tmp_path / "none" / "mine.toml")
