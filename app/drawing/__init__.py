"""Drawings of a layout: placing, routing, labels, and the surface on which they are drawn.

May import ``app.job``, ``app.catalogue``, ``app.circuit``, the standard library, networkx and (in ``svg_writer`` alone)
svgwrite. Start reading at ``connection`` (the connection diagram), then ``placing``, ``routing``, ``surface``.
"""
