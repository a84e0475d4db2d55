"""Tests of the demo jobs."""
