"""What transfer switches share, moved by hand or by themselves: two inputs, one load."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, POLES, contact_ohm, live_poles, poles_of
from linework.kinds.kind import Input
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Contact, Element, Join, Metal, Pole, Terminal, When
from linework.words import N_

RATINGS = (
    CIRCUIT,
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "30 A",
        low=1.0,
        help=N_("On its plate."),
    ),
    Rating(
        "poles",
        N_("Poles switched"),
        "choice",
        "all",
        choices=(
            Choice("lines", N_("every {hot}; {neutral} joined through")),
            Choice("all", N_("every {hot} and the {neutral}")),
            Choice("first", N_("only the first {hot}; all else joined through")),
        ),
        help=N_("Its poles, on its plate or in its diagram; a solid {neutral} is joined through."),
    ),
    Rating(
        "second_circuit",
        N_("What input 2 brings"),
        "choice",
        "same",
        choices=(
            Choice("same", N_("the same conductors as input 1")),
            Choice("one_hot", N_("one {hot} that feeds both legs")),
        ),
        help=N_("On two legs only: a set of one voltage on a board of two."),
        quiet=True,
    ),
    Rating("first", N_("Name of input 1"), "text", "1", quiet=True),
    Rating("second", N_("Name of input 2"), "text", "2", quiet=True),
)


def input_poles(values: Values, terminal: str) -> tuple[Pole, ...]:
    """The conductors of an input."""
    poles = poles_of(values)
    one_hot = terminal == "in2" and values.pick("second_circuit") == "one_hot"
    return POLES["ac"] if one_hot and Pole.L1 in poles and Pole.N in poles else poles


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Two inputs and the load."""
    return (
        Terminal("in1", input_poles(values, "in1"), "in", values.text("first")),
        Terminal("in2", input_poles(values, "in2"), "in", values.text("second")),
        Terminal("load", poles_of(values), "out"),
    )


def moved_poles(values: Values) -> tuple[Pole, ...]:
    """The conductors of the load that the switch opens."""
    poles = poles_of(values)
    lines = live_poles(poles)
    returns = tuple(p for p in poles if p in (Pole.N, Pole.NEG))
    return {"lines": lines, "all": lines + returns, "first": lines[:1]}[values.pick("poles")]


def ways(values: Values, terminal: str, when: When) -> list[Element]:
    """From one input to the load: contacts, and what is joined through."""
    moved, ohm = moved_poles(values), contact_ohm(values.num("rating"))
    offered = input_poles(values, terminal)
    elements: list[Element] = []
    for pole in poles_of(values):
        a, b = (terminal, pole if pole in offered else Pole.L), ("load", pole)
        elements.append(
            Contact(f"{terminal} {pole}", a, b, ohm, when) if pole in moved else Join(a, b)
        )
    return elements


def enclosure(values: Values) -> list[Element]:
    """Its metal box, on the ground wire."""
    return [Metal("enclosure", ("load", Pole.PE))] if Pole.PE in poles_of(values) else []


INPUTS = (Input("1", "in1", "first"), Input("2", "in2", "second"))
COLUMNS = ("rating", "poles", "second_circuit", "first", "second")
CAPTIONS = ("rating", "poles")
