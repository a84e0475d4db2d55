"""Foreign names and foreign pages are refused; every reply says what a browser may do with it."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.web.application import create_app
from app.web.serving import allowed_hosts, is_loopback
from tests.web.api import Api
from tests.web.sample import gas_and_cooling

OWN = "http://localhost"


@pytest.mark.parametrize(
    "host",
    ["localhost", "localhost:8024", "127.0.0.1:8024", "[::1]:8024", "LOCALHOST"],
    ids=lambda host: f"host-{host}",
)
def test_the_own_names_are_answered(api: Api, host: str) -> None:
    assert api.get("/health", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    ["bench.example", "localhost.bench.example:8024", "127.0.0.1.bench.example", "[::2]:8024", "", "localhost@x"],
    ids=["foreign", "own-name-first", "own-address-first", "foreign-ipv6", "empty", "user"],
)
@pytest.mark.parametrize("path", ["/health", "/api/openapi.json", "/nothing", "/static/nothing.css"])
def test_a_foreign_name_is_refused_whatever_is_asked(api: Api, host: str, path: str) -> None:
    # A page elsewhere can make its own name point here and would then read the jobs as its own (DNS rebinding).
    assert api.get(path, headers={"Host": host}).status_code == 403


def test_a_name_that_was_allowed_is_answered(tmp_path: Path, demo_dir: Path) -> None:
    app = create_app(tmp_path / "data", loopback=False, allowed_hosts=["bench.lan"], demo_dir=demo_dir)
    client = app.test_client()

    assert client.get("/health", headers={"Host": "bench.lan:8024"}).status_code == 200
    assert client.get("/health", headers={"Host": "localhost"}).status_code == 403
    app.extensions["rungwright"].close()


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "http://localhost:9999"},
        {"Origin": "https://localhost"},
        {"Origin": "null"},
        {"Origin": "http://["},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": OWN, "Sec-Fetch-Site": "cross-site"},
    ],
    ids=["origin", "port", "scheme", "null", "broken", "cross-site", "same-site", "contradiction"],
)
def test_a_page_elsewhere_changes_nothing(api: Api, job: str, headers: dict[str, str]) -> None:
    tries = [
        api.send("DELETE", f"/api/jobs/{job}", headers=headers),
        api.patch(job, [{"op": "remove", "path": "/title"}], 1, headers=headers),
        api.post("/api/jobs", gas_and_cooling(), headers=headers),
        api.post("/api/check", gas_and_cooling(), headers=headers),
        api.send("POST", "/api/demos/gas-and-cooling", headers=headers),
    ]

    assert {reply.status_code for reply in tries} == {403}
    assert [one["revision"] for one in api.get("/api/jobs").get_json()["jobs"]] == [1]


@pytest.mark.parametrize(
    "headers",
    [{}, {"Origin": OWN}, {"Sec-Fetch-Site": "same-origin"}, {"Sec-Fetch-Site": "none"}],
    ids=["no-browser", "own-origin", "own-fetch", "address-line"],
)
def test_the_own_page_and_clients_that_are_no_browser_may_write(api: Api, headers: dict[str, str]) -> None:
    assert api.post("/api/jobs", gas_and_cooling(), headers=headers).status_code == 201


def test_reading_from_elsewhere_is_left_to_the_browsers_own_rules(api: Api, job: str) -> None:
    reply = api.get(f"/api/jobs/{job}", headers={"Origin": "http://evil.example", "Sec-Fetch-Site": "cross-site"})

    assert reply.status_code == 200
    assert "Access-Control-Allow-Origin" not in reply.headers
    assert reply.headers["Cross-Origin-Resource-Policy"] == "same-origin"


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/health"),
        ("GET", "/api/jobs"),
        ("GET", "/api/openapi.json"),
        ("GET", "/nothing"),
        ("PUT", "/api/jobs"),
        ("OPTIONS", "/api/jobs"),
        ("HEAD", "/health"),
        ("GET", "/"),
        ("GET", "/static/nothing.js"),
    ],
    ids=lambda word: word,
)
def test_every_reply_carries_the_headers(api: Api, method: str, path: str) -> None:
    headers = api.client.open(path, method=method).headers

    policy = headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "private" in headers["Cache-Control"]


@pytest.mark.parametrize("path", ["/static/bench/main.js", "/static/style/base.css"])
def test_a_part_of_a_page_carries_what_guards_it(api: Api, path: str) -> None:
    headers = api.client.get(path, buffered=True).headers

    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Cache-Control"] == "no-cache"
    assert headers["Content-Type"].startswith(("text/javascript", "text/css; charset=utf-8"))


@pytest.mark.parametrize("path", ["/worker.js", "/static/mark.svg"])
def test_what_can_stand_alone_carries_the_policy_of_a_document(api: Api, path: str) -> None:
    assert "default-src 'none'" in api.client.get(path, buffered=True).headers["Content-Security-Policy"]


def test_drawings_have_nothing_that_the_policy_forbids(api: Api, job: str) -> None:
    drawing = api.get(f"/api/jobs/{job}/drawing.svg?call=tc=cool-1").text

    assert "style=" not in drawing
    assert "<style" not in drawing
    assert "<script" not in drawing


@pytest.mark.parametrize(
    ("host", "answers_to"),
    [
        ("127.0.0.1", ["127.0.0.1", "[::1]", "localhost"]),
        ("192.168.0.7", ["127.0.0.1", "192.168.0.7", "[::1]", "localhost"]),
        ("::1", ["127.0.0.1", "[::1]", "localhost"]),
        ("fd00::7", ["127.0.0.1", "[::1]", "[fd00::7]", "localhost"]),
    ],
    ids=["loopback", "address", "ipv6-loopback", "ipv6"],
)
def test_a_bound_server_answers_to_its_own_names(host: str, answers_to: list[str]) -> None:
    assert list(allowed_hosts(host, [])) == answers_to
    assert "bench.lan" in allowed_hosts(host, ["Bench.lan:8024"])


@pytest.mark.parametrize(
    ("host", "is_one"),
    [("127.0.0.1", True), ("127.3.2.1", True), ("localhost", True), ("::1", True), ("0.0.0.0", False), ("::", False),
     ("192.168.0.7", False), ("bench.lan", False)],
    ids=lambda word: str(word),
)  # fmt: skip
def test_only_addresses_of_this_machine_are_loopback(host: str, is_one: bool) -> None:
    assert is_loopback(host) is is_one
