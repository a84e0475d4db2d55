"""Makes the job of a hundred parts: a row of schoolrooms, each with equipment of its own.

Run ``python -m tests.demo_jobs.school_row`` to write ``demo_jobs/school-row-hundred-parts.json`` anew. Every system is
independent of the others and has at most 25 parts, so that growth can be measured by making the row longer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any

from tests.demo_jobs.writing import job_text

FILE = Path(__file__).resolve().parents[2] / "demo_jobs" / "school-row-hundred-parts.json"
NOTES = (
    "A hundred parts in one job, to see how the bench bears them. "
    "Quillmere, the row of schoolrooms along the sea wall, built a room at a time for eighty years. Every room has its "
    "own equipment, and no two were put in by the same hand: furnaces with cooling, heat pumps, a boiler with two "
    "loops, a hall with a zone panel. This job is made by a program, to see how the bench bears a hundred parts."
)
COLUMN, ROW = 1500, 1200
SPARE = "spare, capped and folded back at both ends"


@dataclass
class Row:
    """The layout as it grows."""

    parts: dict[str, Any] = field(default_factory=dict)
    cables: dict[str, Any] = field(default_factory=dict)
    conductors: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Room:
    """One room of the row: where its parts stand and how they are named."""

    row: Row
    number: int
    name: str

    def part(self, letters: str, kind: str, label: str, place: str, at: tuple[int, int], **settings: Any) -> None:
        """Add a part; its place and air are those of the room."""
        left, top = COLUMN * ((self.number - 1) % 4), ROW * ((self.number - 1) // 4)
        said: dict[str, Any] = {
            "kind": kind,
            "label": f"{label}, {self.name}",
            "place": f"{place} {self.number}",
            "air": self.name,
            "at": [left + at[0], top + at[1]],
        }
        if settings:
            said["settings"] = settings
        self.row.parts[f"{letters}{self.number}"] = said

    def cable(self, letters: str, label: str, length_m: float) -> None:
        """Add a cable of 18 AWG."""
        self.row.cables[f"{letters}{self.number}"] = {
            "label": f"{label}, {self.name}",
            "size_awg": 18,
            "length_m": length_m,
        }

    def wire(self, ends: str, insulation: str, cable: str = "", note: str = "") -> None:
        """Add a conductor between two terminals such as ``fb.R tc.R``, named without the number of the room."""
        said: dict[str, Any] = {"ends": [self._end(end) for end in ends.split()], "insulation": insulation}
        said.update({"cable": f"{cable}{self.number}"} if cable else {"length_m": 0.6})
        if note:
            said["note"] = note
        self.row.conductors[f"w{len(self.row.conductors) + 1}"] = said

    def _end(self, end: str) -> str | None:
        if end == "-":
            return None
        part, letter = end.split(".")
        return f"{part}{self.number}.{letter}"


def furnace_room(room: Room) -> None:
    """Furnace and cooling, a float in the outdoor call, humidity: eight parts."""
    room.part("xf", "control-transformer", "Transformer", "closet", (48, 204))
    room.part("fb", "furnace-board", "Furnace", "closet", (504, 204))
    room.part("tc", "thermostat-heat-cool", "Thermostat", "room", (1140, 120))
    room.part("hc", "humidity-control", "Humidity control", "closet", (48, 600))
    room.part("hu", "humidifier", "Humidifier", "closet", (504, 696))
    room.part("fs", "float-switch", "Float", "closet", (828, 600))
    room.part("ts", "terminal-strip", "Strip at the wall", "yard", (828, 816))
    room.part("ou", "condensing-unit", "Condensing unit", "yard", (1176, 600))
    room.cable("ca", "5-conductor to the thermostat", 6.0 + room.number % 5)
    room.cable("cb", "2-conductor through the wall", 9.0 + room.number % 3)
    room.wire("xf.R fb.XF", "RD")
    room.wire("xf.C fb.XC", "BU")
    for ends, insulation in (("fb.R tc.R", "RD"), ("fb.Y tc.Y", "YE"), ("fb.G tc.G", "GN"), ("fb.W tc.W", "WH")):
        room.wire(ends, insulation, "ca")
    room.wire("- -", "BU", "ca", SPARE)
    room.wire("fb.Y fs.A", "YE")
    room.wire("fs.B ts.1", "RD", "cb")
    room.wire("fb.C ts.2", "WH", "cb")
    room.wire("ts.1 ou.Y", "YE")
    room.wire("ts.2 ou.C", "BU")
    room.wire("fb.R hc.R", "RD")
    room.wire("hc.G fb.G", "GN")
    room.wire("hc.H hu.H", "OG")
    room.wire("hu.C fb.C", "BU")


def heat_pump_room(room: Room) -> None:
    """Heat pump with electric auxiliary: six parts. In every other room the valve is energised in heating."""
    valve = "heating" if room.number % 2 else "cooling"
    room.part("xf", "control-transformer", "Transformer", "closet", (48, 204), va=50)
    room.part("ah", "air-handler-board", "Air handler", "closet", (504, 204))
    room.part("tc", "thermostat-heat-pump", "Thermostat", "room", (1140, 60), valve_energised_in=valve)
    room.part("fs", "float-switch", "Float", "closet", (504, 732))
    room.part("ts", "terminal-strip", "Strip at the wall", "yard", (828, 660))
    room.part("ou", "heat-pump-unit", "Heat pump", "yard", (1176, 564), valve_energised_in=valve)
    room.cable("ca", "8-conductor to the thermostat", 8.0 + room.number % 4)
    room.cable("cb", "8-conductor through the wall", 10.0)
    room.wire("xf.R ah.XF", "RD")
    room.wire("xf.C ah.XC", "BU")
    room.wire("ah.W1 ah.W2", "WH", note="both banks come in together")
    for ends, insulation in (
        ("ah.R tc.R", "RD"),
        ("ah.C tc.C", "BU"),
        ("ah.Y tc.Y", "YE"),
        ("ah.O tc.O/B", "OG"),
        ("ah.G tc.G", "GN"),
        ("ah.W1 tc.W", "WH"),
    ):
        room.wire(ends, insulation, "ca")
    room.wire("ah.Y fs.A", "YE")
    for number, (inner, outer, insulation) in enumerate(
        (
            ("fs.B", "ou.Y", "YE"),
            ("ah.C", "ou.C", "BU"),
            ("ah.R", "ou.R", "RD"),
            ("ah.O", "ou.O/B", "OG"),
            ("ah.W1", "ou.W", "WH"),
        ),
        start=1,
    ):
        room.wire(f"{inner} ts.{number}", insulation, "cb")
        room.wire(f"ts.{number} {outer}", insulation)


def boiler_house(room: Room) -> None:
    """Two loops on one boiler: six parts."""
    room.part("xf", "control-transformer", "Transformer", "boiler house", (48, 336), mains_supply="second")
    room.part("bo", "boiler-control", "Boiler", "boiler house", (1176, 336))
    for letter, top, floor in (("a", 96, "ground floor"), ("b", 624, "upper floor")):
        room.part(f"t{letter}", "thermostat-heat-only", f"Thermostat {floor}", floor, (432, top))
        room.part(f"z{letter}", "zone-valve", f"Valve {floor}", "boiler house", (780, top + 60))
        room.cable(f"c{letter}", f"2-conductor to the {floor}", 12.0)
        room.wire(f"xf.R t{letter}.R", "RD", f"c{letter}")
        room.wire(f"t{letter}.W z{letter}.M1", "WH", f"c{letter}")
        room.wire(f"z{letter}.M2 xf.C", "BU")
        room.wire(f"z{letter}.E1 bo.T1", "OG")
        room.wire(f"z{letter}.E2 bo.T2", "BN")


def hall(room: Room) -> None:
    """A furnace with cooling behind a zone panel with two dampers: nine parts."""
    room.part("xf", "control-transformer", "Furnace transformer", "closet", (48, 60), mains_supply="furnace")
    room.part("fb", "furnace-board", "Furnace", "closet", (504, 60))
    room.part("ou", "condensing-unit", "Condensing unit", "yard", (1176, 60))
    room.part("xp", "control-transformer", "Panel transformer", "closet", (48, 540), va=50, mains_supply="second")
    room.part("zp", "zone-panel", "Zone panel", "closet", (504, 540))
    room.cable("ca", "4-conductor to the panel", 5.0)
    room.cable("cb", "2-conductor through the wall", 11.0)
    room.wire("xf.R fb.XF", "RD")
    room.wire("xf.C fb.XC", "BU")
    room.wire("fb.Y ou.Y", "RD", "cb")
    room.wire("fb.C ou.C", "WH", "cb")
    room.wire("xp.R zp.XR", "RD")
    room.wire("xp.C zp.XC", "BU")
    for letter, insulation in (("R", "RD"), ("Y", "YE"), ("G", "GN"), ("W", "WH")):
        room.wire(f"fb.{letter} zp.{letter}", insulation, "ca")
    for zone, (letter, end) in enumerate((("a", "stage end"), ("b", "door end")), start=1):
        room.part(f"t{letter}", "thermostat-heat-cool", f"Thermostat {end}", end, (1176, 156 + 168 * zone))
        room.part(f"d{letter}", "zone-damper", f"Damper {end}", "closet", (696 + 240 * zone, 984))
        room.cable(f"c{letter}t", f"4-conductor to the {end}", 9.0)
        room.cable(f"c{letter}d", f"2-conductor to the damper, {end}", 6.0)
        for screw, insulation in (("R", "RD"), ("Y", "YE"), ("G", "GN"), ("W", "WH")):
            room.wire(f"zp.Z{zone}{screw} t{letter}.{screw}", insulation, f"c{letter}t")
        room.wire(f"zp.D{zone} d{letter}.O", "RD", f"c{letter}d")
        room.wire(f"zp.D{zone}C d{letter}.C", "WH", f"c{letter}d")


SYSTEMS: tuple[tuple[int, str, Callable[[Room], None]], ...] = (
    (5, "room {}", furnace_room),
    (5, "room {}", heat_pump_room),
    (2, "house {}", boiler_house),
    (2, "hall {}", hall),
)
"""How many of each stand in a row of a hundred parts: 40 + 30 + 12 + 18."""


def school_row(rows: int = 1) -> dict[str, Any]:
    """Return the job document; ``rows`` of a hundred parts each stand one below the other."""
    row = Row()
    for number, (name, make) in zip(count(1), _systems(rows), strict=False):
        make(Room(row, number, name.format(number)))
    layout = {"label": "As surveyed", "parts": row.parts, "cables": row.cables, "conductors": row.conductors}
    return {
        "format": "rungwright-job",
        "version": 1,
        "title": f"School row: {len(row.parts)} parts",
        "notes": NOTES,
        "settings": {"frequency_hz": 60, "units": "us"},
        "layouts": {"as-left": layout},
    }


def _systems(rows: int) -> Iterator[tuple[str, Callable[[Room], None]]]:
    for _ in range(rows):
        for how_many, name, make in SYSTEMS:
            yield from [(name, make)] * how_many


if __name__ == "__main__":
    FILE.write_text(job_text(school_row()), encoding="utf-8")
