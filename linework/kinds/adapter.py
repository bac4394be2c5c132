"""Adapter: a plug of one configuration and an outlet of another on one body.

One hot conductor may feed both legs behind it ("dogbone"), or one of two legs the single
hot conductor behind it. What has no counterpart on the other side stays unjoined.
"""

from __future__ import annotations

from dataclasses import replace

from linework.kinds.common import (
    CIRCUIT,
    MAIN_INTERRUPTING,
    PLUG_CONTACT,
    POLES,
    VOLTAGE,
    breaker_in,
    contact_ohm,
    live_poles,
    poles_of,
)
from linework.kinds.kind import Carries, Kind
from linework.kinds.outlet import CONFIGURATION, face_place, mouth
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Contact,
    Element,
    Inside,
    Join,
    Pins,
    Place,
    Pole,
    Terminal,
    is_protective,
)
from linework.words import N_

CONNECTOR = Rating(
    "connector",
    N_("Configuration of its outlet end"),
    "configuration",
    needed=True,
    help=N_("The pattern of the contacts that it offers, for example 14-50."),
)

GROUND = Rating(
    "ground",
    N_("{ground_wire}"),
    "choice",
    "through",
    choices=(
        Choice("through", N_("goes through")),
        Choice("none", N_("none: two contacts only")),
    ),
    quiet=True,
)

RATINGS = (
    CIRCUIT,
    replace(CONFIGURATION, label=N_("Configuration of its plug")),
    CONNECTOR,
    Rating(
        "outlet_circuit",
        N_("Circuit at its outlet end"),
        "choice",
        choices=CIRCUIT.choices,
        help=N_("Where it differs from that of its plug: one {hot} for both legs, or one leg."),
        quiet=True,
        derive=lambda values: values.pick("circuit"),
    ),
    Rating(
        "leg",
        N_("Leg that it takes of two"),
        "choice",
        "L1",
        choices=(Choice("L1", "L1"), Choice("L2", "L2")),
        quiet=True,
    ),
    GROUND,
    Rating("breaker", N_("Breaker in it"), "current", low=1.0, quiet=True),
    MAIN_INTERRUPTING,
    replace(VOLTAGE, marking=True),
)


def pin_poles(values: Values, outer: tuple[Pole, ...]) -> tuple[Pole, ...]:
    """The pins of what goes on to a face: no ground pin where no ground wire goes through."""
    grounded = values.pick("ground") == "through" and Pole.PE in outer
    return tuple(p for p in poles_of(values) if grounded or not is_protective(p))


def _outer(values: Values) -> tuple[Pole, ...]:
    return POLES[values.pick("outlet_circuit")]


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Its pins and its face."""
    outer = _outer(values)
    return (Terminal("pins", pin_poles(values, outer), "in"), Terminal("face", outer, "out"))


def places(values: Values) -> tuple[Place, ...]:
    """Its face takes plugs. A cord leads on to an inlet: that can be pulled out, an adapter is
    taken to stay."""
    return (face_place(_outer(values), values.text("connector")),)


def counterpart(pole: Pole, inner: tuple[Pole, ...], leg: str) -> Pole | None:
    """The pole of the plug that feeds a pole of the outlet end, None where none does."""
    if pole in inner:
        return pole
    if pole in (Pole.L1, Pole.L2) and Pole.L in inner:
        return Pole.L
    return Pole(leg) if pole is Pole.L and Pole.L1 in inner else None


def inside(values: Values) -> Inside:
    """From each pin to the contacts that it feeds; its pins are bare while it sits nowhere."""
    outer = _outer(values)
    inner = pin_poles(values, outer)
    behind = "breaker" if values.has("breaker") else "face"
    elements: list[Element] = []
    for pole in outer:
        fed_by = counterpart(pole, inner, values.pick("leg"))
        if fed_by is not None:
            elements.append(Contact(str(pole), ("pins", fed_by), (behind, pole), PLUG_CONTACT))
    if values.has("breaker"):
        elements += _breaker(values, outer)
    bare = tuple(("pins", pole) for pole in inner if not is_protective(pole))
    elements.append(Pins("pins", bare, free_terminal="pins"))
    return Inside((*elements, *mouth(outer, values.text("connector"))))


def _breaker(values: Values, outer: tuple[Pole, ...]) -> list[Element]:
    """A breaker in each hot conductor; the rest passes it."""
    amps, lines = values.num("breaker"), live_poles(outer)
    ohm = contact_ohm(amps)
    contacts = tuple(Contact(f"breaker {p}", ("breaker", p), ("face", p), ohm) for p in lines)
    rest = tuple(Join(("breaker", p), ("face", p)) for p in outer if p not in lines)
    volts = values.num("voltage") * (2.0 if values.pick("outlet_circuit") == "split" else 1.0)
    return [*contacts, *rest, breaker_in("breaker", contacts, amps, volts, values)]


KIND = Kind(
    key="adapter",
    name=N_("adapter"),
    letters="XA",
    strip="switching",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "adapter",
    seat="pins",
    roles=frozenset({"adapter"}),
    captions=("configuration", "connector"),
    columns=("configuration", "connector", "leg", "ground", "breaker"),
    search=N_("adapter dogbone pigtail 30 to 50 reducer"),
    carries=(Carries("configuration", "pins"), Carries("connector", "face")),
    loose=True,
    passes_on=True,
)
