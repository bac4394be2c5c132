"""Bonding plug: a plug on which neutral and ground are joined; it bonds a floating generator."""

from __future__ import annotations

from linework.kinds.common import POLES, bond_link
from linework.kinds.kind import Kind
from linework.kinds.outlet import CONFIGURATION
from linework.kinds.values import Values
from linework.wiring import Inside, Pins, Pole, Terminal
from linework.words import N_

RATINGS = (CONFIGURATION,)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Its pins."""
    return (Terminal("pins", POLES["ac"], "in"),)


def inside(values: Values) -> Inside:
    """The link; the hot pin leads nowhere."""
    bare = (("pins", Pole.L), ("pins", Pole.N))
    link = bond_link(("pins", Pole.N), ("pins", Pole.PE))
    return Inside((link, Pins("pins", bare, free_terminal="pins")))


KIND = Kind(
    key="bond_plug",
    name=N_("bonding plug"),
    letters="XQ",
    strip="grounding",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "bond_plug",
    seat="pins",
    roles=frozenset({"bond_plug"}),
    captions=("configuration",),
    columns=("configuration",),
    search=N_("bonding plug neutral ground link generator"),
)
