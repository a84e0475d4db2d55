"""Layouts by chance through everything that looks at one. ``python -m tests.sweeps`` runs a hundred thousand."""
