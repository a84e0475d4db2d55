"""A server a worker, a fresh page a test. A page that complains in its console fails its test."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, expect

from tests.bench.contexts import Contexts
from tests.bench.hands import Hands
from tests.bench.serving import Serving, read_on

Screen = dict[str, object]
LAPTOP: Screen = {"viewport": {"width": 1280, "height": 800}}
TABLET: Screen = {"viewport": {"width": 820, "height": 1180}, "has_touch": True}
PHONE: Screen = {"viewport": {"width": 390, "height": 844}, "has_touch": True}
SCREENS = {"laptop": LAPTOP, "tablet": TABLET, "phone": PHONE}
ADDRESS = re.compile(r"http://[0-9.]+:[0-9]+")

PATIENCE_MS = 20_000
"""How long a test waits for what must come, so that a busy machine does not fail it; nothing waits when it comes."""

Open = Callable[..., Hands]
Visit = Callable[..., Hands]

expect.set_options(timeout=PATIENCE_MS)


def in_the_long_run(*cases: object) -> list[pytest.ParameterSet]:
    """Mark cases of a test as slow: the same claim once more, by other hands or on another screen."""
    return [pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=pytest.mark.slow) for case in cases]


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Serve on a free port from an empty folder; gives the address."""
    data = tmp_path_factory.mktemp("data")
    command = [sys.executable, "-m", "app", "serve", "--port", "0", "--data", str(data)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        assert process.stdout is not None
        found = ADDRESS.search(process.stdout.readline())
        assert found, "the server says where it serves"
        read_on(process)
        yield found.group()
        process.terminate()
        process.wait(timeout=10)


@pytest.fixture(scope="session")
def contexts(server: str, browser: Browser) -> Iterator[Contexts]:
    """Keep the contexts in which pages of that server are opened."""
    kept = Contexts(browser, server)
    yield kept
    kept.close()


@pytest.fixture
def opens(server: str, contexts: Contexts) -> Iterator[Open]:
    """Give a way to open pages: ``opens(LAPTOP)``, with anything that a browser context takes.

    Each page has a context to itself. What a test asks of the context itself, it takes back.
    """
    complaints: list[str] = []

    def page(screen: Screen, **more: object) -> Hands:
        # A worker answers before routes do, so only the tests of what it keeps have one.
        usual = {"base_url": server, "color_scheme": "light", "service_workers": "block"}
        new = contexts.take(**{**usual, **screen, **more}).new_page()
        new.set_default_timeout(PATIENCE_MS)
        hands = Hands(new, server)
        new.on(
            "console",
            lambda message: (
                complaints.append(message.text) if is_complaint(message.text, message.type, hands) else None
            ),
        )
        new.on("pageerror", lambda error: complaints.append(str(error)))
        return hands

    yield page
    contexts.give_back()
    assert complaints == [], "the page complained in its console"


def is_complaint(text: str, sort: str, hands: Hands) -> bool:
    """A refusal that a test asks for is reported by the browser itself as a failed load; that is no complaint."""
    if hands.expects_refusal and "Failed to load resource" in text:
        return False
    if "Service Worker registration blocked" in text:
        return False
    return sort in ("error", "warning")


@pytest.fixture(scope="session")
def second_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Serving]:
    """Serve beside the other one, for tests that stop and kill what serves them."""
    second = Serving(tmp_path_factory.mktemp("second"))
    yield second
    second.stop()


@pytest.fixture
def serving(second_server: Serving) -> Serving:
    """Give a server that serves, to be stopped, killed and started again."""
    if not second_server.is_up():
        second_server.start()
    return second_server


@pytest.fixture
def visits(browser: Browser, serving: Serving) -> Iterator[Visit]:
    """Give a way to open pages of that server, each in a browser of its own or in one that is handed in.

    A server that is away makes the console complain, so only errors of the page itself fail the test.
    """
    contexts: list[BrowserContext] = []
    errors: list[str] = []

    def visit(context: BrowserContext | None = None, **more: object) -> Hands:
        if context is None:
            usual = {"base_url": serving.address, **LAPTOP, "service_workers": "block"}
            context = browser.new_context(**{**usual, **more})  # type: ignore[arg-type]
            contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.on("pageerror", lambda error: errors.append(str(error)))
        return Hands(page, serving.address)

    yield visit
    for context in contexts:
        context.close()
    assert errors == []
