"""The kinds that come along, one TOML file each in ``kinds/``.

Rules of the file: this is the only place of the core that reads anything, and it reads only what is packed with it
(``importlib.resources``). A kind's id is the name of its file.
"""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files

from app.catalogue.catalogue import Catalogue
from app.catalogue.reading import kind_from


@lru_cache(maxsize=1)
def builtin_catalogue() -> Catalogue:
    """Return the kinds that come along, sorted by id.

    Raises:
        Refused: a packed kind is not a good kind.
    """
    texts = {
        entry.name.removesuffix(".toml"): entry.read_text("utf-8")
        for entry in files("app.catalogue").joinpath("kinds").iterdir()
        if entry.name.endswith(".toml")
    }
    return Catalogue({name: kind_from(name, tomllib.loads(texts[name])) for name in sorted(texts)})
