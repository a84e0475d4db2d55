"""The shapes of what the API answers and reads, for its own description and for whoever writes a client.

Rules of the file: the answers are made by their rooms (``app.circuit.answers``, ``app.checks.answers``); here only
their shape is declared. The tests hold every real answer against it, so a shape that lies is found.
"""
