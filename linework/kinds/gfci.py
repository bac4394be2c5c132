"""Ground-fault device: compares what goes out with what comes back."""

from __future__ import annotations

from dataclasses import dataclass

from linework.kinds.common import CIRCUIT, contact_ohm, live_poles, poles_of, straight, switched
from linework.kinds.kind import Carries, Kind
from linework.kinds.ratings import Choice, Rating
from linework.kinds.values import Values
from linework.wiring import (
    Contact,
    Element,
    GroundFault,
    Inside,
    Pole,
    Selector,
    Terminal,
    Three,
    When,
)
from linework.words import N_

STYLES: dict[str, tuple[Three, bool]] = {
    # must not trip below low, must trip from high on (mA); whether it finds a load-side link.
    # Class A: UL 943. 30 mA: IEC 61008-1 (half the rated current must not trip it).
    "class_a": (Three(4.0, 5.0, 6.0), True),
    "rcd_30": (Three(15.0, 22.5, 30.0), False),
    "rcd_100": (Three(50.0, 75.0, 100.0), False),
}

_CHOICES = (
    Choice("class_a", N_("{gfci} class A")),
    Choice("rcd_30", N_("residual-current device, 30 mA")),
    Choice("rcd_100", N_("residual-current device, 100 mA")),
)

GROUND_FAULT = Rating(
    "ground_fault",
    N_("Ground-fault protection"),
    "choice",
    "none",
    choices=(Choice("none", N_("none")), *_CHOICES),
    quiet=True,
    help=N_("A test button shows it. Class A: about 5 mA; others are marked with 30 or 100 mA."),
)

CLOSED: When = (("breaker", frozenset({"closed"})),)


@dataclass(frozen=True, slots=True)
class Sensed:
    """The elements that a sensor adds, and the poles that pass through it."""

    elements: tuple[Element, ...]
    through: tuple[Pole, ...]


def ground_fault_element(
    values: Values,
    poles: tuple[Pole, ...],
    opened: tuple[Pole, ...],
    ohm: Three,
    sides: tuple[str, str] = ("line", "load"),
    prefix: str = "",
) -> Sensed:
    """A sensor round every live conductor and the neutral; what the contacts do not open passes
    through it as a conductor of its own, so that its current is known.

    ``sides``: the terminals or bars before and behind it; ``prefix``: of the contacts' names.
    """
    style = values.pick("ground_fault")
    if style == "none":
        return Sensed((), opened)
    around = tuple(p for p in poles if p is not Pole.PE)
    passing = tuple(p for p in around if p not in opened)
    line, load = sides
    through = tuple(Contact(f"{prefix}{p}", (line, p), (load, p), ohm) for p in passing)
    trip, finds_link = STYLES[style]
    device = GroundFault(
        "ground fault",
        tuple(f"{prefix}{p}" for p in around),
        tuple(f"{prefix}{p}" for p in opened),
        trip,
        style,
        finds_link,
        tuple((load, p) for p in around),
    )
    return Sensed((*through, device), around)


RATINGS = (
    CIRCUIT,
    Rating(
        "ground_fault",
        N_("Ground-fault protection"),
        "choice",
        "class_a",
        choices=_CHOICES,
    ),
    Rating(
        "rating",
        N_("Rating"),
        "current",
        "20 A",
        low=1.0,
        high=200.0,
        help=N_("On its body: the current that it may carry."),
    ),
)


def terminals(values: Values) -> tuple[Terminal, ...]:
    """Line side and load side."""
    poles = poles_of(values)
    return (Terminal("line", poles, "in"), Terminal("load", poles, "out"))


def inside(values: Values) -> Inside:
    """Contacts in every live conductor and the neutral."""
    poles = poles_of(values)
    opened = (*live_poles(poles), Pole.N) if Pole.N in poles else live_poles(poles)
    ohm = contact_ohm(values.num("rating"))
    sensed = ground_fault_element(values, poles, opened, ohm)
    rest = straight("line", "load", tuple(p for p in poles if p not in sensed.through))
    return Inside(
        (*switched("line", "load", opened, ohm, CLOSED), *sensed.elements, *rest),
        (Selector("breaker", ("closed", "open"), "closed", "protection"),),
    )


KIND = Kind(
    key="gfci",
    name=N_("ground-fault device"),
    letters="QR",
    strip="protection",
    ratings=RATINGS,
    terminals=terminals,
    inside=inside,
    symbol=lambda values: "gfci",
    captions=("ground_fault",),
    columns=("ground_fault", "rating"),
    search=N_("GFCI RCD RCCB ground fault residual current device"),
    carries=(Carries("rating", "load"),),
)
