"""What time means in a run.

**Instants.** Time is counted in whole milliseconds. Nothing happens between instants: an instant is when something
changes from outside, or when a timer runs out. At an instant the circuit goes through *passes*, which take no time,
exactly as it does when it settles from rest, but from the state before it: coils and inputs that were on are judged
as on, fuses that have opened stay open, and latches, counts and clocks stand as they stood.

**Order.** All changes of one instant are made together, in the order in which they are given, so that the later one
holds where two contradict each other; timers that run out at that instant have run out; then come the passes. Within
an instant events are told in the order of the passes, and within a pass by network, then fuses, coils and inputs,
states, contacts. Networks that nothing couples do not wait for each other.

**Durations.** ``after``, ``hold``, ``up_to`` and ``summed`` measure, and ``times`` counts, what holds at the *ends* of
instants. What lasts only for some passes has no duration: it starts no delay, breaks none, and counts as no end.

* ``after(x, n)`` holds from n after the instant at which x began, while x holds.
* ``hold(x, n)`` holds with x and ends n after the instant at which x ended.
* ``up_to(x, n)`` holds with x and ends with it, or n after x began.
* ``summed(x, n, reset)`` adds up the time for which x holds; it holds from the instant at which that makes n.
* ``times(x, n, reset)`` holds from the instant of the n-th end of x.

**What remembers passes.** ``latch`` and ``apart``, and what resets a sum or a count, see every pass: a latch that was
set for one pass is set, and a start that ``apart`` guards has ended when it ended for one pass.

**Timers that keep time without power.** A timer runs whatever becomes of its part. Where a board loses its memory
with its power, its kind says so in the term (``apart(board and call, 180 s)``: the off time then begins when the
power fails).

**No settled state.** Coils that *chatter* within an instant count as let go for what follows, and are told; the run
goes on. In a *race* the coil that comes first by its name is taken to move first, which is told too. A source of
which the phase is not known is taken to be in phase, which the run says under ``assumes``.

**What is unknown.** For a clock, what is in doubt counts as off. While something in a part is in doubt, whatever its
clocks, run so or run out, leave open is told as unknown.

**The beginning.** Before the first change the run stands in its situation, begun from rest with all timers fresh, for
as long as it takes to settle and a day longer, so that no delay is left over. Where that does not settle, it begins
where it had come to.

**The end.** A run ends *settled* when no change and no timer is left to come; it *cycles* when a state comes back with
everything that its clocks have left to run (or when it chatters for good); otherwise it is *cut off*: at the time that
was asked for, or after ``MOST_INSTANTS``.
"""

from __future__ import annotations

MOST_INSTANTS = 1000
"""A run is cut off after so many instants."""
MOST_INSTANTS_BEFORE = 200
"""So many instants the beginning may take to settle."""
LONGEST_BEFORE_MS = 6 * 3600 * 1000
"""So long it may take."""
REST_MS = 24 * 3600 * 1000
"""How long a settled beginning has stood before the first change."""


def milliseconds(seconds: float) -> int:
    """Return seconds as whole milliseconds."""
    return round(seconds * 1000)
