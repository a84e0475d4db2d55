"""What is no change of the wiring: where a part stands on the sheet, what a wire is called, and other ways to say it.

Rules of the file: the earlier layout is said as the later one says it, where that makes no difference on the site. What
still differs then is what ``app.job.compare`` tells, and all of that is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue, settings_of
from app.drawing.comparing.same_wires import same_wires
from app.job.model import Conductor, End, Layout, Part


class Alike(NamedTuple):
    """A layout in the words of a later one, and what each of its wires was called before.

    The id of a wire that came off, where another wire has it now, has ``.was`` after it: no id of a job has
    a full stop.
    """

    layout: Layout
    ids: Mapping[str, str]


def said_alike(before: Layout, after: Layout, catalogue: Catalogue) -> Alike:
    """Return ``before`` in the words of ``after``.

    A part of both stands where it stands in ``after``; settings that come to the same are the same; a wire has the id
    that it has now, and its two ends, which have no order of their own, the one in which fewer of them differ.
    """
    parts = {
        name: _part(part, after.parts[name], catalogue) if name in after.parts else part
        for name, part in before.parts.items()
    }
    wires = list(_wires(before, after))
    conductors = {now: conductor for now, _was, conductor in wires}
    return Alike(
        before.model_copy(update={"parts": parts, "conductors": conductors}), {now: was for now, was, _ in wires}
    )


def _wires(before: Layout, after: Layout) -> Iterator[tuple[str, str, Conductor]]:
    still = same_wires(before.conductors, after.conductors)
    for name, conductor in before.conductors.items():
        now = still.get(name)
        if now is not None:
            yield now, name, _conductor(conductor, after.conductors[now])
        else:
            yield f"{name}.was" if name in after.conductors else name, name, conductor


def _part(part: Part, later: Part, catalogue: Catalogue) -> Part:
    kind = catalogue.kind_of(later)
    same: dict[str, object] = {"at": later.at}
    if (
        kind is not None
        and part.kind == later.kind
        and _said(settings_of(kind, part)) == _said(settings_of(kind, later))
    ):
        same["settings"] = later.settings
    return part.model_copy(update=same)


def _said(settings: Mapping[str, object]) -> dict[str, tuple[bool, object]]:
    """Return settings so that yes is not equal to 1."""
    return {name: (isinstance(value, bool), value) for name, value in settings.items()}


def _conductor(conductor: Conductor, later: Conductor) -> Conductor:
    first, second = conductor.ends
    if _moves((second, first), later) < _moves((first, second), later):
        return conductor.model_copy(update={"ends": (second, first)})
    return conductor


def _moves(ends: tuple[End, End], later: Conductor) -> int:
    return sum(one != other for one, other in zip(ends, later.ends, strict=True))
