"""From a layout to what it does: network, situations, operating points, meter.

May import ``app.job``, ``app.catalogue``, the standard library and networkx; ``batch.arrays`` alone imports numpy.
Start reading at ``situation`` (what is asked), ``operating_point`` (what is answered) and ``solve`` (how). Behind
``solve``: ``template`` (a kind), ``network`` (a layout, compiled once), ``scene`` (a situation as a network sees it),
``settle`` (passes until nothing changes), ``plan`` and ``linear`` (one linear solve), ``view`` and ``answering`` (what
is said of it). ``faults`` breaks things, ``meter`` reads, ``netlist`` writes a deck for a simulator.
"""
