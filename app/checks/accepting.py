"""Findings that somebody has set aside with a reason, and when they come back.

A record in the job names the rule, the finding's own subjects, and behind them what the finding stood on: the layout
(``layout:as-left``), the screws on which its conductors were landed (``terminal:fb.Y``), and what a meter was to read
(``reading:fb.Y:fb.C:18.2``). As long as these stand as they stood, a warning or a note is set aside; where one of them
has changed, it is back. A record without anything behind its subjects was written by hand and holds in every layout
while the subjects are the same. A danger is never set aside: it is known, and still open.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from app.checks.finding import Finding
from app.job.model import Accepted, Job, Layout
from app.job.names import part_of, short_names

READING = "reading:"
LAYOUT = "layout:"
CLOSE_VOLTS = 0.5
"""Within so many volts a reading is the same, where its finding names no tolerance."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A finding with what the job's records say of it.

    ``record`` is what would be written down to set it aside now. ``places`` are the places of the records about it.
    ``reason`` is empty where there is none. ``back`` says what has changed since; then the finding is not set aside.
    """

    finding: Finding
    record: tuple[str, ...]
    places: tuple[int, ...] = ()
    reason: str = ""
    back: str = ""

    @property
    def is_aside(self) -> bool:
        """Whether nobody needs to hear of it now."""
        return bool(self.places) and not self.back and self.finding.severity != "danger"


def judged(findings: Iterable[Finding], job: Job, layout_name: str) -> tuple[Judged, ...]:
    """Return the findings of a layout, each with what the job's records say of it."""
    several = tuple(findings)
    layout = job.layouts[layout_name]
    here = [(place, each) for place, each in enumerate(job.records.accepted) if _is_for(each, layout_name)]
    return tuple(
        _judged(finding, [record for record in here if _is_about(record[1], finding, several)], layout, layout_name)
        for finding in several
    )


def record_of(finding: Finding, layout: Layout, layout_name: str) -> tuple[str, ...]:
    """Return the subjects to be written down for a finding: its own, and what it stands on."""
    return (*finding.subjects, f"{LAYOUT}{layout_name}", *_screws(finding, layout), *_reading(finding))


def _judged(finding: Finding, about: Sequence[tuple[int, Accepted]], layout: Layout, layout_name: str) -> Judged:
    record = record_of(finding, layout, layout_name)
    if not about:
        return Judged(finding, record)
    # The last word counts: whoever sets it aside once more has looked at it as it then stood.
    last = about[-1][1]
    back = "" if finding.severity == "danger" else _changed(finding, last, layout)
    return Judged(finding, record, tuple(place for place, _ in about), last.reason, back)


def _is_for(record: Accepted, layout_name: str) -> bool:
    layouts = [each for each in record.subjects if each.startswith(LAYOUT)]
    return layouts in ([], [f"{LAYOUT}{layout_name}"])


def _is_about(record: Accepted, finding: Finding, several: Sequence[Finding]) -> bool:
    """Return whether a record speaks of a finding: of its subjects, or of its conductors where they were elsewhere."""
    if _names(record, finding):
        return True
    conductors = _conductor_subjects(finding.subjects)
    alike = record.rule == finding.rule and bool(conductors) and _conductor_subjects(record.subjects) == conductors
    return alike and not any(_names(record, other) for other in several)


def _names(record: Accepted, finding: Finding) -> bool:
    own = len(finding.subjects)
    return (
        record.rule == finding.rule
        and set(record.subjects[:own]) == set(finding.subjects)
        and all(each.startswith((LAYOUT, "terminal:", READING)) for each in record.subjects[own:])
    )


def _conductor_subjects(subjects: Iterable[str]) -> set[str]:
    return {each for each in subjects if each.startswith("conductor:")}


def _changed(finding: Finding, record: Accepted, layout: Layout) -> str:
    """Return what has changed since a record was written, empty where nothing has."""
    own = len(finding.subjects)
    if set(record.subjects[:own]) != set(finding.subjects):
        return _moved_words(finding, set(record.subjects), layout)
    behind = record.subjects[own:]
    if not behind:
        return ""
    was = {each for each in behind if each.startswith("terminal:")}
    if was != set(_screws(finding, layout)):
        return _moved_words(finding, set(record.subjects), layout)
    then = next((each for each in behind if each.startswith(READING)), "")
    return _reading_words(finding, then)


def _screws(finding: Finding, layout: Layout) -> tuple[str, ...]:
    """Return the screws on which the conductors of a finding are landed, but for those that it names itself."""
    found = {f"terminal:{end}" for name in _conductors(finding, layout) for end in layout.conductors[name].landed()}
    return tuple(sorted(found - set(finding.subjects)))


def _conductors(finding: Finding, layout: Layout) -> Iterator[str]:
    for subject in finding.subjects:
        sort, _, name = subject.partition(":")
        if sort == "conductor" and name in layout.conductors:
            yield name


def _reading(finding: Finding) -> tuple[str, ...]:
    evidence = finding.evidence
    if evidence.probe is None or evidence.volts is None:
        return ()
    return (f"{READING}{evidence.probe[0]}:{evidence.probe[1]}:{evidence.volts:.1f}",)


def _moved_words(finding: Finding, was: set[str], layout: Layout) -> str:
    names = short_names(layout.conductors)
    there = list(_conductors(finding, layout))
    moved = [name for name in there if any(f"terminal:{end}" not in was for end in layout.conductors[name].landed())]
    said = " and ".join(names[name] for name in moved or there)
    return f"{said} {'was' if len(moved or there) == 1 else 'were'} moved"


def _reading_words(finding: Finding, then: str) -> str:
    """Return what a meter would read now instead, empty where it is the same."""
    now = "".join(_reading(finding))
    if now == then:
        return ""
    if not now or not then:
        return "it is seen otherwise now"
    *probes_now, volts_now = now.removeprefix(READING).split(":")
    *probes_then, volts_then = then.removeprefix(READING).split(":")
    within = finding.evidence.tolerance_volts or CLOSE_VOLTS
    try:
        near = abs(float(volts_now) - float(volts_then)) <= within
    except ValueError:
        near = False
    if probes_now == probes_then and near:
        return ""
    at = f"{' to '.join(letter.split('.', 1)[-1] for letter in probes_now)} at {part_of(probes_now[0])}"
    return f"{at} now reads {volts_now} V" + (f", not {volts_then} V" if probes_now == probes_then else "")
