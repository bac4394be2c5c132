"""All tables in their order."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from linework.handover.content import Content
from linework.handover.figures import bill, drawing, judged
from linework.handover.figures.model import Data

TABLES: Mapping[str, Callable[[Content], Data]] = {
    "about": judged.about,
    "materials": bill.materials,
    "cuts": bill.cuts,
    "parts": drawing.parts,
    "ratings": drawing.ratings,
    "runs": drawing.runs,
    "devices": drawing.devices,
    "findings": judged.findings,
    "unchecked": judged.unchecked,
    "assumed": judged.assumed,
}
"""Key of a table -> what makes it."""


def tables_of(content: Content, keys: tuple[str, ...] = tuple(TABLES)) -> tuple[Data, ...]:
    """Those of the keys, in order."""
    return tuple(TABLES[key](content) for key in keys)
