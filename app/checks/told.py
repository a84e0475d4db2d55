"""Findings as they are told: several notes of one rule as one, those that are set aside apart from those that stand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.checks.accepting import Judged
from app.checks.finding import Finding
from app.checks.folding import fold_notes


@dataclass(frozen=True, slots=True)
class Told:
    """A finding as it is told, and the findings that it stands for: itself, or the notes that are folded in it."""

    finding: Finding
    members: tuple[Judged, ...]

    @property
    def is_aside(self) -> bool:
        """Whether it is set aside; of notes that are folded together all are, or none."""
        return self.members[0].is_aside

    @property
    def records(self) -> tuple[tuple[str, ...], ...]:
        """Return the subjects to be written down to set it aside, for each member."""
        return tuple(each.record for each in self.members)

    @property
    def places(self) -> tuple[int, ...]:
        """Return the places of the records about it, in their order."""
        return tuple(sorted({place for each in self.members for place in each.places}))

    @property
    def reason(self) -> str:
        """Return why it was set aside, or why it is still open where it is a danger."""
        return _together(each.reason for each in self.members)

    @property
    def back(self) -> str:
        """Return what has changed since it was set aside."""
        return _together(each.back for each in self.members)


def told(several: Iterable[Judged]) -> list[Told]:
    """Return findings, which come sorted, as they are told."""
    groups: dict[tuple[object, ...], list[Judged]] = {}
    for at, each in enumerate(several):
        is_note = each.finding.severity == "note"
        groups.setdefault((each.finding.rule, each.is_aside) if is_note else (at,), []).append(each)
    return [
        Told(fold_notes(each.finding for each in members)[0], tuple(members)) for members in groups.values() if members
    ]


def _together(words: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(each for each in words if each))
