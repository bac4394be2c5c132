"""The families of standards, each a folder here, and the one that a design is judged by.

Nobody else looks into those folders. A family's folder names its ``KEY`` in designs, the
``EDITIONS`` it knows (none: it does not tell them apart), and ``MAKE``, its class.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType, ModuleType

import linework.codes as home
from linework.codes.errors import CodesError, not_among
from linework.codes.families import Family


@dataclass(frozen=True)
class Known:
    """One family as its folder declares it."""

    editions: tuple[str, ...]
    make: Callable[[str], Family]


def families_in(folder: ModuleType) -> dict[str, Known]:
    """The families that have a folder below this package, by their keys."""
    found: dict[str, Known] = {}
    for module in pkgutil.iter_modules(folder.__path__):
        if module.ispkg:
            declared = importlib.import_module(f"{folder.__name__}.{module.name}")
            found[declared.KEY] = Known(declared.EDITIONS, declared.MAKE)
    return found


@cache
def families() -> Mapping[str, Known]:
    """Every family of this version by its key."""
    return MappingProxyType(families_in(home))


def family(key: str, edition: str) -> Family:
    """The family of this key and edition.

    CodesError, naming what there is, for a family or an edition that this version does not know.
    """
    known = families().get(key)
    if known is None:
        raise not_among(key, families())
    if known.editions and edition not in known.editions:
        raise not_among(edition, known.editions)
    return known.make(edition)


def family_of(key: str, edition: str) -> Family:
    """As :func:`family`; where it is not known, one that has a name and answers nothing."""
    try:
        return family(key, edition)
    except CodesError:
        return Family(edition, key)
