"""Why something runs or does not, and what each conductor is for: always from operating points, never from a colour.

May import ``app.job``, ``app.catalogue``, ``app.circuit`` and the standard library. Start reading at ``roles`` (what a
conductor carries, for which calls, and what is lost without it).
"""
