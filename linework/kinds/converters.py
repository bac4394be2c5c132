"""What kinds that turn one kind of current into another share: an inverter, a charger."""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    CIRCUIT,
    ELECTRONIC_SURGE,
    POLES,
    contact_ohm,
    live_poles,
    poles_of,
    switched,
    values_hertz,
)
from linework.kinds.loads import ends
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Limit,
    Pole,
    Source,
    SourceGroup,
    Three,
    When,
)
from linework.words import N_

AC_CIRCUIT = replace(CIRCUIT, choices=CIRCUIT.choices[:2])
"""What an inverter makes: always with a neutral."""

CONTINUOUS_POWER = Rating(
    "power",
    N_("Continuous rating"),
    "apparent_power",
    low=50.0,
    high=1e5,
    needed=True,
    usual=(50.0, 50e3),
    factor="rated_factor",
    help=N_("On its plate: continuous, not peak."),
)
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
    help=N_("In its manual, under grounding; else ask its maker."),
)

BATTERY_VOLTAGE = Rating(
    "dc_voltage",
    N_("Battery voltage"),
    "voltage",
    "12 V",
    low=6.0,
    high=800.0,
    help=N_("On its plate: DC input or output voltage."),
)

CHARGE_SHARE = 1.125
"""Voltage at the end of charging over the nominal one: 13.5 V on 12 V (common practice)."""

STAND_IN_A = 10.0
"""Stands in for a current that is not given, only so that the drawing holds together."""

CHARGER_LIMIT = Three(1.0, 1.0, 1.3)
"""What a charger holds into a fault over its rating, for good (from memory)."""


def inverter_elements(values: Values, when: When) -> list[Element]:
    """The bridge that makes alternating current at ``ac_out`` from the terminal ``dc``.

    A leg for each hot conductor; two legs share the rating. Ratings read: circuit, power, surge,
    voltage, dc_voltage, efficiency, idle.
    """
    lines = live_poles(poles_of(values))
    amps = values.num("power") / (values.num("voltage") * len(lines))
    # The bridge is joined to the output only while it inverts, so that otherwise neither it nor
    # its filter is part of the circuit.
    contacts = switched("bridge", "ac_out", (*lines, Pole.N), contact_ohm(amps), when, "bridge ")
    sources = bridge_sources(values, lines, amps, when)
    draw = battery_side(values.num("dc_voltage"), when)
    efficiency, idle = values.num("efficiency"), values.num("idle")
    converts = [
        Convert(source.name, source.name, draw.name, efficiency, 0.0 if number else idle)
        for number, source in enumerate(sources)
    ]
    return [*sources, *contacts, draw, *converts]


def bridge_sources(
    values: Values, lines: tuple[Pole, ...], amps: float, when: When
) -> list[Source]:
    """The voltage of each leg behind the bridge, with ``amps`` ampere as its rating."""
    names = ("inverter",) if len(lines) == 1 else tuple(f"inverter {pole}" for pole in lines)
    volts = values.num("voltage")
    # Twice its rated current for 20 ms, then 1.5 times for 5 s at most (from memory).
    limit = Limit(Three(1.0, 1.5, 2.0).scaled(amps), 0.02, 5.0, Three(1.5, 2.0, 3.0).scaled(amps))
    surge_va = values.opt("surge") or ELECTRONIC_SURGE * values.num("power")
    z = volts / amps
    return [
        Source(
            name,
            ("bridge", pole),
            ("bridge", Pole.N),
            volts,
            values_hertz(values),
            Three.exactly(0.01 * z),
            Three.exactly(0.02 * z),
            phase_deg=180.0 * number,
            rated_a=amps,
            limit=limit,
            group=SourceGroup.INVERTER,
            when=when,
            surge_a=surge_va / (volts * len(lines)),
        )
        for number, (name, pole) in enumerate(zip(names, lines, strict=True))
    ]


def battery_side(dc_v: float, when: When, terminal: str = "dc") -> Draw:
    """What a converter takes from a battery of ``dc_v`` volt, as much as it gives and loses."""
    return Draw(
        "battery side",
        (terminal, Pole.POS),
        (terminal, Pole.NEG),
        0.0,
        1.0,
        dc_v,
        (0.8 * dc_v, 1.35 * dc_v),
        "power",
        0.0,
        when=when,
        own=False,
    )


def charging_source(
    name: str,
    amps: float,
    dc_v: float,
    when: When,
    terminal: str = "dc",
    share: float = CHARGE_SHARE,
) -> Source:
    """What charges a battery of ``dc_v`` volt at a terminal with ``amps`` ampere, up to ``share``
    of that voltage."""
    charge_v = share * dc_v
    held = CHARGER_LIMIT.scaled(amps)
    return Source(
        name,
        (terminal, Pole.POS),
        (terminal, Pole.NEG),
        charge_v,
        0.0,
        Three.exactly(0.02 * charge_v / max(amps, 0.1)),
        Three.exactly(0.0),
        rated_a=amps,
        limit=Limit(held, 0.0, None, held),
        group=SourceGroup.CHARGER,
        when=when,
    )


def charger_elements(
    values: Values,
    amps: float,
    when: When,
    power_factor: float = 0.95,
    beside: tuple[str, ...] = (),
) -> list[Element]:
    """What charges at ``dc`` from the terminal ``ac_in``.

    From both legs where it has two. Ratings read: circuit where it has one, voltage, dc_voltage,
    efficiency, and input_limit where ``beside`` names the contacts that pass its input on. The
    power factor is from memory.
    """
    one, other = ends(poles_of(values) if "circuit" in values.declared else POLES["ac"])
    volts = values.num("voltage") * (1.0 if other is Pole.N else 2.0)
    draw = Draw(
        "charger input",
        ("ac_in", one),
        ("ac_in", other),
        0.0,
        power_factor,
        volts,
        (0.85 * volts, 1.1 * volts),
        "power",
        values_hertz(values),
        when=when,
        own=False,
    )
    source = charging_source("charger", amps, values.num("dc_voltage"), when)
    limit_a = values.opt("input_limit") if beside else None
    efficiency = values.num("efficiency")
    convert = Convert(
        "charger", "charger", "charger input", efficiency, limit_a=limit_a, beside=beside
    )
    return [source, draw, convert]
