"""The moment of a run at which something is looked at, as a query says it; without a time it is how things stand."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from app.circuit.operating_point import OperatingPoint
from app.sequence.run import Run
from app.web.picture import Picture
from app.web.query import LONGEST_S, SequenceQuery
from app.web.worked import Worked


class MomentQuery(SequenceQuery):
    """A layout, a situation, and where a run is followed: what happens in it, and the time that is looked at."""

    begin: Literal["asked", "rest"] = Field(
        "asked",
        description="It begins where the calls have long stood, or at rest, and they are asked for at 0 s.",
    )
    time: float | None = Field(
        None, description="Seconds from the beginning of the run.", ge=0, le=LONGEST_S, allow_inf_nan=False
    )


def run_of(worked: Worked, layout: str, query: MomentQuery) -> Run:
    """Return the run that a query asks for.

    Raises:
        Refused: its situation or its changes cannot be read, or do not fit the layout.
    """
    picture = Picture(changes=query.at, for_s=query.for_s, from_rest=query.begin == "rest")
    return worked.run(layout, picture, worked.situation(layout, query))


def point_of(worked: Worked, layout: str, query: MomentQuery) -> OperatingPoint:
    """Return what the circuit does at the time of a query, or once it has settled where none is given."""
    if query.time is None:
        return worked.point(layout, worked.situation(layout, query))
    return run_of(worked, layout, query).point_at(query.time)
