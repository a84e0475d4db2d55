"""The symbols, a file for each family; each lists its own in ``SYMBOLS``."""
