"""A client of the API that holds every reply against the API's own description."""

from __future__ import annotations

import json
from typing import Any, ClassVar

from flask import Flask
from jsonschema import Draft202012Validator
from werkzeug.test import TestResponse

PATCH_JSON = "application/json-patch+json"
NEEDED_HEADERS = {
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


class Api:
    """Sends requests; a reply that the description does not foresee is an assertion error.

    The description is the same for every application, so it is fetched and its schemas are read only once.
    """

    described: ClassVar[dict[str, Any]] = {}
    validators: ClassVar[dict[str, Draft202012Validator]] = {}

    def __init__(self, app: Flask) -> None:
        self.client = app.test_client()
        self.app = app
        if not self.described:
            self.described.update(self.client.get("/api/openapi.json").get_json())

    def get(self, path: str, **more: Any) -> TestResponse:
        return self.send("GET", path, **more)

    def post(self, path: str, body: object, **more: Any) -> TestResponse:
        return self.send("POST", path, data=json.dumps(body), content_type="application/json", **more)

    def patch(
        self,
        job: str,
        operations: object,
        revision: int | None = None,
        *,
        query: str = "",
        headers: dict[str, str] | None = None,
    ) -> TestResponse:
        said = dict(headers or {})
        if revision is not None:
            said["If-Match"] = f'"{revision}"'
        path = f"/api/jobs/{job}{query}"
        return self.send("PATCH", path, data=json.dumps(operations), content_type=PATCH_JSON, headers=said)

    def create(self, document: object) -> str:
        reply = self.post("/api/jobs", document)
        assert reply.status_code == 201, reply.text
        return str(reply.get_json()["id"])

    def document(self, job: str) -> Any:
        return self.get(f"/api/jobs/{job}").get_json()

    def send(self, method: str, path: str, **more: Any) -> TestResponse:
        reply = self.client.open(path, method=method, **more)
        self.check(method, path, reply)
        return reply

    def check(self, method: str, path: str, reply: TestResponse) -> None:
        """Check status, headers, media type and shape of a reply."""
        assert reply.status_code < 500, reply.text
        for name, value in NEEDED_HEADERS.items():
            assert reply.headers[name] == value
        assert "private" in reply.headers["Cache-Control"]
        assert "default-src 'none'" in reply.headers["Content-Security-Policy"]
        if reply.status_code >= 400:
            assert reply.mimetype == "application/problem+json", (reply.status_code, reply.mimetype)
            self.hold("#/components/schemas/Problem", reply.get_json())
            assert reply.get_json()["status"] == reply.status_code
        operation = self.operation(method, path)
        if operation is None:
            return
        answer = operation["responses"].get(str(reply.status_code))
        assert answer is not None, f"{method} {path} answered {reply.status_code}, which is not described: {reply.text}"
        self.check_answer(answer, reply)

    def check_answer(self, answer: dict[str, Any], reply: TestResponse) -> None:
        for name in answer.get("headers", {}):
            assert name in reply.headers
        content = answer.get("content")
        if content is None:
            assert reply.data == b""
            return
        assert list(content) == [reply.mimetype]
        ((media_type, said),) = content.items()
        if media_type.endswith("json"):
            self.hold(said["schema"]["$ref"], reply.get_json())

    def hold(self, reference: str, value: object) -> None:
        """Hold a value against a schema of the description."""
        validator = self.validators.get(reference)
        if validator is None:
            schema = {"$ref": reference, "components": self.described["components"]}
            validator = self.validators[reference] = Draft202012Validator(schema)
        error = next(iter(validator.iter_errors(value)), None)
        assert error is None, f"{reference}: {error.json_path}: {error.message[:500]}"

    def operation(self, method: str, path: str) -> dict[str, Any] | None:
        """Return the description of the operation that answers, None where nothing does."""
        steps = path.split("?")[0].split("/")
        for template, operations in self.described["paths"].items():
            wanted = template.split("/")
            fits = len(wanted) == len(steps) and all(
                w in (s, "") or "{" in w for w, s in zip(wanted, steps, strict=True)
            )
            if fits and method.lower() in operations:
                found: dict[str, Any] = operations[method.lower()]
                return found
        return None
