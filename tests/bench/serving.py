"""A server of one's own that can be stopped, killed and started again on the same port and the same jobs."""

from __future__ import annotations

import json
import os
import re
import socket
import subprocess
import sys
from pathlib import Path
from threading import Thread
from typing import Any
from urllib.request import urlopen

from playwright.sync_api import expect

from tests.bench.hands import Hands

AWAY = r"^Server away since \d\d:\d\d\. {} kept on this device, not checked yet\.$"
ADDRESS = re.compile(r"http://[0-9.]+:([0-9]+)")


def read_on(process: subprocess.Popen[str]) -> None:
    """Take in what a server says from here on: a pipe that nobody reads would in the end stop it."""
    out = process.stdout
    assert out is not None

    def read() -> None:
        with out:
            out.read()

    Thread(target=read, daemon=True).start()


class Serving:
    """A real server process on a port that stays the same."""

    def __init__(self, data: Path, host: str = "127.0.0.1") -> None:
        self.data, self.host = data, host
        self.address, self.key = "", ""
        with socket.socket() as asking:
            asking.bind((host, 0))
            self.port = asking.getsockname()[1]
        self._process: subprocess.Popen[str] | None = None
        self.start()

    def is_up(self) -> bool:
        """Return whether it serves."""
        return self._process is not None and self._process.poll() is None

    def start(self) -> None:
        """Start, and wait until it serves."""
        where = ["--host", self.host, "--port", str(self.port), "--data", str(self.data)]
        command = [sys.executable, "-m", "app", "serve", *where]
        env = {**os.environ, "PYTHONIOENCODING": "utf-8"}
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=env)
        out = self._process.stdout
        assert out is not None
        said = out.readline()
        found = ADDRESS.search(said)
        assert found, f"the server says where it serves, not {said!r}"
        self.address = found.group()
        while self.host != "127.0.0.1" and "Key: " not in said:
            said = out.readline()
        self.key = said.rpartition("Key: ")[2].strip()
        read_on(self._process)

    def stop(self) -> None:
        """End it as Ctrl+C would."""
        self._end(kill=False)

    def kill(self) -> None:
        """End it as ``kill -9`` does."""
        self._end(kill=True)

    def _end(self, *, kill: bool) -> None:
        process, self._process = self._process, None
        if process is None:
            return
        if kill:
            process.kill()
        else:
            process.terminate()
        process.wait(timeout=30)


def start_pull(hands: Hands, start: str, end: str) -> None:
    """Drag a new conductor from screw to screw, whatever then becomes of it."""
    hands.drag(hands.at_screw(start), hands.at_screw(end))


def away(hands: Hands, edits: str) -> None:
    """Wait until the state line says that so many edits are kept."""
    expect(hands.state()).to_have_text(re.compile(AWAY.format(edits)))


def history_of(hands: Hands) -> list[dict[str, Any]]:
    """Return the log of the job as the server has it."""
    job = hands.page.locator("#bench").get_attribute("data-job")
    with urlopen(f"{hands.server}/api/jobs/{job}/history") as reply:
        changes: list[dict[str, Any]] = json.load(reply)["changes"]
    return changes
