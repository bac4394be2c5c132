"""Transfer switch: one load, two inputs, never both; it opens before it closes."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, contact_ohm, live_poles, poles_of, straight, switched
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Element, Inside, Metal, Pole, Selector, Terminal
from linework.words import N_

RATINGS = (
    CIRCUIT,
    Rating("rating", N_("Rating"), "current", "30 A", low=1.0),
    Rating(
        "poles",
        N_("Poles switched"),
        "choice",
        "all",
        choices=(
            Choice("lines", N_("every {hot}; {neutral} joined through")),
            Choice("all", N_("every {hot} and the {neutral}")),
        ),
    ),
    Rating("first", N_("Name of input 1"), "text", "1", quiet=True),
    Rating("second", N_("Name of input 2"), "text", "2", quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Two inputs and the load."""
    poles = poles_of(values)
    return (
        Terminal("in1", poles, "in", values.text("first")),
        Terminal("in2", poles, "in", values.text("second")),
        Terminal("load", poles, "out"),
    )


def inside(values: Values) -> Inside:
    """Contacts to input 1 or input 2; what is not switched is joined through all three."""
    poles = poles_of(values)
    returns = (Pole.N, Pole.NEG)
    moved = live_poles(poles)
    if values.pick("poles") == "all":
        moved = tuple(p for p in poles if p in moved or p in returns)
    still = tuple(p for p in poles if p not in moved)
    ohm = contact_ohm(values.num("rating"))
    elements: list[Element] = []
    for terminal, position in (("in1", "1"), ("in2", "2")):
        when = (("lever", frozenset({position})),)
        elements += switched(terminal, "load", moved, ohm, when, f"{terminal} ")
        elements += straight(terminal, "load", still)
    if Pole.PE in poles:
        elements.append(Metal("enclosure", ("load", Pole.PE)))
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
    captions=("rating", "poles"),
    columns=("rating", "poles", "first", "second"),
    search=N_("transfer changeover switch selector"),
)
