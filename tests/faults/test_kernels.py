"""The same evening on another processor: what is asked, stored and chained does not depend on numpy's kernels.

numpy and OpenBLAS choose among kernels by what the processor can do, and these differ in the last bits of a result.
A plain processor is made here by switching the others off (numpy: ``NPY_DISABLE_CPU_FEATURES``; OpenBLAS:
``OPENBLAS_CORETYPE``).
"""

import json
import sqlite3
import subprocess
import sys
from contextlib import closing

import pytest

from tests.faults.driving import run
from trainer import paths

NOW = "2030-03-01T20:00:00+00:00"
LATER = "2030-03-04T20:00:00+00:00"
FEATURES = """
import json
from numpy._core._multiarray_umath import __cpu_baseline__, __cpu_dispatch__, __cpu_features__
print(json.dumps([name for name in __cpu_dispatch__ if __cpu_features__.get(name) and name not in __cpu_baseline__]))
"""


def switched_on():
    """Return the names of the kernels beyond the plainest that numpy would use here."""
    done = subprocess.run([sys.executable, "-c", FEATURES], capture_output=True, text=True)
    return json.loads(done.stdout) if done.returncode == 0 else []


def evening(home, **environ):
    """Return what two evenings and an outlook say and leave behind in ``home``."""
    said = []
    for now, seed in ((NOW, "7"), (LATER, "8")):
        words = ("practice", "--questions", "8", "--seed", seed)
        done = run(*words, home=home, typed="1\ns\n" * 40, TRAINER_NOW=now, **environ)
        assert done.returncode == 0, done.stderr
        said.append(done.stdout)
    outlook = run("outlook", "--json", home=home, TRAINER_NOW=LATER, **environ)
    assert outlook.returncode == 0, outlook.stderr
    with closing(sqlite3.connect(paths.database(home))) as connection:
        rows = connection.execute("SELECT drill_id, predicted, digest FROM review ORDER BY id").fetchall()
    return said, outlook.stdout, rows


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    """Return the evening as it is with all that this processor can do."""
    return evening(tmp_path_factory.mktemp("kernels") / "here")


def test_numpy_without_its_vector_kernels_gives_the_same_evening(here, tmp_path):
    names = switched_on()
    if not names:
        pytest.skip("numpy has no kernels to switch off on this processor")
    plain = evening(tmp_path / "plain", NPY_DISABLE_CPU_FEATURES=" ".join(names))
    assert plain[2] == here[2]
    assert plain[:2] == here[:2]


def test_another_core_type_of_openblas_gives_the_same_evening(here, tmp_path):
    assert evening(tmp_path / "other", OPENBLAS_CORETYPE="Nehalem") == here


def test_another_order_of_sets_gives_the_same_evening(here, tmp_path):
    assert [evening(tmp_path / seed, PYTHONHASHSEED=seed) for seed in ("1", "2")] == [here, here]


def test_the_evening_would_differ_if_what_is_forecast_differed_in_the_sixth_place(here):
    _, _, rows = here
    predicted = [one[1] for one in rows]
    assert len(rows) == 16 and len(set(predicted)) > 3
    assert all(value == round(value, 6) for value in predicted)
