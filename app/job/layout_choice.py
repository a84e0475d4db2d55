"""Which layout is meant, and with which it is compared, said once for every door."""

from __future__ import annotations

from app.job.model import Job
from app.job.refusal import Refused


def layout_meant(job: Job, name: str | None) -> str:
    """Return the layout called ``name``, or the one that is meant where none is named.

    Raises:
        Refused: ``unknown-layout``, there is none of that name; ``layout-not-meant``, none is meant by default.
    """
    names = ", ".join(sorted(job.layouts))
    if name is not None and name not in job.layouts:
        right = f"one of {names}" if names else "a job with a layout"
        raise Refused("unknown-layout", f"There is no layout {name[:80]!r}.", pointer="/layouts", would_be_right=right)
    if name is not None:
        return name
    try:
        return job.default_layout()
    except KeyError:
        right = f"name one of {names}" if names else "a job with a layout"
        message = "No layout is named, and the job has none that is meant by default."
        raise Refused("layout-not-meant", message, pointer="/layouts", would_be_right=right) from None


def layout_before(job: Job, layout: str, name: str | None) -> str:
    """Return the layout with which ``layout`` is compared: ``name``, else as-found, else the only other one.

    Raises:
        Refused: ``unknown-layout``, there is none of that name; ``nothing-before``, none is meant by default.
    """
    if name is not None:
        return layout_meant(job, name)
    others = sorted(job.layouts.keys() - {layout})
    if "as-found" in others:
        return "as-found"
    if len(others) == 1:
        return others[0]
    if not others:
        message = f"The job has no layout but {layout!r}, so there is none to compare it with."
        right = "a job with two layouts, such as as-found and as-left"
    else:
        message = "It is not said with which layout this one is compared."
        right = f"name one of {', '.join(others)}"
    raise Refused("nothing-before", message, pointer="/layouts", would_be_right=right)
