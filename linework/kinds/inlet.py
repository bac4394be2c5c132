"""Inlet: pins on the outside of a vehicle, boat or building that a cord connector goes on."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, PLUG_CONTACT, STANDS, poles_of
from linework.kinds.kind import Carries, Kind
from linework.kinds.outlet import CONFIGURATION
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Contact, Element, Inside, Metal, Pins, Pole, Terminal, is_protective
from linework.words import N_

RATINGS = (
    CIRCUIT,
    CONFIGURATION,
    Rating(
        "expects",
        N_("Sign beside it: expects a generator whose neutral is"),
        "choice",
        "none",
        choices=(
            Choice("none", N_("no sign")),
            Choice("bonded", N_("joined to the frame")),
            Choice("floating", N_("floating")),
        ),
        quiet=True,
    ),
    STANDS,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The pins outside and the wires inside."""
    poles = poles_of(values)
    return (Terminal("outside", poles, "in"), Terminal("inside", poles, "out"))


def inside(values: Values) -> Inside:
    """Pins to wires; the pins are bare while no cord is drawn to them or put on them."""
    poles = poles_of(values)
    contacts = tuple(Contact(str(p), ("outside", p), ("inside", p), PLUG_CONTACT) for p in poles)
    bare = tuple(("outside", p) for p in poles if not is_protective(p))
    elements: list[Element] = [*contacts, Pins("pins", bare, free_terminal="outside")]
    if Pole.PE in poles:
        elements.append(Metal("shell", ("inside", Pole.PE)))
    return Inside(tuple(elements))


KIND = Kind(
    key="inlet",
    name=N_("{inlet}"),
    letters="XI",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "inlet",
    seat="outside",
    roles=frozenset({"inlet"}),
    captions=("configuration",),
    columns=("configuration", "expects"),
    search=N_("shore inlet power inlet appliance inlet"),
    carries=(Carries("configuration", "inside"),),
    lets_in=True,
)
