"""What the tests of the demo jobs share: where they lie, how one is opened, which are sound."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from app.catalogue.opening import Opened, open_job
from app.checks.check import LayoutReport, check_layout

FOLDER = Path(__file__).resolve().parents[2] / "demo_jobs"
NAMES = sorted(path.stem for path in FOLDER.glob("*.json"))

BUILT_IN: dict[str, tuple[str, str, str]] = {
    "tannery-cold-in-winter": ("warning", "reversing-valve-inverted", "part:tc"),
    "counting-house-joined-supplies": ("danger", "sources-joined", "element:tc.supply_jumper"),
    "signal-house-fifth-wire": ("danger", "hot-to-common-short", "conductor:w7"),
    "smokehouse-no-way-back": ("warning", "common-path-missing", "terminal:ou.C"),
    "salt-store-float-gone-around": ("danger", "safety-bypassed", "conductor:w10"),
    "weigh-house-wire-left-on": ("danger", "temporary-jumper-fitted", "conductor:w9"),
    "dye-works-wrong-tap": ("warning", "primary-tap-wrong", "part:xf"),
    "print-shop-heat-for-water": ("danger", "power-through-loads", "terminal:hu.C"),
}
"""The one mistake that each faulty demo has: severity, rule, and a subject that a technician would point at."""

SOUND = [name for name in NAMES if name not in BUILT_IN]
SCHOOL_ROW = "school-row-hundred-parts"


def text_of(name: str) -> bytes:
    """Return the bytes of a demo job."""
    return (FOLDER / f"{name}.json").read_bytes()


@cache
def demo(name: str) -> Opened:
    """Return a demo job, opened once."""
    return open_job(text_of(name))


def layouts() -> list[tuple[str, str]]:
    """Return every layout of every demo as (job, layout)."""
    return [(name, layout) for name in NAMES for layout in demo(name).job.layouts]


@cache
def report(name: str, layout: str) -> LayoutReport:
    """Return the whole check of one layout, made once."""
    opened = demo(name)
    return check_layout(opened.job, layout, opened.catalogue)


def grave(found: LayoutReport) -> list[tuple[str, str]]:
    """Return the findings that are more than a note, as (severity, rule)."""
    return [(each.severity, each.rule) for each in found.findings if each.severity != "note"]
