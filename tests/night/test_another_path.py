"""Every number of card and sortie agrees with what another path makes of the same evening.

The bench (`python -m tests.bench.scenarios`) does this for 10,000 evenings of each Case.
"""

from dataclasses import replace

import pytest

from tests.night import recomputed
from trainer.practice.night.evening.draw import draw
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.numbers import NUMBERS

EVENINGS = 6  # of each Case, as briefed and after everything that goes wrong


def disagreements(night, library):
    """Return {name: (number, by another path)} where they differ by more than is allowed."""
    scenario, found = night.scenario, {}
    apart = recomputed.of(scenario, library)
    for name, (value, allowed) in apart.items():
        off = abs(night[name] - value)
        if min(off, abs(off - 360) if "course" in name or "bearing" in name else off) > allowed:
            found[name] = (night[name], value)
    if scenario.case != 1:
        found |= {f"{name}, flown": off for name, off in recomputed.flown(night, library.values)}
    return found


@pytest.mark.parametrize("case", [1, 2, 3])
def test_every_number_agrees_with_another_path(library, case):
    for number in range(EVENINGS):
        scenario = draw(f"path {number}", library, case=case)
        for stage in dict.fromkeys((scenario, scenario.stages()[-1])):
            assert disagreements(Night(stage, library), library) == {}, (number, stage)


@pytest.mark.parametrize("case", [1, 2, 3])
def test_no_number_is_left_out(library, case):
    scenario = draw("path 1", library, case=case)
    wanted = {name for name, number in NUMBERS.items() if case in number.cases}
    assert set(recomputed.of(scenario, library)) >= wanted


@pytest.mark.parametrize(
    ("name", "broken"),
    [
        ("gross_weight", lambda night: {"fuel_lb": night.scenario.load.fuel_lb}),
        ("platform", lambda night: {"groundspeed_kn": 250.0}),
        ("climb_time", lambda night: {"groundspeed_kn": 300.0}),
        ("level_off", lambda night: {"groundspeed_kn": night["gate_closing"] + night.scenario.ship.speed_kn}),
        ("leg_out", lambda night: {"headwind_inbound_kn": 0.0}),
        ("divert_time", lambda night: {"groundspeed_kn": 360.0}),
    ],
)
def test_a_number_that_is_not_for_its_moment_is_found(library, monkeypatch, name, broken):
    """Taxi fuel left in, indicated speed taken for ground speed, the ship's way or the wind left out."""
    evenings = (draw(f"path {number}", library, case=3) for number in range(30))
    scenario = next(one for one in evenings if one.weather.wind_speed_kn >= 15)  # a wind that makes a difference
    give = NUMBERS[name].give
    monkeypatch.setitem(
        NUMBERS, name, replace(NUMBERS[name], give=lambda night: {**give(night), **broken(night)})
    )  # fmt: skip
    assert name in disagreements(Night(scenario, library), library)
