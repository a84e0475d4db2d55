"""A network of contacts conducts exactly when its Boolean function is true: the published example, row by row."""

from __future__ import annotations

from functools import partial
from itertools import product

from app.catalogue.kind import Kind
from app.circuit.situation import Situation
from app.job.model import Layout
from app.job.sketch import sketch
from tests.circuit.bench import CATALOGUE, solved, terminals
from tests.outside.record import Check, Exactly, Method, Source

RELAYS = "wxyz"
OPERATES_AT = (1, 3, 4)
"""The relay operates when any one, any three or all four of four relays operate."""
CHANGEOVERS = range(4)
TRANSFER_RELAY = Kind.model_validate(
    {
        "title": "Relay with four changeover contacts",
        "summary": "",
        "terminals": terminals(
            A="call", B="common", **{f"{n}{letter}": "dry" for n in CHANGEOVERS for letter in ("COM", "NO", "NC")}
        ),
        "elements": {
            "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": 2, "va_inrush": 2},
            **{f"no{n}": {"is": "contact", "between": [f"{n}COM", f"{n}NO"], "by": "coil"} for n in CHANGEOVERS},
            **{
                f"nc{n}": {"is": "contact", "between": [f"{n}COM", f"{n}NC"], "by": "coil", "rest": "closed"}
                for n in CHANGEOVERS
            },
        },
    }
)
KINDS = CATALOGUE.with_kinds({"transfer-relay": TRANSFER_RELAY})


def symmetric_network() -> Layout:
    """Return the network: behind each relay one node for every count of relays that operate so far."""
    parts = {"xf": "supply", "k": "relay", **{f"s{name}": "hand-switch" for name in RELAYS}}
    parts |= {f"r{name}": "transfer-relay" for name in RELAYS}
    wires = [f"xf.R r{RELAYS[0]}.0COM", "k.B xf.C"]
    for name in RELAYS:
        wires += [f"xf.R s{name}.A", f"s{name}.B r{name}.A", f"r{name}.B xf.C"]
    for at, name in enumerate(RELAYS):
        for count in range(at + 1):
            for letter, reached in (("NO", count + 1), ("NC", count)):
                if at + 1 < len(RELAYS):
                    wires.append(f"r{name}.{count}{letter} r{RELAYS[at + 1]}.{reached}COM")
                elif reached in OPERATES_AT:
                    wires.append(f"r{name}.{count}{letter} k.A")
    return sketch(parts, *wires)


NETWORK = symmetric_network()


def row(operating: str) -> str:
    """Return the state of the relay while these of the four operate."""
    positions = {f"s{name}.hand": "closed" if name in operating else "open" for name in RELAYS}
    return solved(NETWORK, Situation(set=positions), KINDS).elements["k.coil"].state


ROWS = ["".join(name for name, on in zip(RELAYS, bits, strict=True) if on) for bits in product((False, True), repeat=4)]

SOURCE = Source(
    title="C. E. Shannon, A symbolic analysis of relay and switching circuits, Transactions AIEE 57 (1938) 713-723",
    status="publication seen, example from memory",
    how="the state of a relay behind a network of the changeover contacts of four others, each worked by a switch",
    checks=tuple(
        Check(
            f"with {', '.join(operating) or 'none'} operating",
            Exactly("pulled-in" if len(operating) in OPERATES_AT else "released"),
            partial(row, operating),
        )
        for operating in ROWS
    ),
    methods=(
        Method(
            "random series-parallel networks of contacts against their Boolean function, every row",
            "tests/outside/test_relay_algebra.py::test_a_series_parallel_network_conducts_as_its_function_says",
            "exact",
            "publication seen, example from memory",
        ),
        Method(
            "bridges of random contacts against the function of a bridge, every row",
            "tests/outside/test_relay_algebra.py::test_a_bridge_conducts_as_its_function_says",
            "exact",
            "publication seen, example from memory",
        ),
    ),
)
