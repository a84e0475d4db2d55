"""The demo jobs, ready to open."""

from __future__ import annotations

from dataclasses import asdict

from flask import Response

from app.job.reading import document_of
from app.web.api.jobs import CREATED, created
from app.web.operation import Answer, ApiBlueprint
from app.web.problem import Problem
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.jobs import DemoList

blueprint = ApiBlueprint("demos", __name__)


@blueprint.operation("GET", "/api/demos", answers={200: Answer("The demo jobs.", DemoList)})
def list_demos() -> Response:
    """List the demo jobs in the order of their names."""
    return json_reply({"demos": [asdict(demo) for demo in service().demos.listed()]})


@blueprint.operation("POST", "/api/demos/<name>", answers={201: CREATED}, refuses=(404,))
def open_demo(name: str) -> Response:
    """Make a new job that is a copy of a demo. Every call makes one, so that the demo itself stays as it is."""
    try:
        opened = service().demos.open(name)
    except KeyError:
        names = ", ".join(demo.name for demo in service().demos.listed())
        raise Problem(404, "no-such-demo", "There is no such demo.", would_be_right=f"one of {names}") from None
    return created(service().store.create(document_of(opened.job)))
