"""A run: changes and timers, one instant after another, until nothing is left to come."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint, Unsettled
from app.circuit.situation import Situation
from app.job.refusal import Refused
from app.sequence.change import Change
from app.sequence.event import Event
from app.sequence.moment import Moment
from app.sequence.moments import milliseconds
from app.sequence.player import Player

Ends = Literal["settled", "cycles", "cut off"]


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """What came of a run.

    Attributes:
        events: in the order in which they happened.
        ends: how it ended; what that means stands in ``moments``.
        until_s: the last instant, or where it was cut off, in seconds from the beginning.
        period_s: of what comes back, where the run cycles; 0 where it chatters.
        unsettled: where an instant has no settled state: its seconds, and why.
        assumes: what the run takes for granted, in words.
        moments: the beginning (at 0 or before), then every instant.
        changes: what was done from outside, in the order in which it was to be done.
    """

    events: tuple[Event, ...]
    ends: Ends
    until_s: float
    period_s: float | None = None
    unsettled: tuple[tuple[float, Unsettled], ...] = ()
    assumes: tuple[str, ...] = ()
    moments: tuple[Moment, ...] = field(default=(), repr=False)
    changes: tuple[Change, ...] = ()

    def point_at(self, seconds: float) -> OperatingPoint:
        """Return the operating point at a time; after the end of a cycle it is that of the cycle."""
        at = milliseconds(seconds)
        end = self.moments[-1].at_ms
        period = milliseconds(self.period_s or 0)
        if period and at > end:
            at = end - period + (at - end) % period
        place = bisect_right([moment.at_ms for moment in self.moments], at)
        return self.moments[max(0, place - 1)].point


def run_sequence(
    circuit: Circuit, changes: Sequence[Change], for_s: float = 3600.0, start: Situation | None = None
) -> Run:
    """Run through changes and all that follows from them.

    Args:
        circuit: the compiled layout.
        changes: in any order; those of one instant are made in the order in which they stand.
        for_s: when the run is cut off, in seconds from its beginning.
        start: in what situation it has stood before, idle when None.

    Raises:
        Refused: ``bad-change``, when a change comes before the beginning or after ``for_s``; ``bad-fault``, when a
            fault names what the layout does not have.
    """
    _check_times(changes, for_s)
    player = Player(circuit, start or Situation())
    player.stand()
    ordered = tuple(sorted(changes, key=lambda change: milliseconds(change.at_s)))
    return replace(_play(player, ordered, milliseconds(for_s)), changes=ordered)


def _play(player: Player, changes: Sequence[Change], until: int) -> Run:
    left = list(changes)
    seen: dict[Hashable, int] = {}
    while True:
        now = _next_instant(player, left)
        if now is None:
            chatters = player.chatters()
            return _told(player, "cycles" if chatters else "settled", 0 if chatters else None)
        if player.is_weary():
            return _told(player, "cut off", None)
        if now > until:
            player.now = until
            return _told(player, "cut off", None)
        together = [change for change in left if milliseconds(change.at_s) == now]
        del left[: len(together)]
        player.instant(now, together)
        if not left:
            state = player.to_come()
            if state in seen:
                return _told(player, "cycles", now - seen[state])
            seen[state] = now


def _told(player: Player, ends: Ends, period_ms: int | None) -> Run:
    return Run(
        events=tuple(player.teller.events),
        ends=ends,
        until_s=player.now / 1000,
        period_s=None if period_ms is None else period_ms / 1000,
        unsettled=tuple(player.unsettled),
        assumes=player.stage.assumes(),
        moments=tuple(player.moments),
    )


def _next_instant(player: Player, left: Sequence[Change]) -> int | None:
    coming = [milliseconds(left[0].at_s)] if left else []
    due = player.next_due()
    return min([*coming, *([] if due is None else [due])], default=None)


def _check_times(changes: Sequence[Change], for_s: float) -> None:
    for change in changes:
        if not 0 <= change.at_s <= for_s:
            raise Refused(
                "bad-change",
                f"{change.words!r} at {change.at_s:g} s lies outside the run, which lasts from 0 to {for_s:g} s.",
                would_be_right=f"a time from 0 to {for_s:g} s, or a longer run",
            )
