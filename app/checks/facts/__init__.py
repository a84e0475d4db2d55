"""Facts that several rules share: what is joined with what, what feeds what, what a call closes, where to probe.

A fact is computed at most once for a check and says nothing to a person; rules turn facts into findings. Start
reading at ``wiring`` (the joins), then ``islands`` (what they make one).
"""
