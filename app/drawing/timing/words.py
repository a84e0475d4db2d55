"""Times in words, as they stand on a chart."""

from __future__ import annotations

from app.sequence.telling import clock_words


def clock_of(ms: int) -> str:
    """Return a time as minutes and seconds: ``2:05``."""
    return clock_words(ms / 1000)


def lasts(ms: int) -> str:
    """Return how long something lasts, in units as people say them: ``50 ms``, ``15 s``, ``1 min 30 s``, ``1 h``."""
    if ms < 1000:
        return f"{ms} ms"
    minutes, rest_ms = divmod(ms, 60_000)
    hours, minutes = divmod(minutes, 60)
    said = ((hours, "h"), (minutes, "min"), (f"{rest_ms / 1000:g}" if rest_ms else 0, "s"))
    return " ".join(f"{amount} {unit}" for amount, unit in said if amount)
