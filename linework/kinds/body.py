"""Body: a named conductive mass, the chassis of a vehicle or the hull of a boat."""

from __future__ import annotations

from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Join, Metal, Pole, Terminal, body_point
from linework.words import N_

RATINGS = (
    Rating(
        "name",
        N_("Name"),
        "text",
        "chassis",
        quiet=True,
        help=N_("All symbols of one name are one and the same metal."),
    ),
    Rating(
        "type",
        N_("Type"),
        "choice",
        "chassis",
        choices=(
            Choice("chassis", N_("chassis or frame of a vehicle")),
            Choice("hull", N_("metal hull")),
            Choice("structure", N_("metal structure")),
        ),
        quiet=True,
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The stud."""
    return (Terminal("tie", (Pole.BODY,), "tie"),)


def inside(values: Values) -> Inside:
    """The one node that all symbols of this name share; a hand can touch it."""
    here = ("tie", Pole.BODY)
    return Inside(
        (Join(here, body_point(values.text("name") or "chassis")), Metal("body", here, body=True))
    )


KIND = Kind(
    key="body",
    name=N_("chassis or hull"),
    letters="XB",
    strip="grounding",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "body",
    captions=("name",),
    columns=(),
    search=N_("chassis frame hull body metal skin"),
    body=True,
)
