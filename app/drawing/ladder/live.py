"""What an operating point puts on a ladder: what is hot, what carries and which way, where a rung stops.

Rules of the file: as on the connection diagram weight means hot or carrying, an arrowhead that it carries. An inner
node has no volts of its own in an operating point; it has those of the screw that something closed joins it with.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from app.circuit.network import EARTH
from app.circuit.operating_point import OperatingPoint
from app.drawing.ladder.graph import LOADS, WIRES, Piece
from app.drawing.ladder.model import Ladder
from app.drawing.ladder.reaching import may_pass
from app.job.model import Layout

HOT_ABOVE_VOLTS = 1.0
"""Below this a screw stands at common but for the drop along it (from memory: a sound return drops far less)."""
LEAST_AMPS = 0.001
CLOSED = frozenset({"closed", "whole", "on", ""})
Way = Literal["right", "left", ""]


@dataclass(frozen=True)
class Live:
    """One operating point, looked at along the rungs of a ladder."""

    ladder: Ladder
    layout: Layout
    point: OperatingPoint

    def state(self, piece: Piece) -> str:
        """Return what an element does, in a word; empty for a wire."""
        found = self.point.elements.get(piece.name)
        return found.state if found is not None else ""

    def is_hot(self, point: str) -> bool:
        """Return whether a point stands at more than common."""
        return abs(self._volts.get(point, 0)) > HOT_ABOVE_VOLTS

    def carries(self, piece: Piece) -> Way:
        """Return the end to which power flows through a piece, empty where it carries nothing or nobody knows."""
        if piece.sort == "conductor":
            flow = self.point.conductors.get(piece.name)
            if flow is None or flow.toward is None:
                return ""
            return "right" if self.layout.conductors[piece.name].ends[flow.toward] == piece.b else "left"
        found = self.point.elements.get(piece.name)
        if found is None or found.amps < LEAST_AMPS or found.amps_unknown:
            return ""
        if piece.sort in LOADS and piece.a in self._volts and piece.b in self._volts:
            return "right" if abs(self._volts[piece.a]) >= abs(self._volts[piece.b]) else "left"
        return "right"

    def works(self, piece: Piece) -> bool:
        """Return whether a load works now."""
        return self.state(piece) in ("on", "pulled-in") or (self.state(piece) == "" and self.carries(piece) != "")

    def stops_before(self, load: Piece) -> tuple[Piece, ...]:
        """Return the open pieces that have volts on one side and lead to a load on the other, sorted.

        Whatever stands between, open or closed, is walked through as long as it is not hot.
        """
        found: set[Piece] = set()
        seen = {load.a}
        ahead = [load.a]
        while ahead:
            here = ahead.pop()
            for piece in self._at.get(here, ()) if not self.is_hot(here) else ():
                other = piece.other(here)
                if self.is_hot(other) and not self._is_closed(piece):
                    found.add(piece)
                elif other not in seen:
                    seen.add(other)
                    ahead.append(other)
        return tuple(sorted(found))

    @cached_property
    def _at(self) -> Mapping[str, list[Piece]]:
        """Return what can switch or join at each point of the rungs that lies on no rail."""
        rails = {screw for rail in self.ladder.rails.values() for screw in rail.screws}
        found: dict[str, list[Piece]] = {}
        for rung in self.ladder.rungs():
            for piece in rung.pieces:
                for point in (piece.a, piece.b) if may_pass(piece) else ():
                    if point not in rails and point != EARTH:
                        found.setdefault(point, []).append(piece)
        return found

    def _is_closed(self, piece: Piece) -> bool:
        return piece.sort in WIRES or (piece.sort in ("contact", "fuse", "jumper") and self.state(piece) in CLOSED)

    @cached_property
    def _volts(self) -> Mapping[str, complex]:
        found = {name: state.volts for name, state in self.point.terminals.items() if state.volts is not None}
        joined: dict[str, list[str]] = {}
        for rung in self.ladder.rungs():
            for piece in rung.pieces:
                if self._is_closed(piece):
                    joined.setdefault(piece.a, []).append(piece.b)
                    joined.setdefault(piece.b, []).append(piece.a)
        ahead = deque(sorted(found))
        while ahead:
            here = ahead.popleft()
            for other in joined.get(here, ()):
                if other not in found and other not in self.point.terminals:
                    found[other] = found[here]
                    ahead.append(other)
        return found
