"""Tests of the kinds of part."""
