"""The timing chart: what a sequence does, one line a load or contact, along the time."""
