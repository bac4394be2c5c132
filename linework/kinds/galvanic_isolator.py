"""Galvanic isolator: in the ground wire from shore, it holds off the small direct voltage of metals
in the water and lets a fault current through."""

from __future__ import annotations

from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.run import NOT_GIVEN
from linework.kinds.values import Values
from linework.wiring import Inside, Link, Pole, Terminal, Three
from linework.words import N_

RATINGS = (
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "30 A",
        low=1.0,
        high=400.0,
        marking=True,
        help=N_("As marked: that of the shore cord in whose ground wire it lies."),
    ),
    Rating(
        "failure",
        N_("When it fails"),
        "choice",
        NOT_GIVEN,
        choices=(
            Choice(NOT_GIVEN, N_("not given")),
            Choice("closed", N_("stays a conductor (fail-safe)")),
            Choice("watched", N_("may open; a monitor shows it")),
            Choice("open", N_("may open, and nothing shows it")),
        ),
        quiet=True,
        help=N_("On its label: fail-safe, or FS. Otherwise look for a monitor with lamps."),
    ),
)

_DROP_OHM = Three(0.5e-3, 3e-3, 10e-3)
"""Two diodes in a row lose 2 to 3 V at a fault of some hundred to some thousand ampere (from
memory); below about 1.2 V of direct current nothing passes."""


def terminals(values: Values) -> tuple[Terminal, ...]:
    """One stud for the ground wire from shore, one for that of the boat."""
    return (
        Terminal("shore", (Pole.PE,), "tie"),
        Terminal("boat", (Pole.PE,), "tie"),
    )


def inside(values: Values) -> Inside:
    """A ground wire to alternating and fault current."""
    return Inside((Link("diodes", ("shore", Pole.PE), ("boat", Pole.PE), _DROP_OHM),))


KIND = Kind(
    key="galvanic_isolator",
    name=N_("galvanic isolator"),
    letters="RB",
    strip="grounding",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "galvanic_isolator",
    captions=("rating",),
    columns=("rating", "failure"),
    search=N_("galvanic isolator zinc saver corrosion diode shore ground"),
    keeps_apart=lambda values: ("shore", "boat"),
)
