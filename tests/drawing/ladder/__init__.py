"""The ladder: true to the circuit, readable, and drawn by the same rules as everything else."""
