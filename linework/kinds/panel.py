"""Panel: a bus with places for breakers, a neutral bar, a ground bar, and the link between them."""

from __future__ import annotations

from dataclasses import replace

from linework.data import Confidence
from linework.kinds.common import (
    CIRCUIT,
    MAIN_INTERRUPTING,
    STANDS,
    VOLTAGE,
    bond_link,
    breaker_in,
    contact_ohm,
    live_poles,
    offered,
    poles_of,
    straight,
    switched,
)
from linework.kinds.gfci import GROUND_FAULT, ground_fault_element
from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import Choice, OneOf, Origin, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Element,
    Inside,
    Join,
    Metal,
    Place,
    Pole,
    Selector,
    Terminal,
    When,
)
from linework.words import N_

CLOSED: When = (("main", frozenset({"closed"})),)

RATINGS = (
    CIRCUIT,
    Rating(
        "main",
        N_("Main breaker"),
        "current",
        low=1.0,
        quiet=True,
        usual=(5.0, 1e3),
        help=N_("On the handle of the main."),
    ),
    Rating(
        "main_poles",
        N_("Main opens"),
        "choice",
        "lines",
        choices=(
            Choice("lines", N_("every {hot}")),
            Choice("all", N_("every {hot} and the {neutral}")),
        ),
        quiet=True,
    ),
    MAIN_INTERRUPTING,
    replace(GROUND_FAULT, label=N_("Ground-fault protection of the main")),
    Rating(
        "bus",
        N_("Bus rating"),
        "current",
        "100 A",
        low=1.0,
        usual=(5.0, 1e3),
        help=N_("On the label inside its door: mains or bus rating."),
    ),
    Rating("places", N_("Places"), "count", "6", low=1, high=42, quiet=True),
    Rating(
        "bond",
        N_("{neutral_ground_link} in the panel"),
        "choice",
        OneOf(("absent", "fitted")),
        Origin(N_("not known until looked at: both are judged"), Confidence.DEFINED),
        choices=(Choice("absent", N_("absent: bars apart")), Choice("fitted", N_("fitted"))),
        help=N_("A screw, strap or bar that joins the {neutral} bar to the enclosure."),
        ac_only=True,
    ),
    VOLTAGE,
    STANDS,
    Rating(
        "lived_in",
        N_("People live or sleep in the rooms that it feeds"),
        "choice",
        "unknown",
        choices=(
            Choice("yes", N_("yes")),
            Choice("no", N_("no: a workshop, shed, stable, or hut without beds")),
            Choice("unknown", N_("not known")),
        ),
        quiet=True,
        help=N_("It decides whether arc-fault protection is asked for there."),
        ac_only=True,
    ),
    Rating(
        "detached",
        N_("In a building of its own"),
        "choice",
        "no",
        choices=(
            Choice("no", N_("no")),
            Choice("yes", N_("yes: fed from another building")),
        ),
        quiet=True,
        help=N_("Yes in a barn, shed or garage that stands apart from what feeds it."),
        ac_only=True,
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """The feed, and for alternating current a lug on the ground bar."""
    feed = Terminal("feed", poles_of(values), "both")
    if values.pick("circuit") == "dc":
        return (feed, Terminal("ground", (Pole.NEG,), "tie"))
    return (feed, Terminal("ground", (Pole.PE,), "tie"))


def places(values: Values) -> tuple[Place, ...]:
    """Numbered places, two in a row; with two legs the rows alternate between them.

    A breaker of two poles takes the place below its own too, on the other leg.
    """
    poles = poles_of(values)
    number = int(values.num("places"))
    accepts = frozenset({"breaker"})
    found = []
    for n in range(1, number + 1):
        leg = (Pole.L1, Pole.L2)[(n - 1) // 2 % 2]
        below = str(n + 2) if n + 2 <= number else None
        offers = offered(poles, "bus", ("bus", leg))
        found.append(Place(str(n), accepts, offers, next=below if Pole.L1 in poles else ""))
    return tuple(found)


def inside(values: Values) -> Inside:
    """Feed to bus, through the main where there is one; bars; the link."""
    poles = poles_of(values)
    elements = _main(values, poles)
    if values.pick("circuit") == "dc":
        elements.append(Join(("bus", Pole.NEG), ("ground", Pole.NEG)))
    else:
        elements.append(Join(("bus", Pole.PE), ("ground", Pole.PE)))
        elements.append(Metal("enclosure", ("bus", Pole.PE)))
    if values.pick("bond") == "fitted" and Pole.N in poles:
        elements.append(bond_link(("bus", Pole.N), ("bus", Pole.PE)))
    main = Selector("main", ("closed", "open"), "closed", "protection")
    return Inside(tuple(elements), (main,) if _has_main(values) else ())


def _has_main(values: Values) -> bool:
    """A breaker, or a main switch that is nothing but a ground-fault device."""
    return values.has("main") or values.pick("ground_fault") != "none"


def _main(values: Values, poles: tuple[Pole, ...]) -> list[Element]:
    """From the feed to the bars, through the main where there is one."""
    if not _has_main(values):
        return [*straight("feed", "bus", poles)]
    lines = live_poles(poles)
    returns = (Pole.N, Pole.NEG) if values.pick("main_poles") == "all" else ()
    opened = tuple(p for p in poles if p in lines or p in returns)
    amps = values.num("main") if values.has("main") else values.num("bus")
    ohm = contact_ohm(amps)
    contacts = switched("feed", "bus", opened, ohm, CLOSED, "main ")
    elements: list[Element] = [*contacts]
    if values.has("main"):
        volts = values.num("voltage") * len(lines)
        elements.append(breaker_in("main breaker", contacts, amps, volts, values))
    sensed = ground_fault_element(values, poles, opened, ohm, ("feed", "bus"), "main ")
    elements += sensed.elements
    return [*elements, *straight("feed", "bus", tuple(p for p in poles if p not in sensed.through))]


KIND = Kind(
    key="panel",
    name=N_("{panel}"),
    letters="QP",
    strip="distribution",
    ratings=RATINGS,
    terminals=terminals,
    places=places,
    inside=inside,
    symbol=lambda values: "panel",
    captions=("bus", "main", "ground_fault", "bond"),
    columns=("main", "main_poles", "ground_fault", "bus", "places", "bond", "voltage"),
    search=N_("panel board distribution load centre breaker box bus"),
    carries=(Carries("bus", "bus"),),
    board=True,
    fixed=True,
    passes_on=True,
)
