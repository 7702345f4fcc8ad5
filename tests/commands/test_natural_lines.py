"""Calculations as people say them: the number at once, or a question – never a wrong number without a word."""

import pytest

from trainer import cli


@pytest.fixture
def compute(home, capsys):
    """Return a function that types one line after ``compute`` and returns (exit code, what was printed)."""

    def run(line):
        code = cli.main(["--home", str(home), "--plain", "compute", *line.split()])
        out, err = capsys.readouterr()
        return code, out + err

    return run


# What is said, and the first line that answers it.  The numbers stand in the checks of the engine; the airframe's
# (trim, bingo, gross weight) follow from its table.
AT_ONCE = [
    ("trim 33500", "take-off trim: 23.5° nose up"),
    ("trim --gross-weight 33500 --method exact", "take-off trim: 23.5° nose up"),
    ("takeoff trim 30000 lb", "take-off trim: 22° nose up"),
    ("bingo 90", "bingo fuel: 2,200 lb"),
    ("bingo 90 nm", "bingo fuel: 2,200 lb"),
    ("gross weight 9000 2600", "gross weight: 34,600 lb"),
    ("gross_weight --fuel 9.0 --stores 2.6", "gross weight: 34,600 lb"),
    ("wind over deck --wind 330/20 --brc 330 --ship-speed 20", "wind over deck: 40 kt"),
    ("clearing turn --catapult 3 --brc 217", "heading in the clearing turn: 197°"),
    ("clearing turn 217 cat 1", "heading in the clearing turn: 237°"),
    ("clearing turn 217 bow", "heading in the clearing turn: 237°"),
    ("case --ceiling 2000 --visibility 6", "Case: Case II"),
    ("case from weather 800 6", "Case: Case III"),
    ("final bearing 217", "final bearing: 208°"),
    ("final bearing 217 11", "final bearing: 206°"),
    ("marshal radial 340", "marshal radial: 160°"),
    ("push time 48 3", "push time: :50"),
    ("time to lose --now :22:00 --push 35", "time to lose: 13:00"),
    ("arc_time --arc 30 --dme 10 --gs 250", "length: 5.2 nm"),
    ("lead_radials --method rule --gs 300 --direction outbound", "lead: 18 radials"),
    ("sink rate 118", "sink rate: 730 ft/min"),
    ("downwind 140", "downwind heading: 320°"),
    ("runway wind 270 --wind 300/20", "crosswind, from the right positive: 10 kt"),
    ("ft to m 300", "height: 91 m"),
    ("kn to mph 100", "speed: 115 mph"),
    ("true airspeed 250 15000 -15", "true airspeed: 311 kt"),
    ("closure 130 25", "closure: 105 kt"),
    ("distance covered 300 2", "distance: 10 nm"),
    ("time to go 20 300", "time: 4 min"),
    ("marshal fix distance 12", "marshal fix: 27 nm"),
    ("pressure altitude 100 --altimeter 1013hPa", "pressure altitude: 107 ft"),
    ("on speed 25000", "on-speed: 118 kt"),
]
ASKED = [
    ("wind over deck --wind 330/20", "needs --ship-course-deg"),
    ("fuel_burn --flow 3.0 --time 20", "write 3000"),
    ("pressure_altitude --elevation 10.000 --altimeter 29.92", "write 10000 or 10"),
    ("pressure_altitude --elevation 100 --altimeter 1019", "write 1019 hPa"),
    ("time to lose --now 22:00 --push 35", "write :22:00 or :00"),
    ("distance_covered --time 1:45 --groundspeed 300", "write 1+45 or 1 min 45 s"),
    ("trim 12", "12"),
    ("trim plenty", "plenty"),
    ("runway wind 27 --wind 300/20", "write 270 or 027"),
]


@pytest.mark.parametrize(("line", "answer"), AT_ONCE, ids=[line for line, _ in AT_ONCE])
def test_the_number_comes_at_once(compute, line, answer):
    code, printed = compute(line)
    assert code == 0 and printed.startswith(answer), printed


@pytest.mark.parametrize(("line", "says"), ASKED, ids=[line for line, _ in ASKED])
def test_what_is_not_clear_is_asked(compute, line, says):
    code, printed = compute(line)
    assert code != 0 and says in printed and len(printed.splitlines()) == 1


def test_what_was_read_is_told(compute):
    _, printed = compute("distance_covered --time 105s --groundspeed 300")
    assert "for: groundspeed 300 kt, time 1.8 min" in printed


def test_what_fits_as_well_is_told(compute):
    assert "fits as well: takeoff_trim_interpolated" in compute("trim 33500")[1]
