"""A device that hangs on an output which a call closes, and to which nothing leads from there.

Some other way might bring it its volts one day, such as an outdoor unit that tempers its defrost. Nobody asked for
that: what is told is where the call that is asked for gets lost. Device and output belong together by their letter, as
in ``dead_end``; where that leaves a doubt nothing is told.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.catalogue.kind import Contact
from app.explain.answer import Reason
from app.explain.dead_end import hot_from, idle_outputs, last_behind, reached_by
from app.explain.names import Names
from app.explain.standing import Standing
from app.explain.ways import Way
from app.job.model import UnknownEnd
from app.job.names import letter_of, part_of


def lost_output(standing: Standing, names: Names, device: Way, gaps: Sequence[Way]) -> Reason | None:
    """Return where the call for a device gets lost; None where what is in its way is a matter of that call.

    ``gaps`` are the ways that do not conduct on the path that lacks least.
    """
    if not gaps or not all(_is_elses(gap, device) for gap in gaps):
        return None
    own = {letter_of(each): each for each in _screws_of(standing, device)}
    before = hot_from(standing)
    lost = {}
    for output in idle_outputs(standing):
        screw = last_behind(standing, before, output)
        if screw is not None and part_of(screw) == output.part and letter_of(screw) in own:
            lost[screw] = own[letter_of(screw)]
    if len(lost) != 1:
        return None
    ((screw, needed),) = lost.items()
    words = f"no supply reaches {names.terminal(needed)}: {_end_words(standing, names, screw)}"
    return Reason("no-supply", f"terminal:{needed}", words)


def _is_elses(gap: Way, device: Way) -> bool:
    """Return whether a contact of another part is in the way, which no call closes."""
    return isinstance(gap.element, Contact) and gap.element.by != "calls" and gap.part != device.part


def _screws_of(standing: Standing, device: Way) -> list[str]:
    """Return the screws of its part on which a device hangs."""
    points = [device.a, device.b]
    near = [*points, *reached_by(standing, points)]
    return sorted(each for each in near if each in standing.point.terminals and part_of(each) == device.part)


def _end_words(standing: Standing, names: Names, screw: str) -> str:
    for name, conductor in standing.circuit.layout.conductors.items():
        if conductor.landed() == [screw]:
            unseen = any(isinstance(end, UnknownEnd) for end in conductor.ends)
            far = "was not seen at its other end" if unseen else "is landed nowhere else"
            return f"{names.terminal(screw)} is hot, and {names.conductor(name)} {far}"
    return f"{names.terminal(screw)} is hot, and nothing leads on from there"
