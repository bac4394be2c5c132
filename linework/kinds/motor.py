"""Motor: runs at its power, starts at its locked-rotor current; also the starter of an engine."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import CIRCUIT, WIDEST_VOLTAGE, about
from linework.kinds.kind import Kind
from linework.kinds.loads import (
    CASE,
    CONTINUOUS,
    CRITICAL,
    LARGEST_DEVICE,
    LEAST_AMPACITY,
    LEAST_VOLTAGE,
    POWER,
    load_inside,
    terminals,
)
from linework.kinds.ratings import FROM_MEMORY, Choice, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import Inside
from linework.words import N_


def running_a(values: Values) -> float:
    """Running current in ampere; 0 while no power is given."""
    factor = 1.0 if values.pick("circuit") == "dc" else values.num("power_factor")
    return (values.opt("power") or 0.0) / (values.num("voltage") * factor)


def _usual_start(values: Values) -> str | None:
    times = 1.0 if values.pick("duty") == "starter" else 6.0
    return about(times * running_a(values), "current") if values.has("power") else None


RATINGS = (
    CIRCUIT,
    replace(POWER, usual=(1.0, 50e3)),
    WIDEST_VOLTAGE,
    Rating("power_factor", N_("Power factor"), "ratio", "0.8", low=0.05, high=1.0, ac_only=True),
    Rating(
        "start_current",
        N_("Locked-rotor current"),
        "current",
        source=Origin(
            N_("six times the running current, a starter's own: common practice, no source"),
            Confidence.PRACTICE,
        ),
        low=0.0,
        help=N_("From the nameplate (LRA)."),
        derive=_usual_start,
    ),
    Rating(
        "start_power_factor",
        N_("Power factor while it starts"),
        "ratio",
        "0.35",
        FROM_MEMORY,
        low=0.05,
        high=1.0,
        ac_only=True,
        quiet=True,
    ),
    Rating(
        "duty",
        N_("Kind of motor"),
        "choice",
        "motor",
        choices=(
            Choice("motor", N_("motor")),
            Choice("hermetic", N_("air conditioner or refrigerator with a sealed compressor")),
            Choice("brief", N_("windlass, winch or thruster: runs for minutes")),
            Choice("starter", N_("starter of an engine: runs for seconds")),
        ),
        quiet=True,
    ),
    LARGEST_DEVICE,
    LEAST_AMPACITY,
    CASE,
    CONTINUOUS,
    LEAST_VOLTAGE,
    CRITICAL,
)


def inside(values: Values) -> Inside:
    """A draw with a starting current; a starter takes nothing but that, for seconds."""
    dc, duty = values.pick("circuit") == "dc", values.pick("duty")
    guessed = dc and duty != "starter" and not values.given("start_current")
    return load_inside(
        values,
        None if guessed else values.opt("start_current"),
        1.0 if dc else values.num("start_power_factor"),
        lasts={"brief": "minutes", "starter": "seconds"}.get(duty, "hours"),
    )


KIND = Kind(
    key="motor",
    name=N_("motor"),
    letters="MA",
    strip="loads",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "motor_dc" if values.pick("circuit") == "dc" else "motor",
    captions=("power",),
    columns=("power", "voltage", "power_factor", "start_current", "largest_device"),
    search=N_("motor pump fan compressor air conditioner windlass winch thruster starter"),
    fixed=True,
    consumes=True,
    turns=True,
)
