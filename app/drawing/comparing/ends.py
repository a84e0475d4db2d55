"""What became of an end, in one word."""

from __future__ import annotations

from app.job.model import End, UnknownEnd


def ended(before: End, after: End) -> str:
    """Return what became of an end that is not where it was."""
    if isinstance(after, UnknownEnd):
        return "not seen now"
    if after is None:
        return "taken off"
    if isinstance(before, UnknownEnd):
        return "found"
    return "landed" if before is None else "moved"
