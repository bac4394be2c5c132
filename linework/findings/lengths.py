"""Lengths that a mend puts into a drawing, as people write them."""

from __future__ import annotations

from math import floor

from linework.design import Design

_FOOT_M, _INCH_M = 0.3048, 0.0254


def length_text(design: Design, meters: float) -> str:
    """A length, never more than it is: for the American family in whole inches up to two feet and
    in tenths of a foot beyond, else in centimeters up to a meter and in tenths of it beyond."""
    if design.settings.family == "NA":
        short = meters < 2.0 * _FOOT_M
        return _text(meters, _INCH_M, 1, "in") if short else _text(meters, _FOOT_M, 10, "ft")
    return _text(meters, 1.0, 100 if meters < 1.0 else 10, "m")


def _text(meters: float, unit_m: float, parts: int, unit: str) -> str:
    """In whole parts of a unit, one at least."""
    return f"{max(floor(meters / unit_m * parts + 1e-6), 1) / parts:g} {unit}"
