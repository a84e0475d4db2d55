"""Why no closing of contacts would ever bring a device its volts: a lead that is missing, loose or unseen."""

from __future__ import annotations

from app.explain.answer import Explanation, Reason, Stop, Verdict
from app.explain.names import Names
from app.explain.paths import Paths
from app.explain.phrases import joined, sentence
from app.explain.standing import Standing
from app.explain.ways import Way
from app.job.model import UnknownEnd
from app.job.names import part_of


def broken_way(standing: Standing, names: Names, paths: Paths, device: Way, first: str) -> Explanation:
    """Return the explanation of a device that no path leads to: which side lacks what, and the ends to look at."""
    sides = {point: paths.reached_from(point, device) for point in (device.a, device.b)}
    sources = [way for way in standing.ways.ways if way.sort == "source"]
    reasons: list[Reason] = []
    hot = {point: any(way.a in reached for way in sources) for point, reached in sides.items()}
    common = {point: any(way.b in reached for way in sources) for point, reached in sides.items()}
    a, b = device.a, device.b
    if hot[b] and not hot[a]:
        a, b = b, a
    if not hot[a]:
        reasons.append(_missing(standing, names, device, a, sides[a], "no-supply"))
    if not common[b]:
        reasons.append(_missing(standing, names, device, b, sides[b], "no-common"))
    if not reasons:
        words = "what could bring it 24 V and what could take it back belong to different sources"
        reasons.append(Reason("broken", device.subject, words))
    lines = (first, *(sentence(reason.words) for reason in reasons))
    unseen = any(reason.sort == "unknown" for reason in reasons)
    verdict: Verdict = "unknown" if unseen else "does-not-run"
    return Explanation(device.subject, verdict, reasons[0].sort, (), None, tuple(reasons), 0, lines)


def _missing(standing: Standing, names: Names, device: Way, point: str, reached: frozenset[str], sort: Stop) -> Reason:
    what = "no supply reaches" if sort == "no-supply" else "no common reaches"
    own = sorted(each for each in reached if part_of(each) == device.part and each in standing.point.terminals)
    where = joined([names.terminal(each) for each in own]) if own else names.part(device.part)
    layout = standing.wired.layout
    loose: list[str] = []
    unseen: list[str] = []
    landed = 0
    for name, conductor in sorted(layout.conductors.items()):
        here = [end for end in conductor.landed() if end in reached]
        landed += any(end in own for end in here)
        if here and len(conductor.landed()) == 1:
            other = conductor.ends[1] if conductor.ends[0] in reached else conductor.ends[0]
            (unseen if isinstance(other, UnknownEnd) else loose).append(names.conductor(name))
    subject = f"terminal:{own[0]}" if own else device.subject
    if unseen:
        return Reason("unknown", subject, f"{what} {where} that was seen: the other end of {joined(unseen)} was not")
    if loose:
        return Reason(sort, subject, f"{what} {where}: the other end of {joined(loose)} is landed nowhere")
    if own and not landed:
        return Reason(sort, subject, f"{what} {where}: nothing is landed there")
    return Reason(sort, subject, f"{what} {where} by any of the leads that are landed")
