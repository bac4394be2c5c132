"""Earth electrode: a rod, plate or other metal in the soil."""

from __future__ import annotations

from linework.kinds.kind import Kind, Remedy
from linework.kinds.ratings import FROM_MEMORY, Band, Rating
from linework.kinds.values import Values
from linework.wiring import EARTH_POINT, Inside, Link, Pole, Terminal
from linework.words import N_

RATINGS = (
    Rating(
        "resistance",
        N_("Resistance to earth"),
        "resistance",
        Band("10 ohm", "25 ohm", "100 ohm"),
        FROM_MEMORY,
        low=0.0,
        usual=(0.5, 5e3),
        help=N_("Measured; it never replaces a {ground_wire}."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The clamp."""
    return (Terminal("ground", (Pole.PE,), "tie"),)


def inside(values: Values) -> Inside:
    """The soil between the rod and remote earth."""
    return Inside((Link("soil", ("ground", Pole.PE), EARTH_POINT, values.three("resistance")),))


KIND = Kind(
    key="electrode",
    name=N_("earth electrode"),
    letters="XE",
    strip="grounding",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "electrode",
    captions=("resistance",),
    columns=("resistance",),
    search=N_("ground rod earth electrode stake plate"),
    electrode=True,
    remedies=frozenset({Remedy.ELECTRODE}),
)
