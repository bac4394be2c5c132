"""Lamp, for alternating or direct current."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE
from linework.kinds.habit import LOAD_HABIT
from linework.kinds.kind import Kind
from linework.kinds.loads import (
    CASE,
    CONTINUOUS,
    CRITICAL,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    POWER,
    load_inside,
    terminals,
)
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import Inside
from linework.words import N_

RATINGS = (
    CIRCUIT,
    replace(POWER, usual=(0.5, 2e3)),
    WIDEST_VOLTAGE,
    Rating(
        "type",
        N_("Type"),
        "choice",
        "led",
        choices=(Choice("led", N_("LED or other electronic")), Choice("filament", N_("filament"))),
        quiet=True,
    ),
    CASE,
    CONTINUOUS,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    CRITICAL,
    *LOAD_HABIT,
)


def inside(values: Values) -> Inside:
    """A draw; a filament's resistance rises with its voltage."""
    return load_inside(values, model="lamp" if values.pick("type") == "filament" else "impedance")


KIND = Kind(
    key="lamp",
    name=N_("lamp"),
    letters="EL",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "lamp",
    captions=("power",),
    columns=("power", "voltage", "type", "case"),
    search=N_("lamp light lighting luminaire"),
    fixed=True,
    consumes=True,
    lights=True,
    habit=lambda values: "lamp",
)
