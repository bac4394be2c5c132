"""Every kind of single mistake by name, in the order of its file."""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from types import ModuleType

from linework.design import Design
from tests.trial.mistakes import (
    conductors,
    devices,
    engines,
    equipment,
    grounding,
    harmless,
    switching,
)
from tests.trial.mistakes.change import Maker, Mistake


def _makers(module: ModuleType) -> dict[str, Maker]:
    """The public functions that a module defines itself."""
    return {
        name: found
        for name, found in vars(module).items()
        if inspect.isfunction(found) and found.__module__ == module.__name__ and name[0] != "_"
    }


MISTAKES: dict[str, Maker] = {
    **_makers(grounding),
    **_makers(conductors),
    **_makers(devices),
    **_makers(switching),
    **_makers(equipment),
    **_makers(engines),
    **_makers(harmless),
}


def mistakes(design: Design, kind: str) -> Iterator[Mistake]:
    """Every mistake of a kind that can be made in a design."""
    for place, mistaken in MISTAKES[kind](design):
        yield Mistake(kind, place, mistaken)


__all__ = ["MISTAKES", "Maker", "Mistake", "mistakes"]
