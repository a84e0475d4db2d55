"""Why a contact, jumper or fuse stands as it does: a call, a safety, a coil, the logic of a board."""

from __future__ import annotations

from collections.abc import Callable

from app.catalogue.kind import Coil, Contact, Fuse, Input, JumperElement, Load
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Named, Tree, holds
from app.explain.answer import Explanation, Reason
from app.explain.deciding import Leaf, deciding
from app.explain.names import Names
from app.explain.phrases import because, called, leaf_words, outdoor_words
from app.explain.standing import Standing
from app.explain.ways import Way

Deeper = Callable[[str, frozenset[str]], Explanation | None]
"""Explains an element by name, given what is being explained already; None where that would go in a circle."""
UNWELL = {"contact-welded": "is welded shut", "contact-dead": "no longer closes", "fuse-open": "is open as a fault"}


class Reasons:
    """Reasons at one operating point."""

    def __init__(self, standing: Standing, names: Names, deeper: Deeper) -> None:
        self.standing = standing
        self.names = names
        self.deeper = deeper

    def of(self, way: Way, above: frozenset[str]) -> Reason | None:
        """Return why what switches stands as it does; None for what does not switch."""
        if way.sort == "conductor":
            return self._of_conductor(way)
        unwell = self._of_fault(way)
        if unwell is not None:
            return unwell
        match way.element:
            case Contact():
                return self._of_contact(way, way.element, above)
            case JumperElement():
                position = "fitted" if self.standing.is_on(way.name) else "not fitted"
                return Reason("jumper", way.subject, f"{self.names.element(way.name)} is {position}")
            case Fuse():
                return self._of_fuse(way)
            case _:
                return None

    def timer_words(self, part: str, *, waits: bool) -> str:
        """Return that a timer of a part is all that is waited for, or that one still holds."""
        return f"a timer of {self.names.part(part)} {'has not run out yet' if waits else 'still holds it'}"

    def leaves(self, part: str, tree: Tree, above: frozenset[str], *, absent: bool = False) -> tuple[Leaf, ...]:
        """Return what decides a term and is worth telling, with the states that it asks for taken apart.

        ``absent`` asks for the states, too, that are not there and may not be.
        """
        whole = holds(tree, lambda name: self.standing.value(part, name))
        found = tuple(dict.fromkeys(self._leaves(part, tree, whole, frozenset(), helps=True)))
        told = tuple(leaf for leaf in found if self._is_telling(part, leaf, whole, above, absent))
        return told or found

    def deepest(self, part: str, leaves: tuple[Leaf, ...], above: frozenset[str]) -> Explanation | None:
        """Return the explanation of the element among what decides that tells most: inputs before coils."""
        kind = self.standing.kind(part)
        elements = {} if kind is None else kind.elements
        # What is there tells more than what is not.
        for sorts in ((Input,), (Coil,), (Load,)):
            for leaf in [each for each in leaves if each.holds or not each.does_its_part]:
                if isinstance(elements.get(leaf.name), sorts):
                    found = self.deeper(f"{part}.{leaf.name}", above)
                    if found is not None:
                        return found
        return None

    def _leaves(self, part: str, tree: Tree, whole: bool, above: frozenset[str], *, helps: bool) -> list[Leaf]:
        kind = self.standing.kind(part)
        found: list[Leaf] = []
        for own in deciding(tree, lambda name: self.standing.value(part, name)):
            leaf = Leaf(own.name, own.holds, own.helps == helps)
            # Why something is not there that is not wanted is a question that nobody asks.
            absent_as_wanted = whole and not leaf.holds and not leaf.helps
            if kind is not None and leaf.name in kind.states and leaf.name not in above and not absent_as_wanted:
                term = parse_term(kind.states[leaf.name])
                found += self._leaves(part, term, whole, above | {leaf.name}, helps=leaf.helps)
            else:
                found.append(leaf)
        return found

    def _is_telling(self, part: str, leaf: Leaf, whole: bool, above: frozenset[str], absent: bool) -> bool:
        """Return whether a leaf says more than that something stands as it always does."""
        kind = self.standing.kind(part)
        if kind is None or f"element:{part}.{leaf.name}" in above:
            return False
        if leaf.name in kind.switches and self.standing.value(part, leaf.name) == kind.switches[leaf.name].rest:
            return not whole and leaf.helps
        if leaf.name in kind.settings:
            # A setting says why an effect is what it is; a contact moves because something moves it.
            return absent
        if isinstance(kind.elements.get(leaf.name), Load | Fuse):
            return not leaf.does_its_part
        if leaf.name in kind.states:
            return absent and whole and not leaf.holds and not leaf.helps
        return True

    def _of_conductor(self, way: Way) -> Reason | None:
        if self.standing.conducts(way):
            return None
        return Reason("cut", way.subject, f"conductor {self.names.conductor(way.name)} is broken or lifted")

    def _of_fault(self, way: Way) -> Reason | None:
        for fault in self.standing.point.situation.faults:
            if fault.is_ in UNWELL and fault.at == way.subject:
                return Reason("broken", way.subject, f"{self.names.element(way.name)} {UNWELL[fault.is_]}")
        return None

    def _of_fuse(self, way: Way) -> Reason | None:
        amps = self.standing.point.blown.get(way.name)
        if self.standing.is_on(way.name):
            return None
        carried = "" if amps is None else ": more than it carries went through it"
        return Reason("fuse", way.subject, f"{self.names.element(way.name)} has opened{carried}")

    def _of_contact(self, way: Way, contact: Contact, above: frozenset[str]) -> Reason | None:
        kind = self.standing.kind(way.part)
        if kind is None:
            return None
        if self.standing.conducts(way) is None:
            return Reason("unknown", way.subject, f"nobody knows whether {self.names.element(way.name)} is closed")
        if contact.by == "calls":
            return self._by_calls(way, contact, above)
        if contact.by in kind.switches:
            return self._by_switch(way, contact)
        element = kind.elements.get(contact.by)
        if isinstance(element, Coil | Input | Load):
            words = self._stands(way) + because(
                [leaf_words(self.standing, self.names, way.part, Leaf(contact.by, True))]
            )
            return Reason("coil", way.subject, words, self.deeper(f"{way.part}.{contact.by}", above))
        return self._by_state(way, contact, above)

    def _stands(self, way: Way) -> str:
        return f"{self.names.element(way.name)} is {'closed' if self.standing.is_on(way.name) else 'open'}"

    def _by_calls(self, way: Way, contact: Contact, above: frozenset[str]) -> Reason:
        control = self.names.part(way.part)
        closing = self.standing.closing(way.part, way.inner)
        asked = [call for call in self.standing.asked(way.part) if call in closing]
        moved = self.standing.is_on(way.name) != (contact.rest == "closed")
        if moved:
            return Reason("call", way.subject, f"{self._stands(way)} because {control} calls {called(asked)}")
        if asked and not self.standing.is_awake(way.part):
            load = f"{way.part}.{self.standing.awake_by(way.part)[0]}"
            words = f"{control} has been asked for {called(asked)}, but it has no power and closes nothing"
            return Reason("asleep", way.subject, words, self.deeper(load, above))
        if not closing:
            return Reason("set-up", way.subject, f"{control} closes it in no call, as it is set up")
        now = self.standing.asked(way.part)
        does = f"{control} calls {called(now)}, which does not close it" if now else f"{control} calls for nothing"
        if {*now} & {*self.standing.closing_in_other_weather(way.part, way.inner)}:
            does += f" while {outdoor_words(self.standing, self.names)}"
        return Reason("call", way.subject, f"{does}; {called(closing, 'or')} would close it")

    def _by_switch(self, way: Way, contact: Contact) -> Reason | None:
        kind = self.standing.kind(way.part)
        if kind is None or self.standing.is_on(way.name):
            return None
        switch = kind.switches[contact.by]
        opens = f": it opens on {switch.opens_on}" if switch.opens_on else ""
        closes = f"; it closes on {switch.closes_on}" if switch.closes_on and not switch.safety else ""
        hand = ", and is reset by hand" if switch.reset == "manual" else ""
        words = f"{self.names.element(way.name)} is open{opens}{closes}{hand}"
        return Reason("safety" if switch.safety else "switch", way.subject, words)

    def _by_state(self, way: Way, contact: Contact, above: frozenset[str]) -> Reason | None:
        value = holds(Named(contact.by), lambda name: self.standing.value(way.part, name))
        moved = self.standing.is_on(way.name) != (contact.rest == "closed")
        if moved != value:
            return Reason("timer", way.subject, f"{self._stands(way)}: {self.timer_words(way.part, waits=value)}")
        if not moved and contact.rest == "closed":
            return None
        leaves = self.leaves(way.part, Named(contact.by), above)
        said = [leaf_words(self.standing, self.names, way.part, leaf) for leaf in leaves]
        behind = self.deepest(way.part, leaves, above)
        return Reason("logic", way.subject, self._stands(way) + because(said), behind)
