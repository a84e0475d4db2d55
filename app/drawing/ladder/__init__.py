"""The ladder diagram: rails, rungs, contacts and loads, made from the circuit and proved against it."""
