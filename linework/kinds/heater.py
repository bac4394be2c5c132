"""Heater: a resistance, with or without a thermostat that opens it."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE, contact_ohm, poles_of, switched
from linework.kinds.habit import LOAD_HABIT
from linework.kinds.kind import Kind
from linework.kinds.loads import (
    CASE,
    CONTINUOUS,
    DWELLING_USE,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    POWER,
    ends,
    load_inside,
    terminals,
)
from linework.kinds.ratings import Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Element, Inside, Join, Pole, Selector, When
from linework.words import N_

CLOSED: When = (("thermostat", frozenset({"closed"})),)
_THERMOSTAT_A = 15.0
"""A usual rating of its contacts (from memory); it only sets their small resistance."""

RATINGS = (
    CIRCUIT,
    replace(POWER, usual=(5.0, 50e3)),
    WIDEST_VOLTAGE,
    Rating(
        "thermostat",
        N_("Thermostat"),
        "choice",
        "none",
        choices=(
            Choice("none", N_("none")),
            Choice("one", N_("opens one conductor")),
            Choice("all", N_("opens both conductors")),
        ),
        help=N_("One that opens only one conductor leaves the element live: it is no switch."),
        quiet=True,
    ),
    CASE,
    replace(
        CONTINUOUS,
        default="yes",
        source=Origin(
            N_("NFPA 70 (2023) 424.4(B): fixed space heating is a continuous load"),
            Confidence.PUBLISHED,
        ),
    ),
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    DWELLING_USE,
    *LOAD_HABIT,
)


def inside(values: Values) -> Inside:
    """A resistance behind the contacts of its thermostat."""
    if values.pick("thermostat") == "none":
        return load_inside(values)
    poles = poles_of(values)
    a, b = ends(poles)
    opened: tuple[Pole, ...] = (a,) if values.pick("thermostat") == "one" else (a, b)
    elements: list[Element] = [
        *switched("in", "element", opened, contact_ohm(_THERMOSTAT_A), CLOSED),
        *(Join(("in", p), ("element", p)) for p in (a, b) if p not in opened),
        *load_inside(values, at="element").elements,
    ]
    closed = Selector("thermostat", ("closed", "open"), "closed", "protection")
    return Inside(tuple(elements), (closed,))


KIND = Kind(
    key="heater",
    name=N_("heater"),
    letters="EH",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "heater",
    captions=("power",),
    columns=("power", "voltage", "thermostat", "continuous", "case"),
    search=N_("heater heating element water heater oven resistance kettle toaster coffee maker"),
    fixed=True,
    consumes=True,
    appliance=True,
    habit=lambda values: "portable-heater",
)
