"""Where others can reach the server, only whoever has given the printed key comes in."""

from __future__ import annotations

import io
import os
import re
import stat
import subprocess
import sys
from collections.abc import Iterator
from http.cookies import SimpleCookie
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from flask import Flask
from werkzeug.test import TestResponse

from app.web.access import COOKIE, LENGTH, LETTERS, Access, Tries, kept_key, new_key, plain
from app.web.application import create_app
from app.web.invitation import invitation, qr_code
from tests.web.api import Api
from tests.web.sample import gas_and_cooling

KEY = "7KQ2X-M4RT9"
PAGE = {"Accept": "text/html"}
BEARER = {"Authorization": f"Bearer {KEY}"}


class Clock:
    """Time that only goes on when it is told to."""

    def __init__(self) -> None:
        self.now_s = 1000.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def locked(tmp_path: Path, demo_dir: Path, clock: Clock) -> Iterator[Flask]:
    """An application that others can reach."""
    access = Access(KEY, Tries(clock))
    app = create_app(tmp_path / "data", loopback=False, demo_dir=demo_dir, access=access)
    yield app
    app.extensions["rungwright"].close()


def give(app: Flask, key: str, to: str = "/", source: str = "192.168.0.20") -> TestResponse:
    return app.test_client().post("/key", data={"key": key, "to": to}, environ_base={"REMOTE_ADDR": source})


def test_without_the_key_nothing_is_told_and_nothing_is_done(locked: Flask) -> None:
    client = locked.test_client()
    store = locked.extensions["rungwright"].store
    job = store.create(gas_and_cooling()).id

    tries = [
        client.get(f"/api/jobs/{job}"),
        client.get(f"/jobs/{job}/shown"),
        client.delete(f"/api/jobs/{job}"),
        client.post("/api/jobs", json=gas_and_cooling()),
        client.post("/api/check", json=gas_and_cooling()),
        client.get("/api/openapi.json"),
        client.get("/worker.js"),
        client.get("/nothing"),
        client.get(f"/api/jobs/{job}", headers=PAGE),
    ]

    assert {reply.status_code for reply in tries} == {401}
    assert {reply.get_json()["code"] for reply in tries} == {"key-needed"}
    assert all(job not in reply.text and reply.headers["WWW-Authenticate"].startswith("Bearer") for reply in tries)
    assert [one.revision for one in store.list()] == [1]


def test_a_page_leads_to_where_the_key_is_given_and_back(locked: Flask) -> None:
    client = locked.test_client()
    asked = client.get("/jobs/some-job?layout=as-found", headers=PAGE)

    assert asked.status_code == 303
    page = client.get(asked.headers["Location"], headers=PAGE)
    assert 'value="/jobs/some-job?layout=as-found"' in page.text

    given = client.post("/key", data={"key": KEY, "to": "/jobs/some-job?layout=as-found"})
    assert (given.status_code, given.headers["Location"]) == (303, "/jobs/some-job?layout=as-found")
    assert client.get("/", headers=PAGE).status_code == 200


def test_the_cookie_is_for_this_server_alone_and_no_script_reads_it(locked: Flask) -> None:
    cookie = SimpleCookie(give(locked, KEY).headers["Set-Cookie"])[COOKIE]

    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"
    assert cookie["domain"] == ""
    assert cookie.value not in (KEY, plain(KEY))


@pytest.mark.parametrize(
    "said", [KEY, "7kq2x-m4rt9", " 7KQ2XM4RT9 ", "7KQ2X M4RT9"], ids=["printed", "small", "plain", "spaced"]
)
def test_the_key_is_taken_as_people_type_it(locked: Flask, said: str) -> None:
    assert give(locked, said).status_code == 303


@pytest.mark.parametrize(
    "said", ["", "7KQ2X", "7KQ2X-M4RT8", "é" * 10, "x" * 100_000], ids=["none", "half", "one-off", "foreign", "long"]
)
def test_another_key_opens_nothing(locked: Flask, said: str) -> None:
    reply = give(locked, said)
    assert reply.status_code == 403
    assert "Set-Cookie" not in reply.headers
    assert "This is not the key." in reply.text


def test_the_api_takes_the_key_with_each_request(locked: Flask) -> None:
    client = locked.test_client()

    assert client.post("/api/jobs", json=gas_and_cooling(), headers=BEARER).status_code == 201
    assert client.get("/api/openapi.json", headers={"Authorization": "Bearer wrong"}).status_code == 401
    assert client.get("/api/kinds", headers={"Authorization": f"Basic {KEY}"}).status_code == 401
    assert client.get("/health").status_code == 200


def test_a_cookie_of_another_key_opens_nothing(locked: Flask) -> None:
    client = locked.test_client()
    client.set_cookie(COOKIE, Access("AAAAA-AAAAA").cookie)
    assert client.get("/api/openapi.json").status_code == 401
    client.set_cookie(COOKIE, "é")
    assert client.get("/api/openapi.json").status_code == 401
    client.set_cookie(COOKIE, Access(KEY).cookie)
    assert client.get("/api/openapi.json").status_code == 200


