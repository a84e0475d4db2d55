"""The core runs, and answers the same, in an interpreter where numpy, flask and sqlalchemy cannot be imported."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from app.catalogue.opening import open_job
from app.circuit.answers import solution_document
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from tests.circuit.bench import DEMO_JOBS

SCRIPT = """
import sys

class Absent:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {"numpy", "scipy", "flask", "werkzeug", "sqlalchemy", "alembic", "waitress"}:
            raise ImportError(f"{name} is not to be had here")

sys.meta_path.insert(0, Absent())
import json
from app.catalogue.opening import open_job
from app.circuit.answers import solution_document
from app.circuit.fault_points import best_table, fault_points
from app.circuit.network import build_circuit
from app.circuit.pure import solve_each
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.settling import FEWEST_FOR_ARRAYS, best_solver
from app.circuit.solve import solve_all

assert best_solver() is solve_each
with open(sys.argv[1], "rb") as file:
    opened = open_job(file.read())
for name, layout in sorted(opened.job.layouts.items()):
    points = solve_all(build_circuit(layout, opened.catalogue), situations_of(layout, opened.catalogue))
    print(json.dumps([solution_document(point) for point in points]))
layout = opened.job.layouts[opened.job.default_layout()]
many = [
    Situation(calls=asked.calls, faults=[{"is": "conductor-open", "at": f"conductor:{conductor}"}])
    for conductor in layout.conductors
    for asked in situations_of(layout, opened.catalogue)
]
assert len(many) >= 2 * FEWEST_FOR_ARRAYS
assert len(solve_all(build_circuit(layout, opened.catalogue), many)) == len(many)
bases, faults = [Situation()], [each.faults for each in many]
table = fault_points(build_circuit(layout, opened.catalogue), bases, faults)
assert best_table() is None
assert table.count == len(faults)
assert table.effects(0, 0) == table.point(0, 0).effects
assert not {"numpy", "flask", "sqlalchemy"} & set(sys.modules)
"""


@pytest.mark.parametrize("job", ["post-office-dual-fuel", "bakery-flat-heat-pump"])
def test_same_answers_without_numpy(job: str) -> None:
    path = DEMO_JOBS / f"{job}.json"
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", SCRIPT, str(path)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    opened = open_job(path.read_bytes())
    for (_, layout), line in zip(sorted(opened.job.layouts.items()), done.stdout.splitlines(), strict=True):
        points = solve_all(build_circuit(layout, opened.catalogue), situations_of(layout, opened.catalogue))
        for point, there in zip(points, json.loads(line), strict=True):
            here = solution_document(point)
            assert here["effects"] == there["effects"]
            for terminal, state in here["terminals"].items():
                again = there["terminals"][terminal]
                assert state.keys() == again.keys()
                assert state.get("volts", 0) == pytest.approx(again.get("volts", 0), abs=26.4e-9)
