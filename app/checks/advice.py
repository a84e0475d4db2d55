"""Landing advice: what landing an end on each terminal would do, for all terminals in one batch.

Advice asks the same predicates as the rules, on the islands as they would be with one more join; what would then run
is solved with a short between the two terminals, once for every island on which a terminal could lie. Danger is what
a rule of severity danger would say; odd is what a warning would say, or an end that does nothing there. Advice never
forbids.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from app.catalogue.catalogue import Catalogue
from app.checks.check import context_of
from app.checks.context import CheckContext
from app.checks.facts.landing import Landing, dangers_of, oddities_of
from app.checks.facts.trial import what_would_run
from app.checks.terminal_overfilled import is_overfilled
from app.job.model import Job
from app.job.refusal import Refused

Verdict = Literal["fine", "odd", "danger"]


@dataclass(frozen=True, slots=True)
class Advice:
    """What landing on a terminal would do, and why that is said."""

    verdict: Verdict
    why: str


def landing_advice(
    job: Job,
    layout_name: str,
    catalogue: Catalogue,
    *,
    conductor: str | None = None,
    end: int | None = None,
    start: str | None = None,
) -> dict[str, Advice]:
    """Return the advice for every terminal of a layout.

    Args:
        conductor: the conductor of which an end is moved, with ``end`` (0 or 1).
        start: the terminal from which a new conductor is pulled; then the other two are None.

    Raises:
        Refused: code ``unknown-conductor``, ``unknown-end`` or ``unknown-terminal``.
    """
    lifted, near = _in_hand(job, layout_name, conductor, end, start)
    context = context_of(lifted, layout_name, catalogue)
    if near is not None and near not in context.terminals:
        raise Refused("unknown-terminal", f"There is no terminal {near}.", would_be_right="a terminal of the layout")
    return _advise(context, near)


def _in_hand(
    job: Job, layout_name: str, conductor: str | None, end: int | None, start: str | None
) -> tuple[Job, str | None]:
    """Return the job with the moved end taken off, and the terminal at the other end, None where that is loose."""
    if conductor is None:
        return job, start
    layout = job.layouts[layout_name]
    found = layout.conductors.get(conductor)
    if found is None:
        raise Refused("unknown-conductor", f"There is no conductor {conductor}.", would_be_right="a conductor's id")
    if end not in (0, 1):
        raise Refused("unknown-end", f"A conductor has the ends 0 and 1, not {end}.", would_be_right="0 or 1")
    other = found.ends[1 - end]
    ends = (None, other) if end == 0 else (other, None)
    conductors = {**layout.conductors, conductor: found.model_copy(update={"ends": ends})}
    lifted = layout.model_copy(update={"conductors": conductors})
    return job.model_copy(update={"layouts": {**job.layouts, layout_name: lifted}}), (
        other if isinstance(other, str) else None
    )


def _advise(context: CheckContext, near: str | None) -> dict[str, Advice]:
    advice = {terminal: _before_solving(context, near, terminal) for terminal in context.terminals}
    open_questions = [terminal for terminal, said in advice.items() if said is None]
    runs = {} if near is None else what_would_run(context, near, open_questions)
    return {
        terminal: said or _after_solving(context, terminal, runs.get(terminal, "")) for terminal, said in advice.items()
    }


def _before_solving(context: CheckContext, near: str | None, terminal: str) -> Advice | None:
    """Return what follows from the joins alone; None where it depends on what would then run."""
    if terminal == near:
        return Advice("odd", "Both ends would be on one terminal.")
    landing = None if near is None else Landing(near, terminal)
    danger = _first(dangers_of(context, landing)) if landing else None
    if danger:
        return Advice("danger", danger)
    if is_overfilled(context, terminal, more=1):
        return Advice("odd", f"The terminal takes {context.terminals[terminal].holds} and is full.")
    oddity = _first(oddities_of(context, landing)) if landing else None
    return Advice("odd", oddity) if oddity else None


def _after_solving(context: CheckContext, terminal: str, runs: str) -> Advice:
    return Advice("odd", runs) if runs else Advice("fine", _sentence(context.terminals[terminal].use))


def _first(words: Iterable[str]) -> str | None:
    return next(iter(words), None)


def _sentence(use: str) -> str:
    return f"{use[:1].upper()}{use[1:]}."


def advice_document(advice: Mapping[str, Advice]) -> dict[str, dict[str, str]]:
    """Return advice as plain data."""
    return {terminal: {"verdict": said.verdict, "why": said.why} for terminal, said in advice.items()}
