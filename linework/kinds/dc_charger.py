"""DC-DC charger: charges one battery from another, or from an alternator's."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import POLES
from linework.kinds.converters import (
    BATTERY_VOLTAGE,
    CHARGE_SHARE,
    STAND_IN_A,
    battery_side,
    charging_source,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Element,
    Follow,
    Inside,
    Join,
    Metal,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
    When,
)
from linework.words import N_

CHARGING: When = (("output", frozenset({"charging"})),)

RATINGS = (
    Rating(
        "current",
        N_("Charging current"),
        "current",
        low=0.1,
        high=1000.0,
        needed=True,
        help=N_("On its plate: output in A."),
    ),
    replace(BATTERY_VOLTAGE, key="in_voltage", label=N_("Voltage that it takes")),
    replace(BATTERY_VOLTAGE, label=N_("Voltage of the battery that it charges")),
    Rating(
        "holds",
        N_("Holds its output at"),
        "choice",
        "charge",
        choices=(
            Choice("charge", N_("the charging voltage of a battery")),
            Choice("half", N_("half of its input: it levels the halves of a string of batteries")),
        ),
        quiet=True,
        help=N_("An equalizer takes from the whole string what hangs on its lower half."),
    ),
    Rating(
        "common",
        N_("Minus of both sides"),
        "choice",
        "minus",
        choices=(
            Choice("minus", N_("joined inside")),
            Choice("none", N_("apart (isolated)")),
        ),
        quiet=True,
        help=N_("Its manual says whether it is isolated."),
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
)


def levels(values: Values) -> bool:
    """Whether it holds half of a string of batteries at half of the whole."""
    return "holds" in values.declared and values.pick("holds") == "half"


def terminals(values: Values) -> tuple[Terminal, ...]:
    """What feeds it, what it charges, case."""
    return (
        Terminal("dc_in", POLES["dc"], "in"),
        Terminal("dc", POLES["dc"], "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def inside(values: Values) -> Inside:
    """What it takes on one side it gives on the other, while its signal or key has it on."""
    amps = values.opt("current") or STAND_IN_A
    draw = battery_side(values.num("in_voltage"), CHARGING, "dc_in")
    share = 1.0 if levels(values) else CHARGE_SHARE
    elements: list[Element] = [
        charging_source("charger", amps, values.num("dc_voltage"), CHARGING, share=share),
        draw,
        Convert("charger", "charger", draw.name, values.num("efficiency")),
        Metal("case", ("case", Pole.PE)),
    ]
    if values.pick("common") == "minus":
        elements.append(Join(("dc_in", Pole.NEG), ("dc", Pole.NEG)))
    output = Selector(
        "output",
        ("charging", "off"),
        "off",
        "follows",
        (
            Follow("charging", live=(("dc_in", Pole.POS),), stands=(("signal", "on"),)),
            Follow("off"),
        ),
    )
    return Inside(tuple(elements), (Selector("signal", ("on", "off"), "on", "hand"), output))


KIND = Kind(
    key="dc_charger",
    name=N_("DC-DC charger"),
    letters="TB",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "dc_charger",
    captions=("current",),
    columns=("current", "in_voltage", "dc_voltage", "holds", "common", "efficiency"),
    search=N_("DC-DC charger battery to battery alternator converter B2B equalizer"),
    source=SourceGroup.CHARGER,
)
