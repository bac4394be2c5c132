"""The ratings in which fuses of a type are made: what none is made in, nobody can buy."""

from __future__ import annotations

import itertools
from functools import cache

from linework.codes.interrupting import DEVICE_NAMES
from linework.codes.tables import by

TABLE = "common/fuse_catalogue"


@cache
def made_ratings(curve: str) -> tuple[float, ...]:
    """The ratings in ampere in which fuses of a type are sold, rising; empty for what no catalogue
    is known of. ``curve``: a word of :data:`linework.codes.trip.CURVES`."""
    row = by(TABLE, "device").get(DEVICE_NAMES.get(curve, ""))
    return () if row is None else tuple(map(float, row["ratings_A"].split(";")))


def is_made(curve: str, amps: float) -> bool:
    """Whether a fuse of a type is made in a rating; true where no catalogue is known."""
    made = made_ratings(curve)
    return not made or amps in made


def made_below(curve: str, amps: float, least: float = 0.0, count: int = 3) -> tuple[float, ...]:
    """The ratings from ``amps`` down to ``least`` in which a type is made, the greatest first and
    ``count`` at the most; empty without a catalogue."""
    fitting = (each for each in reversed(made_ratings(curve)) if least <= each <= amps)
    return tuple(itertools.islice(fitting, count))
