"""Inverter-charger: passes its input through while that is live, else makes AC from the battery."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import (
    POLES,
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    TRANSFER_TIME,
    VOLTAGE,
    bond_link,
    contact_ohm,
    live_poles,
    poles_of,
    switched,
)
from linework.kinds.converters import (
    AC_CIRCUIT,
    BATTERY_VOLTAGE,
    BOND_ALLOWED,
    CONTINUOUS_POWER,
    charger_elements,
    inverter_elements,
)
from linework.kinds.kind import Carries, Kind
from linework.kinds.loads import ends
from linework.kinds.ratings import FROM_MEMORY, Choice, OneOf, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Follow,
    Inside,
    Join,
    Metal,
    Passing,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
    When,
)
from linework.words import N_

PASSING: When = (("relay", frozenset({"passing"})),)
LOOKING = "looking at its input"
INVERTING: When = (("relay", frozenset({"inverting", LOOKING})),)

RATINGS = (
    AC_CIRCUIT,
    CONTINUOUS_POWER,
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    TRANSFER_TIME,
    VOLTAGE,
    BATTERY_VOLTAGE,
    Rating(
        "charge",
        N_("Charging current"),
        "current",
        "50 A",
        low=0.0,
        high=1000.0,
        help=N_("On its plate or in its menu: the most that it charges with."),
    ),
    Rating(
        "transfer",
        N_("Relay rating"),
        "current",
        "30 A",
        low=1.0,
        help=N_("On its plate: transfer or pass-through current."),
    ),
    Rating(
        "input_limit",
        N_("Input limit set on it"),
        "current",
        None,
        low=1.0,
        quiet=True,
        help=N_("It charges with what its loads leave of this; look in its menu. None: in full."),
    ),
    Rating(
        "neutral",
        N_("Neutral while it inverts"),
        "choice",
        OneOf(("relay", "floating")),
        Origin(N_("not known until looked up: both are judged"), Confidence.DEFINED),
        choices=(
            Choice("relay", N_("joined by its relay, opened on input")),
            Choice("floating", N_("floating")),
            Choice("bonded", N_("joined for good by its maker")),
            Choice("added", N_("joined for good by a link that was added")),
        ),
        help=N_("The manual says whether a relay joins neutral and case while it inverts."),
    ),
    BOND_ALLOWED,
    Rating(
        "neutral_through",
        N_("Neutral between input and output"),
        "choice",
        "switched",
        choices=(
            Choice("switched", N_("opened with the {hot} while it inverts")),
            Choice("common", N_("joined through for good")),
        ),
        help=N_("In the wiring diagram of its manual: whether its relay opens the {neutral} too."),
    ),
    Rating(
        "accept",
        N_("Looks at its input before it takes it, for"),
        "time",
        "10 s",
        FROM_MEMORY,
        low=0.0,
        high=3600.0,
        help=N_("Its manual calls it a delay of transfer or qualification; it inverts meanwhile."),
        quiet=True,
    ),
    Rating(
        "efficiency",
        N_("Efficiency"),
        "ratio",
        "90 %",
        FROM_MEMORY,
        low=0.3,
        high=1.0,
        help=N_("In its data sheet, at full load."),
    ),
    Rating(
        "idle",
        N_("No-load power"),
        "power",
        "15 W",
        FROM_MEMORY,
        low=0.0,
        help=N_("In its data sheet: no-load or stand-by power."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """AC in, AC out, battery, case."""
    ac = poles_of(values)
    return (
        Terminal("ac_in", ac, "in"),
        Terminal("ac_out", ac, "out"),
        Terminal("dc", POLES["dc"], "both"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def _relays(values: Values) -> list[Element]:
    ohm = contact_ohm(values.num("transfer"))
    moved = (*live_poles(poles_of(values)), Pole.N)
    elements: list[Element] = []
    if values.pick("neutral_through") == "common":
        moved = live_poles(poles_of(values))
        elements.append(Join(("ac_in", Pole.N), ("ac_out", Pole.N)))
    elements += switched("ac_in", "ac_out", moved, ohm, PASSING)
    for terminal in ("ac_out", "case"):
        elements.append(Join(("ac_in", Pole.PE), (terminal, Pole.PE)))
    bond = values.pick("neutral")
    if bond != "floating":
        when = INVERTING if bond == "relay" else ()
        elements.append(bond_link(("ac_out", Pole.N), ("case", Pole.PE), when))
    return elements


def inside(values: Values) -> Inside:
    """Relay, inverter, charger, bond relay, case."""
    elements: list[Element] = [*_relays(values), Metal("case", ("case", Pole.PE))]
    if values.has("power"):
        elements += inverter_elements(values, INVERTING)
        lines = tuple(str(pole) for pole in live_poles(poles_of(values)))
        elements += charger_elements(values, values.num("charge"), PASSING, beside=lines)
    on, taken = (("mode", "on"),), ("ac_in", ends(poles_of(values))[0])
    both = (taken, ("dc", Pole.POS))
    relay = Selector(
        "relay",
        ("passing", "inverting", "off"),
        "off",
        "follows",
        (
            Follow("passing", live=(taken,), stands=on),
            Follow("inverting", live=(("dc", Pole.POS),), stands=on),
            Follow("off"),
        ),
        (
            # for that long it still inverts, its link closed, while the input is live
            Passing("inverting", "passing", LOOKING, values.num("accept"), live=both),
            Passing("inverting", "passing", "changing over", 0.02),
        ),
    )
    mode = Selector("mode", ("on", "off"), "on", "hand")
    return Inside(tuple(elements), (mode, relay))


KIND = Kind(
    key="inverter_charger",
    name=N_("inverter-charger"),
    letters="TB",
    changes_over=True,
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "inverter_charger",
    captions=("power", "neutral"),
    columns=(
        "circuit",
        "power",
        "surge",
        "voltage",
        "dc_voltage",
        "transfer",
        "charge",
        "input_limit",
        "neutral",
        "neutral_through",
    ),
    search=N_("inverter charger combination pass-through converter"),
    source=SourceGroup.INVERTER,
    carries=(Carries("transfer", "ac_in"),),
    fixed=True,
)
