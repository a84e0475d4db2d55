"""Everything that the bench says in words about one layout in one situation.

Rules of the file: the page has no model of its own; what it needs to name, to speak, to list or to offer is worked
out here from the same report and operating point that the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from app.catalogue.catalogue import Catalogue
from app.checks.check import LayoutReport
from app.circuit.operating_point import OperatingPoint
from app.job.model import Job
from app.web.wording.adding import kinds_to_add
from app.web.wording.cables import cable_words
from app.web.wording.calls import call_words, effect_rows, opened_sentence, runs_sentence, situation_words
from app.web.wording.conditions import condition_words
from app.web.wording.conductors import conductor_words
from app.web.wording.findings import count_words, finding_rows, to_wire, troubles_by_part
from app.web.wording.landed import landed_of
from app.web.wording.naming import Naming
from app.web.wording.parts import part_words
from app.web.wording.run_words import unit_of
from app.web.wording.systems import systems_to_start
from app.web.wording.waiting import idle_rows, waiting_sentence

LAYOUT_TITLES = {"as-found": "As found", "as-left": "As left"}
COLLECTIONS = ("parts", "cables", "conductors")


def words_of(
    job: Job, layout_name: str, catalogue: Catalogue, report: LayoutReport, point: OperatingPoint | None
) -> dict[str, Any]:
    """Return what the page says of a layout, as plain JSON values.

    ``point`` is the operating point that is shown, None where none was asked for. Keys: ``title``, ``layout``,
    ``layouts``, ``parts``, ``conductors`` and ``cables`` by id, ``length_unit``, ``lacks`` (collections that the
    document does not have yet, so that a patch adds them first), ``calls`` (controls), ``conditions`` (weather and
    mains), ``situation``, ``effects``, ``runs``, ``opened`` (fuses), ``findings`` (rows), ``to_wire``, ``counts`` and
    ``kinds`` and ``systems`` (what can be added).
    """
    naming = Naming(job.layouts[layout_name], catalogue, job.settings.units)
    rows = finding_rows(naming, report.told, job)
    effects = effect_rows(naming, point)
    idle = idle_rows(naming, point)
    return {
        "title": job.title,
        "layout": layout_name,
        "layouts": [
            {"id": name, "title": layout_title(job, name), "label": job.layouts[name].label}
            for name in in_time(job.layouts)
        ],
        "parts": part_words(naming, landed_of(naming), point, troubles_by_part(rows)),
        "conductors": conductor_words(naming, point, job.settings.units),
        "cables": cable_words(naming, job.settings.units),
        "length_unit": unit_of(job.settings.units),
        "lacks": [name for name in COLLECTIONS if name not in job.layouts[layout_name].model_fields_set],
        "calls": call_words(naming, point),
        "conditions": condition_words(naming, point),
        "situation": situation_words(point.situation if point else None, naming),
        "effects": effects,
        "runs": runs_sentence(naming, effects, point),
        "opened": opened_sentence(naming, point),
        "idle": idle,
        "waiting": waiting_sentence(idle),
        "findings": rows,
        "to_wire": to_wire(naming, rows),
        "counts": count_words(rows),
        "kinds": kinds_to_add(catalogue),
        "systems": systems_to_start(catalogue),
    }


def in_time(names: Iterable[str]) -> list[str]:
    """Return layouts with what was found before what was left, whichever was drawn first; any others behind."""
    known = list(LAYOUT_TITLES)
    return sorted(names, key=lambda name: known.index(name) if name in known else len(known))


def layout_title(job: Job, name: str) -> str:
    """Return how a layout is called on its switch."""
    return LAYOUT_TITLES.get(name) or job.layouts[name].label or name
