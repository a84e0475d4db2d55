"""What is dangerous, wrong or missing: one rule a file, named for the fault.

May import ``app.job``, ``app.catalogue``, ``app.circuit`` and the standard library. Start reading at ``finding`` (what
a rule says), ``rule`` (what a rule is), ``registry`` (how they are found) and then any rule.
"""
