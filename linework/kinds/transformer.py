"""Transformer with separate windings: changes the voltage, or keeps two grounds apart."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    POLES,
    SOURCE_CIRCUIT,
    VOLTAGE,
    about,
    bond_link,
    breaker_in,
    contact_ohm,
    live_poles,
    poles_of,
    straight,
    switched,
)
from linework.kinds.kind import Kind
from linework.kinds.ratings import Choice, OneOf, Origin, Rating
from linework.kinds.values import Values
from linework.kinds.windings import (
    BACKWARD,
    FORWARD,
    IMPEDANCE,
    POWER,
    X_OVER_R,
    driven,
    legs,
)
from linework.quantity import read
from linework.wiring import (
    Element,
    Follow,
    Inside,
    Join,
    Leak,
    Metal,
    Point,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
)
from linework.words import N_

_MIDDLE: Point = ("winding", Pole.N)
"""Neutral of the secondary, or the middle of a winding without one."""
_SHIELD_FARAD = 1e-9
"""Capacitance from a winding to the shield (from memory)."""


def _secondary_voltage(values: Values) -> str | None:
    """That of the design: twice where it is told from hot to hot."""
    volts = values.setting.get("voltage")
    if volts is None or values.pick("secondary") != "ac240":
        return volts
    return about(2.0 * read(volts, "voltage"), "voltage")


RATINGS = (
    replace(
        SOURCE_CIRCUIT,
        label=N_("What comes in"),
        choices=(SOURCE_CIRCUIT.choices[0], SOURCE_CIRCUIT.choices[2]),
        help=N_("On its plate or in its diagram: the wires and voltage of the primary."),
    ),
    replace(VOLTAGE, label=N_("Voltage of the primary")),
    Rating(
        "secondary",
        N_("What goes out"),
        "choice",
        "ac",
        choices=SOURCE_CIRCUIT.choices,
        quiet=True,
        help=N_("On its plate or in its diagram: 120/240 V is two {hots} and {neutral}."),
    ),
    Rating(
        "secondary_voltage",
        N_("Voltage of the secondary"),
        "voltage",
        source=Origin(N_("the voltage of this design"), Confidence.PRACTICE),
        low=1.0,
        high=1000.0,
        quiet=True,
        help=N_("From {hot} to {neutral}; where there is no {neutral}, from {hot} to {hot}."),
        derive=_secondary_voltage,
    ),
    POWER,
    IMPEDANCE,
    X_OVER_R,
    Rating(
        "neutral",
        N_("Neutral of the secondary"),
        "choice",
        OneOf(("bonded", "floating")),
        Origin(N_("not known until looked up: both are judged"), Confidence.DEFINED),
        choices=(
            Choice("bonded", N_("joined to its case")),
            Choice("floating", N_("floating")),
        ),
        help=N_(
            "With all cords out, an ohmmeter from the {neutral} of the secondary to the case. Near"
            " zero: joined. Open: floating. Without {a_neutral}: of the middle of the winding."
        ),
    ),
    Rating(
        "ground",
        N_("Where the {ground_wire} of the primary ends"),
        "choice",
        "case",
        choices=(
            Choice("case", N_("joined to its case, and on to the secondary")),
            Choice("shield", N_("ends at the shield between the windings")),
        ),
        help=N_(
            "An isolation transformer of a boat keeps the ground of the shore apart: it ends at"
            " the shield, and the case belongs to the boat."
        ),
        quiet=True,
    ),
    Rating(
        "breaker",
        N_("Breaker on its secondary"),
        "current",
        low=0.5,
        quiet=True,
        help=N_("On its handle, where one is built in; draw any other as a part."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Primary, secondary, case."""
    return (
        Terminal("primary", poles_of(values), "in"),
        Terminal("secondary", _out(values), "out"),
        Terminal("case", (Pole.PE,), "tie"),
    )


def _out(values: Values) -> tuple[Pole, ...]:
    return POLES[values.pick("secondary")]


