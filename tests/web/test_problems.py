"""Every failure is a problem detail, also those that nobody expected."""

from __future__ import annotations

import logging

import pytest
from flask import Flask

from tests.web.api import Api


def test_an_address_with_nothing_at_it(api: Api) -> None:
    reply = api.get("/api/nothing")

    assert reply.status_code == 404
    assert reply.get_json()["title"] == "Not Found"


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [("PUT", "/api/jobs", "POST"), ("POST", "/api/openapi.json", "GET"), ("TRACE", "/health", "GET")],
    ids=["put", "post", "trace"],
)
def test_a_method_that_is_not_answered(api: Api, method: str, path: str, allowed: str) -> None:
    reply = api.send(method, path)

    assert reply.status_code == 405
    assert allowed in reply.headers["Allow"]
    assert allowed in reply.get_json()["would_be_right"]


@pytest.mark.parametrize("view", ["", "/findings", "/solution", "/drawing.svg", "/wires.csv", "/history"])
def test_a_job_that_is_not_there(api: Api, view: str) -> None:
    reply = api.get(f"/api/jobs/nothing{view}")

    assert reply.status_code == 404
    assert reply.get_json()["code"] == "no-such-job"


def test_a_body_without_a_length_limit_is_still_limited(api: Api) -> None:
    # The length is not announced here, so only reading can find out.
    from io import BytesIO

    reply = api.send(
        "POST",
        "/api/jobs",
        input_stream=BytesIO(b" " * (3 * 1024 * 1024)),
        content_type="application/json",
        environ_overrides={"wsgi.input_terminated": True},
    )

    assert reply.status_code == 413
    assert reply.get_json()["pointer"] == ""


def test_what_nobody_expected_is_said_with_a_reference_and_logged(app: Flask, caplog: pytest.LogCaptureFixture) -> None:
    @app.get("/api/fails")
    def fails() -> str:
        raise RuntimeError("the inside of the program")

    with caplog.at_level(logging.ERROR, logger="rungwright"):
        reply = app.test_client().get("/api/fails")

    problem = reply.get_json()
    assert reply.status_code == 500
    assert reply.mimetype == "application/problem+json"
    assert "inside" not in reply.text
    assert problem["ref"] in caplog.text
    assert "the inside of the program" in caplog.text
    assert reply.headers["Referrer-Policy"] == "no-referrer"
