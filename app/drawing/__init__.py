"""Drawings of a layout: placing, routing, labels, and the surface on which they are drawn.

May import ``app.job``, ``app.catalogue``, ``app.circuit``, the standard library, networkx and (in ``svg_writer`` alone)
svgwrite. Start reading at ``connection`` (what is drawn), then ``plan`` (where it lies: ``placing`` puts parts,
``landings`` lead conductors to their screws, ``routing`` across the sheet, region by region) and ``surface`` (what it
is drawn on).
"""
