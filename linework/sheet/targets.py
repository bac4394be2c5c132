"""What a link on paper leads to, named by number: the ids of a file name nothing in a document."""

from __future__ import annotations

from linework.design import Design
from linework.design.names import natural


def part_targets(design: Design) -> dict[str, str]:
    """Part id -> the name of the place where it is drawn, numbered by designation."""
    parts = sorted(design.parts, key=lambda part: (natural(part.designation), part.id))
    return {part.id: f"part-{number}" for number, part in enumerate(parts, 1)}
