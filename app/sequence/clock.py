"""The clock of one timer: what it keeps from instant to instant, in milliseconds.

Rules of the file: a clock changes only at the end of an instant. What each function measures stands in ``moments``.
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import NamedTuple

from app.circuit.timing import ENDED, FRESH, OFF, ON, REACHED, RIPE


class Clock(NamedTuple):
    """What a timer keeps.

    ``holds`` tells whether its inner term held at the end of the last instant. ``since`` is the instant at which that
    began (``after``, ``up_to``, ``summed``), at which it ended (``hold``), or at which the timer itself let go
    (``apart``). ``counted`` is what ``summed`` had added up until ``since``, or the ends that ``times`` has seen.
    """

    holds: bool = False
    since: int | None = None
    counted: int = 0


FRESH_CLOCK = Clock()


def phase(function: str, clock: Clock, amount: int, now: int) -> int:
    """Return how far a timer has run; ``amount`` is in milliseconds, or how often."""
    match function:
        case "after" | "up_to":
            return RIPE if amount == 0 or (clock.holds and _passed(clock, amount, now)) else FRESH
        case "hold":
            return RIPE if amount and (clock.holds or _pending(clock, amount, now)) else FRESH
        case "apart":
            return REACHED if amount == 0 else RIPE if _pending(clock, amount, now) else FRESH
        case "summed":
            return RIPE if _total(clock, now) >= amount else FRESH
        case "times":
            if clock.counted >= amount:
                return REACHED
            return RIPE if clock.holds and clock.counted == amount - 1 else FRESH
        case _:
            return FRESH


def due(function: str, clock: Clock, amount: int, now: int) -> int | None:
    """Return the next instant after ``now`` at which a timer runs out if nothing else happens; None if it never does.

    ``clock`` is as it stands at the end of the instant ``now``.
    """
    match function:
        case "after" | "up_to":
            at = clock.since + amount if clock.holds and clock.since is not None else None
        case "hold":
            at = clock.since + amount if not clock.holds and clock.since is not None else None
        case "apart":
            at = clock.since + amount if clock.holds and clock.since is not None else None
        case "summed":
            at = now + amount - _total(clock, now) if clock.holds else None
        case _:
            at = None
    return at if at is not None and at > now else None


def after_instant(function: str, clock: Clock, amount: int, now: int, asks: bool, memory: int) -> Clock:
    """Return the clock at the end of an instant, given whether the inner term holds then, and the timer's memory."""
    match function:
        case "after" | "up_to":
            return (clock if clock.holds else Clock(True, now)) if asks else FRESH_CLOCK
        case "hold":
            if asks:
                return Clock(True)
            ended = Clock(False, now) if clock.holds else clock
            return ended if _pending(ended, amount, now) else FRESH_CLOCK
        case "apart":
            kept_off = memory != ON and _pending(clock, amount, now)
            return Clock(asks, now if memory == ENDED else clock.since if kept_off else None)
        case "summed":
            total = 0 if memory == ON else min(_total(clock, now), amount)
            return clock if (asks and clock.holds and memory != ON) else Clock(asks, now if asks else None, total)
        case "times":
            count = 0 if memory == ON else min(clock.counted + (clock.holds and not asks), amount)
            return Clock(asks, None, count)
        case _:
            return FRESH_CLOCK


def memory_after_instant(function: str, memory: int) -> int:
    """Return what a timer's memory of passes becomes once the instant is over."""
    return OFF if function in ("summed", "times") or memory == ENDED else memory


def left_to_run(function: str, clock: Clock, amount: int, now: int) -> Hashable:
    """Return what tells two clocks apart for all that is to come."""
    match function:
        case "after" | "up_to":
            return clock.holds, max(0, (clock.since or 0) + amount - now) if clock.holds else 0
        case "hold":
            return clock.holds, _pending(clock, amount, now) and (clock.since or 0) + amount - now
        case "apart":
            return clock.holds, _pending(clock, amount, now) and (clock.since or 0) + amount - now
        case "summed":
            return clock.holds, min(_total(clock, now), amount)
        case _:
            return clock


def shifted(clock: Clock, by_ms: int) -> Clock:
    """Return a clock as it would stand had everything happened that much later."""
    return clock if clock.since is None else clock._replace(since=clock.since + by_ms)


def _passed(clock: Clock, amount: int, now: int) -> bool:
    return clock.since is not None and now - clock.since >= amount


def _pending(clock: Clock, amount: int, now: int) -> bool:
    return clock.since is not None and now < clock.since + amount


def _total(clock: Clock, now: int) -> int:
    return clock.counted + (now - clock.since if clock.holds and clock.since is not None else 0)
