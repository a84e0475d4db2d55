"""Linear questions answered one by one in pure Python."""

from __future__ import annotations

from collections.abc import Sequence

from app.circuit.linear import Eliminated, Solution, eliminate
from app.circuit.network import Network
from app.circuit.plan import Plan
from app.circuit.state import Question


def solve_each(network: Network, questions: Sequence[Question]) -> list[Solution]:
    """Return the solution of each question of one network."""
    return [_solve(network, _plan(network, question), question) for question in questions]


def _plan(network: Network, question: Question) -> Plan:
    """Return a plan with room for what faults add to this question; that of others would only make it fuller."""
    return network.plan_with(frozenset((a, b) for a, b, _ in question.extras)) if question.extras else network.plan


def eliminated(network: Network, question: Question) -> Eliminated:
    """Return the network of a question with all sources dead, to be asked what one ampere does."""
    plan = _plan(network, question)
    return Eliminated(plan, _entries(network, plan, question), network.size)


def _entries(network: Network, plan: Plan, question: Question) -> list[complex]:
    figures, on, extras = question
    fixed, switching = figures.assembled(network, plan)
    entries = fixed.copy()
    for bit, entry, when_on, when_off in switching:
        entries[entry] += when_on if on >> bit & 1 else when_off
    for a, b, siemens in extras:
        entries[plan.entry_of[a, b]] += siemens
    return entries


def _solve(network: Network, plan: Plan, question: Question) -> Solution:
    return eliminate(plan, _entries(network, plan, question), injected_by_sources(network, question))


def injected_by_sources(network: Network, question: Question) -> list[complex]:
    """Return the amps that the live sources of a question bring into each node, as if their hot sides were shorted."""
    figures, on, _ = question
    injected = [0j] * network.size
    for source in figures.sources:
        if on >> source.slot & 1:
            amps = source.emf * source.siemens
            a, b = network.branches[source.slot].nodes
            injected[a] += amps
            injected[b] -= amps
    return injected
