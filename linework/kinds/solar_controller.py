"""Solar charge controller: charges a battery from a solar array while the sun shines."""

from __future__ import annotations

from linework.kinds.common import POLES
from linework.kinds.converters import BATTERY_VOLTAGE
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Choice, Rating
from linework.kinds.solar_input import (
    FINDS_GROUND_FAULT,
    PV_CURRENT,
    PV_VOLTAGE,
    common,
    sun_elements,
    sun_selector,
)
from linework.kinds.values import Values
from linework.wiring import Inside, Metal, Pole, SourceGroup, Terminal
from linework.words import N_

RATINGS = (
    Rating(
        "type",
        N_("Type"),
        "choice",
        "mppt",
        choices=(
            Choice("mppt", N_("MPPT: finds the greatest power")),
            Choice("pwm", N_("PWM: joins array and battery")),
        ),
        help=N_("On its plate, or part of its name."),
    ),
    BATTERY_VOLTAGE,
    Rating(
        "current",
        N_("Output current"),
        "current",
        low=0.1,
        high=1000.0,
        needed=True,
        help=N_("On its plate: rated charging current."),
    ),
    PV_VOLTAGE,
    PV_CURRENT,
    common("minus"),
    FINDS_GROUND_FAULT,
    Rating(
        "without_battery",
        N_("Its array on, its battery off"),
        "choice",
        "unknown",
        choices=(
            Choice("bears", N_("bears it")),
            Choice("harmed", N_("is damaged")),
            Choice("unknown", N_("not known")),
        ),
        quiet=True,
        help=N_(
            "In its manual, often among the warnings: whether the array may stay joined while the"
            " battery is cut off."
        ),
    ),
    Rating(
        "efficiency",
        N_("Efficiency"),
        "ratio",
        "97 %",
        FROM_MEMORY,
        low=0.3,
        high=1.0,
        help=N_("In its data sheet, at full load."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Array, battery, case."""
    return (
        Terminal("pv", POLES["dc"], "in"),
        Terminal("dc", POLES["dc"], "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def inside(values: Values) -> Inside:
    """What it takes from the array it gives to the battery; nothing flows back to the array."""
    mppt = values.pick("type") == "mppt"
    efficiency = values.num("efficiency") if mppt else 1.0
    elements = sun_elements(values, "output", efficiency, mppt)
    return Inside((*elements, Metal("case", ("case", Pole.PE))), (sun_selector("output"),))


KIND = Kind(
    key="solar_controller",
    name=N_("solar charge controller"),
    letters="TC",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "solar_controller",
    captions=("current", "pv_voltage"),
    columns=("type", "current", "dc_voltage", "pv_voltage", "pv_current", "common"),
    search=N_("solar charge controller regulator MPPT PWM"),
    source=SourceGroup.CHARGER,
)
