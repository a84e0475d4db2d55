"""The job document as frozen values.

Rules of the file: this is the one definition of the document's shape; the JSON Schema is generated from it. Values
are never changed in place: a change is a JSON Patch (see ``patch``) that yields a new ``Job``. What needs the
catalogue to judge (kinds, settings, terminals) is judged in ``app.catalogue.structure``, not here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StrictBool, StrictFloat, StrictInt, StrictStr

from app.job.names import Id, Insulation, TerminalName, letter_of, part_of

FORMAT: Literal["rungwright-job"] = "rungwright-job"
VERSION: Literal[1] = 1

Text = Annotated[str, Field(max_length=4000)]
ShortText = Annotated[str, Field(max_length=200)]
Coordinate = Annotated[StrictInt, Field(ge=-100_000, le=100_000)]
SettingValue = StrictBool | StrictInt | StrictFloat | StrictStr


class Frozen(BaseModel):
    """A value of the document: immutable, no unknown keys, no NaN or infinity."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, ser_json_inf_nan="constants")


class UnknownEnd(Frozen):
    """An end that could not be seen, and where it disappears."""

    unknown: ShortText


End = TerminalName | UnknownEnd | None


class Part(Frozen):
    """A piece of equipment or a device on a layout.

    ``settings`` holds what differs from the kind's defaults: settings, fitted or removed jumpers, positions of
    switches (one namespace, see ``app.catalogue.kind``). ``at`` is the upper left corner in sheet units.
    """

    kind: Id
    label: ShortText = ""
    place: ShortText = "main"
    air: ShortText = "main"
    at: tuple[Coordinate, Coordinate] | None = None
    settings: Mapping[str, SettingValue] = Field(default_factory=dict)
    note: Text = ""


class Cable(Frozen):
    """A jacketed bundle of conductors, all of one gauge and length."""

    label: ShortText = ""
    size_awg: Annotated[StrictInt, Field(ge=10, le=30)] = 18
    length_m: Annotated[float, Field(strict=True, gt=0, le=1000)] | None = None
    note: Text = ""


class Conductor(Frozen):
    """One wire between two ends. Without cable and length it is an ideal join."""

    ends: tuple[End, End]
    cable: Id | None = None
    insulation: Insulation | None = None
    size_awg: Annotated[StrictInt, Field(ge=10, le=30)] | None = None
    length_m: Annotated[float, Field(strict=True, gt=0, le=1000)] | None = None
    note: Text = ""

    def landed(self) -> list[str]:
        """Return the terminals on which this conductor is landed, in the order of its ends."""
        return [end for end in self.ends if isinstance(end, str)]

    def length_and_size(self, cables: Mapping[str, Cable]) -> tuple[float, int] | None:
        """Return (length in metres, AWG) of this conductor, or None where it is an ideal join.

        What the conductor itself says comes before what its cable says.
        """
        cable = cables.get(self.cable) if self.cable is not None else None
        length_m = self.length_m if self.length_m is not None else (cable.length_m if cable else None)
        if length_m is None:
            return None
        size_awg = self.size_awg if self.size_awg is not None else (cable.size_awg if cable else 18)
        return length_m, size_awg


class Layout(Frozen):
    """One complete wiring of the site."""

    label: ShortText = ""
    parts: Mapping[Id, Part] = Field(default_factory=dict)
    cables: Mapping[Id, Cable] = Field(default_factory=dict)
    conductors: Mapping[Id, Conductor] = Field(default_factory=dict)

    def landed_letters(self, part: str) -> list[str]:
        """Return the letters of ``part`` on which something is landed, sorted, each once."""
        found = {
            letter_of(end)
            for conductor in self.conductors.values()
            for end in conductor.landed()
            if part_of(end) == part
        }
        return sorted(found)


class JobSettings(Frozen):
    """What holds for the whole job."""

    frequency_hz: Literal[50, 60] = 60
    units: Literal["us", "si"] = "us"


class Accepted(Frozen):
    """A finding that somebody has set aside, with the reason."""

    rule: str = Field(pattern=r"^[a-z][a-z0-9-]{0,63}$")
    subjects: tuple[ShortText, ...]
    reason: Text


class Records(Frozen):
    """What was recorded at the site."""

    accepted: tuple[Accepted, ...] = ()


class Job(Frozen):
    """One site's work: its layouts, the kinds that it brings along, its records."""

    format: Literal["rungwright-job"] = FORMAT
    version: Literal[1] = VERSION
    title: ShortText
    notes: Text = ""
    settings: JobSettings = JobSettings()
    layouts: Mapping[Id, Layout] = Field(default_factory=dict)
    kinds: Mapping[Id, Mapping[str, Any]] = Field(default_factory=dict)
    records: Records = Records()

    def default_layout(self) -> str:
        """Return the layout that is meant when none is named: as-left, else as-found, else the only one.

        Raises:
            KeyError: there is no such layout.
        """
        for name in ("as-left", "as-found"):
            if name in self.layouts:
                return name
        if len(self.layouts) == 1:
            return next(iter(self.layouts))
        raise KeyError("the job has no layout that is meant by default")
