"""Whatever a job brings along as a kind is a kind or is refused with its place; nothing else ever comes of it."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from random import Random
from typing import Any

import pytest

from app.catalogue.kind import Kind
from app.catalogue.reading import kind_from
from app.job.refusal import Refused
from tests.catalogue.kinds import KIND_IDS, SMALL, packed_text

ODD: tuple[Any, ...] = (
    None,
    True,
    0,
    -1,
    1e300,
    2**80,
    0.5,
    "",
    "R",
    "c",
    "relay",
    "after(a",
    "a" * 600,
    [],
    {},
    [1],
    {"is": 3},
)
ODD_KEYS = ("is", "by", "R", "q", "Ω", "calls", "fan", "heat-1", "between", "")


def places(value: Any, above: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Yield every place within a kind."""
    for key in value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ():
        yield (*above, key)
        yield from places(value[key], (*above, key))


def mutated(said: dict[str, Any], random: Random) -> dict[str, Any]:
    """Return a kind with one to three odd things in it."""
    said = deepcopy(said)
    for _ in range(random.randint(1, 3)):
        everywhere = list(places(said))
        if not everywhere:
            break
        *above, last = random.choice(everywhere)
        holder: Any = said
        for step in above:
            holder = holder[step]
        what = random.choice(("replace", "remove", "add", "swap"))
        if what == "replace":
            holder[last] = deepcopy(random.choice(ODD))
        elif what == "remove":
            del holder[last]
        elif what == "add" and isinstance(holder, dict):
            holder[random.choice(ODD_KEYS)] = deepcopy(random.choice(ODD))
        elif what == "swap":
            *others, other = random.choice(everywhere)
            if others == above and other in (holder if isinstance(holder, dict) else range(len(holder))):
                holder[last], holder[other] = holder[other], holder[last]
    return said


def outcome(said: dict[str, Any]) -> Kind | Refused:
    """Return the kind, or how it was refused."""
    try:
        return kind_from("brought", said)
    except Refused as refused:
        return refused


def check_mutations(seeds: range) -> int:
    """Mutate a kind for each seed; return how many of them were refused."""
    refused = 0
    for seed in seeds:
        random = Random(seed)
        said = mutated(packed_text(random.choice(KIND_IDS)) if seed % 3 else SMALL, random)
        came = outcome(said)
        if isinstance(came, Refused):
            assert (came.pointer or "").startswith("/kinds/brought"), f"seed {seed}"
            assert came.would_be_right, f"seed {seed}"
            refused += 1
    return refused


def test_some_mutated_kinds_are_kinds_or_refused() -> None:
    assert check_mutations(range(300)) > 100


@pytest.mark.slow
def test_many_mutated_kinds_are_kinds_or_refused() -> None:
    assert check_mutations(range(10_000)) > 3000
