"""Busbar: one conductor with a feed and taps, for plus, minus, neutral or a ground wire."""

from __future__ import annotations

from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Join, Pole, Terminal
from linework.words import N_

_POLES = {"plus": Pole.POS, "minus": Pole.NEG, "neutral": Pole.N, "ground": Pole.PE}

MOST_TAPS = 12

RATINGS = (
    Rating(
        "bar",
        N_("Carries"),
        "choice",
        "plus",
        choices=(
            Choice("plus", N_("plus")),
            Choice("minus", N_("minus")),
            Choice("neutral", N_("{neutrals}")),
            Choice("ground", N_("{ground_wires}")),
        ),
        help=N_("A bar is one conductor: draw one for plus and one for minus."),
    ),
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "100 A",
        low=1.0,
        high=6000.0,
        help=N_("In the catalogue of its maker, or on it."),
    ),
    Rating("taps", N_("Taps"), "count", "4", low=1, high=MOST_TAPS, quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The feed and numbered taps; all of them are the same bar."""
    pole = (_POLES[values.pick("bar")],)
    role = "tie" if values.pick("bar") == "ground" else "both"
    taps = range(1, int(values.num("taps")) + 1)
    return tuple(Terminal(name, pole, role) for name in ("feed", *map(str, taps)))  # type: ignore[arg-type]


def inside(values: Values) -> Inside:
    """Every tap is one node with the feed."""
    pole = _POLES[values.pick("bar")]
    taps = range(1, int(values.num("taps")) + 1)
    return Inside(tuple(Join(("feed", pole), (str(tap), pole)) for tap in taps))


KIND = Kind(
    key="busbar",
    name=N_("busbar"),
    letters="WC",
    strip="distribution",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: f"busbar_{int(values.num('taps'))}",
    captions=("rating",),
    columns=("bar", "rating", "taps"),
    search=N_("busbar bus bar common plus minus negative positive ground neutral"),
    carries=(Carries("rating"),),
    passes_on=True,
)
