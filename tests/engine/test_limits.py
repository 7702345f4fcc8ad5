"""The engine's functions refuse by themselves, not only through the table of quantities."""

import numpy as np
import pytest

from tests.authorities.published import inputs_of, rows
from trainer.engine.limits import within
from trainer.engine.quantities import (
    QUANTITIES,
    arcs,
    encounter,
    meeting,
    navigation,
    ranges,
    triangle,
    turns,
    wind,
    wind_course,
)
from trainer.errors import DomainError

MODULES = (arcs, encounter, meeting, navigation, ranges, triangle, turns, wind, wind_course)
NAMES = [quantity.name for module in MODULES for quantity in module.QUANTITIES]
SOUND = {row["quantity"]: inputs_of(row) for row in rows() if not row.get("refute") and not row.get("method")}


@pytest.mark.parametrize("name", NAMES)
def test_just_outside_the_range_is_refused_by_the_function(name):
    quantity, sound = QUANTITIES[name], SOUND[name]
    function = next(iter(quantity.methods.values()))
    function(**sound)
    for spec in quantity.inputs:
        if spec.words:
            continue  # a side is multiplied with, and checked by the table
        for outside in (np.nextafter(spec.low, -np.inf), np.nextafter(spec.high, np.inf)):
            with pytest.raises(DomainError):
                function(**{**sound, spec.name: outside})


def test_the_message_names_the_input_as_it_is_said():
    with pytest.raises(DomainError, match="ship speed is 61"):
        within(0, 60, ship_speed_kn=61)
