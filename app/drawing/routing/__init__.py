"""Lines at right angles around boxes on a lattice, one wire after another; knows nothing of parts or terminals."""
