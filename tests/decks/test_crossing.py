"""What only several files together can have wrong, and the check of files and folders."""

import pytest

from tests.decks.samples import ALL, HEAD, QUANTITY, RECALL
from tests.decks.test_datafile import SHIP
from trainer.drills.check_deck import check, expand, is_data


@pytest.fixture
def folder(shipped):
    """Return a function that writes {path: text} into the shipped folder and checks it, paths cut off."""

    def write(files, **options):
        for name, text in files.items():
            path = shipped / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        faults = check([shipped], draws=options.pop("draws", 0), **options)
        return [str(fault).replace(f"{shipped}", "") for fault in faults]

    return write


def head(name):
    return HEAD.replace("sample", name)


def test_sound_files(folder):
    assert folder({"sample.toml": ALL, "ships/mine.toml": SHIP, "readme.txt": "x"}, draws=200) == []


def test_an_id_in_two_decks(folder):
    assert folder({"one.toml": head("one") + RECALL, "two.toml": head("two") + RECALL}) == [
        '/two.toml:12: drill "platform": the id stands in another deck too: /one.toml:11'
    ]


def test_prerequisites_over_decks(folder):
    other = RECALL.replace("platform", "push")
    waiting = RECALL.replace("limit", "").replace('source = "sop"', 'source = "sop"\nafter = ["push"]')
    assert folder({"one.toml": head("one") + waiting, "two.toml": head("two") + other}) == []
    unknown = waiting.replace('["push"]', '["push", "pash"]')
    assert folder({"one.toml": head("one") + unknown}) == [
        '/one.toml:16: drill "platform": "pash" is no drill; did you mean "push"?'
    ]


def test_a_circle_of_prerequisites(folder):
    def waits(name, before):
        return RECALL.replace("platform", name).replace('"sop"', f'"sop"\nafter = ["{before}"]')

    decks = {
        f"{name}.toml": head(name) + waits(f"drill-{name}", f"drill-{before}") for name, before in ("ab", "bc", "ca")
    }
    assert folder(decks) == [
        '/a.toml:16: drill "drill-a": the drills wait for each other: drill-a after drill-b after drill-c after drill-a'
    ]


def test_prerequisites_of_a_drill_with_other_faults_are_looked_at(folder):
    text = RECALL.replace("5000", "nan").replace('"sop"', '"sop"\nafter = ["nothing"]')
    assert [fault.split(": ")[-1] for fault in folder({"one.toml": head("one") + text})] == [
        "nan is not a finite number",
        '"nothing" is no drill',
    ]


def taking(reference):
    return head("one") + QUANTITY.replace("{ from = 6, to = 20, step = 1 }", f'"{reference}"')


@pytest.mark.parametrize(
    ("reference", "message"),
    [
        ("ship.angels", None),
        ("ship.angel", 'there is no value "ship.angel" in mine.toml; did you mean "ship.angels"?'),
        ("ship.trim", 'there is no value "ship.trim" in mine.toml'),
        ("airframe.angels", 'value "airframe.angels": there is no airframe file'),
        ("ship.height_ft", '"ship.height_ft" is in ft, "angels" is in angels'),
        ("ship.low_angels", '"ship.low_angels" is 3, outside the range of assigned altitude'),
    ],
)
def test_values_of_the_users_files(folder, reference, message):
    ship = SHIP.replace("[values]", "[values]\nangels = 12\nheight_ft = 9000\nlow_angels = 3")
    faults = folder({"one.toml": taking(reference), "ships/mine.toml": ship})
    if message is None:
        assert faults == []
    else:
        assert len(faults) == 1 and f'/one.toml:17: drill "fix-distance": {message}' in faults[0], faults


def test_a_table_that_a_formula_reads(folder):
    keep = 'source = "sop"\nkeep = [\'table("ship.trims", angels * 4000) > 2\']'
    text = head("one") + QUANTITY.replace('source = "sop"', keep)
    assert folder({"one.toml": text, "ships/mine.toml": SHIP}) == [
        '/one.toml:16: drill "fix-distance": there is no table "ship.trims" in mine.toml; did you mean "ship.trim"?'
    ]


def test_a_data_file_with_faults_does_not_make_every_drill_faulty(folder):
    faults = folder({"one.toml": taking("ship.angels"), "ships/mine.toml": SHIP.replace("= 9", "= nine")})
    assert len(faults) == 1 and "/ships/mine.toml:7: is not TOML" in faults[0]


def test_every_ship_must_have_what_the_drills_take(folder):
    whole, lacking = SHIP.replace("[values]", "[values]\nangels = 12"), SHIP.replace("mine", "zebra")
    faults = folder({"one.toml": taking("ship.angels"), "ships/mine.toml": whole, "ships/zebra.toml": lacking})
    assert faults == ['/ships/zebra.toml: the value "angels" is missing; drill "fix-distance" takes it']


def test_the_chosen_ship_counts(folder):
    files = {"one.toml": taking("ship.angels"), "ships/mine.toml": SHIP.replace("[values]", "[values]\nangels = 12")}
    files["ships/zebra.toml"] = SHIP.replace("mine", "zebra").replace("[values]", "[values]\nangels = 50")
    assert folder(files) == []
    assert "outside the range" in folder(files, ship="zebra")[0]


def test_faults_of_decks_that_were_not_asked_for_are_not_told(shipped, tmp_path):
    (shipped / "bad.toml").write_text(HEAD + RECALL, encoding="utf-8")
    path = tmp_path / "sample.toml"
    path.write_text(HEAD + RECALL.replace("platform", "other"), encoding="utf-8")
    assert check([path], draws=0) == []


def test_a_file_takes_the_place_of_the_shipped_one_of_its_name(shipped, tmp_path):
    (shipped / "sample.toml").write_text(HEAD + RECALL, encoding="utf-8")
    path = tmp_path / "sample.toml"
    path.write_text(HEAD + RECALL, encoding="utf-8")
    assert check([path], draws=0) == []


def test_paths_that_are_not_there(tmp_path):
    assert [str(fault) for fault in check([tmp_path / "none.toml"])] == [
        f"{tmp_path / 'none.toml'}: there is no such file or folder"
    ]


def test_a_file_named_twice_is_read_once(shipped):
    (shipped / "sample.toml").write_text(HEAD + RECALL, encoding="utf-8")
    assert len(expand([shipped, shipped / "sample.toml"])[0]) == 1
    assert check([shipped, shipped / "sample.toml"], draws=0) == []


def test_data_files_are_known_outside_their_folders(tmp_path):
    (tmp_path / "a.toml").write_text(SHIP, encoding="utf-8")
    (tmp_path / "b.toml").write_text(HEAD + RECALL, encoding="utf-8")
    assert is_data(tmp_path / "a.toml") and not is_data(tmp_path / "b.toml")
    assert not is_data(tmp_path / "none.toml")


def test_five_thousand_drills_in_all(folder):
    many = "".join(RECALL.replace("platform", f"drill-{i}") for i in range(2600))
    files = {"one.toml": head("one") + many, "two.toml": head("two") + many.replace("drill-", "other-")}
    assert folder(files) == ["/two.toml: there are 5,200 drills in all; at most 5,000 are read"]
