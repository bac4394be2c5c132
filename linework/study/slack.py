"""Comparing a computed figure with a limit: what is exactly at its limit is within it.

Sums in binary fractions end some digits above what a person adds up (3 x 0.1 A is more than
0.3 A to the machine), and solutions with converters are repeated until they change by less than
a billionth. Figures that differ by less than a millionth therefore count as equal; no
instrument and no table tells them apart.
"""

from __future__ import annotations

_SLACK = 1.0 + 1e-6


def exceeds(value: float, limit: float) -> bool:
    """Whether a figure is beyond a limit of the same unit; one at its limit is not."""
    return value > limit * _SLACK


def shows_more(value: float, limit: float) -> bool:
    """Whether a computed figure is beyond a limit in the three digits in which it is told: no wire
    and no load is known better, and 16.03 A on 16 A would read as 16.0 A on 16 A."""
    return exceeds(float(f"{value:.3g}"), limit)


def within(value: float, limit: float) -> bool:
    """Whether a figure keeps to a limit of the same unit; one at its limit does."""
    return value <= limit * _SLACK
