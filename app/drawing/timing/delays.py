"""Since when a timer that runs out has run: a run tells only that its time is up.

Rules of the file: a beginning is given only where one single instant of the run fits, at which something moved that
the state of the timer asks about. Sums and counts are left alone, since they may have begun more than once.
"""

from __future__ import annotations

from collections import defaultdict

from app.catalogue.catalogue import Catalogue
from app.circuit.logic import values_of
from app.circuit.template import template_of
from app.circuit.timing import Timer
from app.drawing.timing.done import DoneLine
from app.job.model import Layout
from app.sequence.event import TIMER, Event
from app.sequence.moments import milliseconds
from app.sequence.run import Run

RUN_ONCE = ("after", "hold", "up_to", "apart")
"""The timers that run from one instant to another."""


class Delays:
    """Finds since when the timers of one run have run."""

    def __init__(self, run: Run, layout: Layout, catalogue: Catalogue, done: list[DoneLine]) -> None:
        self._layout = layout
        self._catalogue = catalogue
        self._start = run.moments[0].situation
        self._moved: dict[int, set[str]] = defaultdict(set)
        for event in run.events:
            self._moved[milliseconds(event.at_s)].add(event.what.partition(":")[2])
        for line in done:
            for made in line.made:
                self._moved[made.at_ms].add(line.what.partition(":")[2])

    def since_ms(self, event: Event) -> int | None:
        """Return since when the timer has run that moved something; None where nothing or more than one fits."""
        if not event.cause.startswith(TIMER):
            return None
        part, _, state = event.cause.removeprefix(TIMER).partition(".")
        kind = self._catalogue.kind_of(self._layout.parts[part])
        if kind is None:
            return None
        template = template_of(kind)
        asks = {f"{part}.{name}" for name in template.reads[state]} | {part}
        at_ms = milliseconds(event.at_s)
        begun = {at_ms - amount for timer in template.timers if (amount := self._amount(timer, part, state))}
        found = [since for since in begun if since in self._moved and not asks.isdisjoint(self._moved[since])]
        return found[0] if len(found) == 1 else None

    def _amount(self, timer: Timer, part: str, state: str) -> int | None:
        """Return what a timer of a state waits for, in milliseconds."""
        kind = self._catalogue.kind_of(self._layout.parts[part])
        if kind is None or timer.state != state or timer.function not in RUN_ONCE:
            return None
        if not isinstance(timer.amount, str):
            return milliseconds(timer.amount)
        prefix = f"{part}."
        given = {name.removeprefix(prefix): value for name, value in self._start.set.items() if name.startswith(prefix)}
        return milliseconds(float(values_of(kind, self._layout.parts[part], given)[timer.amount]))
