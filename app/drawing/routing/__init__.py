"""Lines at right angles around boxes on a lattice: ways, then lanes; knows nothing of parts or terminals."""
