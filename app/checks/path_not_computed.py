"""What is asked over some wires was not checked

What it checks
Wires landed on terminals through which nothing is computed here: a data pair, a millivolt circuit, two calls that
share a conductor through diodes.

Why it matters
What a control asks over such a path, and what the equipment then does, is in no answer and in no finding: only the
24 V beside it are. A job that says nothing else is not known to be sound (a limit of this program, said so that
nobody takes silence for a proof).

What to do
Prove on site what each call brings, call by call. The equipment's own display or fault memory tells what arrived; a
meter on 24 V does not.

Limits
Sensor pairs carry no call and are not named. That 24 V lands on such a terminal is another rule's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.catalogue.kind import Opaque
from app.catalogue.spoken import upper_first
from app.checks.context import CheckContext
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Wires, dual_fuel, gas_and_cooling
from app.job.model import Layout
from app.job.sketch import sketch

NAME = "path-not-computed"
SEVERITY: Severity = "note"
TOGETHER = "What is asked over {count} paths is not computed here and was not checked: {names}."

_BUS_PARTS = {"xf": "control-transformer", "fb": "furnace-board-bus", "tc": "thermostat-bus"}
_BUS_WIRES: Wires = {
    "w1": "xf.R fb.XF",
    "w2": "xf.C fb.XC",
    "w3": "fb.R tc.R",
    "w4": "fb.C tc.C",
    "w5": "fb.D1 tc.D1",
    "w6": "fb.D2 tc.D2",
}


def _on_a_bus(wires: Wires | None = None) -> Layout:
    every = {**_BUS_WIRES, **(wires or {})}
    return sketch(_BUS_PARTS, *(f"{name}: {ends}" for name, ends in every.items() if ends is not None))


GOOD = (
    Good("every-call-is-24-volts", gas_and_cooling()),
    Good("a-data-pair-with-nothing-landed", _on_a_bus({"w5": None, "w6": None}), near_miss=True),
    Good("a-sensor-pair", dual_fuel({"s1": "tc.S1 tc.S2"}), near_miss=True),
)
BAD = (
    Bad("calls-travel-as-data", _on_a_bus(), finds=(("part:fb", "part:tc"),)),
    Bad(
        "a-millivolt-thermostat",
        sketch(
            {"mt": "millivolt-thermostat", "mv": "millivolt-valve"},
            "w1: mt.T1 mv.TH",
            "w2: mt.T2 mv.TH/TP",
        ),
        finds=(("part:mt", "part:mv"),),
    ),
)

Path = tuple[str, frozenset[str]]
"""Why nothing is computed through an element, and the islands on which its landed terminals lie."""


def check(context: CheckContext) -> Iterable[Finding]:
    paths = {part: found for part in sorted(context.wired_parts) if (found := list(_paths(context, part)))}
    while paths:
        first = next(iter(paths))
        together = {first: paths.pop(first)}
        for part in _reached(together, paths):
            together[part] = paths.pop(part)
        yield _finding(context, sorted(together), sorted({why for found in together.values() for why, _ in found}))


def _paths(context: CheckContext, part: str) -> Iterator[Path]:
    kind = context.kind_of(part)
    for element in kind.elements.values() if kind is not None else ():
        if isinstance(element, Opaque):
            terminals = [f"{part}.{node}" for node in element.nodes]
            if landed := [each for each in terminals if context.wiring.landed_on(each) and _carries(context, each)]:
                yield element.why, frozenset(context.wired.of(each) for each in landed)


def _carries(context: CheckContext, terminal: str) -> bool:
    """Return whether what a terminal is for may be a call."""
    return context.function_of(terminal) != "sensor"


def _reached(together: dict[str, list[Path]], others: dict[str, list[Path]]) -> list[str]:
    """Return the other parts whose paths are joined with those of the first by wires, one after another."""
    islands = {island for found in together.values() for _, own in found for island in own}
    reached: list[str] = []
    left = dict(others)
    while near := [part for part, found in left.items() if any(islands & own for _, own in found)]:
        for part in near:
            islands.update(island for _, own in left.pop(part) for island in own)
        reached += near
    return reached


def _finding(context: CheckContext, parts: list[str], reasons: list[str]) -> Finding:
    labels = [context.label_of(part) for part in parts]
    named = " and ".join([", ".join(labels[:-1]), labels[-1]] if len(labels) > 1 else labels)
    where = "between" if len(labels) > 1 else "through"
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=tuple(f"part:{part}" for part in parts),
        message=f"What is asked {where} {named} is not computed here and was not checked.",
        why=" ".join(f"{upper_first(reason)}." for reason in reasons),
        brief=named,
    )
