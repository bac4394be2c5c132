"""Hybrid inverter: an inverter-charger with a solar input in the same case."""

from __future__ import annotations

from linework.kinds import inverter_charger
from linework.kinds.common import POLES
from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import FROM_MEMORY, Rating
from linework.kinds.solar_input import (
    FINDS_GROUND_FAULT,
    PV_CURRENT,
    PV_VOLTAGE,
    common,
    sun_elements,
    sun_selector,
)
from linework.kinds.values import Values
from linework.wiring import Inside, SourceGroup, Terminal
from linework.words import N_

RATINGS = (
    *inverter_charger.RATINGS,
    Rating(
        "current",
        N_("Charging current from the sun"),
        "current",
        low=0.1,
        high=1000.0,
        needed=True,
        help=N_("In its data sheet: largest charging current of the solar input."),
    ),
    PV_VOLTAGE,
    PV_CURRENT,
    common("none"),
    FINDS_GROUND_FAULT,
    Rating(
        "pv_efficiency",
        N_("Efficiency of the solar input"),
        "ratio",
        "96 %",
        FROM_MEMORY,
        low=0.3,
        high=1.0,
        quiet=True,
        help=N_("In its data sheet: of the solar input to the battery."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """As of an inverter-charger, and the array."""
    return (*inverter_charger.terminals(values), Terminal("pv", POLES["dc"], "in"))


def inside(values: Values) -> Inside:
    """Both halves on one battery: the sun charges whatever the relay does."""
    inner = inverter_charger.inside(values)
    if not values.has("power"):
        return inner
    sun = sun_elements(values, "sun", values.num("pv_efficiency"), steps=True)
    return Inside((*inner.elements, *sun), (*inner.selectors, sun_selector("sun")))


KIND = Kind(
    key="hybrid_inverter",
    name=N_("hybrid inverter"),
    letters="TB",
    changes_over=True,
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "hybrid_inverter",
    captions=("power", "pv_voltage", "neutral"),
    columns=(*inverter_charger.KIND.columns, "current", "pv_voltage", "pv_current"),
    search=N_("hybrid inverter solar all in one off-grid combination"),
    source=SourceGroup.INVERTER,
    carries=(Carries("transfer", "ac_in"),),
    fixed=True,
)