def test_wrong_keys_are_slowed_down_for_whoever_gives_them(locked: Flask, clock: Clock) -> None:
    assert [give(locked, "wrong").status_code for _ in range(5)] == [403] * 5
    late = give(locked, KEY)
    assert (late.status_code, late.headers["Retry-After"]) == (429, "61")
    assert "Set-Cookie" not in late.headers
    bearer = locked.test_client().get("/api/kinds", headers=BEARER, environ_base={"REMOTE_ADDR": "192.168.0.20"})
    assert bearer.status_code == 429
    assert give(locked, KEY, source="192.168.0.21").status_code == 303
    clock.now_s += 60.5
    assert give(locked, KEY).status_code == 303


def test_many_addresses_together_are_slowed_down_too(locked: Flask, clock: Clock) -> None:
    for number in range(60):
        assert give(locked, "wrong", source=f"10.0.0.{number}").status_code == 403
    assert give(locked, KEY, source="10.0.1.1").status_code == 429
    visitor = locked.test_client()
    visitor.set_cookie(COOKIE, Access(KEY).cookie)
    assert visitor.get("/api/openapi.json").status_code == 200, "whoever is in stays in"
    clock.now_s += 61
    assert give(locked, KEY, source="10.0.1.1").status_code == 303


@pytest.mark.parametrize(
    "to",
    ["https://evil.example/", "//evil.example/", "/\\evil.example", "javascript:alert(1)", "", "/\t/evil.example"],
    ids=["address", "no-scheme", "backslash", "script", "empty", "tab"],
)
def test_the_way_back_stays_on_this_server(locked: Flask, to: str) -> None:
    assert give(locked, KEY, to).headers["Location"] == "/"


def test_the_form_may_say_where_it_comes_from(locked: Flask) -> None:
    """A form of a page without referrer comes from nowhere, says the browser, and would be refused as foreign."""
    client = locked.test_client()
    assert client.get("/key").headers["Referrer-Policy"] == "same-origin"
    assert client.post("/key", data={"key": "wrong"}).headers["Referrer-Policy"] == "same-origin"
    assert client.get("/", headers=PAGE | BEARER).headers["Referrer-Policy"] == "no-referrer"


def test_a_page_elsewhere_cannot_give_the_key(locked: Flask) -> None:
    reply = locked.test_client().post("/key", data={"key": KEY}, headers={"Origin": "http://evil.example"})

    assert reply.status_code == 403
    assert "Set-Cookie" not in reply.headers


def test_a_server_of_this_machine_asks_for_no_key(api: Api) -> None:
    assert api.client.get("/", headers=PAGE).status_code == 200
    assert api.client.get("/key").status_code == 404


def test_keys_are_long_enough_and_easy_to_read() -> None:
    keys = {new_key() for _ in range(50)}

    assert len(keys) == 50
    assert all(re.fullmatch(rf"[{LETTERS}]{{5}}-[{LETTERS}]{{5}}", key) for key in keys)
    assert len(LETTERS) ** LENGTH > 2**48
    assert not set(LETTERS) & set("01ILOU")


def test_the_key_is_kept_beside_the_jobs_for_its_owner_alone(tmp_path: Path) -> None:
    key = kept_key(tmp_path / "data")

    assert kept_key(tmp_path / "data") == key
    file = tmp_path / "data" / "access-key"
    if os.name == "posix":
        assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert kept_key(tmp_path / "data", renew=True) != key
    file.write_text("short\n")
    assert len(plain(kept_key(tmp_path / "data"))) == LENGTH, "a key that anybody could guess is not used"


def test_the_invitation_says_address_key_and_what_is_not_protected() -> None:
    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    words = invitation("http://192.168.0.7:8024", KEY, out)

    assert "http://192.168.0.7:8024/key" in words
    assert f"Key: {KEY}" in words
    assert "plain HTTP" in words
    assert "█" in words


def test_a_terminal_without_the_characters_gets_a_sentence() -> None:
    assert (
        qr_code("x", io.TextIOWrapper(io.BytesIO(), encoding="latin-1")) == "(This terminal cannot show the QR code.)\n"
    )


def test_a_real_server_that_others_can_reach_prints_its_key_and_asks_for_it(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "app", "serve", "--host", "0.0.0.0", "--port", "0", "--data", str(tmp_path)]
    env = {**os.environ, "PYTHONIOENCODING": "utf-8"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=env) as process:
        assert process.stdout is not None
        port = re.search(r":(\d+) ", process.stdout.readline())
        assert port
        said = ""
        while "Key: " not in said:
            said += process.stdout.readline()
        key = said.rsplit("Key: ", 1)[1].strip()
        address = f"http://127.0.0.1:{port.group(1)}"
        try:
            with pytest.raises(HTTPError) as refused:
                urlopen(f"{address}/api/openapi.json")
            assert refused.value.code == 401
            refused.value.close()
            with urlopen(Request(f"{address}/api/openapi.json", headers={"Authorization": f"Bearer {key}"})) as reply:
                assert reply.status == 200
        finally:
            process.terminate()
            process.wait(timeout=20)
