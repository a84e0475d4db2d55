"""The shape of a kind of part.

Rules of the file: a kind is data. Nothing in Python knows a kind by its name, and no rule knows a terminal by its
letter: what a terminal is for stands in ``function``. Settings, switches, jumpers, elements and states of one kind
share one namespace, so that a term or a situation can name any of them without saying which sort it is.
Volts are RMS, VA are at rated volts, temperatures are degrees Celsius.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictFloat, StrictInt, StrictStr

from app.job.model import Frozen

Function = Literal[
    "supply",
    "supply-heating",
    "supply-cooling",
    "common",
    "call",
    "signal",
    "sensor",
    "dry",
    "bus",
    "line",
    "millivolt",
    "chassis",
    "through",
    "spare",
]
Side = Literal["left", "right", "top", "bottom"]
CallName = Literal[
    "fan",
    "cool-1",
    "cool-2",
    "heat-1",
    "heat-2",
    "aux-heat",
    "emergency-heat",
    "humidify",
    "dehumidify",
    "ventilate",
    "open",
]
EffectName = Literal[
    "indoor-fan",
    "compressor",
    "compressor-2",
    "cooling",
    "heat-pump-heating",
    "furnace-heat",
    "furnace-heat-2",
    "electric-heat",
    "defrost",
    "boiler-heat",
    "pump",
    "zone-open",
    "humidify",
    "outdoor-fan",
]
Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]{0,31}$")]
Letter = Annotated[str, Field(pattern=r"^[A-Z0-9][A-Za-z0-9/+_-]{0,11}$")]
Node = Annotated[str, Field(pattern=r"^([a-z][a-z0-9_]{0,31}|[A-Z0-9][A-Za-z0-9/+_-]{0,11})$")]
"""A terminal letter of the kind, or an inner node (lower case)."""
Term = Annotated[str, Field(max_length=500)]
"""Text of a term, see ``app.catalogue.terms``."""
Spoken = Annotated[str, Field(min_length=1, max_length=40)]
Figure = StrictFloat | Name
"""A number, or the name of the setting that holds it."""
Choice = StrictBool | StrictInt | StrictFloat | StrictStr
Watched = Literal["", "temperature", "pressure", "level", "flow", "position", "door", "hand"]
"""What moves a switch: how hot it is, a pressure or draft, how high water stands, whether something flows, how far a
damper or valve has come, a door, a hand. Empty where none of them says it. Drawings ask for it, circuits don't."""


class Terminal(Frozen):
    """A screw or tab of the part. ``holds`` is how many conductors it takes."""

    function: Function
    use: str
    side: Side = "right"
    holds: int = Field(default=2, ge=1, le=40)


class Setting(Frozen):
    """Something that is set once: one of ``choices``, or a number from ``least`` to ``most``."""

    use: str = ""
    default: Choice
    choices: tuple[Choice, ...] = ()
    least: StrictFloat | None = None
    most: StrictFloat | None = None
    unit: str = ""
    basis: str = ""


class Switch(Frozen):
    """Something with positions that a hand, a float, heat or pressure moves.

    In a term a switch named alone is true when it is ``closed``; ``mode == 'heat'`` asks for a position.
    ``safety`` marks the ones that protect: limit, rollout, pressure, float. ``watches`` says what moves it.
    """

    use: str = ""
    positions: tuple[str, ...] = ("open", "closed")
    rest: str = "open"
    safety: bool = False
    opens_on: str = ""
    closes_on: str = ""
    reset: Literal["automatic", "manual", ""] = ""
    watches: Watched = ""


class Jumper(Frozen):
    """A short removable join between two terminals, as the factory or the last person left it."""

    use: str = ""
    rest: Literal["fitted", "removed"]


class ElementBase(Frozen):
    """What every element has: its two nodes and where its figures come from."""

    between: tuple[Node, Node]
    basis: str = ""


class Source(ElementBase):
    """A secondary winding; the second node is its common side.

    Open-circuit volts are ``volts`` × (1 + ``regulation``) behind the series resistance that gives rated volts at
    rated VA. ``mains`` names the supply that feeds the primary, or the setting that holds that name. ``taps`` gives
    for each tap of the primary, by its marking, the line volts at which the secondary gives ``volts``; ``tap`` names
    the setting that says which tap is in use, and ``line_volts`` is what the line brings. Another line than the tap
    is made for raises or lowers the open-circuit volts in proportion; the winding's resistance stays.
    """

    is_: Literal["source"] = Field(alias="is")
    volts: Figure = 24.0
    va: Figure
    regulation: Figure = 0.10
    phase_deg: Literal[0, 180] | Literal["unknown"] | Name = 0
    limiting: Literal["inherent", "device", "unknown"] | Name = "unknown"
    mains: str = "main"
    taps: Mapping[str, StrictFloat] = Field(default_factory=dict)
    tap: Name | Literal[""] = ""
    line_volts: Figure | None = None


class Trace(ElementBase):
    """A join that is always closed."""

    is_: Literal["trace"] = Field(alias="is")


