"""The commands as a person starts them: exit codes, streams, a closed pipe, a server that answers."""

from __future__ import annotations

import http.client
import json
import os
import signal
import subprocess
import sys
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

HOME = Path(__file__).parents[2]
MODULE = [sys.executable, "-m", "app"]
# A terminal without UTF-8 must not make a drawing or a temperature fail.
PLAIN = {**os.environ, "LC_ALL": "C", "PYTHONUTF8": "0"}


def started(*words: object, stdin: bytes | None = None) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*MODULE, *map(str, words)], cwd=HOME, input=stdin, capture_output=True, timeout=60, env=PLAIN, check=False
    )


def test_a_sound_job_ends_with_0(sound: Path) -> None:
    ended = started("check", sound)

    assert (ended.returncode, ended.stderr) == (0, b"")


def test_a_danger_ends_with_1(short: Path) -> None:
    assert started("check", short).returncode == 1


def test_a_danger_counts_for_check_alone(short: Path) -> None:
    ended = started("solve", short, "--format", "json")

    assert ended.returncode == 0
    json.loads(ended.stdout)


def test_bad_input_ends_with_2_and_leaves_stdout_empty(tmp_path: Path) -> None:
    ended = started("check", tmp_path / "nothing.json", "--format", "json")

    assert (ended.returncode, ended.stdout) == (2, b"")
    assert b"Traceback" not in ended.stderr


def test_a_job_comes_from_stdin(sound: Path) -> None:
    ended = started("wires", "-", "--format", "json", stdin=sound.read_bytes())

    assert ended.returncode == 0
    assert json.loads(ended.stdout)["layout"] == "as-left"


def test_the_installed_command_is_the_same(sound: Path) -> None:
    command = Path(sys.executable).with_name("rungwright")
    ended = subprocess.run([command, "check", sound], capture_output=True, timeout=60, check=False)

    assert (ended.returncode, ended.stdout) == (0, started("check", sound).stdout)


def test_a_reader_that_has_seen_enough_is_no_fault(sound: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    ended = subprocess.run(
        [*MODULE, "rules"], cwd=HOME, stdout=writing, stderr=subprocess.PIPE, timeout=60, check=False
    )
    os.close(writing)

    assert (ended.returncode, ended.stderr) == (0, b"")


@pytest.mark.parametrize(
    "words", [["--port", "0"], ["--port", "0", "--host", "localhost"]], ids=["default", "localhost"]
)
def test_serve_says_its_address_answers_there_and_stops(tmp_path: Path, words: list[str]) -> None:
    server = subprocess.Popen(
        [*MODULE, "serve", *words, "--data", str(tmp_path / "data")], cwd=HOME, stdout=subprocess.PIPE, text=True
    )
    assert server.stdout is not None
    try:
        first = server.stdout.readline()
        address = next(word for word in first.split() if word.startswith("http://"))
        with urllib.request.urlopen(f"{address}/api/jobs", timeout=20) as reply:
            assert json.load(reply) == {"jobs": []}
        with urllib.request.urlopen(f"{address}/api/demos", timeout=20) as reply:
            assert len(json.load(reply)["demos"]) >= 10
    finally:
        server.send_signal(signal.SIGINT)
        rest, _ = server.communicate(timeout=20)
    assert server.returncode == 0
    assert "Stopped" in rest


def test_requests_that_wait_for_one_another_are_no_news(tmp_path: Path) -> None:
    # Each line that nobody reads would fill a pipe a little more, until the server stands still.
    server = subprocess.Popen(
        [*MODULE, "serve", "--port", "0", "--data", str(tmp_path / "data")],
        cwd=HOME,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert server.stdout is not None
    try:
        address = next(word for word in server.stdout.readline().split() if word.startswith("http://"))

        def ask(_: int) -> int:
            with urllib.request.urlopen(f"{address}/api/demos", timeout=60) as reply:
                return int(reply.status)

        with ThreadPoolExecutor(40) as together:
            assert set(together.map(ask, range(80))) == {200}
    finally:
        server.send_signal(signal.SIGINT)
        _, complaints = server.communicate(timeout=20)
    assert complaints == ""


def test_the_served_api_says_no_as_the_application_does(tmp_path: Path) -> None:
    server = subprocess.Popen(
        [*MODULE, "serve", "--port", "0", "--data", str(tmp_path / "data")], cwd=HOME, stdout=subprocess.PIPE, text=True
    )
    assert server.stdout is not None
    try:
        first = server.stdout.readline()
        host = next(word for word in first.split() if word.startswith("http://")).removeprefix("http://")
        assert refused(host, "POST", "/api/jobs", b" " * (3 * 1024 * 1024)) == 413
        assert refused(host, "GET", "/health", b"", Host="bench.example") == 403
        assert refused(host, "POST", "/api/check", b"{}", Origin="http://bench.example") == 403
        assert refused(host, "GET", "/nothing", b"") == 404
    finally:
        server.terminate()
        server.communicate(timeout=20)


def refused(host: str, method: str, path: str, body: bytes, **headers: str) -> int:
    """Send a request over the wire and return the status of the problem detail that comes back."""
    connection = http.client.HTTPConnection(host, timeout=20)
    try:
        connection.request(method, path, body, {"Content-Type": "application/json", **headers})
        reply = connection.getresponse()
        problem = json.loads(reply.read())
    finally:
        connection.close()
    assert reply.headers.get_content_type() == "application/problem+json"
    assert "default-src 'none'" in reply.headers["Content-Security-Policy"]
    assert problem["status"] == reply.status
    return reply.status
