"""Trying a term out: does switching one element on or off ever change it?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from app.catalogue.kind import Choice, Fuse, Kind, Load
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Tree, Value, holds

COLD_AND_WARM_C = (-30.0, 20.0)


@dataclass(frozen=True, slots=True)
class Trial:
    """A kind under fixed settings; ``named`` are the elements on which the term may hang."""

    kind: Kind
    values: Mapping[str, Choice]
    named: frozenset[str]
    known: dict[tuple[frozenset[str], float], dict[str, Value]] = field(default_factory=dict)
    """The values of states that were worked out, by what is on and the weather."""

    def moves(self, tree: Tree, name: str, sign: int) -> bool:
        """Return whether, with the others standing some way, switching ``name`` moves the term this way.

        The others are tried all on, all off, one alone on and one alone off, in the cold and in the warm; that finds
        whatever hangs on no more than two things at a time.
        """
        return any(
            self._holds(tree, others | {name}, outdoor_c) == (sign > 0)
            and self._holds(tree, others - {name}, outdoor_c) == (sign < 0)
            for others in self._standings(name)
            for outdoor_c in COLD_AND_WARM_C
        )

    def _standings(self, name: str) -> Iterator[frozenset[str]]:
        others = self.named - {name}
        yield others
        yield frozenset()
        for other in sorted(others):
            yield others - {other}
            yield frozenset({other})

    def _holds(self, tree: Tree, on: frozenset[str], outdoor_c: float) -> bool:
        known = self.known.setdefault((on, outdoor_c), {})

        def value_of(name: str) -> Value:
            if name in known:
                return known[name]
            if name in self.values:
                return self.values[name]
            if name == "outdoor_c":
                return outdoor_c
            if name in self.kind.states:
                # A state that comes round to itself through a timer reads what it was before: nothing.
                known[name] = False
                known[name] = holds(parse_term(self.kind.states[name]), value_of)
                return known[name]
            powered = isinstance(self.kind.elements.get(name), Load | Fuse) and name not in self.named
            return powered or name in on

        return holds(tree, value_of)
