"""Every kind of part, found by looking into this folder: a kind is added by adding its file."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

import linework.kinds as folder
from linework.kinds.kind import Kind, Remedy
from linework.kinds.unknown import unknown

STRIP = ("sources", "conversion", "switching", "protection", "distribution", "loads", "grounding")


@cache
def kinds() -> dict[str, Kind]:
    """All kinds by key, in the order of the strip and then of their names."""
    found: list[Kind] = []
    for module in pkgutil.iter_modules(folder.__path__):
        loaded = importlib.import_module(f"{folder.__name__}.{module.name}")
        kind = getattr(loaded, "KIND", None)
        if isinstance(kind, Kind):
            found.append(kind)
    found.sort(key=lambda kind: (STRIP.index(kind.strip), kind.key))
    return {kind.key: kind for kind in found}


@cache
def kind_of(key: str) -> Kind:
    """The kind of this key; an unknown one is a stand-in (``is_known`` tells)."""
    return kinds().get(key) or unknown(key)


def remedy(what: Remedy) -> Kind:
    """The kind that a mend puts into a drawing for this."""
    return next(kind for kind in kinds().values() if what in kind.remedies)


def is_known(key: str) -> bool:
    """Whether this version knows a kind of this key."""
    return key in kinds()
