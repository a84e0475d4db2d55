"""The pages: the list of jobs, the bench, and what explains findings, parts and keys.

Rules of the file: pages are HTML without any inline script or style. What the bench asks for while one works, beside
the API, is here too, because only the bench needs it: one look at a layout in a situation, and where there is room.
"""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, current_app, render_template, request

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.cores import CUSTOMARY_CORES
from app.catalogue.kind import Kind
from app.checks.help import rule_help
from app.checks.registry import all_rules, rule_named
from app.job.refusal import Refused
from app.store.records import NoSuchJob
from app.web.conditional import etag
from app.web.drawn import drawn_svg
from app.web.example_pages import kind_examples, rule_examples
from app.web.first_look import first_look, is_first
from app.web.page_drawings import demo_drawings
from app.web.page_places import PlacesQuery, places_for
from app.web.query import ShownQuery, read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.wording.adding import GROUPS, group_of
from app.web.wording.kind_page import kind_page
from app.web.wording.systems import systems_as_layouts
from app.web.words import words_of

blueprint = Blueprint("pages", __name__)


@blueprint.get("/")
def jobs() -> str:
    """The list of jobs and the ways to begin one."""
    found = service()
    listed = found.store.list() if found.lists_jobs else None
    systems = systems_as_layouts(builtin_catalogue())
    shown = {"demos": found.demos.listed(), "drawings": demo_drawings(found.demos), "kinds": _kinds_by_group()}
    return render_template("jobs.html", jobs=listed, systems=systems, **shown)


@blueprint.get("/jobs/<job_id>")
def bench(job_id: str) -> str | tuple[str, int]:
    """The bench of one job."""
    try:
        revision, worked = service().worked(job_id)
        layout = worked.layout_meant(request.args.get("layout"))
    except NoSuchJob:
        return _missing("No such job", "There is no job with this address. It may have been deleted.")
    except Refused as refused:
        return _missing("Not opened", refused.message, refused.status_hint)
    shown = {"revision": revision, "layout": layout, "title": worked.job.title, "cores": CUSTOMARY_CORES}
    return render_template("bench.html", job=job_id, **shown, **first_look(worked, layout))


@blueprint.get("/jobs/<job_id>/shown")
def shown(job_id: str) -> Response:
    """Return what the bench shows of a layout in a situation: of what a change returns, all that the page reads."""
    query = read_query(ShownQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    report = worked.report(layout)
    situation = worked.situation(layout, query)
    point = worked.point(layout, situation)
    has_it = query.drawn == revision and is_first(query.picture, situation)
    said: dict[str, Any] = {
        "revision": revision,
        "view": query.view,
        "drawing": None if has_it else drawn_svg(worked, layout, query.picture, situation, point),
        "words": words_of(worked.job, layout, worked.catalogue, report, point),
    }
    return json_reply(said, headers={"ETag": etag(revision)})


@blueprint.get("/jobs/<job_id>/places")
def places(job_id: str) -> Response:
    """Return where parts of the kinds that are named would find room, one after the other."""
    query = read_query(PlacesQuery)
    _, worked = service().worked(job_id)
    return json_reply({"places": places_for(worked, worked.layout_meant(query.layout), query.kind)})


@blueprint.get("/worker.js")
def worker() -> Response:
    """The script that answers from what the device has kept. It only serves pages below the place that it lies at."""
    return current_app.send_static_file("worker/worker.js")


@blueprint.get("/away")
def away() -> str:
    """What the device shows where it has not kept a page and the server gives no answer."""
    return render_template("away.html")


@blueprint.get("/findings")
def findings() -> str:
    """Every rule with its first sentence."""
    return render_template("findings.html", rules=[rule_help(rule) for rule in all_rules()])


@blueprint.get("/findings/<rule>")
def finding(rule: str) -> str | tuple[str, int]:
    """The help page of a rule."""
    try:
        found = rule_named(rule)
    except KeyError:
        return _missing("No such finding", "There is no rule of this name.")
    return render_template("finding.html", rule=rule_help(found), examples=rule_examples(rule))


@blueprint.get("/kinds")
def kinds() -> str:
    """Every kind by where such parts stand."""
    return render_template("kinds.html", groups=_kinds_by_group())


@blueprint.get("/kinds/<kind>")
def kind(kind: str) -> str | tuple[str, int]:
    """The page of a kind."""
    catalogue = builtin_catalogue()
    if kind not in catalogue:
        return _missing("No such part", "There is no kind of this name among those that come along.")
    return render_template("kind.html", name=kind, page=kind_page(catalogue.kind(kind)), examples=kind_examples(kind))


@blueprint.get("/keys")
def keys() -> str:
    """The keys of the bench, and the cautions."""
    return render_template("keys.html")


def _kinds_by_group() -> list[tuple[str, list[tuple[str, Kind]]]]:
    catalogue = builtin_catalogue()
    rows = [(name, catalogue.kind(name)) for name in sorted(catalogue)]
    return [(title, [row for row in rows if group_of(row[1]) == group]) for group, title in GROUPS]


def _missing(heading: str, words: str, status: int = 404) -> tuple[str, int]:
    return render_template("missing.html", heading=heading, words=words), status
