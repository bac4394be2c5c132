"""Charger, fixed: charges a battery, or feeds a board, while its alternating current is live."""

from __future__ import annotations

from linework.kinds.common import POLES, VOLTAGE
from linework.kinds.converters import BATTERY_VOLTAGE, STAND_IN_A, charger_elements
from linework.kinds.kind import Kind
from linework.kinds.loads import CASE, CHECKS_BOND
from linework.kinds.ratings import FROM_MEMORY, Rating
from linework.kinds.values import Values
from linework.wiring import (
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
    VOLTAGE,
    BATTERY_VOLTAGE,
    Rating(
        "efficiency",
        N_("Efficiency"),
        "ratio",
        "85 %",
        FROM_MEMORY,
        low=0.3,
        high=1.0,
        help=N_("In its data sheet, at full load."),
    ),
    Rating(
        "power_factor",
        N_("Power factor"),
        "ratio",
        "0.95",
        FROM_MEMORY,
        low=0.05,
        high=1.0,
        help=N_("In its data sheet; on some plates as PF."),
    ),
    CASE,
    CHECKS_BOND,
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """AC in, battery, case."""
    return (
        Terminal("ac_in", POLES["ac"], "in"),
        Terminal("dc", POLES["dc"], "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def inside(values: Values) -> Inside:
    """It gives its current at the battery side whenever its input is live; the sides are apart."""
    amps = values.opt("current") or STAND_IN_A
    elements: list[Element] = charger_elements(values, amps, CHARGING, values.num("power_factor"))
    elements += _case(values)
    output = Selector(
        "output",
        ("charging", "off"),
        "off",
        "follows",
        (Follow("charging", live=(("ac_in", Pole.L),)), Follow("off")),
    )
    return Inside(tuple(elements), (output,))


def _case(values: Values) -> list[Element]:
    ground, case = ("ac_in", Pole.PE), ("case", Pole.PE)
    joined: list[Element] = [Join(ground, case)]
    return [*joined, Metal("case", case)] if values.pick("case") == "metal" else joined


KIND = Kind(
    key="charger",
    name=N_("charger"),
    letters="TB",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "charger",
    captions=("current",),
    columns=("current", "voltage", "dc_voltage", "efficiency", "power_factor", "checks_bond"),
    search=N_("charger battery converter rectifier"),
    source=SourceGroup.CHARGER,
    fixed=True,
)
