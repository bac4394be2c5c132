"""Inverter-charger: passes its input through while that is live, else makes AC from the battery."""

from __future__ import annotations

from linework.kinds.common import (
    FROM_MEMORY,
    POLES,
    VOLTAGE,
    bond_link,
    contact_ohm,
    switched,
    values_hertz,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, OneOf, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Draw,
    Element,
    Follow,
    Inside,
    Join,
    Limit,
    Metal,
    Passing,
    Pole,
    Selector,
    Source,
    Terminal,
    Three,
    When,
)
from linework.words import N_

PASSING: When = (("relay", frozenset({"passing"})),)
INVERTING: When = (("relay", frozenset({"inverting"})),)

RATINGS = (
    Rating("power", N_("Continuous rating"), "apparent_power", low=50.0, high=1e5, needed=True),
    VOLTAGE,
    Rating("dc_voltage", N_("Battery voltage"), "voltage", "12 V", low=6.0, high=800.0),
    Rating("charge", N_("Charging current"), "current", "50 A", low=0.0, high=1000.0),
    Rating("transfer", N_("Relay rating"), "current", "30 A", low=1.0),
    Rating(
        "neutral",
        N_("Neutral while it inverts"),
        "choice",
        OneOf(("relay", "floating")),
        N_("not known until looked up: both are judged"),
        choices=(
            Choice("relay", N_("joined by its relay, opened on input")),
            Choice("floating", N_("floating")),
            Choice("bonded", N_("joined for good")),
        ),
        help=N_("The manual says whether a relay joins neutral and case while it inverts."),
    ),
    Rating(
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
    ),
    Rating(
        "neutral_through",
        N_("Neutral between input and output"),
        "choice",
        "switched",
        choices=(
            Choice("switched", N_("opened with the {hot} while it inverts")),
            Choice("common", N_("joined through for good")),
        ),
    ),
    Rating("efficiency", N_("Efficiency"), "ratio", "90 %", FROM_MEMORY, low=0.3, high=1.0),
    Rating("idle", N_("No-load power"), "power", "15 W", FROM_MEMORY, low=0.0),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """AC in, AC out, battery, case."""
    ac = POLES["ac"]
    return (
        Terminal("ac_in", ac, "in"),
        Terminal("ac_out", ac, "out"),
        Terminal("dc", POLES["dc"], "both"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def _relays(values: Values) -> list[Element]:
    ohm = contact_ohm(values.num("transfer"))
    moved: tuple[Pole, ...] = (Pole.L, Pole.N)
    elements: list[Element] = []
    if values.pick("neutral_through") == "common":
        moved = (Pole.L,)
        elements.append(Join(("ac_in", Pole.N), ("ac_out", Pole.N)))
    elements += switched("ac_in", "ac_out", moved, ohm, PASSING)
    for terminal in ("ac_out", "case"):
        elements.append(Join(("ac_in", Pole.PE), (terminal, Pole.PE)))
    bond = values.pick("neutral")
    if bond != "floating":
        when = INVERTING if bond == "relay" else ()
        elements.append(bond_link(("ac_out", Pole.N), ("case", Pole.PE), when))
    return elements


def _inverter(values: Values) -> list[Element]:
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
        when=INVERTING,
    )
    ohm = contact_ohm(amps)
    # The bridge is joined to the output only while it inverts, so that on input neither it nor
    # its filter is part of the circuit.
    contacts = switched("bridge", "ac_out", (Pole.L, Pole.N), ohm, INVERTING, "bridge ")
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
        when=INVERTING,
    )
    convert = Convert(
        "inverter", "inverter", "battery side", values.num("efficiency"), values.num("idle")
    )
    return [source, *contacts, draw, convert]


def _charger(values: Values) -> list[Element]:
    volts, amps, dc_v = values.num("voltage"), values.num("charge"), values.num("dc_voltage")
    charge_v = 1.125 * dc_v
    source = Source(
        "charger",
        ("dc", Pole.POS),
        ("dc", Pole.NEG),
        charge_v,
        0.0,
        Three.exactly(0.02 * charge_v / max(amps, 0.1)),
        Three.exactly(0.0),
        rated_a=amps,
        limit=Limit(
            Three(1.0, 1.0, 1.3).scaled(amps), 0.0, None, Three(1.0, 1.0, 1.3).scaled(amps)
        ),
        group="charger",
        when=PASSING,
    )
    draw = Draw(
        "charger input",
        ("ac_in", Pole.L),
        ("ac_in", Pole.N),
        0.0,
        0.95,
        volts,
        (0.85 * volts, 1.1 * volts),
        "power",
        values_hertz(values),
        when=PASSING,
    )
    return [source, draw, Convert("charger", "charger", "charger input", values.num("efficiency"))]


def inside(values: Values) -> Inside:
    """Relay, inverter, charger, bond relay, case."""
    elements: list[Element] = [*_relays(values), Metal("case", ("case", Pole.PE))]
    if values.has("power"):
        elements += _inverter(values) + _charger(values)
    on = (("mode", "on"),)
    relay = Selector(
        "relay",
        ("passing", "inverting", "off"),
        "off",
        "follows",
        (
            Follow("passing", live=(("ac_in", Pole.L),), stands=on),
            Follow("inverting", live=(("dc", Pole.POS),), stands=on),
            Follow("off"),
        ),
        (Passing("inverting", "passing", "changing over", 0.02),),
    )
    mode = Selector("mode", ("on", "off"), "on", "hand")
    return Inside(tuple(elements), (mode, relay))


KIND = Kind(
    key="inverter_charger",
    name=N_("inverter-charger"),
    letters="TB",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "inverter_charger",
    captions=("power", "neutral"),
    columns=("power", "voltage", "dc_voltage", "charge", "neutral", "neutral_through"),
    search=N_("inverter charger combination pass-through converter"),
)
