"""What happens one thing after another: a run through calls and disturbances over the same operating points.

May import ``app.job``, ``app.catalogue``, ``app.circuit`` and the standard library. Start reading at ``moments`` (what
time means here), then ``change`` (what may happen from outside), ``event`` and ``run`` (what is told of it).
"""
