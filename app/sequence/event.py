"""What a run tells: one thing that moved, and what moved it."""

from __future__ import annotations

from typing import NamedTuple

CHANGE = "change:"
"""Before the words of a change from outside, as the cause of an event."""
TIMER = "timer:"
"""Before ``part.state``, where a timer of that state ran out."""
UNEXPLAINED = "unexplained"
"""A cause that is never to be seen; tests look for it."""


class Event(NamedTuple):
    """One thing that moved at an instant.

    ``what`` is a subject string: ``element:ou.contactor``, ``state:fb.inducer`` or ``effect:ou:compressor``. ``now``
    is what it has become, in the word of an operating point (``pulled-in``, ``open``, ``on`` …), ``chatters`` or
    ``unknown``. ``cause`` is a change (``change:tc=heat-1``), a timer (``timer:fb.ignition``), or the subject string
    of an earlier event of the same instant.
    """

    at_s: float
    what: str
    now: str
    cause: str
