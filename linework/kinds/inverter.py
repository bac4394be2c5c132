"""Inverter that stands alone: alternating current from the battery, no input to pass through."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import (
    POLES,
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    VOLTAGE,
    bond_link,
    own_places,
    poles_of,
)
from linework.kinds.converters import (
    AC_CIRCUIT,
    BATTERY_VOLTAGE,
    BOND_ALLOWED,
    CONTINUOUS_POWER,
    inverter_elements,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Choice, OneOf, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Follow,
    Inside,
    Join,
    Metal,
    Place,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
    When,
)
from linework.words import N_

INVERTING: When = (("bridge", frozenset({"inverting"})),)

RATINGS = (
    AC_CIRCUIT,
    CONTINUOUS_POWER,
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    VOLTAGE,
    BATTERY_VOLTAGE,
    Rating(
        "neutral",
        N_("Neutral"),
        "choice",
        OneOf(("bonded", "floating")),
        Origin(N_("not known until looked up: both are judged"), Confidence.DEFINED),
        choices=(
            Choice("bonded", N_("joined to the case by its maker")),
            Choice("added", N_("joined by a link that was added")),
            Choice("floating", N_("floating")),
        ),
        help=N_(
            "The manual says it; or, with battery and output off, an ohmmeter from the {neutral}"
            " slot to the case. Near zero: joined. Open: floating."
        ),
    ),
    BOND_ALLOWED,
    Rating(
        "efficiency",
        N_("Efficiency"),
        "ratio",
        "88 %",
        FROM_MEMORY,
        low=0.3,
        high=1.0,
        help=N_("In its data sheet, at full load."),
    ),
    Rating(
        "idle",
        N_("No-load power"),
        "power",
        "12 W",
        FROM_MEMORY,
        low=0.0,
        help=N_("In its data sheet: no-load or stand-by power."),
    ),
    Rating("outlets", N_("Places for its own outlets"), "count", "0", low=0, high=4, quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Battery, AC out, case."""
    return (
        Terminal("dc", POLES["dc"], "in"),
        Terminal("ac_out", poles_of(values), "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def places(values: Values) -> tuple[Place, ...]:
    """Outlets in its own front, at its output."""
    return own_places(poles_of(values), int(values.num("outlets")), output="ac_out")


def inside(values: Values) -> Inside:
    """The bridge, the case, the link of the neutral; it works while its battery side is live."""
    case = ("case", Pole.PE)
    elements: list[Element] = [Join(("ac_out", Pole.PE), case), Metal("case", case)]
    if values.pick("neutral") in ("bonded", "added"):
        elements.append(bond_link(("ac_out", Pole.N), case))
    if values.has("power"):
        elements += inverter_elements(values, INVERTING)
    bridge = Selector(
        "bridge",
        ("inverting", "off"),
        "off",
        "follows",
        (
            Follow("inverting", live=(("dc", Pole.POS),), stands=(("mode", "on"),)),
            Follow("off"),
        ),
    )
    return Inside(tuple(elements), (Selector("mode", ("on", "off"), "on", "hand"), bridge))


KIND = Kind(
    key="inverter",
    name=N_("inverter"),
    letters="TB",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "inverter",
    captions=("power", "neutral"),
    columns=("circuit", "power", "surge", "voltage", "dc_voltage", "neutral", "bond_allowed"),
    search=N_("inverter converter battery AC sine"),
    source=SourceGroup.INVERTER,
)
