"""Many linear questions of one network answered together with numpy.

``arrays`` alone imports numpy, and only when it is there: ``app.circuit.pure`` gives the same answers without.
"""
