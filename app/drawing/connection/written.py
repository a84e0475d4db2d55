"""All that is written beside conductors: their labels, and what each is for where it can be told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.drawing.connection.labels import end_labels
from app.drawing.connection.landings import EndName
from app.drawing.connection.live import KeptFree, kept_free
from app.drawing.connection.plan import Plan
from app.drawing.connection.purposes import purposes_on
from app.drawing.surface.verbs import Text
from app.explain.purpose_words import role_words
from app.explain.role import Role

Roles = Mapping[str, Role]
NO_ROLES: Roles = {}


@dataclass(frozen=True)
class Written:
    """The words beside conductors.

    ``labels`` stand at their ends and ``purposes`` where there is room, by conductor; ``kept_free`` is where those keep
    arrowheads off. A reader hears every role.
    """

    labels: Mapping[EndName, Text]
    purposes: Mapping[str, Text]
    kept_free: KeptFree
    roles: Roles

    def spoken(self, name: str) -> str:
        """Return what a conductor is for in words, empty where nobody worked that out."""
        return role_words(self.roles[name]) if name in self.roles else ""


def written_on(plan: Plan, roles: Roles = NO_ROLES) -> Written:
    """Return what is written beside the conductors of a plan."""
    labels = dict(end_labels(plan))
    purposes = purposes_on(plan, roles, labels)
    return Written(labels, purposes, kept_free(purposes.values()), roles)
