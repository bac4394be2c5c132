"""Parallel kit: a box that joins two sets of one make, with outlets for both together."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    SOURCE_CIRCUIT,
    VOLTAGE,
    breaker_in,
    contact_ohm,
    live_poles,
    own_places,
    poles_of,
    straight,
    switched,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import Rating
from linework.kinds.values import Values
from linework.wiring import Element, Inside, Metal, Place, Pole, Terminal
from linework.words import N_

RATINGS = (
    replace(SOURCE_CIRCUIT, help=N_("Which conductors the sets bring.")),
    replace(VOLTAGE, quiet=True),
    Rating(
        "breaker",
        N_("Breaker of the kit"),
        "current",
        low=1.0,
        quiet=True,
        help=N_("Before all its outlets; leave it empty where each has its own."),
    ),
    Rating("outlets", N_("Places for its outlets"), "count", "2", low=0, high=6, quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """A lead from each set, and an output."""
    poles = poles_of(values)
    return (
        Terminal("set1", poles, "in"),
        Terminal("set2", poles, "in"),
        Terminal("out", poles, "out"),
    )


def places(values: Values) -> tuple[Place, ...]:
    """Outlets, or the breakers before them, behind both sets."""
    return own_places(poles_of(values), int(values.num("outlets")))


def inside(values: Values) -> Inside:
    """Like conductors of both sets are one: lines, neutrals and grounds."""
    poles = poles_of(values)
    lines = live_poles(poles)
    elements: list[Element] = [*straight("set1", "set2", poles)]
    elements += straight("set1", "out", tuple(p for p in poles if p not in lines))
    elements.append(Metal("enclosure", ("out", Pole.PE)))
    if not values.has("breaker"):
        return Inside((*elements, *straight("set1", "out", lines)))
    amps = values.num("breaker")
    contacts = switched("set1", "out", lines, contact_ohm(amps), ())
    volts = values.num("voltage") * (len(lines) if Pole.N in poles else 1)
    return Inside((*elements, *contacts, breaker_in("breaker", contacts, amps, volts)))


KIND = Kind(
    key="parallel_kit",
    name=N_("parallel kit"),
    letters="WC",
    strip="distribution",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "parallel_kit",
    captions=("breaker",),
    columns=("circuit", "breaker"),
    search=N_("parallel kit two generators companion sets"),
)
