"""What a person does at the bench and what she sees: the small vocabulary of the browser tests."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any
from urllib.request import Request, urlopen

from playwright.sync_api import Locator, Page, expect
from playwright.sync_api import Request as Sent

HEAT_PUMP_KINDS = ("control-transformer", "air-handler-board", "heat-pump-unit", "thermostat-heat-pump")
HEAT_PUMP_WIRES = (
    ("control-transformer.R", "air-handler-board.XF"),
    ("control-transformer.C", "air-handler-board.XC"),
    ("air-handler-board.R", "thermostat-heat-pump.R"),
    ("air-handler-board.C", "thermostat-heat-pump.C"),
    ("air-handler-board.Y", "thermostat-heat-pump.Y"),
    ("air-handler-board.O", "thermostat-heat-pump.O/B"),
    ("air-handler-board.G", "thermostat-heat-pump.G"),
    ("air-handler-board.W1", "thermostat-heat-pump.W"),
    ("air-handler-board.R", "heat-pump-unit.R"),
    ("air-handler-board.C", "heat-pump-unit.C"),
    ("air-handler-board.Y", "heat-pump-unit.Y"),
    ("air-handler-board.O", "heat-pump-unit.O/B"),
    ("air-handler-board.W1", "heat-pump-unit.W"),
    ("heat-pump-unit.L", "thermostat-heat-pump.L"),
)
"""A heat pump system with every conductor that it needs, ends by the kind of their part."""

RUNS = {
    "fan": {"indoor-fan"},
    "cool-1": {"indoor-fan", "compressor", "cooling", "outdoor-fan"},
    "heat-1": {"indoor-fan", "compressor", "heat-pump-heating", "outdoor-fan"},
    "aux-heat": {"indoor-fan", "compressor", "heat-pump-heating", "outdoor-fan", "electric-heat"},
    "emergency-heat": {"indoor-fan", "electric-heat"},
}
"""What each call of that system must make run, from what the equipment is for."""


class Hands:
    """One person at one page. Screws are named ``part.LETTER`` or ``kind.LETTER`` where a kind stands once."""

    def __init__(self, page: Page, server: str) -> None:
        self.page = page
        self.server = server
        self.patches: list[object] = []
        self.expects_refusal = False
        page.on("request", self._keep_patch)

    def _keep_patch(self, sent: Sent) -> None:
        if sent.method == "PATCH":
            self.patches.append(sent.post_data_json)

    # Jobs

    def make_job(self, layouts: Mapping[str, Any], title: str = "Trial") -> str:
        """Make a job at the server and return its id."""
        return self._post("/api/jobs", {"format": "rungwright-job", "version": 1, "title": title, "layouts": layouts})

    def copy_demo(self, name: str) -> str:
        """Make a copy of a demo and return its id."""
        return self._post(f"/api/demos/{name}", {})

    def open_job(self, job: str) -> None:
        """Open the bench and wait until it is ready."""
        self.page.goto(f"/jobs/{job}")
        self.wait_ready()

    def open_parts(self, parts: Mapping[str, Any], *wires: tuple[str | None, str | None]) -> str:
        """Open a job of these parts (by id: a kind, or the fields of a part) and wires named w1, w2 …"""
        full = {name: {"kind": part} if isinstance(part, str) else part for name, part in parts.items()}
        conductors = {f"w{number}": {"ends": list(ends)} for number, ends in enumerate(wires, start=1)}
        job = self.make_job({"as-left": {"parts": full, "conductors": conductors}})
        self.open_job(job)
        return job

    def open_empty(self) -> None:
        """Start an empty job from the list of jobs, as a newcomer would."""
        self.page.goto("/")
        self.page.click("[data-action=start-empty]")
        self.wait_ready()

    def wait_ready(self) -> None:
        """Wait until the bench has its first drawing and its steps."""
        self.page.wait_for_selector("main[data-ready=yes]")

    def document(self) -> Any:
        """Return the job as the server has it."""
        job = self.page.locator("#bench").get_attribute("data-job")
        with urlopen(f"{self.server}/api/jobs/{job}") as reply:
            return json.load(reply)

    def layout(self, name: str = "as-left") -> Any:
        """Return a layout as the server has it."""
        return self.document()["layouts"][name]

    def change_elsewhere(self, *operations: Mapping[str, Any]) -> None:
        """Change the job behind the page's back, as another device would."""
        job = self.page.locator("#bench").get_attribute("data-job")
        with urlopen(f"{self.server}/api/jobs/{job}") as reply:
            revision = reply.headers["ETag"]
        headers = {"Content-Type": "application/json-patch+json", "If-Match": revision}
        request = Request(f"{self.server}/api/jobs/{job}", json.dumps(operations).encode(), headers, method="PATCH")
        urlopen(request).close()

    # Where things are

    def part(self, kind_or_id: str) -> str:
        """Return the id of a part by its kind or id."""
        found: str | None = self.page.evaluate(
            "name => { const ids = [...document.querySelectorAll('#sheet [data-part]')].map(n => n.dataset.part);"
            " return ids.includes(name) ? name : ids.find(id => id.replace(/-[a-z0-9]{5}$/, '') === name) ?? null; }",
            kind_or_id,
        )
        assert found, f"there is a part {kind_or_id} on the sheet"
        return found

    def screw(self, name: str) -> str:
        """Return ``part.LETTER`` of a screw."""
        part, letter = name.split(".", 1)
        return f"{self.part(part)}.{letter}"

    def at(self, hook: str) -> tuple[float, float]:
        """Return where the thing with ``data-x`` under a selector is on the screen."""
        found: list[float] | None = self.page.evaluate(
            "hook => { const node = document.querySelector(`#sheet ${hook}`); if (!node) return null;"
            " const sheet = new DOMPoint(Number(node.dataset.x), Number(node.dataset.y));"
            " const point = sheet.matrixTransform(node.getScreenCTM());"
            " return [point.x, point.y]; }",
            hook,
        )
        assert found, f"{hook} is on the sheet"
        return found[0], found[1]

    def at_screw(self, name: str) -> tuple[float, float]:
        """Return where a screw is on the screen."""
        return self.at(f'[data-terminal="{self.screw(name)}"]')

    def at_end(self, end: str) -> tuple[float, float]:
        """Return where an end is on the screen."""
        return self.at(f'[data-end="{end}"]')

    def matrix(self, *, at_rest: bool = True) -> list[float]:
        """Return pan and zoom of the sheet."""
        if at_rest:
            self.page.wait_for_function("() => !document.querySelector('#sheet .drawn').style.transform")
        found: list[float] = self.page.evaluate(
            "() => { const m = document.querySelector('#sheet .drawing').getScreenCTM(); return [m.a, m.e, m.f]; }"
        )
        return found

    def paper(self) -> tuple[float, float]:
        """Return a point of the sheet on which nothing lies."""
        box = self.page.locator("#sheet").bounding_box()
        assert box
        return box["x"] + box["width"] - 12, box["y"] + 60

    # What is done

    def add_part(self, kind: str) -> str:
        """Add a part by its button and return its id."""
        button = self.page.locator(f'[data-add-kind="{kind}"]')
        if not button.is_visible():
            self.page.locator("#add-toggle:visible, #add-open:visible").first.click()
        with self.saved():
            button.click()
        return self.part(kind)

    def drag(self, start: tuple[float, float], end: tuple[float, float], *, drop: bool = True) -> None:
        """Drag with the mouse, in steps as a hand would."""
        mouse = self.page.mouse
        mouse.move(*start)
        mouse.down()
        mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2, steps=4)
        mouse.move(*end, steps=4)
        if drop:
            mouse.up()

    def tap(self, point: tuple[float, float]) -> None:
        """Tap with a finger."""
        self.page.touchscreen.tap(*point)

    def press(self, *keys: str) -> None:
        """Press keys one after the other."""
        for key in keys:
            self.page.keyboard.press(key)

    def pull(self, start: str, end: str) -> None:
        """Drag a new conductor from screw to screw, and wait until it is saved."""
        with self.saved():
            self.drag(self.at_screw(start), self.at_screw(end))

    def undo(self) -> None:
        """Undo one step by its button."""
        with self.saved():
            self.page.click("[data-action=undo]")

    def redo(self) -> None:
        """Redo one step by its button."""
        with self.saved():
            self.page.click("[data-action=redo]")

    @contextmanager
    def saved(self, patches: int = 1) -> Iterator[None]:
        """Do something that sends exactly so many patches, and wait until the page shows the answers."""
        before = len(self.patches)
        revision = self.revision()
        yield
        expect(self.page.locator("#bench")).to_have_attribute("data-revision", str(revision + patches))
        assert len(self.patches) == before + patches, f"{patches} patch for one gesture"

    @contextmanager
    def nothing_sent(self) -> Iterator[None]:
        """Do something that sends no patch."""
        before = len(self.patches)
        yield
        self.page.wait_for_timeout(80)
        assert self.patches[before:] == []

    # What is seen

    def revision(self) -> int:
        """Return the revision that the page shows."""
        return int(self.page.locator("#bench").get_attribute("data-revision") or "0")

    def state(self) -> Locator:
        """Return the words of the state line."""
        return self.page.locator("#state-words")

    def spoken(self) -> Locator:
        """Return what is said to a screen reader."""
        return self.page.locator("#status")

    def rules(self, severity: str = "") -> list[str]:
        """Return the rules of the findings that stand, in their order."""
        of = f".{severity}" if severity else ""
        found: Sequence[str] = self.page.eval_on_selector_all(
            f"[data-rule]{of}:not(.is-cleared)", "rows => rows.map(row => row.dataset.rule)"
        )
        return list(found)

    def focused(self) -> str:
        """Return the key of the thing that has focus, or the tag that has it."""
        found: str = self.page.evaluate(
            "() => document.activeElement.dataset.key ?? document.activeElement.id ?? document.activeElement.tagName"
        )
        return found

    def conductors(self) -> set[frozenset[str]]:
        """Return what joins what on the layout, by the kind of the parts."""

        def named(end: str) -> str:
            return re.sub(r"-[a-z0-9]{5}\.", ".", end)

        return {frozenset(named(end) for end in one["ends"]) for one in self.layout()["conductors"].values()}

    def _post(self, path: str, body: Any) -> str:
        request = Request(self.server + path, json.dumps(body).encode(), {"Content-Type": "application/json"})
        with urlopen(request) as reply:
            found: str = json.load(reply)["id"]
        return found


def wire_heat_pump(hands: Hands, join: Callable[[str, str], None]) -> None:
    """Land every conductor of the heat pump system with ``join``, and look at the result."""
    for start, end in HEAT_PUMP_WIRES:
        join(start, end)
    assert hands.conductors() == {frozenset(ends) for ends in HEAT_PUMP_WIRES}


def try_each_call(hands: Hands) -> None:
    """Choose each call and look at what runs."""
    effects = hands.page.locator("[data-effect]")
    for call, wanted in RUNS.items():
        # The call is pressed at once; what it does is shown with the answer.
        with hands.page.expect_response("**/shown?*"):
            hands.page.click(f'[data-call$="={call}"]')
        for effect in wanted:
            expect(hands.page.locator(f'[data-effect$=":{effect}"]')).to_be_attached()
        expect(effects).to_have_count(len(wanted))


def take_svg(hands: Hands) -> str:
    """Take the drawing away and return it."""
    with hands.page.expect_download() as download:
        hands.page.click("[data-action=export]")
    path = download.value.path()
    return path.read_text(encoding="utf-8")
