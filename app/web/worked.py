"""A job with what was worked out of it, and a shelf of the last few.

Rules of the file: a job is immutable, so what was worked out of it never gets old; it is kept by job and revision and
thrown away when newer ones need the room. The shelf is small, because one entry of a large job holds its network and
operating points; it only saves the work of the GETs that follow a PATCH.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cached_property
from threading import Lock
from typing import Any

from app.catalogue.opening import Opened
from app.checks.check import LayoutReport, check_layout
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situation_text import check_situation, parse_situation
from app.circuit.solve import solve
from app.job.layout_choice import layout_meant
from app.sequence.change_text import read_changes
from app.sequence.run import Run, run_sequence
from app.web.picture import Picture
from app.web.query import SituationQuery

SHELF_PLACES = 8
RUNS_KEPT = 4
PLACES: Mapping[str, Any] = {"layouts": {"__all__": {"parts": {"__all__": {"at"}}}}}
"""What no check looks at: where the parts stand on the sheet."""


class Worked:
    """One job, opened. ``dated`` is the date for the title block of its drawings, empty where there is none.

    Two requests may work the same thing out at the same time; both get the same answer and one of them is kept.
    """

    def __init__(self, opened: Opened, dated: str = "") -> None:
        self.job = opened.job
        self.catalogue = opened.catalogue
        self.dated = dated
        self._reports: dict[str, LayoutReport] = {}
        self._circuits: dict[str, Circuit] = {}
        self._runs: OrderedDict[tuple[object, ...], Run] = OrderedDict()
        self._drawing: tuple[object, str] | None = None

    def layout_meant(self, name: str | None) -> str:
        """Return the layout that is meant by ``name``, see ``app.job.layout_choice``."""
        return layout_meant(self.job, name)

    def report(self, layout: str) -> LayoutReport:
        """Return what the checks say of a layout."""
        if layout not in self._reports:
            report = check_layout(self.job, layout, self.catalogue)
            self._reports[layout] = report
            self._circuits[layout] = report.circuit
        return self._reports[layout]

    def take_over(self, before: Worked) -> None:
        """Take what the checks said of another revision, where nothing differs but where parts stand on the sheet."""
        if before.catalogue != self.catalogue or before._but_places != self._but_places:
            return
        for layout, report in before._reports.items():
            circuit = replace(report.circuit, layout=self.job.layouts[layout])
            self._reports[layout] = replace(report, circuit=circuit)
            self._circuits[layout] = circuit

    @cached_property
    def _but_places(self) -> str:
        """The whole job but for where parts stand, as text: 1 and true are equal to Python, but not to a kind."""
        return self.job.model_dump_json(exclude=PLACES)

    def circuit(self, layout: str) -> Circuit:
        """Return the circuit of a layout."""
        if layout not in self._circuits:
            settings = self.job.settings
            self._circuits[layout] = build_circuit(self.job.layouts[layout], self.catalogue, settings.frequency_hz)
        return self._circuits[layout]

    def point(self, layout: str, situation: Situation) -> OperatingPoint:
        """Return what the circuit of a layout does in a situation."""
        return solve(self.circuit(layout), situation)

    def run(self, layout: str, picture: Picture, situation: Situation) -> Run:
        """Return what happens one thing after another, as a picture asks for it; the last few are kept.

        Raises:
            Refused: the changes cannot be read, or do not fit the layout.
        """
        key = (layout, tuple(picture.changes), picture.for_s, picture.from_rest, situation.model_dump_json())
        found = self._runs.get(key)
        if found is None:
            found = self._runs[key] = self._run(layout, picture, situation)
            while len(self._runs) > RUNS_KEPT:
                self._runs.popitem(last=False)
        return found

    def _run(self, layout: str, picture: Picture, situation: Situation) -> Run:
        circuit = self.circuit(layout)
        asked: list[str] = []
        if picture.from_rest:
            asked = [f"0:{part}={'+'.join(calls)}" for part, calls in situation.calls.items() if calls]
            situation = situation.model_copy(update={"calls": {}})
        changes = read_changes([*asked, *picture.changes], circuit.layout, self.catalogue, situation)
        return run_sequence(circuit, changes, picture.for_s, situation)

    def drawing(self, shows: object, draw: Callable[[], str]) -> str:
        """Return the drawing that ``draw`` makes, or the last one where that shows the same.

        ``shows`` is all that a drawing of this job depends on, compared by ``==``.
        """
        kept = self._drawing
        if kept is None or kept[0] != shows:
            kept = self._drawing = (shows, draw())
        return kept[1]

    def situation(self, layout: str, query: SituationQuery) -> Situation:
        """Return the situation that a query asks for.

        Raises:
            Refused: it cannot be read, or names what the layout does not have.
        """
        situation = parse_situation(query.call, query.set, query.supply, query.outdoor, query.fault, query.mains)
        self.check_situation(layout, situation)
        return situation

    def check_situation(self, layout: str, situation: Situation) -> None:
        """Refuse a situation that names what the layout does not have."""
        check_situation(situation, self.job.layouts[layout], self.catalogue)


class Shelf:
    """The jobs that were last worked on, by job id and revision; safe to use from several threads."""

    def __init__(self, places: int = SHELF_PLACES) -> None:
        self._places = places
        self._kept: OrderedDict[tuple[str, int], Worked] = OrderedDict()
        self._lock = Lock()

    def find(self, job_id: str, revision: int) -> Worked | None:
        """Return what is kept of a revision, None where nothing is."""
        with self._lock:
            worked = self._kept.get((job_id, revision))
            if worked is not None:
                self._kept.move_to_end((job_id, revision))
            return worked

    def keep(self, job_id: str, revision: int, worked: Worked) -> None:
        """Keep what was worked out of a revision; older revisions of the same job make room first."""
        with self._lock:
            for older in [key for key in self._kept if key[0] == job_id and key[1] < revision - 1]:
                del self._kept[older]
            self._kept[job_id, revision] = worked
            self._kept.move_to_end((job_id, revision))
            while len(self._kept) > self._places:
                self._kept.popitem(last=False)

    def __len__(self) -> int:
        return len(self._kept)
