"""The JSON Schema of a kind, made from its one definition."""

from __future__ import annotations

from typing import Any

from app.catalogue.kind import Kind
from app.job.schema import DIALECT, close_maps


def kind_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a kind, as it stands in a TOML file or under ``kinds`` of a job.

    What needs other parts of the kind to be judged, such as contacts that are moved by what exists, is not in it.
    """
    schema = Kind.model_json_schema(by_alias=True)
    close_maps(schema)
    described = {"$schema": DIALECT, "title": "Rungwright kind", "description": "One kind of part, declared as data."}
    return {**schema, **described}
