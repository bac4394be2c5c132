"""Utility or shore supply: what arrives on site, behind its own device."""

from __future__ import annotations

import math
from dataclasses import replace

from linework.kinds.common import (
    SOURCE_CIRCUIT,
    VOLTAGE,
    bond_link,
    breaker_in,
    contact_ohm,
    live_poles,
    own_places,
    poles_of,
    straight,
    switched,
    values_hertz,
)
from linework.kinds.gfci import GROUND_FAULT, ground_fault_element
from linework.kinds.habit import SHORE_HABIT
from linework.kinds.kind import Kind
from linework.kinds.ratings import FROM_MEMORY, Band, Choice, Rating
from linework.kinds.run import NOT_GIVEN
from linework.kinds.values import Values
from linework.wiring import (
    EARTH_POINT,
    Inside,
    Link,
    Place,
    Pole,
    Selector,
    Source,
    SourceGroup,
    Terminal,
    Three,
)
from linework.words import N_

RATINGS = (
    SOURCE_CIRCUIT,
    VOLTAGE,
    Rating(
        "breaker",
        N_("Breaker at the supply"),
        "current",
        "30 A",
        low=1.0,
        high=4000.0,
        usual=(5.0, 1e3),
        help=N_("On the handle of the breaker at the pedestal or service."),
    ),
    Rating(
        "prospective",
        N_("Prospective fault current"),
        "current",
        Band("500 A", "2 kA", "10 kA"),
        FROM_MEMORY,
        low=10.0,
        help=N_("What flows in a dead short at the supply; ask the site, or give a band."),
    ),
    Rating(
        "x_over_r",
        N_("Reactance over resistance"),
        "ratio",
        "0.5",
        FROM_MEMORY,
        low=0.0,
        help=N_("Told with the fault current by who runs the site; small supplies have little."),
    ),
    Rating(
        "neutral",
        N_("Neutral at the supply"),
        "choice",
        "bonded",
        choices=(
            Choice("bonded", N_("joined to {ground} off site")),
            Choice("floating", N_("not joined to {ground}")),
        ),
        help=N_("Joined as a rule; who runs the site knows."),
    ),
    Rating(
        "electrode",
        N_("Resistance to earth of the site"),
        "resistance",
        Band("1 ohm", "5 ohm", "25 ohm"),
        FROM_MEMORY,
        low=0.0,
        quiet=True,
        help=N_("Measured by who runs the site."),
    ),
    Rating(
        "serves",
        N_("What it feeds"),
        "choice",
        NOT_GIVEN,
        choices=(
            Choice(NOT_GIVEN, N_("not given")),
            Choice("dwelling", N_("one dwelling and nothing else")),
            Choice("other", N_("another building, or several dwellings")),
        ),
        help=N_("The conductors to one dwelling may be a little thinner (NFPA 70 310.12)."),
        quiet=True,
    ),
    Rating(
        "floor_area",
        N_("Floor area of the dwelling"),
        "floor_area",
        None,
        low=1.0,
        high=5000.0,
        quiet=True,
        help=N_(
            "Outside measures, all floors; no garage, porch, or space that cannot be lived in."
        ),
    ),
    Rating("outlets", N_("Outlets on it"), "count", "2", low=0, high=12, quiet=True),
    Rating(
        "outage",
        N_("Judge its outage"),
        "choice",
        "$outage",
        choices=(Choice("yes", N_("yes")), Choice("no", N_("no: the plug is out then"))),
        quiet=True,
        help=N_("Whether the supply can be dead while everything stays joined to it."),
    ),
    Rating(
        "neutral_switched",
        N_("Breaker opens the {neutral} too"),
        "choice",
        "no",
        choices=(Choice("no", N_("no")), Choice("yes", N_("yes"))),
        quiet=True,
        help=N_("It has one pole more than there are {hots}."),
    ),
    replace(
        GROUND_FAULT,
        label=N_("Ground-fault protection at the supply"),
        help=N_("On the breaker of the pedestal: marinas and sites often have 30 or 100 mA."),
    ),
    *SHORE_HABIT,
)

_NEUTRAL = ("", "N")
"""The neutral point of the supply, off site."""


def terminals(values: Values) -> tuple[Terminal, ...]:
    """One terminal, behind the supply's own breaker."""
    return (Terminal("out", poles_of(values), "out"),)


def places(values: Values) -> tuple[Place, ...]:
    """Outlets of a pedestal, all behind its breaker."""
    return own_places(poles_of(values), int(values.num("outlets")))


def source_ohm(values: Values) -> tuple[Three, Three]:
    """Resistance and reactance behind the supply, |Z| = U / Ik, split by X/R."""
    volts, ik, ratio = values.num("voltage"), values.three("prospective"), values.num("x_over_r")
    share = 1.0 / math.hypot(1.0, ratio)
    z = Three(volts / ik.high, volts / ik.usual, volts / ik.low)
    return z.scaled(share), z.scaled(share * ratio)


def inside(values: Values) -> Inside:
    """A source for each leg, the bond off site, the supply's breaker."""
    poles = poles_of(values)
    lines = live_poles(poles)
    with_neutral = values.pick("neutral_switched") == "yes" and Pole.N in poles
    opens = (*lines, Pole.N) if with_neutral else lines
    amps = values.num("breaker")
    ohm = contact_ohm(amps)
    contacts = switched("in", "out", opens, ohm, ())
    sensed = ground_fault_element(values, poles, opens, ohm, ("in", "out"))
    joins = straight("in", "out", tuple(p for p in poles if p not in sensed.through))
    positions = ("live", "dead") if values.pick("outage") == "yes" else ("live",)
    ground = ("in", Pole.PE)
    bonded = values.pick("neutral") == "bonded"
    bond = (bond_link(_NEUTRAL, ground, name="bond off site"),) if bonded else ()
    earth = Link("site electrode", ground, EARTH_POINT, values.three("electrode"))
    return Inside(
        (
            *_legs(values, lines),
            *contacts,
            *sensed.elements,
            *joins,
            *_neutral_lead(),
            *bond,
            earth,
            breaker_in("breaker", contacts, amps, values.num("voltage") * len(lines)),
        ),
        (Selector("supply", positions, "live", "source"),),
    )


def _legs(values: Values, lines: tuple[Pole, ...]) -> tuple[Source, ...]:
    """A source for each leg, from the neutral off site."""
    r, x = source_ohm(values)
    half = 2.0 if values.pick("circuit") == "ac240" else 1.0
    return tuple(
        Source(
            f"source {pole}",
            ("in", pole),
            _NEUTRAL,
            values.num("voltage") / half,
            values_hertz(values),
            r,
            x,
            phase_deg=180.0 * number,
            group=SourceGroup.SUPPLY,
            when=(("supply", frozenset({"live"})),),
        )
        for number, pole in enumerate(lines)
    )


def _neutral_lead() -> tuple[Link, ...]:
    """The neutral as a conductor of its own, so that its current can be told."""
    return (Link("neutral", _NEUTRAL, ("in", Pole.N), Three.exactly(10e-6)),)


KIND = Kind(
    key="supply",
    name=N_("utility or shore supply"),
    letters="GS",
    strip="sources",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "supply",
    captions=("voltage", "breaker"),
    columns=("voltage", "breaker", "ground_fault", "prospective", "neutral"),
    search=N_("shore pedestal utility grid mains supply site power"),
    source=SourceGroup.SUPPLY,
)
