"""Rungwright: draws, checks and proves 24-volt control wiring of heating and cooling equipment.

The rooms, from the ground up: ``job`` (the document), ``catalogue`` (kinds of part), ``circuit`` (what the wiring
does), ``checks`` and ``drawing`` (what is said and shown of it), ``store`` (the database), ``web`` and ``cli``
(the two doors). Each room imports only rooms below it; the import contracts in ``pyproject.toml`` hold that.
"""
