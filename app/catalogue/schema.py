"""The JSON Schema of a kind, made from its one definition."""

from __future__ import annotations

from typing import Any

from app.catalogue.kind import Kind


def kind_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a kind, as it stands in a TOML file or under ``kinds`` of a job."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "/api/schema/kind.json",
        **Kind.model_json_schema(by_alias=True, mode="validation"),
        "title": "Rungwright kind of part",
    }
