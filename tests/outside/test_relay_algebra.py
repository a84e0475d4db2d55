"""Random networks of contacts against their Boolean function, every row of it.

A contact is one of a relay whose coil a switch works; it is written ``x`` where it makes and ``x'`` where it breaks.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve_all
from app.job.model import Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE

VARIABLES = "abcd"
Row = Mapping[str, bool]


@dataclass(frozen=True)
class Contact:
    variable: str
    makes: bool

    def value(self, row: Row) -> bool:
        return row[self.variable] == self.makes


@dataclass(frozen=True)
class Series:
    one: Network
    other: Network

    def value(self, row: Row) -> bool:
        return self.one.value(row) and self.other.value(row)


@dataclass(frozen=True)
class Parallel:
    one: Network
    other: Network

    def value(self, row: Row) -> bool:
        return self.one.value(row) or self.other.value(row)


Network = Contact | Series | Parallel
CONTACTS = st.builds(Contact, st.sampled_from(VARIABLES), st.booleans())
NETWORKS = st.recursive(
    CONTACTS, lambda inner: st.builds(Series, inner, inner) | st.builds(Parallel, inner, inner), max_leaves=12
)


class Wiring:
    """Collects relays and wires; a contact goes from one terminal to another."""

    def __init__(self) -> None:
        self.parts = {"xf": Part(kind="supply", settings={"va": 200}), "la": Part(kind="lamp")}
        self.parts |= {f"s{name}": Part(kind="hand-switch") for name in VARIABLES}
        self.wires = [("la.B", "xf.C"), *(("xf.R", f"s{name}.A") for name in VARIABLES)]

    def node(self) -> str:
        name = f"n{len(self.parts)}"
        self.parts[name] = Part(kind="joint")
        return f"{name}.A"

    def contact(self, contact: Contact, a: str, b: str) -> None:
        name = f"k{len(self.parts)}"
        self.parts[name] = Part(kind="relay", settings={"va": 0.5})
        letter = "NO" if contact.makes else "NC"
        self.wires += [(f"s{contact.variable}.B", f"{name}.A"), (f"{name}.B", "xf.C")]
        self.wires += [(a, f"{name}.COM"), (f"{name}.{letter}", b)]

    def lay(self, network: Network, a: str, b: str) -> None:
        match network:
            case Contact():
                self.contact(network, a, b)
            case Series(one, other):
                middle = self.node()
                self.lay(one, a, middle)
                self.lay(other, middle, b)
            case Parallel(one, other):
                self.lay(one, a, b)
                self.lay(other, a, b)

    def rows(self) -> list[tuple[Row, bool]]:
        """Return for every row of the truth table whether the lamp has the volts of the source."""
        wires = {f"w{at}": Conductor(ends=ends) for at, ends in enumerate(self.wires)}
        circuit = build_circuit(Layout(parts=self.parts, conductors=wires), CATALOGUE)
        rows = [dict(zip(VARIABLES, bits, strict=True)) for bits in product((False, True), repeat=len(VARIABLES))]
        positions = [{f"s{name}.hand": "closed" if on else "open" for name, on in row.items()} for row in rows]
        points = solve_all(circuit, [Situation(set=position) for position in positions])
        found = [point.volts_between("la.A", "la.B") for point in points]
        assert all(volts is None or volts == 0 or volts > 20 for volts in found)
        return [(row, bool(volts)) for row, volts in zip(rows, found, strict=True)]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(NETWORKS)
def test_a_series_parallel_network_conducts_as_its_function_says(network: Network) -> None:
    wiring = Wiring()
    wiring.lay(network, "xf.R", "la.A")
    for row, conducts in wiring.rows():
        assert conducts == network.value(row)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.tuples(CONTACTS, CONTACTS, CONTACTS, CONTACTS, CONTACTS))
def test_a_bridge_conducts_as_its_function_says(contacts: tuple[Contact, ...]) -> None:
    upper_in, lower_in, across, upper_out, lower_out = contacts
    wiring = Wiring()
    upper, lower = wiring.node(), wiring.node()
    for contact, a, b in zip(
        contacts,
        ("xf.R", "xf.R", upper, upper, lower),
        (upper, lower, lower, "la.A", "la.A"),
        strict=True,
    ):
        wiring.contact(contact, a, b)
    for row, conducts in wiring.rows():
        said = (
            (upper_in.value(row) and upper_out.value(row))
            or (lower_in.value(row) and lower_out.value(row))
            or (upper_in.value(row) and across.value(row) and lower_out.value(row))
            or (lower_in.value(row) and across.value(row) and upper_out.value(row))
        )
        assert conducts == said
