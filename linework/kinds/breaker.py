"""Breaker, with or without ground-fault and arc-fault protection."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    CIRCUIT,
    MAGNETIC,
    MARKED_DIRECT,
    UNMARKED,
    WIDEST_VOLTAGE,
    contact_ohm,
    interrupting,
    live_poles,
    poles_of,
    straight,
    switched,
)
from linework.kinds.gfci import GROUND_FAULT, ground_fault_element
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Inside,
    Overcurrent,
    Place,
    Pole,
    Selector,
    Terminal,
    Three,
    When,
)
from linework.words import N_

CLOSED: When = (("breaker", frozenset({"closed"})),)

RATINGS = (
    CIRCUIT,
    Rating(
        "rating",
        N_("Rating"),
        "current",
        low=0.1,
        high=6000.0,
        needed=True,
        usual=(0.5, 1e3),
        help=N_("On its handle."),
    ),
    Rating(
        "poles",
        N_("Poles opened"),
        "choice",
        "lines",
        choices=(
            Choice("lines", N_("every {hot}")),
            Choice("all", N_("every {hot} and the {neutral}")),
            Choice("neutral", N_("only the {neutral} or minus")),
        ),
        quiet=True,
    ),
    Rating(
        "handle",
        N_("Handle"),
        "choice",
        "own",
        choices=(
            Choice("own", N_("its own")),
            Choice("tied", N_("tied to that of its neighbour")),
        ),
        help=N_("An identified tie makes two single breakers open together by hand."),
        quiet=True,
    ),
    GROUND_FAULT,
    Rating(
        "arc_fault",
        N_("Arc-fault protection"),
        "choice",
        "none",
        choices=(
            Choice("none", N_("none")),
            Choice("combination", N_("arc-fault, combination type")),
        ),
        help=N_("On its label. Dual function: give its ground-fault protection, class A, too."),
        quiet=True,
        ac_only=True,
    ),
    interrupting("5 kA", UNMARKED),
    MAGNETIC,
    replace(WIDEST_VOLTAGE, marking=True),
    MARKED_DIRECT,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Line side and load side; what is not opened passes straight."""
    poles = poles_of(values)
    return (Terminal("line", poles, "in"), Terminal("load", poles, "out"))


def places(values: Values) -> tuple[Place, ...]:
    """An outlet may sit straight behind it, as on a generator's panel."""
    offers = tuple((pole, ("load", pole)) for pole in poles_of(values))
    return (Place("load", frozenset({"outlet"}), offers),)


def _opened(values: Values) -> tuple[Pole, ...]:
    poles = poles_of(values)
    lines = live_poles(poles)
    returns = tuple(p for p in poles if p in (Pole.N, Pole.NEG))
    return {"lines": lines, "all": lines + returns, "neutral": returns}[values.pick("poles")]


def inside(values: Values) -> Inside:
    """Contacts that open together, and the devices that open them."""
    poles = poles_of(values)
    opened = _opened(values)
    amps = values.opt("rating") or 20.0
    ohm = contact_ohm(amps)
    elements: list[Element] = [*switched("line", "load", opened, ohm, CLOSED)]
    sensed = ground_fault_element(values, poles, opened, ohm)
    elements += sensed.elements
    elements += straight("line", "load", tuple(p for p in poles if p not in sensed.through))
    if values.has("rating") and opened:
        elements.append(overcurrent(values, opened, "breaker"))
    return Inside(
        tuple(elements), (Selector("breaker", ("closed", "open"), "closed", "protection"),)
    )


def overcurrent(values: Values, opened: tuple[Pole, ...], curve: str) -> Overcurrent:
    """The overcurrent element of a device that opens these poles."""
    magnetic: Three | None = values.three("magnetic") if values.has("magnetic") else None
    return Overcurrent(
        "overcurrent",
        tuple(str(pole) for pole in opened),
        values.num("rating"),
        curve,
        values.num("interrupting"),
        values.given("interrupting"),
        values.num("voltage"),
        {"yes": True, "no": False}.get(values.pick("direct")),
        magnetic,
    )


KIND = Kind(
    key="breaker",
    name=N_("breaker"),
    letters="QF",
    strip="protection",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "breaker" if values.pick("ground_fault") == "none" else "breaker_gfci",
    seat="line",
    roles=frozenset({"breaker"}),
    captions=("rating", "ground_fault", "arc_fault"),
    columns=("rating", "poles", "ground_fault", "arc_fault", "interrupting", "magnetic", "voltage"),
    search=N_("breaker circuit breaker overcurrent GFCI RCBO AFCI arc fault dual function"),
    passes_on=True,
)
