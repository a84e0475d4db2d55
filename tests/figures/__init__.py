"""Measurements: `make figures` prints them, each beside something measured in the same run."""
