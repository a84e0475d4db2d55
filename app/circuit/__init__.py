"""From a layout to what it does: network, situations, operating points, meter.

May import ``app.job``, ``app.catalogue``, the standard library and networkx; ``batch.arrays`` alone imports numpy.
Start reading at ``situation`` (what is asked), ``operating_point`` (what is answered) and ``solve`` (how).
"""
