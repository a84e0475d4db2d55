"""Drawings of a layout: what a person keeps, on screen and on paper.

May import ``app.job``, ``app.catalogue``, ``app.circuit``, ``app.explain``, ``app.sequence``, the standard library,
networkx and (in ``surface.svg_writer`` alone) svgwrite. One folder a view: ``connection`` (where everything stands and
is landed), ``ladder`` (what works what), ``timing`` (what happens when), ``lists`` (wire by wire, screw by screw).
Below them ``frame`` (title block, legend), ``symbols`` (coil, contact, fuse …), ``routing`` (lines around boxes) and
``surface`` (what a drawing is drawn on, how wide words are). Start reading at ``connection.diagram``.
"""
