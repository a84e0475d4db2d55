"""A change of a job: a JSON Patch, then every judge that the result has to pass, then the new job."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.job.model import Job, Layout
from app.job.names import part_of, pointer
from app.job.patch import Operation, apply_patch
from app.job.reading import document_of, job_from_document
from app.job.refusal import Refused


@dataclass(frozen=True, slots=True)
class Changed:
    """A job after a change, its document as it is to be kept, and the patch that leads back."""

    job: Job
    inverse: tuple[dict[str, Any], ...]
    document: Mapping[str, Any]


def change_job(job: Job, operations: Sequence[Operation], judge: Callable[[Job], object]) -> Changed:
    """Return the job after a JSON Patch; the one handed in stays as it was.

    Args:
        job: the job before.
        operations: RFC 6902 operations, see ``app.job.patch``.
        judge: raises ``Refused`` if the result does not hold together, such as ``catalogue_for``; what it returns is
            of no interest here.

    Raises:
        Refused: the patch, the shape of its result, a part removed under its conductors, or what ``judge`` says.
    """
    patched = apply_patch(document_of(job), operations)
    after = job_from_document(patched.document)
    for name, layout in job.layouts.items():
        if name in after.layouts:
            _refuse_left_hanging(name, layout, after.layouts[name])
    judge(after)
    return Changed(after, patched.inverse, patched.document)


def _refuse_left_hanging(name: str, before: Layout, after: Layout) -> None:
    """Refuse the end of a patch at which a removed part still has conductors on it.

    Nothing is taken off by itself: whoever removes a part says what becomes of each conductor.
    """
    removed = before.parts.keys() - after.parts.keys()
    if not removed:
        return
    for part in sorted(removed):
        landed = [
            f"{conductor} on {end}"
            for conductor, wire in after.conductors.items()
            for end in wire.landed()
            if part_of(end) == part
        ]
        if landed:
            raise Refused(
                "part-still-landed",
                f"{part} cannot be removed while conductors are landed on it: {', '.join(landed)}.",
                pointer=pointer("layouts", name, "parts", part),
                would_be_right="these ends taken off (replaced by null) or the conductors removed, in the same patch",
                status_hint=409,
            )