class JumperElement(ElementBase):
    """Where a jumper of the kind sits; ``by`` names it in ``jumpers``."""

    is_: Literal["jumper"] = Field(alias="is")
    by: Name


class Fuse(ElementBase):
    """A fuse; in a term it is true while whole. ``resettable`` is a breaker, which is pressed in again by hand."""

    is_: Literal["fuse"] = Field(alias="is")
    amps: Figure
    resettable: StrictBool = False


class Coil(ElementBase):
    """A coil that pulls in and lets go; in a term it is true while pulled in.

    ``pull_in``, ``pull_in_guaranteed`` and ``drop_out`` are shares of ``volts``. ``works`` is what it moves: contacts
    at once, after a time, or those of a contactor; a valve; a motor; a heat motor, which bends when it is warm.
    """

    is_: Literal["coil"] = Field(alias="is")
    volts: Figure = 24.0
    va_sealed: Figure
    va_inrush: Figure
    power_factor_sealed: Figure = 0.5
    power_factor_inrush: Figure = 0.7
    pull_in: Figure = 0.75
    pull_in_guaranteed: Figure = 0.85
    drop_out: Figure = 0.5
    dc_ohms: Figure | None = None
    works: Literal["relay", "timer", "contactor", "valve", "motor", "heat-motor"] = "relay"


class Contact(ElementBase):
    """A contact moved by a coil, a switch, a state, or by calls.

    ``by`` names a coil, switch or state of the kind; the word ``calls`` means that the calls which name this contact
    under ``closes`` close it. A contact by a switch is closed when the switch is ``closed``. For the others ``rest``
    is the position with nothing energised, asserted or asked for. ``max_amps`` is what it may switch at 24 V.
    ``off_leak_ohms`` is what an electronic switch or a snubber lets through while open. It is computed as a resistance,
    though a snubber is a capacitor: on an input of 10 kΩ the model gives 7.2 V where a capacitor of the same ohms
    would give 9.3 V (26.4 V, 26.5 kΩ), so judge what lies that near to a threshold with care. ``watches`` says what
    moves it where a state stands between: a pressure switch that follows its inducer, the end switch of a damper.
    """

    is_: Literal["contact"] = Field(alias="is")
    by: Name
    rest: Literal["open", "closed"] = "open"
    max_amps: Figure | None = None
    off_leak_ohms: Figure | None = None
    watches: Watched = ""


class Load(ElementBase):
    """A constant impedance. With ``powers_above`` (volts) it is what keeps the part awake: in a term it is true
    while powered, and while it is not, the part's calls close nothing (unless the setting ``battery`` is true).
    ``works`` is what it is where it isn't electronics."""

    is_: Literal["load"] = Field(alias="is")
    volts: Figure = 24.0
    va: Figure
    power_factor: Figure = 1.0
    powers_above: Figure | None = None
    works: Literal["", "heater", "motor", "lamp"] = ""


class Input(ElementBase):
    """An electronic input; in a term it is true from ``threshold_volts`` up and until 0.8 of it on the way down.
    ``works`` is ``lamp`` where it does nothing but light."""

    is_: Literal["input"] = Field(alias="is")
    ohms: Figure
    threshold_volts: Figure = 12.0
    works: Literal["", "lamp"] = ""


class Ground(Frozen):
    """A join of one node to the chassis and so to earth."""

    is_: Literal["ground"] = Field(alias="is")
    at: Node
    basis: str = ""


class Opaque(Frozen):
    """Something through which nothing is computed: data, millivolt, diode-shared conductors."""

    is_: Literal["opaque"] = Field(alias="is")
    nodes: tuple[Node, ...]
    why: str
    basis: str = ""


Element = Annotated[
    Source | Trace | JumperElement | Fuse | Coil | Contact | Load | Input | Ground | Opaque,
    Field(discriminator="is_"),
]


class Call(Frozen):
    """What a control may ask for.

    ``when`` (a term over settings and switches) tells whether the set-up has this call at all; ``closes`` gives for
    each contact (with ``by = "calls"``) the term under which this call closes it, ``"true"`` for always. A call whose
    ``when`` does not hold closes nothing.
    """

    use: str = ""
    when: Term = "true"
    closes: Mapping[Name, Term]


class Kind(Frozen):
    """The type of a part.

    ``called`` gives for elements and states what a technician calls them, where their names would not tell him; see
    ``app.catalogue.called``.
    """

    title: str = Field(min_length=1, max_length=80)
    summary: str = Field(max_length=400)
    cautions: tuple[str, ...] = ()
    terminals: Mapping[Letter, Terminal]
    settings: Mapping[Name, Setting] = Field(default_factory=dict)
    switches: Mapping[Name, Switch] = Field(default_factory=dict)
    jumpers: Mapping[Name, Jumper] = Field(default_factory=dict)
    elements: Mapping[Name, Element] = Field(default_factory=dict)
    states: Mapping[Name, Term] = Field(default_factory=dict)
    called: Mapping[Name, Spoken] = Field(default_factory=dict)
    calls: Mapping[CallName, Call] = Field(default_factory=dict)
    effects: Mapping[EffectName, Term] = Field(default_factory=dict)
