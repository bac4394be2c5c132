"""Battery selector: a lever for battery 1, battery 2, both or none."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.battery_disconnect import RATINGS as DISCONNECT
from linework.kinds.common import contact_ohm
from linework.kinds.kind import Carries, Kind
from linework.kinds.values import Values
from linework.wiring import Contact, Inside, Pole, Selector, Terminal
from linework.words import N_

RATINGS = tuple(
    replace(rating, quiet=True) if rating.key == "voltage" else rating
    for rating in DISCONNECT
    if rating.key in ("rating", "voltage")
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The plus of each battery, and the common stud."""
    plus = (Pole.POS,)
    return (
        Terminal("battery1", plus, "in"),
        Terminal("battery2", plus, "in"),
        Terminal("load", plus, "out"),
    )


def inside(values: Values) -> Inside:
    """From 1 to 2 it passes both, and joins the batteries then; on the other side it opens."""
    ohm = contact_ohm(values.num("rating"))
    contacts = tuple(
        Contact(
            position,
            (f"battery{position}", Pole.POS),
            ("load", Pole.POS),
            ohm,
            (("lever", frozenset({position, "both"})),),
        )
        for position in ("1", "2")
    )
    return Inside(contacts, (Selector("lever", ("1", "both", "2", "off"), "1", "hand"),))


KIND = Kind(
    key="battery_selector",
    name=N_("battery selector"),
    letters="QB",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "battery_selector",
    captions=("rating",),
    columns=("rating", "voltage"),
    search=N_("battery selector switch 1 2 both off"),
    carries=(Carries("rating", "load"),),
    passes_on=True,
)
