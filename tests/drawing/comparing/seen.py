"""What the tests see of a drawing of two layouts."""

from __future__ import annotations

from collections import defaultdict

from app.catalogue.catalogue import Catalogue
from app.drawing.comparing.diagram import Compared, changes_drawing, compared, put_compared
from app.drawing.frame.title_block import SheetWords, draw_frame, sheet_around
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Record, Recorder
from app.job.model import Layout
from tests.drawing.seen import RULES, Seen, Segment, inked

OF_CHANGE = ("landed-here", "came-off", "screw-gone", "moved")


class SeenChanges(Seen):
    """Two layouts on a recorder, so that the hard rules of the connection diagram can be asked of it."""

    def __init__(self, before: Layout, after: Layout, catalogue: Catalogue) -> None:
        self.both: Compared = compared(before, after, catalogue)
        self.layout = self.both.together.layout
        self.plan = self.both.plan
        self.drawing = changes_drawing(before, after, catalogue)
        self.recorder = Recorder()
        put_compared(self.recorder, self.both)
        self.sheet = sheet_around(self.drawing.content, self.drawing.marks)
        draw_frame(self.recorder, self.sheet, self.drawing.marks, SheetWords("Job", "as left", "Changes", "", ""))
        self.segments = list(self._segments())
        self.rows: dict[int, list[Segment]] = defaultdict(list)
        self.columns: dict[int, list[Segment]] = defaultdict(list)
        for segment in self.segments:
            track = self.rows[segment.a.y] if segment.level else self.columns[segment.a.x]
            track.append(segment)
        self.texts = [record for record in self.recorder.drawn("text") if record.text is not None]

    def on_sheet(self) -> list[Record]:
        """Return what was drawn but the frame with its legend."""
        return [record for record in self.recorder.records if not any(g.get("class") == "frame" for g in record.groups)]

    def marks_of_change(self) -> list[Record]:
        """Return arrowheads, crosses and heavy ends."""
        return [record for record in self.on_sheet() if record.attributes.get("class") in OF_CHANGE]

    def marked(self, what: str) -> dict[str, str]:
        """Return what became of each part (``data-part``) or line (``data-conductor``), as its group says."""
        found: dict[str, str] = {}
        for record in self.on_sheet():
            if record.verb == "begin" and what in record.attributes:
                fate = record.attributes.get("data-change") or record.within("data-change")
                if fate is not None:
                    assert record.attributes[what] not in found
                    found[record.attributes[what]] = fate
        return found

    def listed(self) -> list[str]:
        """Return what the list names, in its order."""
        return self.groups("data-changed")


def marks_on_words(seen: SeenChanges) -> list[str]:
    """Return marks that lie on words or on a foreign wire."""
    found = []
    for record in seen.marks_of_change():
        name = record.within("data-conductor")
        box = record.bounds()
        if name is None or box is None or record.attributes["class"] == "moved":
            continue
        found += [
            f"{name}: mark on {text.text.words!r}"
            for text in seen.texts
            if text.text is not None and _apart(inked(text.text)).overlaps(box)
        ]
        found += [f"{name}: mark on {s.conductor}" for s in seen.cutting(box) if s.conductor != name]
    return found


def broken_rules(seen: SeenChanges) -> dict[str, list[str]]:
    """Return what breaks a hard rule, by rule."""
    found = {rule.__name__: broken for rule in RULES if (broken := rule(seen))}
    on_words = marks_on_words(seen)
    return {**found, "marks_on_words": on_words} if on_words else found


def _apart(box: Box) -> Box:
    """Return a box of words without the rounding at its sides."""
    return box.grown(-1, 0, -1, 0)
