"""Symbols of what is inside a part, drawn by us after the families of the open standards, in one weight."""
