"""Transfer switch: one load, two inputs, never both; it opens before it closes."""

from __future__ import annotations

from linework.kinds.kind import Carries, Kind
from linework.kinds.transfer import CAPTIONS, COLUMNS, INPUTS, RATINGS, enclosure, terminals, ways
from linework.kinds.values import Values
from linework.wiring import Inside, Selector
from linework.words import N_


def inside(values: Values) -> Inside:
    """Contacts to input 1 or input 2; what is not switched is joined through all three."""
    elements = [
        *ways(values, "in1", (("lever", frozenset({"1"})),)),
        *ways(values, "in2", (("lever", frozenset({"2"})),)),
        *enclosure(values),
    ]
    return Inside(tuple(elements), (Selector("lever", ("1", "off", "2"), "1", "hand"),))


KIND = Kind(
    key="transfer_switch",
    name=N_("transfer switch"),
    letters="QT",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "transfer_switch",
    captions=CAPTIONS,
    columns=COLUMNS,
    search=N_("transfer changeover switch selector"),
    carries=(Carries("rating", "load"),),
    inputs=INPUTS,
    fixed=True,
)
