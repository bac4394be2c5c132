"""Linework: draw a small power system, have it solved and judged, hand over the drawings."""

__version__ = "0.1.0"
