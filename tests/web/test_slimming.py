"""What is served of a script or a style sheet says the same as what is written, without comments."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

import pytest

from app.web.slimming import slim
from tests.web.api import Api

HERE = Path(__file__).parent
STATIC = HERE.parents[1] / "static"
SCRIPTS = {path.relative_to(STATIC).as_posix(): path.read_text(encoding="utf-8") for path in STATIC.rglob("*.js")}


def changed(scripts: Mapping[str, tuple[str, str]]) -> list[str]:
    """Return the names of the scripts that are not the same program before and after."""
    node, tsc = shutil.which("node"), shutil.which("tsc")
    assert node, "node comes with the type checker"
    assert tsc, "the type checker is among the system's packages"
    said = subprocess.run(
        [node, str(HERE / "same_tree.js"), str(Path(tsc).resolve())],
        input=json.dumps(scripts),
        capture_output=True,
        text=True,
        check=True,
    )
    found: list[str] = json.loads(said.stdout)
    return found


def slimmed(text: str, media_type: str = "text/javascript") -> str:
    return slim(text.encode(), media_type).decode()


def test_every_script_is_the_same_program_as_it_is_served() -> None:
    # Where one fails that has a template inside a template: give the inner one a name before the outer one.
    assert len(SCRIPTS) > 100
    assert changed({name: (text, slimmed(text)) for name, text in SCRIPTS.items()}) == []


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ('say("not  landed");', 'say("not landed");'),
        ("say(`${a}, ${b}`);", "say(`${a},${b}`);"),
        ("call(4);", "call(40);"),
        ("if (/a b/.test(word)) go();", "if (/ab/.test(word)) go();"),
        ("return\nfound;", "return found;"),
        ("go(a + ++b);", "go(a++ + b);"),
        ("go(left);", "go(lift);"),
        ("const a = 1;", "const a = ;"),
    ],
    ids=["string", "template", "number", "pattern", "line", "sign", "name", "broken"],
)
def test_a_script_that_says_something_else_is_seen(before: str, after: str) -> None:
    assert changed({"one": (before, after), "same": (before, before)}) == ["one"]


def test_comments_and_needless_space_are_left_out() -> None:
    script = "/** Says why. */\nexport function go(far) {\n  // As far as it goes.\n  return far + 1;\n}\n"
    assert slimmed(script) == "export function go(far){return far+1;}"
    style = "/* Thin. */\n.wire {\n  stroke-width: calc(1px + var(--thin));\n}\n"
    assert slimmed(style, "text/css") == ".wire{stroke-width:calc(1px + var(--thin))}"


def test_anything_else_is_served_as_it_is() -> None:
    assert slimmed("<svg>  <!-- a --> </svg>", "image/svg+xml") == "<svg>  <!-- a --> </svg>"


@pytest.mark.parametrize("path", ["bench/sheet/surface.js", "style/sheet.css"])
def test_a_file_is_served_slim_and_names_what_it_holds(api: Api, path: str) -> None:
    reply = api.client.get(f"/static/{path}", buffered=True)
    assert reply.mimetype is not None
    assert reply.data == slim((STATIC / path).read_bytes(), reply.mimetype)
    assert len(reply.data) < len((STATIC / path).read_bytes())
    again = api.client.get(f"/static/{path}", headers={"If-None-Match": reply.headers["ETag"]}, buffered=True)
    assert (again.status_code, again.data) == (304, b"")
    other = api.client.get("/static/style/base.css", headers={"If-None-Match": reply.headers["ETag"]}, buffered=True)
    assert other.status_code == 200
