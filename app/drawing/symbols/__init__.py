"""Symbols of what is inside a part, drawn by us after the families of the open standards, in one weight.

Start reading at ``symbol`` (what a symbol is), then ``choosing`` (which one an element gets, from the data of its
kind). ``families`` holds the symbols, a file for each family; ``registry`` finds them by name; ``letters`` gives the
letters of a device.
"""
