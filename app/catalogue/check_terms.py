"""Do the terms of a kind read, and do they ask only for what there is?

Rules of the file: a state may depend on itself only through a timer or a latch, because a settled point has no
before and after.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from app.catalogue.kind import Kind
from app.catalogue.naming import askable_elements
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Compared, Constant, Named, Tree, Value, comparisons_in, names_in
from app.catalogue.terms import untimed_names_in as names_at_once
from app.job.names import pointer
from app.job.refusal import Refused


def check_terms(kind: Kind) -> None:
    """Refuse a term that does not read, asks for something unknown, or loops.

    Raises:
        Refused: ``bad-term``, ``unknown-name``, ``unknown-value`` or ``state-loop``; the pointer is within the kind.
    """
    set_up = frozenset({*kind.settings, *kind.switches, *kind.jumpers})
    everything = frozenset({*set_up, *askable_elements(kind), *kind.states, *kind.calls, "outdoor_c"})
    for at, text in _terms_of(kind):
        _check_term(kind, text, at, everything)
    for call, said in kind.calls.items():
        _check_term(kind, said.when, pointer("calls", call, "when"), set_up)
    _check_loops(kind)


def _terms_of(kind: Kind) -> Iterator[tuple[str, str]]:
    for name, text in kind.states.items():
        yield pointer("states", name), text
    for call, said in kind.calls.items():
        for contact, text in said.closes.items():
            yield pointer("calls", call, "closes", contact), text
    for effect, text in kind.effects.items():
        yield pointer("effects", effect), text


def _check_term(kind: Kind, text: str, at: str, allowed: frozenset[str]) -> None:
    try:
        tree = parse_term(text)
    except Refused as refused:
        raise Refused(refused.code, refused.message, pointer=at, would_be_right=refused.would_be_right) from None
    for name in names_in(tree):
        if name not in allowed:
            raise _unknown_name(kind, name, at, allowed)
    for comparison in comparisons_in(tree):
        _check_comparison(kind, comparison, at)


def _unknown_name(kind: Kind, name: str, at: str, allowed: Iterable[str]) -> Refused:
    if name in kind.elements:
        what = (
            f"The term asks for {name}, whose state it may not ask: a term asks coils, inputs, fuses and powered loads."
        )
    elif name in kind.states:
        what = (
            f"The term asks for the state {name}; whether there is a call at all depends on settings and switches only."
        )
    else:
        what = f"The term asks for {name}, which this kind does not have."
    own = sorted(allowed) or ["true"]
    return Refused("unknown-name", what, pointer=at, would_be_right="one of " + ", ".join(own))


def _check_comparison(kind: Kind, compared: Compared, at: str) -> None:
    for named, other in ((compared.left, compared.right), (compared.right, compared.left)):
        if not isinstance(named, Named) or not isinstance(other, Constant):
            continue
        possible = _possible_values(kind, named.name)
        if possible is not None and other.value not in possible:
            raise Refused(
                "unknown-value",
                f"{named.name} is never {other.value!r}.",
                pointer=at,
                would_be_right="one of " + ", ".join(repr(value) for value in possible),
            )


def _possible_values(kind: Kind, name: str) -> tuple[Value, ...] | None:
    """Return what a comparison with ``name`` can meet, None where that is not a short list."""
    if name in kind.switches:
        return kind.switches[name].positions
    if name in kind.jumpers:
        return ("fitted", "removed")
    if name in kind.settings:
        choices = kind.settings[name].choices
        return choices if any(isinstance(choice, str) for choice in choices) else None
    return None


def _check_loops(kind: Kind) -> None:
    trees = {name: parse_term(text) for name, text in kind.states.items()}
    order: dict[str, bool] = {}
    for name in trees:
        loop = _loop_from(name, trees, order, [])
        if loop:
            raise Refused(
                "state-loop",
                "These states depend on each other with no timer between: " + ", ".join([*loop, loop[0]]) + ".",
                pointer=pointer("states", loop[0]),
                would_be_right="a latch(set, reset) or a timer such as hold(x, 60 s) somewhere in the ring",
            )


def _loop_from(name: str, trees: Mapping[str, Tree], done: dict[str, bool], above: list[str]) -> list[str]:
    if name in above:
        return above[above.index(name) :]
    if done.get(name):
        return []
    for inner in names_at_once(trees[name]):
        if inner in trees:
            loop = _loop_from(inner, trees, done, [*above, name])
            if loop:
                return loop
    done[name] = True
    return []
