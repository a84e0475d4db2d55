"""Where parts stand.

Rules of the file: a part stands where its ``at`` says (on the nearest grid point). One without ``at`` has a slot that
depends on parts and kinds alone, never on conductors and never on anybody's ``at``, so that moving one part moves no
other. Grounds (a box with its landings) never overlap: whoever comes later, parts with ``at`` first, each in the order
of ids, takes the nearest free place. One with ``at`` asks for no more than its ground, so that it stays where a person
has put it; one without keeps room for conductors that pass.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind, Source
from app.drawing.connection.part_box import LANDING_MOST, PartBox, is_join, measure_part, measure_parts
from app.drawing.surface.geometry import GRID, Box, Point, on_grid, up_to_grid
from app.job.model import Layout, Part

STACK_GAP = 36
"""Between the grounds of two parts in one column."""
BLOCK_GAP = 120
COLUMN_MOST = 1500
"""A column that would become higher than this goes on beside itself."""
CHANNEL_LEAST, CHANNEL_MOST = 60, 300


def place_parts(
    layout: Layout, catalogue: Catalogue, insides: bool = False, landing_most: int = LANDING_MOST
) -> dict[str, PartBox]:
    """Return every part of a layout where it stands, by id in order; ``insides`` makes room for what is in them.

    ``landing_most`` is how long the landings in front of their screws may become, in u.
    """
    measured = measure_parts(layout, catalogue, insides)
    boxes = measured
    if landing_most != LANDING_MOST:
        boxes = {name: replace(box, landing_most=landing_most) for name, box in measured.items()}
    slots: Mapping[str, Point] = {}
    if any(part.at is None for part in layout.parts.values()):
        slots = _slots(layout, catalogue, boxes)
    placed: dict[str, PartBox] = {}
    taken: list[Box] = []
    for name in sorted(boxes, key=lambda name: (layout.parts[name].at is None, name)):
        box = boxes[name].moved(_wanted(layout.parts[name], slots.get(name)))
        ground = box.ground() if layout.parts[name].at is not None else box.wide_ground()
        placed[name] = box.moved(nearest_free(box, ground, taken))
        taken.append(placed[name].ground())
    return {name: placed[name] for name in boxes}


def free_place(layout: Layout, catalogue: Catalogue, part: Part, name: str) -> Point:
    """Return where a part that is to be added would stand, so that it can be said as its ``at``."""
    with_it = layout.model_copy(update={"parts": {**layout.parts, name: part}})
    slot = _slots(with_it, catalogue, measure_parts(with_it, catalogue))[name]
    kind = catalogue.kind_of(part)
    box = measure_part(name, part, kind, catalogue.terminals_of(with_it, name), {})
    taken = [other.ground() for other in place_parts(layout, catalogue).values()]
    there = box.moved(_wanted(part, slot))
    return nearest_free(there, there.wide_ground(), taken)


def nearest_free(box: PartBox, ground: Box, taken: Sequence[Box]) -> Point:
    """Return the corner nearest to where ``box`` stands at which its ``ground`` overlaps none of ``taken``."""
    if _is_free(ground.x, ground.y, ground, taken):
        return Point(box.box.x, box.box.y)
    # The nearest free place touches others on an upright and on a level edge, unless it keeps one coordinate.
    across = _by_nearness(ground.x, [edge for o in taken for edge in (o.right, o.x - ground.w)])
    down = _by_nearness(ground.y, [edge for o in taken for edge in (o.bottom, o.y - ground.h)])
    best: tuple[int, int, int] | None = None
    for far_x, x in across:
        if best is not None and far_x > best[0]:
            break
        for far_y, y in down:
            if best is not None and (far_x + far_y, x, y) >= best:
                break
            if _is_free(x, y, ground, taken):
                best = far_x + far_y, x, y
                break
    if best is None:
        raise AssertionError("beyond the outermost box there is always room")
    return Point(best[1] + box.box.x - ground.x, best[2] + box.box.y - ground.y)


def _by_nearness(wanted: int, values: Iterable[int]) -> list[tuple[int, int]]:
    return sorted((abs(value - wanted), value) for value in {wanted, *values})


def _is_free(x: int, y: int, ground: Box, taken: Sequence[Box]) -> bool:
    right, bottom = x + ground.w, y + ground.h
    for other_x, other_y, w, h in taken:
        if other_x < right and x < other_x + w and other_y < bottom and y < other_y + h:
            return False
    return True


def _wanted(part: Part, slot: Point | None) -> Point:
    if part.at is not None:
        return Point(on_grid(part.at[0]), on_grid(part.at[1]))
    if slot is None:
        raise AssertionError("a part without a place has a slot")
    return slot


def _slots(layout: Layout, catalogue: Catalogue, boxes: Mapping[str, PartBox]) -> dict[str, Point]:
    """Return a slot for each part: one block for each air stream that has a source, one for the rest."""
    by_air: dict[str, list[str]] = {}
    with_source = {part.air for part in layout.parts.values() if _has_source(catalogue.kind_of(part))}
    for name in boxes:
        air = layout.parts[name].air
        by_air.setdefault(air if air in with_source else "", []).append(name)
    grounds = {name: box.wide_ground() for name, box in boxes.items()}
    slots: dict[str, Point] = {}
    top = 0
    for air in sorted(by_air):
        block = _block(by_air[air], layout, catalogue, boxes, grounds, top)
        slots.update(block)
        top = max(at.y + grounds[name].bottom for name, at in block.items()) + BLOCK_GAP
    return slots


def _block(
    names: Sequence[str],
    layout: Layout,
    catalogue: Catalogue,
    boxes: Mapping[str, PartBox],
    grounds: Mapping[str, Box],
    top: int,
) -> dict[str, Point]:
    """Return the slots of one block: columns from left to right, each a stack from ``top`` down."""
    columns: dict[int, list[str]] = {}
    for name in names:
        columns.setdefault(_column(catalogue.kind_of(layout.parts[name])), []).append(name)
    slots: dict[str, Point] = {}
    x = 0
    for number in sorted(columns):
        ordered = sorted(columns[number], key=lambda name: _order(layout.parts[name], name, catalogue))
        for stack in _stacks(ordered, grounds):
            left = -min(grounds[name].x for name in stack)
            y = top
            for name in stack:
                slots[name] = Point(x + left, up_to_grid(y - grounds[name].y))
                y = slots[name].y + grounds[name].bottom + STACK_GAP
            x += left + max(grounds[name].right for name in stack) + _channel(stack, boxes)
    return slots


def _column(kind: Kind | None) -> int:
    """Return how far to the right a kind belongs: sources, what hands on to the right, what takes from the left."""
    if kind is None:
        return 2
    if kind.calls:
        return 3
    if _has_source(kind):
        return 0
    left, right = _facing(kind)
    if not left:
        return 2
    return 1 if right else 3


def _facing(kind: Kind) -> tuple[int, int]:
    """Return how many terminals face to the left and to the right; mains are no matter of control wiring.

    The one of a splice faces to both sides.
    """
    if is_join(kind):
        return 1, 1
    sides = [terminal.side for terminal in kind.terminals.values() if terminal.function != "line"]
    return sides.count("left"), sides.count("right")


def _has_source(kind: Kind | None) -> bool:
    return kind is not None and any(isinstance(element, Source) for element in kind.elements.values())


def _order(part: Part, name: str, catalogue: Catalogue) -> tuple[bool, str, bool, str]:
    """Return what sorts a column: controls first, then what stands in one place together.

    There, what only hands on (a strip, a splice, a relay) comes below what hands out, out of the way of its conductors.
    """
    kind = catalogue.kind_of(part)
    if kind is None:
        return True, part.place, True, name
    left, right = _facing(kind)
    return not kind.calls, part.place, left >= right, name


def _stacks(names: Sequence[str], grounds: Mapping[str, Box]) -> Iterable[list[str]]:
    stack: list[str] = []
    height = 0
    for name in names:
        needed = grounds[name].h + STACK_GAP
        if stack and height + needed > COLUMN_MOST:
            yield stack
            stack, height = [], 0
        stack.append(name)
        height += needed
    if stack:
        yield stack


def _channel(stack: Sequence[str], boxes: Mapping[str, PartBox]) -> int:
    """Return how wide to leave the channel after a column: a lane for every second screw that faces it."""
    facing = sum(screw.side == "right" for name in stack for screw in boxes[name].screws.values())
    return min(max(CHANNEL_LEAST, GRID * (facing // 2 * 2)), CHANNEL_MOST)
