"""What kinds that turn one kind of current into another share: an inverter, a charger."""

from __future__ import annotations

from linework.kinds.common import contact_ohm, switched, values_hertz
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Limit,
    Point,
    Pole,
    Source,
    Three,
    When,
)
from linework.words import N_

BOND_ALLOWED = Rating(
    "bond_allowed",
    N_("May a link outside join its neutral?"),
    "choice",
    "unknown",
    choices=(
        Choice("yes", N_("yes, the maker says so")),
        Choice("no", N_("no")),
        Choice("unknown", N_("not known: ask the maker")),
    ),
    quiet=True,
)

BATTERY_VOLTAGE = Rating(
    "dc_voltage", N_("Battery voltage"), "voltage", "12 V", low=6.0, high=800.0
)

CHARGE_SHARE = 1.125
"""Voltage at the end of charging over the nominal one: 13.5 V on 12 V (common practice)."""

STAND_IN_A = 10.0
"""Stands in for a current that is not given, only so that the drawing holds together."""

CHARGER_LIMIT = Three(1.0, 1.0, 1.3)
"""What a charger holds into a fault over its rating, for good (from memory)."""


def inverter_elements(values: Values, when: When) -> list[Element]:
    """The bridge that makes alternating current at ``ac_out`` from the terminal ``dc``.

    Ratings read: power, voltage, dc_voltage, efficiency, idle.
    """
    volts = values.num("voltage")
    amps = values.num("power") / volts
    # Twice its rated current for 20 ms, then 1.5 times for 5 s at most (from memory).
    limit = Limit(Three(1.0, 1.5, 2.0).scaled(amps), 0.02, 5.0, Three(1.5, 2.0, 3.0).scaled(amps))
    z = volts / amps
    source = Source(
        "inverter",
        ("bridge", Pole.L),
        ("bridge", Pole.N),
        volts,
        values_hertz(values),
        Three.exactly(0.01 * z),
        Three.exactly(0.02 * z),
        rated_a=amps,
        limit=limit,
        group="inverter",
        when=when,
    )
    ohm = contact_ohm(amps)
    # The bridge is joined to the output only while it inverts, so that otherwise neither it nor
    # its filter is part of the circuit.
    contacts = switched("bridge", "ac_out", (Pole.L, Pole.N), ohm, when, "bridge ")
    dc_v = values.num("dc_voltage")
    draw = Draw(
        "battery side",
        ("dc", Pole.POS),
        ("dc", Pole.NEG),
        0.0,
        1.0,
        dc_v,
        (0.8 * dc_v, 1.35 * dc_v),
        "power",
        0.0,
        when=when,
    )
    convert = Convert(
        "inverter", "inverter", "battery side", values.num("efficiency"), values.num("idle")
    )
    return [source, *contacts, draw, convert]


def charging_source(name: str, amps: float, dc_v: float, when: When) -> Source:
    """What charges a battery of ``dc_v`` volt at the terminal ``dc`` with ``amps`` ampere."""
    charge_v = CHARGE_SHARE * dc_v
    held = CHARGER_LIMIT.scaled(amps)
    return Source(
        name,
        ("dc", Pole.POS),
        ("dc", Pole.NEG),
        charge_v,
        0.0,
        Three.exactly(0.02 * charge_v / max(amps, 0.1)),
        Three.exactly(0.0),
        rated_a=amps,
        limit=Limit(held, 0.0, None, held),
        group="charger",
        when=when,
    )


def charger_elements(
    values: Values, amps: float, when: When, power_factor: float = 0.95
) -> list[Element]:
    """What charges at ``dc`` from the terminal ``ac_in``.

    Ratings read: voltage, dc_voltage, efficiency. The power factor is from memory.
    """
    volts = values.num("voltage")
    line: Point = ("ac_in", Pole.L)
    draw = Draw(
        "charger input",
        line,
        ("ac_in", Pole.N),
        0.0,
        power_factor,
        volts,
        (0.85 * volts, 1.1 * volts),
        "power",
        values_hertz(values),
        when=when,
    )
    source = charging_source("charger", amps, values.num("dc_voltage"), when)
    return [source, draw, Convert("charger", "charger", "charger input", values.num("efficiency"))]
