"""How documents of older versions become documents of this one.

A step takes a document of version n and returns one of version n + 1, touching nothing of what it was given. Version 1
is the first, so no step exists yet; the next version adds its step here and a document of the old version to the tests.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from app.job.json_values import shown
from app.job.model import FORMAT, VERSION
from app.job.refusal import Refused

Step = Callable[[Mapping[str, Any]], Mapping[str, Any]]

STEPS: Mapping[int, Step] = {}


def migrate(document: Mapping[str, Any], steps: Mapping[int, Step] = STEPS, newest: int = VERSION) -> Mapping[str, Any]:
    """Return the document in version ``newest``.

    Args:
        document: a JSON object that says its format and version.
        steps: for each older version the step to the next one.
        newest: the version that is wanted.

    Raises:
        Refused: ``not-a-job``, ``newer-version`` or ``bad-version``.
    """
    if document.get("format") != FORMAT:
        raise Refused(
            "not-a-job",
            "This is no Rungwright job: it does not say so under “format”.",
            pointer="/format" if "format" in document else "",
            would_be_right=f'"format": "{FORMAT}"',
        )
    version = document.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        what = f"{shown(version)} is no version" if "version" in document else "The job does not say its version"
        pointer = "/version" if "version" in document else ""
        raise Refused("bad-version", f"{what}.", pointer=pointer, would_be_right=f'"version": {newest}')
    if version > newest:
        raise Refused(
            "newer-version",
            f"This job was written by a newer version ({version}). This one reads up to {newest}. Nothing was changed.",
            pointer="/version",
            would_be_right=f"version {newest} or older, or a newer Rungwright",
        )
    for older in range(version, newest):
        document = {**steps[older](document), "version": older + 1}
    return document
