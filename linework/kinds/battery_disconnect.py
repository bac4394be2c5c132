"""Battery disconnect: the switch that cuts a battery off from everything."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import POLES, contact_ohm, straight, switched
from linework.kinds.kind import Carries, Kind, Remedy
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Pole, Selector, Terminal, When
from linework.words import N_

CLOSED: When = (("switch", frozenset({"closed"})),)

RATINGS = (
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "200 A",
        low=1.0,
        high=6000.0,
        help=N_("On its body: the continuous figure, not the one for a minute."),
    ),
    Rating(
        "poles",
        N_("Poles opened"),
        "choice",
        "plus",
        choices=(
            Choice("plus", N_("plus")),
            Choice("both", N_("plus and minus")),
            Choice("minus", N_("only minus")),
        ),
        quiet=True,
    ),
    Rating(
        "voltage",
        N_("Voltage"),
        "voltage",
        "32 V",
        Origin(N_("lowest figure that makers mark, from memory"), Confidence.MEMORY),
        low=1.0,
        high=1000.0,
        help=N_("As marked, for direct current."),
        marking=True,
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Battery side and load side."""
    return (Terminal("line", POLES["dc"], "in"), Terminal("load", POLES["dc"], "out"))


def inside(values: Values) -> Inside:
    """Contacts that open together; it is taken as closed unless an interlock says otherwise."""
    opened = {
        "plus": (Pole.POS,),
        "both": (Pole.POS, Pole.NEG),
        "minus": (Pole.NEG,),
    }[values.pick("poles")]
    contacts = switched("line", "load", opened, contact_ohm(values.num("rating")), CLOSED)
    rest = straight("line", "load", tuple(p for p in POLES["dc"] if p not in opened))
    selector = Selector("switch", ("closed", "open"), "closed", "protection")
    return Inside((*contacts, *rest), (selector,))


KIND = Kind(
    key="battery_disconnect",
    name=N_("battery disconnect"),
    letters="QB",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "battery_disconnect",
    captions=("rating",),
    columns=("rating", "poles", "voltage"),
    search=N_("battery disconnect master switch cut-off"),
    carries=(Carries("rating", "load"),),
    passes_on=True,
    remedies=frozenset({Remedy.BATTERY_SWITCH}),
)
