"""Cross-references lead from a coil to its contacts and back, and devices bear the letters of what they are."""

from __future__ import annotations

import re
from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import settings_of
from app.circuit.logic import PartScene
from app.circuit.template import template_of
from app.drawing.ladder.devices import PLAIN, designations
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.words import Wording, on_rungs
from app.job.model import Layout, Part
from app.job.sketch import sketch
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.ladder.seen import SeenLadder

CATALOGUE = builtin_catalogue()


@pytest.mark.parametrize("kind", sorted(CATALOGUE))
def test_whatever_moves_a_contact_is_referred_to(kind: str) -> None:
    """Elements are switched one by one by chance; a contact that then moves must name the element."""
    chance = Random(kind)
    template = template_of(CATALOGUE.kind(kind))
    movers = ladder_of(Layout(parts={"p": Part(kind=kind)}), CATALOGUE).movers
    for _ in range(40):
        values = settings_of(CATALOGUE.kind(kind), Part(kind=kind))
        for name, switch in CATALOGUE.kind(kind).switches.items():
            values[name] = chance.choice(switch.positions)
        scene = PartScene(template, values, (), 20.0, frozenset())
        bits = chance.getrandbits(len(template.judged)) if template.judged else 0
        memory = tuple(chance.randrange(2) for _ in scene.rest_memory())
        for place, at in enumerate(template.judged):
            moved = scene.outcome(bits, memory).on ^ scene.outcome(bits ^ 1 << place, memory).on
            for number, slot in enumerate(template.slots):
                if moved >> number & 1 and slot.element.is_ == "contact" and slot.element.by != "calls":
                    assert f"p.{template.slots[at].name}" in movers[f"p.{slot.name}"]


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_references_lead_there_and_back(name: str, layout: str) -> None:
    opened = demo(name)
    ladder = ladder_of(opened.job.layouts[layout], opened.catalogue)
    wording = Wording(ladder, opened.job.layouts[layout], opened.catalogue, {})
    there: set[tuple[int, int]] = set()
    back: set[tuple[int, int]] = set()
    for rung in ladder.rungs():
        for piece in rung.pieces:
            if piece.sort == "contact":
                back |= {(mover, rung.number) for mover in _numbers(wording.under(piece)[1])}
        for load in rung.loads():
            there |= {(rung.number, contact) for contact in _numbers(wording.moves(load.name))}
    assert there == back


def _numbers(words: str) -> set[int]:
    """Return the rung numbers that words name: ``by rungs 2, 5–7``."""
    found: set[int] = set()
    for first, last in re.findall(r"(\d+)(?:–(\d+))?", words):
        found.update(range(int(first), int(last or first) + 1))
    return found


def test_numbers_are_written_as_people_write_them() -> None:
    assert on_rungs([]) == ""
    assert on_rungs([7]) == "rung 7"
    assert on_rungs([9, 2, 5, 6, 7, 9]) == "rungs 2, 5–7, 9"
    assert on_rungs([1, 2]) == "rungs 1, 2"


def test_a_coil_and_its_contacts_share_their_letters() -> None:
    layout = sketch(
        {"xf": "control-transformer", "ir": "isolation-relay", "a": "fan-relay", "b": "fan-relay"},
        "xf.R ir.A1",
        "xf.C ir.A2",
        "xf.R ir.COM",
        "ir.NO a.G",
        "a.C xf.C",
        "ir.NC b.G",
        "b.C xf.C",
    )
    called = designations(ladder_of(layout, CATALOGUE), layout, CATALOGUE)
    contacts = sorted(own for name, own in called.items() if name in ("ir.make", "ir.break"))
    assert contacts == [f"{called['ir.coil']}-A", f"{called['ir.coil']}-B"]
    assert len({called["ir.coil"], called["a.coil"], called["b.coil"]}) == 3


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_no_two_devices_are_called_alike(name: str, layout: str) -> None:
    """Only a coil and the one contact that it moves bear the same designation."""
    opened = demo(name)
    found = opened.job.layouts[layout]
    ladder = ladder_of(found, opened.catalogue)
    called = designations(ladder, found, opened.catalogue)
    devices = {p.name for rung in ladder.rungs() for p in rung.pieces if p.sort not in PLAIN}
    assert called.keys() == devices
    bearers: dict[str, list[str]] = {}
    for device, letters in called.items():
        bearers.setdefault(letters, []).append(device)
    for one, *others in bearers.values():
        assert len(others) <= 1
        assert all(other in ladder.moved.get(one, ()) or one in ladder.moved.get(other, ()) for other in others)


def test_what_is_drawn_says_its_screws_and_conductors() -> None:
    opened = demo("post-office-dual-fuel")
    layout = opened.job.layouts["as-left"]
    words = " ".join(record.text.words for record in SeenLadder(layout, opened.catalogue).texts if record.text)
    for name, conductor in layout.conductors.items():
        if len(conductor.landed()) == 2:
            assert re.search(rf"\b{name}\b", words)
            assert all(end in words for end in conductor.landed())


def test_below_the_rungs_stands_which_part_each_screw_is_on() -> None:
    layout = sketch(
        {
            "fb": {"kind": "furnace-board", "label": "Furnace", "place": "cellar"},
            "tc": {"kind": "thermostat-heat-only", "label": "Thermostat, hall", "place": "hall"},
            "x": {"kind": "unknown"},
        },
        "fb.R tc.R",
        "fb.W tc.W",
        "fb.C x.C",
    )
    rows = [record.text.words for record in SeenLadder(layout, CATALOGUE).texts if record.text]
    (first,) = [at for at, words in enumerate(rows) if words.startswith("Parts: ")]
    assert " ".join(rows[first:]).startswith("Parts: fb is Furnace, cellar; tc is Thermostat, hall; x is not known.")
