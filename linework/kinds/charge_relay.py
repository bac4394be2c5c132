"""Charge relay: joins two batteries while either is being charged."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.battery_disconnect import RATINGS as DISCONNECT
from linework.kinds.common import POLES, contact_ohm, straight, switched
from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Pole, Selector, Terminal, When
from linework.words import N_

JOINED: When = (("relay", frozenset({"joined"})),)

RATINGS = (
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "140 A",
        low=1.0,
        high=1000.0,
        help=N_("On its body: the continuous figure."),
    ),
    replace(next(r for r in DISCONNECT if r.key == "voltage"), quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The one battery and the other."""
    return (Terminal("line", POLES["dc"], "both"), Terminal("load", POLES["dc"], "both"))


def inside(values: Values) -> Inside:
    """A contact in the plus. It closes by the voltage of charging and may stay so for minutes, or
    be closed by hand to start an engine: both positions are judged whatever else is on."""
    contacts = switched("line", "load", (Pole.POS,), contact_ohm(values.num("rating")), JOINED)
    relay = Selector("relay", ("apart", "joined"), "apart", "hand")
    return Inside((*contacts, *straight("line", "load", (Pole.NEG,))), (relay,))


KIND = Kind(
    key="charge_relay",
    name=N_("charge relay"),
    letters="QA",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "charge_relay",
    captions=("rating",),
    columns=("rating", "voltage"),
    search=N_("charge relay battery combiner voltage sensitive split charge isolator"),
    carries=(Carries("rating", "load"),),
    passes_on=True,
)
