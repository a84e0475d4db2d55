"""Does a job fit its kinds? What the document alone cannot tell is judged here.

Rules of the file: a half-wired layout is a legal document. Only what names something that is not there is refused;
what is electrically wrong is for the checks, and never blocks a change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import UNKNOWN_KIND, Catalogue
from app.catalogue.check_figures import value_fits
from app.catalogue.kind import Choice, Kind, Setting
from app.catalogue.reading import kind_from
from app.job.model import Conductor, Job, Layout, Part
from app.job.names import letter_of, part_of, pointer
from app.job.refusal import Refused


def catalogue_for(job: Job, builtin: Catalogue | None = None) -> Catalogue:
    """Return the kinds that hold for a job, once everything in it has been found to fit them.

    Args:
        job: a job of good shape.
        builtin: the kinds that come along; None for the packed ones. A kind of the job goes before one of these.

    Raises:
        Refused: ``bad-kind`` and the codes of ``check_kind``, ``unknown-kind``, ``unknown-setting``, ``bad-setting``,
            ``unknown-part``, ``unknown-terminal`` or ``unknown-cable``, with a pointer and what would be right.
    """
    own = {name: kind_from(name, said) for name, said in job.kinds.items()}
    catalogue = (builtin if builtin is not None else builtin_catalogue()).with_kinds(own)
    for name, layout in job.layouts.items():
        _check_layout(name, layout, catalogue)
    return catalogue


def _check_layout(name: str, layout: Layout, catalogue: Catalogue) -> None:
    for part_id, part in layout.parts.items():
        _check_part(pointer("layouts", name, "parts", part_id), part_id, part, catalogue)
    for conductor_id, conductor in layout.conductors.items():
        at = pointer("layouts", name, "conductors", conductor_id)
        _check_ends(at, conductor, layout, catalogue)
        if conductor.cable is not None and conductor.cable not in layout.cables:
            raise Refused(
                "unknown-cable",
                f"There is no cable {conductor.cable} on this layout.",
                pointer=f"{at}/cable",
                would_be_right=_one_of(conductor.cable, layout.cables, "no cable, for there is none yet"),
            )


def _check_part(at: str, part_id: str, part: Part, catalogue: Catalogue) -> None:
    if part.kind == UNKNOWN_KIND:
        settings: Mapping[str, Setting | tuple[str, ...]] = {}
    elif part.kind in catalogue:
        settings = _settable(catalogue.kind(part.kind))
    else:
        raise Refused(
            "unknown-kind",
            f"There is no kind {part.kind}, which the part {part_id} is said to be.",
            pointer=f"{at}/kind",
            would_be_right=_one_of(part.kind, [*catalogue, UNKNOWN_KIND], ""),
        )
    for name, value in part.settings.items():
        if name not in settings:
            raise Refused(
                "unknown-setting",
                f"There is nothing named {name} to set on {part_id}, a {part.kind}.",
                pointer=at + pointer("settings", name),
                would_be_right=_one_of(name, settings, "no settings: this kind has none"),
            )
        if not setting_fits(settings[name], value):
            raise Refused(
                "bad-setting",
                f"{name} of {part_id} cannot be {value!r}.",
                pointer=at + pointer("settings", name),
                would_be_right=said_choices(settings[name]),
            )


def _settable(kind: Kind) -> dict[str, Setting | tuple[str, ...]]:
    settable: dict[str, Setting | tuple[str, ...]] = dict(kind.settings)
    settable.update({name: switch.positions for name, switch in kind.switches.items()})
    settable.update(dict.fromkeys(kind.jumpers, ("fitted", "removed")))
    return settable


def settable_of(kind: Kind, name: str) -> Setting | tuple[str, ...] | None:
    """Return what a part's settings may say under ``name``: a setting, or the positions of a switch or jumper."""
    return _settable(kind).get(name)


def setting_fits(setting: Setting | tuple[str, ...], value: Choice) -> bool:
    """Return whether a setting may have this value, or a switch or jumper this position."""
    return value in setting if isinstance(setting, tuple) else value_fits(setting, value)


def said_choices(setting: Setting | tuple[str, ...]) -> str:
    """Say in words what a setting, switch or jumper may be."""
    choices: Iterable[Choice] = setting if isinstance(setting, tuple) else setting.choices
    if choices:
        return "one of " + ", ".join(_said(choice) for choice in choices)
    if isinstance(setting, Setting) and (setting.least is not None or setting.most is not None):
        least = "" if setting.least is None else f" from {setting.least:g}"
        most = "" if setting.most is None else f" to {setting.most:g}"
        return f"a number{least}{most} {setting.unit}".rstrip()
    return f"something like {_said(setting.default)}" if isinstance(setting, Setting) else ""


def _said(choice: Choice) -> str:
    return ("true" if choice else "false") if isinstance(choice, bool) else str(choice)


def _check_ends(at: str, conductor: Conductor, layout: Layout, catalogue: Catalogue) -> None:
    for number, end in enumerate(conductor.ends):
        if not isinstance(end, str):
            continue
        part_id, letter = part_of(end), letter_of(end)
        if part_id not in layout.parts:
            raise Refused(
                "unknown-part",
                f"There is no part {part_id} on this layout, so nothing can be landed on {end}.",
                pointer=f"{at}/ends/{number}",
                would_be_right=_one_of(part_id, layout.parts, "null, for there is no part yet"),
            )
        kind = catalogue.kind_of(layout.parts[part_id])
        if kind is not None and letter not in kind.terminals:
            has = ", ".join(kind.terminals)
            raise Refused(
                "unknown-terminal",
                f"There is no terminal {end}. It has {has}.",
                pointer=f"{at}/ends/{number}",
                would_be_right="one of " + ", ".join(f"{part_id}.{known}" for known in kind.terminals),
            )


def _one_of(given: str, known: Iterable[str], if_none: str) -> str:
    names = sorted(known)
    if not names:
        return if_none
    near = get_close_matches(given, names, n=1)
    meant = f"{near[0]}, if that was meant; " if near else ""
    shown = ", ".join(names[:40]) + (", …" if len(names) > 40 else "")
    return f"{meant}one of {shown}"
