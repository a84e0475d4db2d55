"""Which ends are landed on which screw."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.web.wording.naming import Naming


@dataclass(frozen=True)
class Landed:
    """The landed ends of a layout, by terminal, in the order of the document."""

    by_terminal: dict[str, list[tuple[str, str | None, str]]] = field(default_factory=dict)

    def on(self, terminal: str) -> list[tuple[str, str | None, str]]:
        """Return (end, far terminal or None, far end in words) of each end that is landed on ``terminal``."""
        return self.by_terminal.get(terminal, [])


def landed_of(naming: Naming) -> Landed:
    """Return the landed ends of a layout."""
    found: dict[str, list[tuple[str, str | None, str]]] = {}
    for name, conductor in naming.layout.conductors.items():
        for index, end in enumerate(conductor.ends):
            if isinstance(end, str):
                far = conductor.ends[1 - index]
                entry = (f"{name}.{index}", far if isinstance(far, str) else None, naming.end(far))
                found.setdefault(end, []).append(entry)
    return Landed(found)
