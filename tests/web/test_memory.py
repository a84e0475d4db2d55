"""A patch that doubles what it copies is refused before the memory for it is taken."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

HOME = Path(__file__).parents[2]

# A process of its own: the peak of memory belongs to a whole process and never comes down.
TRY = """
import json, resource, sys, tempfile
from pathlib import Path
from app.web.application import create_app
from tests.web.mutations import whole_document

app = create_app(Path(tempfile.mkdtemp()), demo_dir=Path("/nothing"))
client = app.test_client()
document = {**whole_document(), "notes": "x" * 4000}
job = client.post("/api/jobs", json=document).get_json()["id"]
patch = json.loads(sys.stdin.read())
send = lambda operations: client.patch(
    f"/api/jobs/{job}", data=json.dumps(operations), content_type="application/json-patch+json",
    headers={"If-Match": '"1"'})
send([{"op": "test", "path": "/title", "value": "Other"}])
before_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
reply = send(patch)
after_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(json.dumps({"status": reply.status_code, "problem": reply.get_json(), "grown_kb": after_kb - before_kb,
                  "unchanged": client.get(f"/api/jobs/{job}").get_json() == document}))
app.extensions["rungwright"].close()
"""

DOUBLINGS = 40


def doubling() -> list[dict[str, object]]:
    """Return a patch of a few kilobytes whose result, left alone, would have 2 to the power of 40 times the notes."""
    steps: list[dict[str, object]] = [{"op": "add", "path": "/kinds/bomb", "value": {"a": "x" * 1000}}]
    for _ in range(DOUBLINGS):
        steps.append({"op": "copy", "from": "/kinds/bomb", "path": "/kinds/bomb/b"})
        steps.append({"op": "move", "from": "/kinds/bomb", "path": "/kinds/bomb-2"})
        steps.append({"op": "add", "path": "/kinds/bomb", "value": {}})
        steps.append({"op": "move", "from": "/kinds/bomb-2", "path": "/kinds/bomb/a"})
    return steps


def flat_doubling() -> list[dict[str, object]]:
    """Return a patch that doubles a list side by side, so that no depth limit stops it."""
    steps: list[dict[str, object]] = [{"op": "add", "path": "/kinds/bomb", "value": {"k0": ["x" * 100_000]}}]
    for number in range(1, DOUBLINGS):
        steps.append({"op": "add", "path": f"/kinds/bomb/k{number}", "value": []})
        copy: dict[str, object] = {
            "op": "copy",
            "from": f"/kinds/bomb/k{number - 1}",
            "path": f"/kinds/bomb/k{number}/-",
        }
        steps.extend([copy, copy])
    return steps


def tried(patch: list[dict[str, object]]) -> dict[str, object]:
    ended = subprocess.run(
        [sys.executable, "-c", TRY], cwd=HOME, input=json.dumps(patch), capture_output=True, text=True, timeout=120
    )
    assert ended.returncode == 0, ended.stderr
    said: dict[str, object] = json.loads(ended.stdout)
    return said


def refused_within(patch: list[dict[str, object]], most_kb: int) -> None:
    said = tried(patch)

    assert said["status"] == 413, said
    assert isinstance(said["problem"]["pointer"], str)  # type: ignore[index]
    assert said["unchanged"] is True
    assert said["grown_kb"] < most_kb  # type: ignore[operator]


def test_copies_side_by_side_are_refused_at_the_limit_of_the_document() -> None:
    # 2 MB is the most that the document may have; ten of that is room for the working copy and the reply.
    refused_within(flat_doubling(), 20 * 1024)


def test_copies_inside_each_other_are_refused_at_the_limits_too() -> None:
    refused_within(doubling(), 20 * 1024)
