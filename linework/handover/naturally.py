"""The order in which people expect designations: F2 before F10."""

from __future__ import annotations

import re

_FIGURES = re.compile(r"(\d+)", re.ASCII)


def natural(name: str) -> tuple[tuple[int, int | str], ...]:
    """A key for sorting names: figures count as numbers and stand before letters."""
    pieces = [piece for piece in _FIGURES.split(name) if piece]
    return tuple((0, int(p)) if p[0].isdecimal() and p.isascii() else (1, p) for p in pieces)
