"""What the page of the bench holds before its scripts have come: the drawing, and the names of the modules to fetch.

Rules of the file: the drawing is the one that the bench asks for first, so that nothing changes under the eye when the
scripts take over. The modules are found by their imports, not listed by hand.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path
from typing import Any

from flask import current_app
from markupsafe import Markup

from app.circuit.situation import Situation
from app.web.drawn import drawn_svg
from app.web.picture import Picture
from app.web.worked import Worked

_IMPORT = re.compile(r'^(?:import|export)\b[^"\n]*"(\.[^"]+)"', re.MULTILINE)
_IMPORTS_OVER_LINES = re.compile(r'^\} from "(\.[^"]+)"', re.MULTILINE)


def first_look(worked: Worked, layout: str) -> dict[str, Any]:
    """Return what the template of the bench needs of this: ``drawing`` and ``modules``."""
    static = Path(current_app.static_folder or "")
    modules = [module.relative_to(static).as_posix() for module in modules_of(static / "bench" / "main.js")]
    return {"drawing": first_drawing(worked, layout), "modules": modules}


def first_drawing(worked: Worked, layout: str) -> Markup:
    """Return the connection diagram of a layout in which nothing calls, for a page to hold, dressed as on the sheet."""
    svg = drawn_svg(worked, layout, Picture(), Situation())
    return Markup(svg[svg.index("<svg") :].replace("<svg", '<svg class="drawing"', 1))


def is_first(picture: Picture, situation: Situation) -> bool:
    """Return whether that is what the page of the bench comes with."""
    return picture == Picture() and situation == Situation()


@lru_cache
def modules_of(entry: Path) -> tuple[Path, ...]:
    """Return the modules that a module imports, and those that they import, each once.

    The browser would else learn of each layer of them only when it has read the one above.
    """
    found: dict[Path, None] = {}
    asked = [entry]
    while asked:
        module = asked.pop()
        words = module.read_text(encoding="utf-8")
        names = [*_IMPORT.findall(words), *_IMPORTS_OVER_LINES.findall(words)]
        new = [path for path in ((module.parent / name).resolve() for name in names) if path not in found]
        found.update(dict.fromkeys(new))
        asked += new
    return tuple(found)
