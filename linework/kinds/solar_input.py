"""What a solar input is, of a charge controller or of a hybrid inverter."""

from __future__ import annotations

from linework.data import Confidence
from linework.kinds.converters import STAND_IN_A, charging_source
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.quantity import write
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Follow,
    Join,
    Pole,
    Selector,
    When,
)
from linework.words import N_


def _usual_pv_current(values: Values) -> str | None:
    return write(values.num("current"), "current") if values.has("current") else None


PV_VOLTAGE = Rating(
    "pv_voltage",
    N_("Largest voltage of the array"),
    "voltage",
    low=5.0,
    high=2000.0,
    needed=True,
    help=N_("The absolute maximum in its manual; more destroys it."),
)
PV_CURRENT = Rating(
    "pv_current",
    N_("Largest short-circuit current of the array"),
    "current",
    source=Origin(
        N_("its output current; makers state that or more (from memory)"), Confidence.MEMORY
    ),
    low=0.1,
    derive=_usual_pv_current,
    help=N_("On its plate or data sheet: largest short-circuit current of the array."),
)
FINDS_GROUND_FAULT = Rating(
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
)


def common(default: str) -> Rating:
    """What is joined through from array to battery."""
    return Rating(
        "common",
        N_("Joined through from array to battery"),
        "choice",
        default,
        choices=(
            Choice("minus", N_("minus")),
            Choice("plus", N_("plus")),
            Choice("none", N_("neither")),
        ),
        quiet=True,
        help=N_(
            "In its manual, under wiring or grounding; it may say common negative or positive."
        ),
    )


def sun_elements(values: Values, selector: str, efficiency: float, steps: bool) -> list[Element]:
    """What is taken at ``pv`` is given at ``dc``; nothing flows back to the array.

    While ``selector`` stands on charging. Ratings read: current, dc_voltage, pv_voltage, common.
    ``steps`` False: it joins array and battery.
    """
    when: When = ((selector, frozenset({"charging"})),)
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
        when=when,
        own=False,
    )
    convert = Convert("controller", "controller", draw.name, efficiency, steps=steps)
    elements: list[Element] = [charging_source("controller", amps, dc_v, when), draw, convert]
    pole = {"minus": Pole.NEG, "plus": Pole.POS}.get(values.pick("common"))
    if pole is not None:
        elements.append(Join(("pv", pole), ("dc", pole)))
    return elements


def sun_selector(name: str) -> Selector:
    """It charges whenever the array is live."""
    rule = (Follow("charging", live=(("pv", Pole.POS),)), Follow("off"))
    return Selector(name, ("charging", "off"), "off", "follows", rule)
