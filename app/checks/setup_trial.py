"""Finding the setting that puts a fault right, by trying: each other choice of each setting that the terms of the
calls ask for is tried on a copy of the layout and solved.

A person changes one setting at a time and looks; so does this. Nothing is guessed from the name of a setting.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from app.catalogue.kind import Choice, Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.spoken import plain
from app.catalogue.terms import names_in
from app.checks.context import CheckContext
from app.checks.facts.silence import falling_short
from app.checks.facts.valves import wrong_valves
from app.checks.facts.weather import looked_at_closely
from app.checks.fixes import Fix, choose
from app.circuit.network import build_circuit
from app.circuit.solve import solve_all
from app.job.model import Job

IsPutRight = Callable[[CheckContext], bool]


def setting_that(context: CheckContext, parts: Iterable[str], put_right: IsPutRight) -> tuple[str, Fix] | None:
    """Return the words and the fix of the first setting that makes ``put_right`` true; None where no single one does.

    ``parts`` are tried in the order given, the settings of each by name.
    """
    for part in parts:
        for name, value in _other_choices(context, part):
            tried = _with_setting(context, part, name, value)
            if put_right(tried) and _is_no_worse(context, tried):
                use = context.wiring.kinds[part].settings[name].use or plain(name)
                words = f"set {use} to {plain(str(value))} on {context.label_of(part)}"
                return words, choose(context, part, name, value)
    return None


def _other_choices(context: CheckContext, part: str) -> Iterator[tuple[str, Choice]]:
    kind = context.wiring.kinds[part]
    present = context.wiring.settings[part]
    for name in sorted(_asked_by_calls(kind)):
        setting = kind.settings.get(name)
        for value in setting.choices if setting is not None else ():
            if value != present[name]:
                yield name, value


def _asked_by_calls(kind: Kind) -> set[str]:
    """The names that decide which contacts a call closes, through states."""
    ahead = [term for call in kind.calls.values() for term in call.closes.values()]
    found: set[str] = set()
    while ahead:
        for name in names_in(parse_term(ahead.pop())):
            if name not in found:
                found.add(name)
                if name in kind.states:
                    ahead.append(kind.states[name])
    return found


def _is_no_worse(before: CheckContext, after: CheckContext) -> bool:
    """A setting that silences a call, turns a valve the wrong way or takes a call out of the set-up is no cure."""
    calls = {each.text() for each in before.called} <= {each.text() for each in after.called}
    silent = {each.called.text() for each in falling_short(after)} <= {
        each.called.text() for each in falling_short(before)
    }
    valves = {each.part for each in wrong_valves(after)} <= {each.part for each in wrong_valves(before)}
    return calls and silent and valves


def _with_setting(context: CheckContext, part: str, name: str, value: Choice) -> CheckContext:
    found = context.layout.parts[part]
    changed = found.model_copy(update={"settings": {**found.settings, name: value}})
    layout = context.layout.model_copy(update={"parts": {**context.layout.parts, part: changed}})
    layouts = {**context.job.layouts, context.layout_name: layout}
    job: Job = context.job.model_copy(update={"layouts": layouts})
    situations = looked_at_closely(layout, context.catalogue)
    circuit = build_circuit(layout, context.catalogue, job.settings.frequency_hz)
    return CheckContext(job, context.layout_name, context.catalogue, circuit, solve_all(circuit, situations))
