"""What the API says about itself is true and whole."""

from __future__ import annotations

import re

import pytest
from flask import Flask
from jsonschema import Draft202012Validator

from app.catalogue.builtin import builtin_catalogue
from tests.web.api import Api
from tests.web.mutations import KIND, whole_document


def described_routes(api: Api) -> set[tuple[str, str]]:
    return {(method.upper(), path) for path, methods in api.described["paths"].items() for method in methods}


def test_every_route_of_the_api_is_described_and_no_other(app: Flask, api: Api) -> None:
    served = {
        (method, re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule))
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if rule.rule.startswith("/api/") or rule.rule == "/health"
    }

    assert described_routes(api) == served


def test_every_call_of_the_contract_is_there(api: Api) -> None:
    assert described_routes(api) >= {
        ("POST", "/api/jobs"),
        ("GET", "/api/jobs"),
        ("GET", "/api/jobs/{job_id}"),
        ("DELETE", "/api/jobs/{job_id}"),
        ("PATCH", "/api/jobs/{job_id}"),
        ("GET", "/api/jobs/{job_id}/findings"),
        ("GET", "/api/jobs/{job_id}/solution"),
        ("GET", "/api/jobs/{job_id}/drawing.svg"),
        ("GET", "/api/jobs/{job_id}/wires.csv"),
        ("GET", "/api/jobs/{job_id}/history"),
        ("POST", "/api/jobs/{job_id}/landings"),
        ("POST", "/api/check"),
        ("POST", "/api/solve"),
        ("POST", "/api/read"),
        ("POST", "/api/draw"),
        ("GET", "/api/schema/job.json"),
        ("GET", "/api/schema/kind.json"),
        ("GET", "/api/openapi.json"),
        ("GET", "/health"),
    }


def test_the_description_is_openapi_3_1_with_words_for_everything(api: Api) -> None:
    assert api.described["openapi"].startswith("3.1.")
    names = [one["operationId"] for methods in api.described["paths"].values() for one in methods.values()]
    assert len(names) == len(set(names))
    for methods in api.described["paths"].values():
        for operation in methods.values():
            assert operation["summary"]
            assert all(parameter["schema"] for parameter in operation["parameters"])


def test_every_schema_of_the_description_is_a_schema_and_every_reference_leads_somewhere(api: Api) -> None:
    schemas = api.described["components"]["schemas"]
    for schema in schemas.values():
        Draft202012Validator.check_schema(schema)
    targets = set(re.findall(r'"\$ref": *"([^"]+)"', api.get("/api/openapi.json").text))
    assert targets <= {f"#/components/schemas/{name}" for name in schemas}


@pytest.mark.parametrize("name", ["job", "kind"])
def test_the_schemas_are_json_schema(api: Api, name: str) -> None:
    reply = api.get(f"/api/schema/{name}.json")

    Draft202012Validator.check_schema(reply.get_json())
    assert reply.get_json()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_schemas_take_a_whole_job_and_every_kind(api: Api) -> None:
    Draft202012Validator(api.get("/api/schema/job.json").get_json()).validate(whole_document())
    kinds = Draft202012Validator(api.get("/api/schema/kind.json").get_json())
    kinds.validate(KIND)
    catalogue = builtin_catalogue()
    for name in catalogue:
        kinds.validate(catalogue.kind(name).model_dump(mode="json", by_alias=True, exclude_unset=True))


def test_health(api: Api) -> None:
    assert api.get("/health").get_json()["status"] == "ok"
