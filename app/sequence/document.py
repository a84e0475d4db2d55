"""A run in the JSON shape of the command; times are in seconds and not rounded."""

from __future__ import annotations

from typing import Any

from app.sequence.run import Run


def run_document(run: Run) -> dict[str, Any]:
    """Return a run as JSON.

    Keys: events (``at_s``, ``what``, ``now``, ``cause``) and ends; besides them until_s, period_s (null where nothing
    comes back), unsettled (instants without a settled state, and why) and assumes.
    """
    return {
        "events": [event._asdict() for event in run.events],
        "ends": run.ends,
        "until_s": run.until_s,
        "period_s": run.period_s,
        "unsettled": [
            {
                "at_s": at_s,
                "why": unsettled.why,
                "elements": list(unsettled.elements),
                "period": unsettled.period,
                "outcomes": {mover: list(coils) for mover, coils in unsettled.outcomes.items()},
            }
            for at_s, unsettled in run.unsettled
        ],
        "assumes": list(run.assumes),
    }
