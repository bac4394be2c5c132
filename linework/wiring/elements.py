"""The elements of an inner circuit and what a part offers to others."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from linework.wiring.groups import SourceGroup
from linework.wiring.points import Point
from linework.wiring.poles import Pole
from linework.wiring.selectors import Selector
from linework.wiring.three import Three

EARTH_POINT: Point = ("@", "earth")

When = tuple[tuple[str, frozenset[str]], ...]
"""Selector positions under which an element is in circuit; empty: always."""


def body_point(name: str) -> Point:
    """The one node that all symbols of a body of this name share."""
    return ("@", f"body:{name}")


@dataclass(frozen=True, slots=True)
class Terminal:
    """Where a run attaches, with its conductor positions in order.

    ``role``: "in" takes power, "out" gives it, "both" either, "tie" is a
    grounding or bonding terminal.
    """

    name: str
    poles: tuple[Pole, ...]
    role: Literal["in", "out", "both", "tie"] = "both"
    label: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """A place in which another part may sit, with the points it offers to that part's poles.

    ``next``: the place on the other leg that a part with two hot poles takes too; empty where
    none does, None where it would need one that is not there.
    """

    name: str
    accepts: frozenset[str]
    offers: tuple[tuple[Pole, Point], ...]
    configuration: str = ""
    next: str | None = ""


@dataclass(frozen=True, slots=True)
class Join:
    """Two points that are one node: a bar, a wire passed straight through a device."""

    a: Point
    b: Point


@dataclass(frozen=True, slots=True)
class Link:
    """A fixed connection with a resistance; ``bond`` marks a deliberate link of unlike poles,
    ``cord`` a conductor of a flexible cord."""

    name: str
    a: Point
    b: Point
    ohm: Three
    bond: bool = False
    when: When = ()
    cord: bool = False


@dataclass(frozen=True, slots=True)
class Contact:
    """A connection that selectors or protective devices open; ``ohm`` None: no data given."""

    name: str
    a: Point
    b: Point
    ohm: Three | None = None
    when: When = ()


@dataclass(frozen=True, slots=True)
class Limit:
    """How a source's current falls under a fault.

    After ``decay_s`` seconds the source delivers no more than ``sustained_a``
    amperes; after ``off_s`` it is off (None: it goes on). ``first_a`` bounds
    the current before (None: its impedance alone does).
    """

    sustained_a: Three
    decay_s: float
    off_s: float | None = None
    first_a: Three | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """An electromotive force behind an impedance.

    ``ohm_r`` and ``ohm_x``: resistance and reactance in ohm; the low figures
    belong to the strongest source. ``rated_a`` is its rated current (None: a
    supply that its own device limits). ``hertz`` 0 is direct current. ``shared_va``: what all
    sources of its group in its part may give together. ``surge_a``: what it gives for the
    seconds of a start (None: its impedance alone decides). ``primary``: the winding of
    ``primary_v`` volt on the same core, which takes what this one gives; its electromotive force
    is then the voltage there times :attr:`turns`, in step with it. ``in_step``: made to run in
    parallel with others of its make, with which it keeps in step.
    """

    name: str
    plus: Point
    minus: Point
    volts: float
    hertz: float
    ohm_r: Three
    ohm_x: Three
    phase_deg: float = 0.0
    rated_a: float | None = None
    limit: Limit | None = None
    group: SourceGroup = SourceGroup.NONE
    when: When = ()
    shared_va: float | None = None
    surge_a: float | None = None
    charged_v: float | None = None

    @property
    def most_v(self) -> float:
        """The highest voltage that lasts at it, in volt."""
        return self.volts if self.charged_v is None else self.charged_v

    primary: tuple[Point, Point] | None = None
    primary_v: float = 0.0
    in_step: bool = False

    @property
    def turns(self) -> float:
        """Turns of this winding over those of its primary: the ratio of their nominal voltages."""
        return self.volts / self.primary_v


@dataclass(frozen=True, slots=True)
class Draw:
    """A load between two points, at its rated voltage.

    ``model``: "power" keeps its power, "impedance" its impedance, "lamp" is a
    filament whose resistance rises with voltage. ``works_v`` is the band of
    voltages it is made for. ``lasts``: "hours", or "minutes" (a windlass), "seconds" (the
    starter of an engine) where it cannot run longer. ``effective_a``: the lasting
    current that would heat its wires as much, where it works by turns (a welder). ``own``: it draws
    by itself; else a :class:`Convert` draws through it what it turns over.
    """

    name: str
    a: Point
    b: Point
    watts: float
    power_factor: float
    volts: float
    works_v: tuple[float, float]
    model: Literal["power", "impedance", "lamp"] = "impedance"
    hertz: float | None = None
    continuous: bool = False
    start_a: float | None = None
    start_pf: float = 0.35
    when: When = ()
    lasts: str = "hours"
    effective_a: float | None = None
    own: bool = True


@dataclass(frozen=True, slots=True)
class Leak:
    """A leakage path: farad on alternating, siemens on direct current."""

    a: Point
    b: Point
    farad: float = 0.0
    siemens: float = 0.0
    when: When = ()


@dataclass(frozen=True, slots=True)
class Overcurrent:
    """A device that opens on too much current through any of its contacts.

    ``curve`` names its family of time-current bands ("breaker", or a fuse
    class); ``magnetic_a`` the band in which it trips at once, where given.
    ``interrupting_a`` in ampere and ``volts``: 0 where nothing can be counted on; ``dc`` says
    whether it is rated for direct current (None: not known).
    """

    name: str
    contacts: tuple[str, ...]
    rating_a: float
    curve: str
    interrupting_a: float
    interrupting_given: bool
    volts: float
    dc: bool | None
    magnetic_a: Three | None = None


@dataclass(frozen=True, slots=True)
class GroundFault:
    """A device that compares what leaves with what comes back through ``senses``.

    ``trip_ma``: it must not trip below ``low`` and must trip from ``high`` on.
    ``senses_link``: it also finds a neutral-ground link on its load side.
    """

    name: str
    senses: tuple[str, ...]
    opens: tuple[str, ...]
    trip_ma: Three
    style: str
    senses_link: bool
    load_side: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Convert:
    """Power given by the source ``gives`` is taken by the draw ``takes``, over its efficiency.

    ``steps`` False: it changes no voltage; the current that it gives is the one that it takes.
    ``limit_a``: it takes no more than the contacts ``beside``, which pass its input on to loads,
    leave of so much current in ampere.
    """

    name: str
    gives: str
    takes: str
    efficiency: float
    idle_w: float = 0.0
    steps: bool = True
    limit_a: float | None = None
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Metal:
    """Touchable metal at a point: a case, an enclosure, the ground contact of an outlet; ``body``:
    the metal of a vehicle, boat or building. ``beside``: the terminals of the part whose
    conductors can touch it (empty: all)."""

    name: str
    at: Point
    body: bool = False
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pins:
    """Bare pins that a hand can reach while ``when`` holds, and while no run ends at
    ``free_terminal`` and the part does not sit by it in another."""

    name: str
    points: tuple[Point, ...]
    when: When = ()
    free_terminal: str = ""


@dataclass(frozen=True, slots=True)
class Face:
    """The contacts of an outlet, where an instrument or a plug goes in."""

    name: str
    points: tuple[tuple[Pole, Point], ...]
    configuration: str


Element = (
    Join
    | Link
    | Contact
    | Source
    | Draw
    | Leak
    | Overcurrent
    | GroundFault
    | Convert
    | Metal
    | Pins
    | Face
)


@dataclass(frozen=True, slots=True)
class Inside:
    """The inner circuit of one part."""

    elements: tuple[Element, ...] = ()
    selectors: tuple[Selector, ...] = field(default=())