def inside(values: Values) -> Inside:
    """Windings on one core, the case, the shield, the link of the secondary."""
    case: Point = ("case", Pole.PE)
    elements: list[Element] = [*_output(values), Join(("secondary", Pole.PE), case)]
    if values.pick("ground") == "case":
        elements += [Join(("primary", Pole.PE), case), Metal("case", case)]
    else:
        hot = ("primary", live_poles(poles_of(values))[0])
        elements.append(Leak(hot, ("primary", Pole.PE), farad=_SHIELD_FARAD))
        elements.append(Metal("case", case, beside=("secondary",)))
        # what a fault of the primary meets: with its wire gone it stands at the full voltage
        elements.append(Metal("shield", ("primary", Pole.PE), beside=("primary",)))
    if values.pick("neutral") == "bonded":
        elements.append(bond_link(_MIDDLE, case))
    if values.has("power"):
        elements += _windings(values)
    core = Selector(
        "core",
        ("forward", "backward", "off"),
        "off",
        "follows",
        (
            Follow("forward", live=(_first(values, "primary"),)),
            Follow("backward", live=(_first(values, "secondary"),)),
            Follow("off"),
        ),
    )
    return Inside(tuple(elements), (core,))


def _first(values: Values, terminal: str) -> Point:
    poles = poles_of(values) if terminal == "primary" else _out(values)
    return (terminal, live_poles(poles)[0])


def _windings(values: Values) -> list[Element]:
    """Forward from the primary; backward from the secondary, where something feeds that."""
    primary, secondary = poles_of(values), _out(values)
    volts, out_v = values.num("voltage"), values.num("secondary_voltage")
    one, other = _ends("primary", primary), _ends("winding", secondary)
    whole_v = out_v * (2.0 if secondary is POLES["split"] else 1.0)
    leg_v = out_v / (2.0 if secondary is POLES["ac240"] else 1.0)
    back_v = volts / (2.0 if primary is POLES["ac240"] else 1.0)
    return [
        *driven(
            values,
            legs("winding", "winding", (*secondary, Pole.N), leg_v, "winding"),
            one,
            volts,
            FORWARD,
            "primary",
        ),
        *driven(
            values,
            legs("back winding", "primary", primary, back_v, "back"),
            other,
            whole_v,
            BACKWARD,
            "secondary",
        ),
    ]


def _ends(terminal: str, poles: tuple[Pole, ...]) -> tuple[Point, Point]:
    lines = live_poles(poles)
    return (terminal, lines[0]), (terminal, lines[1] if len(lines) > 1 else Pole.N)


def _output(values: Values) -> list[Element]:
    """From the winding to the secondary, through its breaker where it has one."""
    poles = _out(values)
    lines = live_poles(poles)
    rest = tuple(p for p in poles if p is Pole.N)
    if not values.has("breaker"):
        return [*straight("winding", "secondary", (*lines, *rest))]
    amps = values.num("breaker")
    contacts = switched("winding", "secondary", lines, contact_ohm(amps), ())
    volts = values.num("secondary_voltage") * (len(lines) if rest else 1)
    return [
        *straight("winding", "secondary", rest),
        *contacts,
        breaker_in("breaker", contacts, amps, volts),
    ]


def _sides(values: Values) -> tuple[str, ...]:
    return ("primary", "secondary") if values.pick("ground") == "shield" else ()


KIND = Kind(
    key="transformer",
    name=N_("transformer"),
    letters="TA",
    strip="conversion",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "transformer",
    captions=("power", "neutral"),
    columns=(
        "power",
        "voltage",
        "secondary",
        "secondary_voltage",
        "impedance",
        "neutral",
        "ground",
        "breaker",
    ),
    search=N_("transformer isolation separation shore step up step down 240 120 winding"),
    source=SourceGroup.WINDING,
    fixed=True,
    keeps_apart=_sides,
)
