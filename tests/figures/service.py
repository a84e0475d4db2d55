"""The service on loopback: one gesture from the request to the last byte, and the memory of the serving process."""

from __future__ import annotations

import http.client
import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from typing import Any

import psutil

from tests.figures.measure import yardstick

HOME = Path(__file__).resolve().parents[2]
DUAL_FUEL = "post-office-dual-fuel"
HUNDRED_PARTS = "school-row-hundred-parts"
PATCHES = 1000
MB = 1024 * 1024


@dataclass
class Server:
    """A server in a process of its own, and one connection to it that stays open."""

    process: psutil.Process
    connection: http.client.HTTPConnection

    def send(self, method: str, path: str, body: str | None = None, **headers: str) -> tuple[dict[str, str], bytes]:
        names = {name.replace("_", "-"): value for name, value in headers.items()}
        self.connection.request(method, path, body, names)
        reply = self.connection.getresponse()
        data = reply.read()
        if reply.status >= 400:
            raise RuntimeError(data.decode())
        return dict(reply.headers), data

    def open_demo(self, name: str) -> str:
        return self.send("POST", f"/api/demos/{name}")[0]["Location"]

    def cpu_s(self) -> float:
        times = self.process.cpu_times()
        return float(times.user + times.system)

    def memory_mb(self) -> float:
        return float(self.process.memory_info().rss) / MB


@contextmanager
def serving() -> Iterator[Server]:
    """Start a server on a free port with an empty folder; stop it at the end."""
    with tempfile.TemporaryDirectory() as data:
        started = subprocess.Popen(
            [sys.executable, "-m", "app", "serve", "--port", "0", "--data", data],
            cwd=HOME,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert started.stdout is not None
        try:
            said = started.stdout.readline()
            address = next(word for word in said.split() if word.startswith("http://")).removeprefix("http://")
            yield Server(psutil.Process(started.pid), http.client.HTTPConnection(address, timeout=60))
        finally:
            started.terminate()
            started.wait()
            started.stdout.close()


class Gestures:
    """Changes as a person makes them, one after the other: an end is taken off and put back, a part is moved."""

    def __init__(self, server: Server, job: str) -> None:
        self.server, self.job, self.revision = server, job, 1
        document = json.loads(server.send("GET", job)[1])
        self.layout = "as-left" if "as-left" in document["layouts"] else next(iter(document["layouts"]))
        wiring = document["layouts"][self.layout]
        self.controls = [name for name, part in wiring["parts"].items() if part["kind"].startswith("thermostat")]
        self.patches = cycle(list(self._patches(wiring)))

    def _patches(self, wiring: dict[str, Any]) -> Iterator[list[dict[str, Any]]]:
        at = f"/layouts/{self.layout}"
        parts = cycle(wiring["parts"].items())
        for name, conductor in wiring["conductors"].items():
            end, path = conductor["ends"][1], f"{at}/conductors/{name}/ends/1"
            yield [{"op": "replace", "path": path, "value": None}]
            yield [{"op": "replace", "path": path, "value": end}]
            part, said = next(parts)
            x, y = said.get("at") or (0, 0)
            for place in ([x + 12, y], [x, y]):
                yield [{"op": "add", "path": f"{at}/parts/{part}/at", "value": place}]

    def one(self) -> float:
        """Make the next change with a call, and return the seconds until the whole reply is there."""
        call = f"{self.controls[0]}=heat-1"
        body = json.dumps(next(self.patches))
        start = time.perf_counter()
        self.server.send(
            "PATCH",
            f"{self.job}?layout={self.layout}&call={call}",
            body,
            Content_Type="application/json-patch+json",
            If_Match=f'"{self.revision}"',
            Idempotency_Key=f"k-{self.revision}",
        )
        took = time.perf_counter() - start
        self.revision += 1
        return took


def health(server: Server) -> float:
    """Return the seconds of a round trip that does next to nothing, as the yardstick of this machine."""
    start = time.perf_counter()
    server.send("GET", "/health")
    return time.perf_counter() - start


def percentile_95(seconds: list[float]) -> float:
    """Return the 95th percentile."""
    return statistics.quantiles(seconds, n=20)[-1]


def patching(name: str, count: int, budget_ms: int) -> str:
    """Return the line on PATCH of one demo, beside bare round trips made in between."""
    with serving() as server:
        gestures = Gestures(server, server.open_demo(name))
        for _ in range(4):
            gestures.one()
        patches, bare, cpu = [], [], 0.0
        for _ in range(count):
            before = server.cpu_s()
            patches.append(gestures.one())
            cpu += server.cpu_s() - before
            bare.append(health(server))
        p95, middle, trip = percentile_95(patches), statistics.median(patches), statistics.median(bare)
        return (
            f"PATCH {name}: p95 {p95 * 1e3:.0f} ms, median {middle * 1e3:.0f} ms (aim p95 {budget_ms} ms); "
            f"a bare round trip {trip * 1e3:.1f} ms, {middle / trip:.0f} of them; "
            f"processor time {cpu / count * 1e3:.0f} ms each; "
            f"process {server.memory_mb():.0f} MB after it; the yardstick beside it {yardstick().ms()}"
        )


def memory() -> Iterator[str]:
    """Yield the lines on the memory of the serving process over a thousand patches of the dual-fuel demo."""
    with serving() as server:
        health(server)
        yield f"memory after start {server.memory_mb():.0f} MB"
        gestures = Gestures(server, server.open_demo(DUAL_FUEL))
        stations = {}
        for number in range(1, PATCHES + 1):
            gestures.one()
            if number in (50, PATCHES // 2, PATCHES):
                stations[number] = server.memory_mb()
        said = ", ".join(f"{megabytes:.0f} MB after {number}" for number, megabytes in stations.items())
        growth = stations[PATCHES] / stations[PATCHES // 2]
        yield f"memory over patches: {said} (aim 200 MB and flat); the second half took it to {growth:.2f} times"


def figures() -> list[str]:
    """Return the lines to print."""
    return [patching(DUAL_FUEL, 200, 40), patching(HUNDRED_PARTS, 60, 300), *memory()]
