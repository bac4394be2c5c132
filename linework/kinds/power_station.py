"""Portable power station: a box with cells and an inverter, and outlets in its front.

Left out: its sockets of low voltage, what charges it (draw that as a load on a cord), and how long
its cells last.
"""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    SURGE,
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
from linework.kinds.ratings import Choice, OneOf, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Inside,
    Leak,
    Place,
    Pole,
    Selector,
    SourceGroup,
    Terminal,
    When,
)
from linework.words import N_

ON: When = (("output", frozenset({"on"})),)
_STRAY_FARAD = 1e-9
"""From its conductors to the ground contacts of its outlets (from memory)."""

RATINGS = (
    AC_CIRCUIT,
    replace(
        CONTINUOUS_POWER,
        usual=(50.0, 10e3),
        help=N_("On its plate: rated output of its alternating current, not the peak."),
    ),
    SURGE,
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
            Choice("added", N_("joined by a link that was added")),
        ),
        help=N_(
            "The manual says it; or, switched off, an ohmmeter from the {neutral} slot to the"
            " {ground} contact. Near zero: joined. Open: floating."
        ),
    ),
    BOND_ALLOWED,
    Rating("outlets", N_("Places for its own outlets"), "count", "2", low=0, high=8, quiet=True),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Its output."""
    return (Terminal("out", poles_of(values), "out"),)


def places(values: Values) -> tuple[Place, ...]:
    """The outlets in its front."""
    return own_places(poles_of(values), int(values.num("outlets")))


def inside(values: Values) -> Inside:
    """The bridge while its output is switched on; a case of plastic."""
    lines = live_poles(poles_of(values))
    ground = ("out", Pole.PE)
    elements: list[Element] = [
        Leak(("out", pole), ground, farad=_STRAY_FARAD) for pole in (*lines, Pole.N)
    ]
    if values.pick("neutral") in ("bonded", "added"):
        elements.append(bond_link(("out", Pole.N), ground))
    if values.has("power"):
        amps = values.num("power") / (values.num("voltage") * len(lines))
        elements += bridge_sources(values, lines, amps, ON)
        elements += switched("bridge", "out", (*lines, Pole.N), contact_ohm(amps), ON, "bridge ")
    output = Selector("output", ("off", "on"), "off", "source")
    return Inside(tuple(elements), (output,))


KIND = Kind(
    key="power_station",
    name=N_("portable power station"),
    letters="GB",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "power_station",
    captions=("power", "neutral"),
    columns=("circuit", "power", "surge", "voltage", "neutral", "bond_allowed"),
    search=N_("portable power station battery box solar generator"),
    source=SourceGroup.INVERTER,
)
