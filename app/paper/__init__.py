"""Drawings on paper: sheets made into PDF and PNG.

May import ``app.drawing`` and what stands below it, and is the only room that knows the typesetter. It computes no
wiring: it takes drawings and gives bytes. Start reading at ``packet``.
"""
