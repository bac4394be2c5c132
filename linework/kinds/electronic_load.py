"""Electronic load: keeps its power whatever the voltage; its filter leaks to the ground wire."""

from __future__ import annotations

from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE, poles_of
from linework.kinds.habit import LOAD_HABIT
from linework.kinds.kind import Kind
from linework.kinds.loads import (
    CASE,
    CHECKS_BOND,
    CONTINUOUS,
    CRITICAL,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    POWER,
    ends,
    load_inside,
    terminals,
)
from linework.kinds.ratings import FROM_MEMORY, Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Leak, Pole
from linework.words import N_

RATINGS = (
    CIRCUIT,
    POWER,
    WIDEST_VOLTAGE,
    Rating(
        "power_factor",
        N_("Power factor"),
        "ratio",
        "0.95",
        FROM_MEMORY,
        low=0.05,
        high=1.0,
        ac_only=True,
        help=N_("On its plate as PF; cheap supplies have 0.6."),
    ),
    Rating(
        "filter",
        N_("Filter capacitance, each conductor to {ground}"),
        "capacitance",
        "4.7 nF",
        FROM_MEMORY,
        low=0.0,
        high=1e-6,
        help=N_(
            "The capacitors of its filter to the {ground_wire}. 4.7 nF let 0.2 mA through at"
            " 120 V and 60 Hz."
        ),
        ac_only=True,
    ),
    CASE,
    CONTINUOUS,
    LEAST_VOLTAGE,
    MOST_VOLTAGE,
    CRITICAL,
    CHECKS_BOND,
    *LOAD_HABIT,
)


def inside(values: Values) -> Inside:
    """A draw of constant power; with a metal case, capacitors from both its ends to the case."""
    drawn = load_inside(values, model="power")
    poles = poles_of(values)
    if Pole.PE not in poles or values.pick("case") != "metal" or not values.num("filter"):
        return drawn
    farad = values.num("filter")
    leaks = tuple(Leak(("in", pole), ("in", Pole.PE), farad=farad) for pole in ends(poles))
    return Inside((*drawn.elements, *leaks))


KIND = Kind(
    key="electronic_load",
    name=N_("electronic load"),
    letters="EE",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "electronic_load",
    captions=("power",),
    columns=("power", "voltage", "power_factor", "filter", "continuous", "case", "checks_bond"),
    search=N_(
        "electronic load switch-mode power supply computer laptop television TV charger LED driver"
        " filter"
    ),
    fixed=True,
    consumes=True,
    habit=lambda values: "laptop",
)
