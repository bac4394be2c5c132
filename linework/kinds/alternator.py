"""Alternator on an engine: charges a battery while the engine runs."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import POLES
from linework.kinds.converters import BATTERY_VOLTAGE, STAND_IN_A, charging_source
from linework.kinds.habit import ENGINE_HABIT
from linework.kinds.kind import Kind
from linework.kinds.ratings import Rating
from linework.kinds.values import Values
from linework.wiring import Inside, Selector, SourceGroup, Terminal, When
from linework.words import N_

RUNNING: When = (("engine", frozenset({"running"})),)

RATINGS = (
    Rating(
        "current",
        N_("Output current"),
        "current",
        low=1.0,
        high=1000.0,
        needed=True,
        help=N_("On its plate or label, in A; where it has two, the larger one, for cold."),
    ),
    replace(
        BATTERY_VOLTAGE,
        label=N_("Voltage of its battery"),
        help=N_("12 V where its plate says 13 or 14 V, 24 V where it says 27 or 28 V."),
    ),
    *ENGINE_HABIT,
)


_MARKED = ((13.0, 15.0, 12.0), (26.0, 30.0, 24.0), (52.0, 60.0, 48.0))
"""What plates say for the voltage at which it charges, and the system for which it is."""


def system_v(values: Values) -> float:
    """Nominal voltage of its system: 12 V also where its plate's 14 V was written."""
    volts = values.num("dc_voltage")
    return next((nominal for low, high, nominal in _MARKED if low <= volts <= high), volts)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Plus and minus; of most alternators the case is the minus."""
    return (Terminal("dc", POLES["dc"], "out"),)


def inside(values: Values) -> Inside:
    """A source of limited current while the engine runs; stopped, its diodes let nothing back."""
    amps = values.opt("current") or STAND_IN_A
    given = charging_source("alternator", amps, system_v(values), RUNNING)
    source = replace(given, group=SourceGroup.ALTERNATOR)
    engine = Selector("engine", ("stopped", "running"), "stopped", "source")
    return Inside((source,), (engine,))


KIND = Kind(
    key="alternator",
    name=N_("alternator"),
    letters="G",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "alternator",
    captions=("current",),
    columns=("current", "dc_voltage"),
    search=N_("alternator engine charging vehicle dynamo"),
    source=SourceGroup.ALTERNATOR,
)
