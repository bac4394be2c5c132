"""Junction box: runs joined, nothing else."""

from __future__ import annotations

from linework.kinds.boxes import BOX_RATINGS
from linework.kinds.common import CIRCUIT, poles_of, straight
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Element, Inside, Metal, Pole, Terminal
from linework.words import N_

SIDES = ("a", "b", "c", "d")

RATINGS = (
    CIRCUIT,
    Rating(
        "metal",
        N_("Box"),
        "choice",
        "plastic",
        choices=(Choice("plastic", N_("plastic")), Choice("metal", N_("metal"))),
        quiet=True,
    ),
    *BOX_RATINGS,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Four sides."""
    return tuple(Terminal(side, poles_of(values), "both") for side in SIDES)


def inside(values: Values) -> Inside:
    """Every conductor joined to its like."""
    poles = poles_of(values)
    elements: list[Element] = []
    for side in SIDES[1:]:
        elements += straight("a", side, poles)
    if values.pick("metal") == "metal" and Pole.PE in poles:
        elements.append(Metal("box", ("a", Pole.PE)))
    return Inside(tuple(elements))


KIND = Kind(
    key="junction_box",
    name=N_("junction box"),
    letters="XJ",
    strip="distribution",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "junction_box",
    columns=("metal", "shared_box"),
    search=N_("junction splice box joint"),
    fixed=True,
    passes_on=True,
)
