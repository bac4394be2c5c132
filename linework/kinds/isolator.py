"""Isolator: a switch that a person opens to cut a circuit off, for AC or DC."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    CIRCUIT,
    MARKED_DIRECT,
    WIDEST_VOLTAGE,
    contact_ohm,
    live_poles,
    poles_of,
    straight,
    switched,
)
from linework.kinds.kind import Carries, Kind, Remedy
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Element, Inside, Metal, Pole, Selector, Terminal, When
from linework.words import N_

CLOSED: When = (("switch", frozenset({"closed"})),)

RATINGS = (
    CIRCUIT,
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "30 A",
        low=0.1,
        high=6000.0,
        help=N_("On its body, for the kind of current that it switches."),
    ),
    Rating(
        "poles",
        N_("Poles opened"),
        "choice",
        "all",
        choices=(
            Choice("lines", N_("every {hot}")),
            Choice("all", N_("every {hot} and the {neutral}")),
        ),
    ),
    replace(
        WIDEST_VOLTAGE,
        marking=True,
        help=N_("As marked, for the kind of current that it switches."),
    ),
    MARKED_DIRECT,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Line side and load side."""
    poles = poles_of(values)
    return (Terminal("line", poles, "in"), Terminal("load", poles, "out"))


def inside(values: Values) -> Inside:
    """Contacts that open together; it is taken as closed unless an interlock says otherwise."""
    poles = poles_of(values)
    opened = live_poles(poles)
    if values.pick("poles") == "all":
        opened = tuple(p for p in poles if p in opened or p in (Pole.N, Pole.NEG))
    elements: list[Element] = [
        *switched("line", "load", opened, contact_ohm(values.num("rating")), CLOSED),
        *straight("line", "load", tuple(p for p in poles if p not in opened)),
    ]
    if Pole.PE in poles:
        elements.append(Metal("enclosure", ("load", Pole.PE)))
    return Inside(
        tuple(elements), (Selector("switch", ("closed", "open"), "closed", "protection"),)
    )


KIND = Kind(
    key="isolator",
    name=N_("isolator"),
    letters="QB",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "isolator",
    captions=("rating", "voltage"),
    columns=("rating", "poles", "voltage", "direct"),
    search=N_("isolator disconnect switch load break solar DC"),
    carries=(Carries("rating", "load"),),
    fixed=True,
    passes_on=True,
    remedies=frozenset({Remedy.ISOLATOR}),
)
