"""What one kind of part declares, once, for the card, the file, the schedules and the solver."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from linework.kinds.ratings import Rating, Ratings
from linework.kinds.values import Values
from linework.wiring import Inside, Place, SourceGroup, Terminal

TerminalsOf = Callable[[Values], tuple[Terminal, ...]]
PlacesOf = Callable[[Values], tuple[Place, ...]]
InsideOf = Callable[[Values], Inside]


def no_places(values: Values) -> tuple[Place, ...]:
    """For kinds in which nothing sits."""
    return ()


class Remedy(StrEnum):
    """What a mend puts into a drawing; the kind that declares it is the one that is put."""

    FUSE = "fuse"
    ISOLATOR = "isolator"
    BATTERY_SWITCH = "battery switch"
    ELECTRODE = "electrode"


@dataclass(frozen=True, slots=True)
class Carries:
    """What current a part that power passes through is made for.

    ``rating`` names a current, or the configuration of contacts that tells one; ``terminal`` is the
    terminal or inner bar at which it counts, empty for every terminal.
    """

    rating: str
    terminal: str = ""


@dataclass(frozen=True, slots=True)
class Input:
    """One of several inputs of which a lever or relay chooses one: its position then, the terminal
    of the input, and the rating that holds what a person calls it."""

    position: str
    terminal: str
    name: str


@dataclass(frozen=True)
class Kind:
    """One kind of part.

    ``letters``: class letters of its reference designation (IEC 81346-2).
    ``strip``: where it lies in the parts strip. ``seat``: the terminal by which
    it sits in a place of another part ("" if it never does); ``roles``: what
    such a place must accept. ``symbol`` names a file of the symbols folder.
    ``captions``: the ratings written at the symbol on the sheet, in order.
    ``columns``: those in its schedule. ``changes_over``: it takes another source
    by itself when one fails.
    """

    key: str
    name: str
    letters: str
    strip: str
    ratings: tuple[Rating, ...]
    terminals: TerminalsOf
    inside: InsideOf
    symbol: Callable[[Values], str]
    places: PlacesOf = no_places
    seat: str = ""
    roles: frozenset[str] = frozenset()
    captions: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()
    changes_over: bool = False
    search: str = ""
    source: SourceGroup = SourceGroup.NONE
    """What its power comes from."""
    carries: tuple[Carries, ...] = ()
    """Each current that it is made for; in a flexible cord its conductors count besides."""
    board: bool = False
    """A distribution board: its terminal ``feed`` brings power to bars with places for breakers, a
    ground bar among them, and may take it on."""
    inputs: tuple[Input, ...] = ()
    """Of what transfers: one of these at a time feeds its terminal ``load``."""
    fixed: bool = False
    """Stands for good where it is wired: what feeds it is an installation."""
    lets_in: bool = False
    """Where a cord brings power in that can be pulled out."""
    pulled: frozenset[str] = frozenset()
    """Terminals that are sockets for a lead: a hand pulls it out, which cuts off what it brings."""
    loose: bool = False
    """Lies between an outlet and what is plugged in, and belongs to no installation."""
    cord: bool = False
    """A flexible cord is part of it."""
    passes_on: bool = False
    """Direct current goes through it: on it is the voltage of what it is joined to."""
    melts: bool = False
    """Opens by melting, without a handle; its rating ``type`` tells what it breaks and stands."""
    consumes: bool = False
    """Draws power at its terminal ``in`` for what it does itself; all else passes it on or turns it
    over."""
    habit: Callable[[Values], str] = lambda values: ""
    """Which row of the table of habits is usual for it, of what consumes."""
    appliance: bool = False
    """A single appliance: the wires inside it are made for its own current."""
    turns: bool = False
    """A machine that turns: it takes several times its current to start and slows down with its
    voltage."""
    lights: bool = False
    """Gives light: people see how far its voltage falls."""
    body: bool = False
    """The metal of a vehicle, boat or building; all of one rating ``name`` are the same metal."""
    electrode: bool = False
    """Joins metal to the soil."""
    keeps_apart: Callable[[Values], tuple[str, ...]] = lambda values: ()
    """Two terminals whose conductors are to meet nowhere past the part, so that the metal of a boat
    and that ashore are no battery in the water."""
    arrests: bool = False
    """Leads surges away; nothing else hangs on it, and its ``continuous_voltage`` is what it stands
    for good."""
    pieces: Callable[[Values], int] = lambda values: 1
    """Of how many equal pieces it is made up that are bought one by one."""
    piece: str = ""
    """What such a piece is called; empty where it is the thing itself."""
    remedies: frozenset[Remedy] = frozenset()
    declared: Mapping[str, Rating] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "declared", {rating.key: rating for rating in self.ratings})

    @property
    def transfers(self) -> bool:
        """Whether it puts what it feeds onto one source or another."""
        return bool(self.inputs)

    @property
    def receptacle(self) -> bool:
        """Whether it is an outlet: contacts on a strap, into which people plug what they like."""
        return "outlet" in self.roles

    @property
    def plugs(self) -> bool:
        """Whether a hand moves it from outlet to outlet: where it is decides what is joined."""
        return "plug" in self.roles

    @property
    def bridges(self) -> bool:
        """Whether it is a plug with nothing in it but a link of neutral and ground."""
        return "bond_plug" in self.roles

    def values(
        self,
        ratings: Ratings,
        settled: Mapping[str, str] | None = None,
        setting: Mapping[str, str] | None = None,
    ) -> Values:
        """The ratings of one part of this kind, ready to be read."""
        return Values(self.declared, ratings, settled or {}, setting or {})
