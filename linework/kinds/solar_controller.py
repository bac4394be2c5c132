"""Solar charge controller: charges a battery from a solar array while the sun shines."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.common import POLES
from linework.kinds.converters import BATTERY_VOLTAGE, STAND_IN_A, charging_source
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Choice, Origin, Rating
from linework.kinds.values import Values
from linework.quantity import write
from linework.wiring import (
    Convert,
    Draw,
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


def _usual_pv_current(values: Values) -> str | None:
    return write(values.num("current"), "current") if values.has("current") else None


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
    ),
    BATTERY_VOLTAGE,
    Rating("current", N_("Output current"), "current", low=0.1, high=1000.0, needed=True),
    Rating(
        "pv_voltage",
        N_("Largest voltage of the array"),
        "voltage",
        low=5.0,
        high=2000.0,
        needed=True,
        help=N_("The absolute maximum in its manual; more destroys it."),
    ),
    Rating(
        "pv_current",
        N_("Largest short-circuit current of the array"),
        "current",
        source=Origin(
            N_("its output current; makers state that or more (from memory)"), Confidence.MEMORY
        ),
        low=0.1,
        derive=_usual_pv_current,
    ),
    Rating(
        "common",
        N_("Joined through from array to battery"),
        "choice",
        "minus",
        choices=(
            Choice("minus", N_("minus")),
            Choice("plus", N_("plus")),
            Choice("none", N_("neither")),
        ),
        quiet=True,
    ),
    Rating(
        "finds_ground_fault",
        N_("Finds {a_ground_fault} of the array"),
        "choice",
        "unknown",
        choices=(
            Choice("yes", N_("yes, and switches off or warns")),
            Choice("no", N_("no")),
            Choice("unknown", N_("not known")),
        ),
        quiet=True,
        help=N_("Asked of arrays above 120 V; what a detector of its own does counts too."),
    ),
    Rating("efficiency", N_("Efficiency"), "ratio", "97 %", FROM_MEMORY, low=0.3, high=1.0),
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
    amps = values.opt("current") or STAND_IN_A
    dc_v = values.num("dc_voltage")
    most_v = max(values.opt("pv_voltage") or 0.0, 1.01 * dc_v)
    draw = Draw(
        "array side",
        ("pv", Pole.POS),
        ("pv", Pole.NEG),
        0.0,
        1.0,
        dc_v,
        (0.8 * dc_v, most_v),
        "power",
        0.0,
        when=CHARGING,
        own=False,
    )
    mppt = values.pick("type") == "mppt"
    convert = Convert(
        "controller",
        "controller",
        "array side",
        values.num("efficiency") if mppt else 1.0,
        steps=mppt,
    )
    elements: list[Element] = [
        charging_source("controller", amps, dc_v, CHARGING),
        draw,
        convert,
        Metal("case", ("case", Pole.PE)),
    ]
    pole = {"minus": Pole.NEG, "plus": Pole.POS}.get(values.pick("common"))
    if pole is not None:
        elements.append(Join(("pv", pole), ("dc", pole)))
    output = Selector(
        "output",
        ("charging", "off"),
        "off",
        "follows",
        (Follow("charging", live=(("pv", Pole.POS),)), Follow("off")),
    )
    return Inside(tuple(elements), (output,))


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
    columns=("type", "current", "dc_voltage", "pv_voltage", "pv_current"),
    search=N_("solar charge controller regulator MPPT PWM"),
    source=SourceGroup.CHARGER,
)
