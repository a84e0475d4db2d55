"""What the circuit does in a situation, once it has settled.

Rules of the file: this is the one answer that findings, readings, highlights, drawings and grades all read. Volts are
RMS phasors; amps are magnitudes; a floating terminal has no volts at all, which is not the same as 0 V.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from app.circuit.situation import Situation


@dataclass(frozen=True, slots=True)
class TerminalState:
    """What stands at one terminal.

    Exactly one of three holds: ``volts`` is a phasor against ``reference``; ``floating``; ``unknown`` with why.
    """

    volts: complex | None = None
    reference: str | None = None
    floating: bool = False
    unknown: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class ElementState:
    """What an element does: volts across it, amps through it, and its state in a word.

    ``state`` is ``pulled-in``/``released`` for a coil, ``closed``/``open`` for a contact or jumper, ``whole``/``open``
    for a fuse, ``on``/``off`` for an input, source or powered load, ``unknown`` where nothing could be computed, and
    empty for the rest. ``volts`` is None where it floats or is unknown. ``amps_unknown`` tells that something unseen
    could add to ``amps``, which are those without it.
    """

    volts: float | None
    amps: float
    state: str = ""
    amps_unknown: bool = False


@dataclass(frozen=True, slots=True)
class SourceState:
    """What a source gives: volt-amperes and amps of its secondary; ``unknown`` where something unseen could add."""

    va: float
    amps: float
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class ConductorState:
    """What a conductor carries. ``toward`` is the index (0 or 1) of the end to which power flows, None under 1 mA.

    ``unknown`` tells that nothing could be computed; ``amps`` is then 0.
    """

    amps: float
    toward: Literal[0, 1] | None = None
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class Unsettled:
    """Why no single operating point exists.

    ``why`` is ``race`` (who moves first decides; ``outcomes`` names, per first mover, the coils then pulled in),
    ``chatter`` (the ``elements`` pull in and let go in turn, ``period`` passes long) or ``undecided``.
    """

    why: Literal["race", "chatter", "undecided"]
    elements: tuple[str, ...] = ()
    period: int = 0
    outcomes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """The answer to one situation.

    Keys: ``terminals`` by ``part.LETTER``; ``elements`` by ``part.element``; ``sources`` by ``part.element``;
    ``conductors`` by id. ``effects`` are (part, effect) pairs in a stable order. ``blown`` gives for each fuse that
    opened the amps that it carried before. ``component`` gives for each terminal the number of the component in
    which it lies: two terminals have a reading between them exactly when they lie in the same one (0 V where it has
    no source). ``effects_in_doubt`` are those of which something unknown decides whether they hold.
    ``could_meet`` are the components that something unseen could join to others of them.
    """

    situation: Situation
    settled: bool
    unsettled: Unsettled | None
    terminals: Mapping[str, TerminalState]
    elements: Mapping[str, ElementState]
    sources: Mapping[str, SourceState]
    conductors: Mapping[str, ConductorState]
    effects: tuple[tuple[str, str], ...]
    blown: Mapping[str, float] = field(default_factory=dict)
    component: Mapping[str, int] = field(default_factory=dict)
    effects_in_doubt: tuple[tuple[str, str], ...] = ()
    could_meet: Collection[int] = frozenset()

    def volts_between(self, a: str, b: str) -> float | None:
        """Return the volts that an ideal meter shows from ``a`` to ``b``; None where it floats or is unknown."""
        first, second = self.terminals[a], self.terminals[b]
        if self.component.get(a) != self.component.get(b):
            return None
        if first.floating and second.floating:
            return 0.0
        if first.volts is None or second.volts is None:
            return None
        return abs(first.volts - second.volts)

    def runs(self, effect: str) -> list[str]:
        """Return the parts that have this effect now."""
        return [part for part, name in self.effects if name == effect]
