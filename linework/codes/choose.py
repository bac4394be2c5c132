"""Which family of standards a design is judged by."""

from __future__ import annotations

from functools import cache

from linework.codes.errors import not_among
from linework.codes.families import Family
from linework.codes.na.north_america import NorthAmerica

FAMILIES = ("NA",)


@cache
def family(key: str = "NA", edition: str = "2023") -> Family:
    """The family of this key and edition.

    CodesError, naming what there is, for a family or an edition that this version does not know.
    """
    if key not in FAMILIES:
        raise not_among(key, FAMILIES)
    return NorthAmerica(edition)
