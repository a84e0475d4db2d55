"""Which way every conductor takes across the sheet.

Rules of the file: no two conductors share a segment outside the landings, none enters a box or a landing, and two that
meet cross at right angles. Each region is routed on its own; where one of them leaves a conductor without a way, the
sheet is routed as a whole. A conductor for which there is no way then is not forced: it is drawn as two short pieces,
each with the name of the other end.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from app.drawing.connection.landings import EndName, Landing
from app.drawing.connection.region_routes import Lead, Plot, route_plot
from app.drawing.routing.course import Routes
from app.drawing.routing.regions import Region, regions_of, whole_sheet
from app.drawing.surface.geometry import Box
from app.job.model import Conductor, Layout
from app.job.names import part_of


def route_conductors(
    layout: Layout,
    grounds: Mapping[str, Box],
    landings: Mapping[EndName, Landing],
    kept: Sequence[Box] = (),
) -> Routes:
    """Return the routes of a layout.

    ``grounds`` are those of the parts, ``kept`` other boxes that no conductor may enter.
    """
    leads = list(_leads(layout))
    joined = [lead.parts for lead in leads]
    regions = regions_of(grounds, kept, joined)
    routes = [route_plot(plot) for plot in _plots(regions, layout, leads, grounds, landings, kept)]
    if len(routes) > 1 and any(each.broken for each in routes):
        sheet = [whole_sheet(grounds, kept, joined)]
        routes = [route_plot(plot) for plot in _plots(sheet, layout, leads, grounds, landings, kept)]
    courses = {name: course for each in routes for name, course in each.courses.items()}
    return Routes(dict(sorted(courses.items())), sum(each.crossings for each in routes))


def _leads(layout: Layout) -> Iterator[Lead]:
    for name in sorted(layout.conductors):
        conductor = layout.conductors[name]
        landed = conductor.landed()
        if len(landed) == 2:
            first, second = sorted(part_of(terminal) for terminal in landed)
            yield Lead(name, _bundle(conductor, first, second), (first, second))


def _bundle(conductor: Conductor, first: str, second: str) -> str:
    """Return what keeps conductors together: their cable, else the two parts that they join."""
    return conductor.cable or f"{first} {second}"


def _plots(
    regions: Sequence[Region],
    layout: Layout,
    leads: Sequence[Lead],
    grounds: Mapping[str, Box],
    landings: Mapping[EndName, Landing],
    kept: Sequence[Box],
) -> Iterator[Plot]:
    """Yield the plot of each region in which there is a conductor to route."""
    number = {part: index for index, region in enumerate(regions) for part in region.parts}
    leads_in: list[list[Lead]] = [[] for _ in regions]
    for lead in leads:
        leads_in[number[lead.parts[0]]].append(lead)
    landings_in: list[list[tuple[EndName, Landing]]] = [[] for _ in regions]
    for end, landing in landings.items():
        terminal = layout.conductors[end.conductor].ends[end.number]
        if isinstance(terminal, str):
            landings_in[number[part_of(terminal)]].append((end, landing))
    for region, found, ends in zip(regions, leads_in, landings_in, strict=True):
        if found:
            closed = [grounds[part] for part in region.parts] + [box for box in kept if region.extent.overlaps(box)]
            yield Plot(region.extent, tuple(closed), tuple(ends), tuple(found))
