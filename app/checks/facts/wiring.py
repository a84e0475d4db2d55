"""The wiring as joins and devices between nodes, the view of a layout that rules ask where a path exists.

Rules of the file: this is about *where* things are joined, never about volts; volts come from operating points.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, Kind, Terminal
from app.checks.facts.joins import Device, Join, Winding
from app.checks.facts.piece import Piece, piece_of
from app.job.model import Layout, UnknownEnd


@dataclass(frozen=True)
class Wiring:
    """All joins, devices and sources of a layout, and what cannot be seen through."""

    terminals: dict[str, Terminal]
    settings: dict[str, dict[str, Choice]]
    kinds: dict[str, Kind]
    fixed: list[Join] = field(default_factory=list)
    contacts: list[Join] = field(default_factory=list)
    by_calls: dict[str, bool] = field(default_factory=dict)
    """The contacts that calls move, and whether each is closed at rest."""
    lifted: list[Join] = field(default_factory=list)
    devices: list[Device] = field(default_factory=list)
    windings: list[Winding] = field(default_factory=list)
    veiled: dict[str, str] = field(default_factory=dict)
    landed: dict[str, list[tuple[str, int]]] = field(default_factory=dict)
    by_part: dict[str, list[str]] = field(default_factory=dict)

    def landed_on(self, terminal: str) -> list[tuple[str, int]]:
        """Return the conductor ends (id, index) on a terminal."""
        return self.landed.get(terminal, [])

    def terminals_of(self, part: str) -> list[str]:
        """Return the terminals of a part, in the kind's order."""
        return self.by_part.get(part, [])


def wire_up(layout: Layout, catalogue: Catalogue) -> Wiring:
    """Return the wiring of a layout: ``fixed`` is what always conducts, ``contacts`` what may, ``lifted`` the
    jumpers that are removed; ``veiled`` gives nodes behind which something unseen lies, and why."""
    wiring = Wiring(terminals={}, settings={}, kinds={})
    for part_id in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part_id])
        if kind is None:
            _add_unknown(wiring, part_id, layout, catalogue)
        else:
            wiring.kinds[part_id] = kind
            wiring.settings[part_id] = settings_of(kind, layout.parts[part_id])
            _add_piece(wiring, part_id, piece_of(part_id, kind))
    for name in sorted(layout.conductors):
        _add_conductor(wiring, name, layout)
    return wiring


def _add_unknown(wiring: Wiring, part: str, layout: Layout, catalogue: Catalogue) -> None:
    terminals = {f"{part}.{letter}": found for letter, found in catalogue.terminals_of(layout, part).items()}
    wiring.terminals.update(terminals)
    wiring.by_part[part] = list(terminals)
    wiring.veiled.update(dict.fromkeys(terminals, f"what {part} does inside is not known"))


def _add_piece(wiring: Wiring, part: str, piece: Piece) -> None:
    wiring.terminals.update(piece.terminals)
    wiring.by_part[part] = list(piece.terminals)
    wiring.fixed.extend(piece.fixed)
    wiring.contacts.extend(piece.contacts)
    wiring.by_calls.update(piece.by_calls)
    wiring.devices.extend(piece.devices)
    wiring.windings.extend(piece.windings)
    wiring.veiled.update(piece.veiled)
    for jumper in piece.jumpers:
        fitted = wiring.settings[part].get(jumper.inner) == "fitted"
        (wiring.fixed if fitted else wiring.lifted).append(jumper)


def _add_conductor(wiring: Wiring, name: str, layout: Layout) -> None:
    conductor = layout.conductors[name]
    landed = conductor.landed()
    if len(landed) == 2:
        wiring.fixed.append(Join(landed[0], landed[1], f"conductor:{name}", "conductor"))
    for index, end in enumerate(conductor.ends):
        if isinstance(end, str):
            wiring.landed.setdefault(end, []).append((name, index))
        elif isinstance(end, UnknownEnd) and landed:
            wiring.veiled.setdefault(landed[0], f"the far end of {name} was not seen ({end.unknown})")
