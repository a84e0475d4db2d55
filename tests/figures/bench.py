"""The bench in a Chromium with its processor slowed four times: first drawing, gestures, dragging, bytes, nodes.

The server runs beside it at its own pace. Everything that is told as milliseconds depends on the machine; the
yardstick of the page, and what the same page does when nobody touches it, are told beside it.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterator
from itertools import cycle

from playwright.sync_api import Browser

from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS
from tests.figures.service import serving
from tests.figures.slowed import WATCH, Slowed, chromium, slowed_page, transferred

GESTURES = 300
PATCHES = 1000
OPENINGS = 5
SLOW_FRAME_MS = 33.4
DRAG_STEPS = 240
FIRST_PAINT = "() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime"


def figures() -> Iterator[str]:
    """Yield what each aim of the bench comes to."""
    with serving() as server, chromium() as browser:
        address = f"http://{server.connection.host}:{server.connection.port}"
        yield first_drawing(browser, address)
        yield bytes_on_first_open(browser, address)
        yield from gestures(browser, address, at_once=False)
        yield from gestures(browser, address, at_once=True)
        yield dragging(browser, address, "part", '[data-part="ou13"][data-box]', ".mark-outline")
        yield dragging(browser, address, "wire", '[data-part="ou13"] [data-terminal]', ".mark-pulled")
        yield nodes_over_patches(browser, address)


def first_drawing(browser: Browser, address: str) -> str:
    """Return how long it takes from the click on a demo until its drawing stands, with nothing in a cache."""
    opened, plain, pace = [], [], []
    for _ in range(OPENINGS):
        with slowed_page(browser, address) as slowed:
            page = slowed.page
            page.goto("/")
            pace.append(slowed.yardstick_ms())
            page.click(f'[data-demo="{DUAL_FUEL}"]')
            slowed.hands.wait_ready()
            page.wait_for_function("() => globalThis.drawnAt")
            opened.append(page.evaluate("() => drawnAt - Number(sessionStorage.getItem('clicked'))"))
            page.goto("/keys")
            plain.append(page.wait_for_function(FIRST_PAINT).json_value())
    middle = statistics.median(opened)
    return (
        f"first drawing of {DUAL_FUEL}: {middle:.0f} ms ({min(opened):.0f} to {max(opened):.0f}) after the click, "
        f"{middle / statistics.median(pace):.0f} yardsticks of the page (aim 1,500 ms); "
        f"a page of plain text stands after {statistics.median(plain):.0f} ms; "
        f"the yardstick of the page {statistics.median(pace):.1f} ms"
    )


def bytes_on_first_open(browser: Browser, address: str) -> str:
    """Return what comes over the line when the bench is opened for the first time."""
    with slowed_page(browser, address, factor=1) as slowed:
        came = transferred(slowed.tools)
        slowed.hands.open_job(slowed.hands.copy_demo(DUAL_FUEL))
        slowed.page.wait_for_load_state("networkidle")
        kinds = sorted(came.items(), key=lambda kind: -sum(kind[1]))
        said = ", ".join(f"{kind} {sum(sizes) / 1000:.0f} kB in {len(sizes)}" for kind, sizes in kinds)
        whole = sum(sum(sizes) for sizes in came.values())
    return f"first open of {DUAL_FUEL}: {whole / 1000:.0f} kB over the line (aim 200 kB): {said}"


def gestures(browser: Browser, address: str, *, at_once: bool) -> Iterator[str]:
    """Yield how long it takes from an interaction to the next paint, over a session of so many gestures.

    A person acts on what she sees; ``at_once`` the next gesture comes as soon as an answer is there, before it is
    drawn, and so waits for that.
    """
    with slowed_page(browser, address) as slowed:
        hands = slowed.hands
        hands.open_job(hands.copy_demo(DUAL_FUEL))
        slowed.page.evaluate(WATCH)
        before = slowed.page.evaluate("() => performance.interactionCount")
        for _, gesture in zip(range(GESTURES), cycle(session(slowed)), strict=False):
            gesture()
            if not at_once:
                slowed.wait_until_painted()
        slowed.page.wait_for_timeout(500)
        count = slowed.page.evaluate("() => performance.interactionCount") - before
        slowest = slowed.page.evaluate("() => [...slowest.values()].map((one) => [one.duration, one.name])")
        long = sorted(slowed.page.evaluate("() => longTasks"))
        pace = slowed.yardstick_ms()
    # An event that is faster than the least threshold of the observer is not told at all.
    times = sorted([duration for duration, _ in slowest] + [16.0] * max(0, count - len(slowest)))
    worst = ", ".join(f"{name} {duration:.0f}" for duration, name in sorted(slowest, reverse=True)[:5])
    at_98 = times[int(len(times) * 0.98) - 1]
    yield (
        f"{GESTURES} gestures on {DUAL_FUEL}, {'at once' if at_once else 'on what is seen'}, "
        f"{len(times)} interactions: to the next paint 98th percentile "
        f"{at_98:.0f} ms (aim 100 ms), {at_98 / pace:.0f} yardsticks of the page, "
        f"median {statistics.median(times):.0f} ms; the slowest: {worst}"
    )
    yield (
        f"tasks over 50 ms in that session: {len(long)}, the longest {max(long, default=0):.0f} ms, "
        f"median {statistics.median(long or [0]):.0f} ms"
    )


def session(slowed: Slowed) -> list[Callable[[], None]]:
    """Return what a person does over and over: pull, pick, move, walk by keys, call, zoom, look at another view."""
    hands, page = slowed.hands, slowed.page
    part = page.locator('[data-part="hu"][data-box]')

    def middle_of_part() -> tuple[float, float]:
        x, y, w, h = (float(word) for word in (part.get_attribute("data-box") or "").replace(",", " ").split())
        found: list[float] = page.evaluate(
            "([x, y]) => { const at = new DOMPoint(x, y)"
            ".matrixTransform(document.querySelector('#sheet .drawing').getScreenCTM()); return [at.x, at.y]; }",
            [x + w / 2, y + h / 2],
        )
        return found[0], found[1]

    def move_part(by: float) -> None:
        x, y = middle_of_part()
        saved(lambda: hands.drag((x, y), (x + by, y)))

    def look(hook: str) -> None:
        with page.expect_response("**/shown?*"):
            page.click(hook)
        page.wait_for_timeout(100)

    def call(name: str) -> None:
        look(f'[data-call="tc={name}"]')

    def view(name: str) -> None:
        look(f'[data-view-choice="{name}"]')

    def saved(act: Callable[[], None]) -> None:
        with slowed.saved():
            act()

    return [
        lambda: page.mouse.click(*hands.at_screw("fb.Y1")),
        lambda: hands.press("Escape"),
        lambda: saved(lambda: hands.drag(hands.at_screw("ts.1"), hands.at_screw("ou.L"))),
        lambda: saved(lambda: hands.press("Control+z")),
        lambda: saved(lambda: page.click("#redo")),
        lambda: saved(lambda: page.click("#undo")),
        lambda: page.mouse.click(*middle_of_part()),
        lambda: move_part(60),
        lambda: saved(lambda: page.click("#undo")),
        lambda: hands.press("ArrowUp"),
        lambda: hands.press("ArrowLeft"),
        lambda: hands.press("Enter"),
        lambda: hands.press("ArrowDown"),
        lambda: hands.press("Space"),
        lambda: call("cool-1"),
        lambda: call("heat-1"),
        lambda: page.mouse.click(*hands.paper()),
        lambda: page.click("#zoom-in"),
        lambda: page.click("#zoom-out"),
        lambda: page.click("#fit"),
        lambda: view("ladder"),
        lambda: view("connection"),
        lambda: page.click('[data-view-choice="words"]'),
        lambda: page.click('[data-view-choice="connection"]'),
        lambda: page.click("#insides"),
        lambda: page.click("#insides"),
    ]


def dragging(browser: Browser, address: str, what: str, grabbed: str, carried: str) -> str:
    """Return how many frames are slow while something is dragged in a large job, beside frames at rest.

    ``grabbed`` is where, and ``carried`` what is then drawn under the pointer.
    """
    with slowed_page(browser, address) as slowed:
        hands, page = slowed.hands, slowed.page
        hands.open_job(hands.copy_demo(HUNDRED_PARTS))
        page.wait_for_timeout(1000)
        slowed.count_frames()
        page.wait_for_timeout(2000)
        rest = slowed.frames_ms()
        box = page.locator(grabbed).first.bounding_box()
        assert box
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x + 40, y, steps=4)
        page.locator(carried).wait_for(state="attached")
        slowed.count_frames()
        for step in range(DRAG_STEPS):
            page.mouse.move(x + 8 + (step % 80) * 2, y + (step % 60))
        moving = slowed.frames_ms()
        hands.press("Escape")
        pace = slowed.yardstick_ms()
    return (
        f"dragging a {what} of {HUNDRED_PARTS}: of {len(moving)} frames {share(moving):.1f} % over 33 ms (aim 2 %), "
        f"the longest {max(moving):.0f} ms; at rest {share(rest):.1f} % of {len(rest)}; "
        f"the yardstick of the page {pace:.1f} ms"
    )


def share(frames: list[float]) -> float:
    """Return how many of a hundred frames are slow."""
    return 100 * sum(frame > SLOW_FRAME_MS for frame in frames) / max(1, len(frames))


def nodes_over_patches(browser: Browser, address: str) -> str:
    """Return how many nodes and listeners the page holds as edits come and go; nothing is slowed here."""
    with slowed_page(browser, address, factor=1) as slowed:
        hands, page = slowed.hands, slowed.page
        hands.open_job(hands.copy_demo(DUAL_FUEL))
        page.mouse.click(*hands.at_screw("hu.H"))
        hands.press("Escape")
        stations = {}
        for number, key in zip(
            range(1, PATCHES + 1), cycle(["Delete", "Control+z", "Shift+ArrowRight", "Shift+ArrowLeft"])
        ):
            if key == "Shift+ArrowRight":
                hands.press("Escape", "Space")
            elif key == "Delete" and number > 1:
                hands.press("Space", "Enter")
            with slowed.saved():
                hands.press(key)
            if number in (PATCHES // 10, PATCHES // 2, PATCHES):
                page.wait_for_timeout(6000)
                stations[number] = slowed.held()
        said = ", ".join(f"{nodes} and {listeners} after {number}" for number, (nodes, listeners) in stations.items())
        growth = stations[PATCHES][0] / stations[PATCHES // 10][0]
    return (
        f"nodes and listeners over patches of {DUAL_FUEL}: {said}; "
        f"nodes {growth:.2f} times from the first tenth to the end (aim flat)"
    )
