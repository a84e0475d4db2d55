"""The OpenAPI 3.1 document, made from the routes' own descriptions and from the schemas of the shapes.

Nothing of the API is written down here: what a route says in its ``operation`` is what stands in the document.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from importlib.metadata import version
from typing import Any

from pydantic import BaseModel

from app.catalogue.schema import kind_schema
from app.job.schema import job_schema
from app.web.operation import Answer, Body, Operation
from app.web.problem import MEDIA_TYPE
from app.web.shapes.shape import ProblemShape

_PATH_VARIABLE = re.compile(r"<(?:[a-z]+:)?([a-z_]+)>")
_SERVED_SCHEMAS = {"job": job_schema, "kind": kind_schema}

FOREIGN = 403
"""What every route answers to a foreign name or, if it writes, to a foreign page."""

Schema = dict[str, Any]


def openapi_document(operations: Iterable[Operation]) -> Schema:
    """Return the description of ``operations`` as an OpenAPI 3.1 document."""
    schemas = _Schemas()
    paths: dict[str, Schema] = {}
    for operation in sorted(operations, key=lambda one: (one.path, one.method)):
        path = _PATH_VARIABLE.sub(r"{\1}", operation.path)
        paths.setdefault(path, {})[operation.method.lower()] = _operation(operation, schemas)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Rungwright",
            "version": version("rungwright"),
            "description": "Draws, checks and proves 24-volt control wiring of heating and cooling equipment.",
            "license": {"name": "Apache License 2.0", "identifier": "Apache-2.0"},
        },
        "servers": [{"url": "/"}],
        "paths": paths,
        "components": {"schemas": dict(sorted(schemas.known.items()))},
    }


class _Schemas:
    """The schemas that the document names, each lifted out once."""

    def __init__(self) -> None:
        self.known: dict[str, Schema] = {}

    def reference(self, shape: type[BaseModel] | str) -> Schema:
        """Return a reference to ``shape``, which stands among the components from now on."""
        if isinstance(shape, str):
            return self._lift(shape.capitalize(), _SERVED_SCHEMAS[shape]())
        return self._lift(shape.__name__.removesuffix("Shape"), shape.model_json_schema(mode="serialization"))

    def _lift(self, name: str, schema: Mapping[str, Any]) -> Schema:
        """Move a schema with its own definitions among the components, where its references then point."""
        inner = {key: f"{name}.{key}" for key in schema.get("$defs", {})}
        outer = {key: value for key, value in schema.items() if key not in ("$defs", "$schema", "$id")}
        self.known[name] = _redirected(outer, inner)
        for key, lifted in inner.items():
            self.known[lifted] = _redirected(schema["$defs"][key], inner)
        return {"$ref": f"#/components/schemas/{name}"}


def _redirected(schema: Any, names: Mapping[str, str]) -> Any:
    if isinstance(schema, list):
        return [_redirected(item, names) for item in schema]
    if not isinstance(schema, dict):
        return schema
    redirected = {key: _redirected(value, names) for key, value in schema.items()}
    target = schema.get("$ref")
    if isinstance(target, str):
        redirected["$ref"] = "#/components/schemas/" + names[target.removeprefix("#/$defs/")]
    return redirected


def _operation(operation: Operation, schemas: _Schemas) -> Schema:
    summary, _, more = operation.words.partition(". ")
    described: Schema = {
        "operationId": operation.name,
        "summary": summary.rstrip("."),
        "parameters": [*_path_parameters(operation), *_query_parameters(operation), *_header_parameters(operation)],
        "responses": _responses(operation, schemas),
    }
    if more:
        described["description"] = more
    if operation.body is not None:
        described["requestBody"] = _request_body(operation.body, schemas)
    return described


def _path_parameters(operation: Operation) -> list[Schema]:
    return [
        {"name": name, "in": "path", "required": True, "schema": {"type": "string"}}
        for name in _PATH_VARIABLE.findall(operation.path)
    ]


def _query_parameters(operation: Operation) -> list[Schema]:
    if operation.query is None:
        return []
    properties = operation.query.model_json_schema()["properties"]
    return [
        {
            "name": name,
            "in": "query",
            "required": False,
            "description": field.pop("description", ""),
            "schema": field,
        }
        for name, field in properties.items()
    ]


def _header_parameters(operation: Operation) -> list[Schema]:
    return [
        {
            "name": header.name,
            "in": "header",
            "required": header.required,
            "description": header.words,
            "schema": {"type": "string"},
        }
        for header in operation.headers
    ]


def _request_body(body: Body, schemas: _Schemas) -> Schema:
    shapes = body.shape if isinstance(body.shape, tuple) else (body.shape,)
    references = [schemas.reference(shape) for shape in shapes]
    schema = references[0] if len(references) == 1 else {"anyOf": references}
    return {"required": True, "content": {body.media_type: {"schema": schema}}}


def _responses(operation: Operation, schemas: _Schemas) -> Schema:
    said = {str(status): _answer(answer, schemas) for status, answer in operation.answers.items()}
    problem = {
        "description": "Refused; the problem detail says why.",
        "content": {MEDIA_TYPE: {"schema": schemas.reference(ProblemShape)}},
    }
    refusals = {str(status): problem for status in (FOREIGN, *operation.refuses)}
    return dict(sorted({**said, **refusals, "default": problem}.items()))


def _answer(answer: Answer, schemas: _Schemas) -> Schema:
    described: Schema = {"description": answer.words}
    if answer.media_type is not None:
        schema = schemas.reference(answer.shape) if answer.shape is not None else {"type": "string"}
        described["content"] = {answer.media_type: {"schema": schema}}
    if answer.headers:
        described["headers"] = {
            name: {"description": words, "schema": {"type": "string"}} for name, words in answer.headers.items()
        }
    return described
