"""A plug that a person moves by hand between outlets: a selector with a natural interlock."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, PLUG_CONTACT
from linework.kinds.kind import Carries, Kind
from linework.kinds.outlet import CONFIGURATION, contact_poles
from linework.kinds.values import Values
from linework.wiring import Contact, Inside, Pins, Selector, Terminal, When, is_protective
from linework.words import N_

RATINGS = (CIRCUIT, CONFIGURATION)

PLUG = Selector("plug", ("unplugged",), "unplugged", "hand")
"""Where a plug that is moved by hand stands; its other positions are its seats."""
UNPLUGGED: When = (("plug", frozenset({"unplugged"})),)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The cord, and the pins by which it sits in outlets."""
    poles = contact_poles(values)
    return (Terminal("cord", poles, "both"), Terminal("pins", poles, "in"))


def inside(values: Values) -> Inside:
    """Pins to cord; the pins are bare while it is in no outlet. Its positions are its seats."""
    poles = contact_poles(values)
    contacts = tuple(Contact(str(p), ("pins", p), ("cord", p), PLUG_CONTACT) for p in poles)
    bare = tuple(("pins", p) for p in poles if not is_protective(p))
    return Inside((*contacts, Pins("pins", bare, UNPLUGGED)), (PLUG,))


KIND = Kind(
    key="plug",
    name=N_("hand-moved plug"),
    letters="XP",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "plug",
    seat="pins",
    roles=frozenset({"plug"}),
    captions=("configuration",),
    columns=("configuration",),
    search=N_("plug cord cap shore cord"),
    carries=(Carries("configuration", "cord"),),
    lets_in=True,
)
