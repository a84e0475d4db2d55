"""The steps from one form of the tables to the next, run by ``app.store.migrate``.

A new step is a new file in ``versions``, named for its number and its act, that never changes once it was published.
"""
