"""Portable power station: a box with cells, an inverter, chargers, and outlets in its front.

Its cells are sealed in: no wire of the drawing ends at them, and how long they last is left out.
"""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    TRANSFER_TIME,
    VOLTAGE,
    bond_link,
    contact_ohm,
    live_poles,
    own_places,
    poles_of,
    switched,
)
from linework.kinds.converters import AC_CIRCUIT, BOND_ALLOWED, CONTINUOUS_POWER, bridge_sources
from linework.kinds.kind import Kind
from linework.kinds.outlet import face_place, mouth
from linework.kinds.ratings import Choice, OneOf, Origin, Rating
from linework.kinds.station_parts import (
    CHARGING_RATINGS,
    LOW_VOLTAGE_RATINGS,
    SOCKET,
    chargers,
    charging,
    low_voltage,
    pack,
    through,
)
from linework.kinds.values import Values
from linework.wiring import (
    Convert,
    Element,
    Follow,
    Inside,
    Join,
    Leak,
    Passing,
    Place,
    Point,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
    When,
)
from linework.words import N_

PASSING: When = (("relay", frozenset({"passing"})),)
INVERTING: When = (("relay", frozenset({"inverting"})),)
_STRAY_FARAD = 1e-9
"""From its conductors on either side to the ground contacts of its outlets (from memory)."""
_EFFICIENCY = 0.88
"""Of its inverter (from memory); it only tells what its cells give."""

RATINGS = (
    AC_CIRCUIT,
    replace(
        CONTINUOUS_POWER,
        usual=(50.0, 10e3),
        help=N_("On its plate: rated output of its alternating current, not the peak."),
    ),
    RATED_FACTOR,
    SURGE,
    SURGE_TIME,
    TRANSFER_TIME,
    VOLTAGE,
    Rating(
        "neutral",
        N_("Neutral"),
        "choice",
        OneOf(("floating", "bonded")),
        Origin(N_("not known until looked up: both are judged"), Confidence.DEFINED),
        choices=(
            Choice("floating", N_("floating")),
            Choice("bonded", N_("joined to its {ground} contacts by its maker")),
            Choice("relay", N_("joined by its relay, opened on input")),
            Choice("added", N_("joined by a link that was added")),
        ),
        help=N_(
            "The manual says it; or, switched off, an ohmmeter from the {neutral} slot to the"
            " {ground} contact. Near zero: joined. Open: floating."
        ),
    ),
    BOND_ALLOWED,
    *CHARGING_RATINGS,
    *LOW_VOLTAGE_RATINGS,
    Rating("outlets", N_("Places for its own outlets"), "count", "2", low=0, high=8, quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Its output, its socket of low voltage, and what charges it: shore or a set, sun, vehicle."""
    direct = (Pole.POS, Pole.NEG)
    return (
        Terminal("out", poles_of(values), "out"),
        Terminal("dc_out", direct, "out"),
        Terminal("ac_in", poles_of(values), "in"),
        Terminal("pv", direct, "in"),
        Terminal("dc_in", direct, "in"),
    )


def places(values: Values) -> tuple[Place, ...]:
    """The outlets in its front, and its 12 V socket."""
    own = own_places(poles_of(values), int(values.num("outlets")))
    return (*own, face_place((Pole.POS, Pole.NEG), SOCKET, face="dc_out"))


def inside(values: Values) -> Inside:
    """Cells; a bridge while its output is switched on, unless its input is passed on; chargers; a
    case of plastic."""
    poles = poles_of(values)
    lines, ground = live_poles(poles), ("out", Pole.PE)
    elements: list[Element] = [
        Join(("ac_in", Pole.PE), ground),
        *(
            Leak((terminal, pole), ground, farad=_STRAY_FARAD)
            for terminal in ("out", "ac_in")
            for pole in (*lines, Pole.N)
        ),
        *pack(),
        *low_voltage(values),
        *mouth((Pole.POS, Pole.NEG), SOCKET, "dc_out"),
        *charging(values),
    ]
    bond = values.pick("neutral")
    if bond != "floating":
        when = INVERTING if bond == "relay" else ()
        elements.append(bond_link(("out", Pole.N), ground, when))
    if values.has("power"):
        amps = values.num("power") / (values.num("voltage") * len(lines))
        sources = bridge_sources(values, lines, amps, INVERTING)
        ohm = contact_ohm(amps)
        elements += sources
        elements += (Convert(s.name, s.name, "cell side", _EFFICIENCY) for s in sources)
        elements += switched("bridge", "out", (*lines, Pole.N), ohm, INVERTING, "bridge ")
        elements += through(values, (*lines, Pole.N), ohm, PASSING)
    return Inside(tuple(elements), _selectors(values, ("ac_in", lines[0])))


def _selectors(values: Values, taken: Point) -> tuple[Selector, ...]:
    """Its button, and the relay between its input and its bridge."""
    on = (("output", "on"),)
    passes = values.pick("through") == "yes"
    relay = Selector(
        "relay",
        ("passing", "inverting", "off") if passes else ("inverting", "off"),
        "off",
        "follows",
        (
            *((Follow("passing", live=(taken,), stands=on),) if passes else ()),
            Follow("inverting", stands=on),
            Follow("off"),
        ),
        (Passing("inverting", "passing", "changing over", 0.02),) if passes else (),
    )
    return (Selector("output", ("off", "on"), "off", "source"), relay, *chargers(values))


KIND = Kind(
    key="power_station",
    name=N_("portable power station"),
    letters="GB",
    strip="sources",
    changes_over=True,
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "power_station",
    captions=("power", "neutral"),
    columns=(
        "circuit",
        "power",
        "surge",
        "voltage",
        "neutral",
        "bond_allowed",
        "through",
        "charge_power",
        "dc_voltage",
        "dc_current",
        "pv_voltage",
        "pv_current",
        "in_current",
    ),
    search=N_("portable power station battery box solar generator 12 V socket"),
    source=SourceGroup.INVERTER,
    pulled=frozenset({"dc_out", "ac_in", "pv", "dc_in"}),
)
