"""Mutation testing: what the tests of circuit and checks would not notice. ``python -m tests.mutation`` runs it."""
