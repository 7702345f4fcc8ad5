"""The table of quantities names what its modules hold, and loads no more of them than is asked for."""

import subprocess
import sys
from importlib import import_module
from pathlib import Path

from trainer.engine import quantities

FOLDER = Path(quantities.__file__).parent
LOADED = """
import sys
from trainer.engine.quantities import QUANTITIES
QUANTITIES["climb_point_time"], "push_time" in QUANTITIES, len(QUANTITIES)
print(*(name for name in sys.modules if name.startswith("trainer.engine.quantities.")))
"""


def test_each_module_holds_what_is_named_in_its_order():
    held = {name: import_module(f"trainer.engine.quantities.{name}") for name in quantities.NAMES}
    for name, module in held.items():
        assert quantities.NAMES[name].split() == [quantity.name for quantity in module.QUANTITIES], name
    assert list(quantities.QUANTITIES) == [one.name for one in quantities.QUANTITIES.values()]


def test_no_module_with_quantities_is_left_out():
    having = {file.stem for file in FOLDER.glob("[a-z]*.py") if "\nQUANTITIES = " in file.read_text(encoding="utf-8")}
    assert having == {*quantities.NAMES}


def test_only_the_module_of_what_is_asked_for_is_loaded():
    done = subprocess.run([sys.executable, "-c", LOADED], capture_output=True, text=True, check=True)
    loaded = {name.rpartition(".")[2] for name in done.stdout.split()}
    assert loaded & {*quantities.NAMES} == {"departure"}
