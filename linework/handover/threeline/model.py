"""What the conductor drawing is made of: blocks with their inner circuit, ribbons between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

Net = int
"""A conductor inside a block: the number of its node in the circuit of the first case."""


class Means(StrEnum):
    """What joins two nets inside a part."""

    SWITCH = "switch"
    BREAKER = "breaker"
    FUSE = "fuse"
    PLUG = "plug"
    WIRE = "wire"
    BOND = "bond"


class Device(StrEnum):
    """What lies between two nets, or leads from one into the soil."""

    SOURCE = "source"
    CELLS = "cells"
    DRAW = "draw"
    WINDING = "winding"
    SOIL = "soil"


@dataclass(frozen=True)
class Pin:
    """One conductor's end at a terminal of a part."""

    part: str
    terminal: str
    pole: str
    net: Net


@dataclass(frozen=True)
class Port:
    """A terminal with its pins: where one ribbon ends, or none (``owner`` empty).

    ``owner``: the id of the run or seat; ``end``: at which of its two ends.
    """

    block: str
    part: str
    terminal: str
    pins: tuple[Pin, ...]
    owner: str = ""
    end: int = 0


@dataclass(frozen=True)
class Contact:
    """From one net to another: a pole of a switch, breaker or fuse, a plug contact, a link.

    ``closed``: at rest; ``moves``: whether a position opens it. ``certain`` False: only in some
    cases of what is not known.
    """

    owner: str
    name: str
    a: Net
    b: Net
    means: Means
    closed: bool = True
    moves: bool = False
    certain: bool = True

    def beyond(self, net: Net) -> Net:
        """The net at its other end."""
        return self.b if net == self.a else self.a


@dataclass(frozen=True)
class Inner:
    """A source, a draw, a winding: between two nets; what leads into the soil has but one."""

    owner: str
    name: str
    device: Device
    nets: tuple[Net, ...]
    direct: bool = False


@dataclass(frozen=True)
class Ribbon:
    """All conductors of a run, or the contacts of a plug, from one port to another.

    Conductor ``i`` goes from pin ``i`` of the one to pin ``i`` of the other. ``cut``: those that
    are broken. ``plug``: no run, but what is put in by hand. ``flows``: power goes from a to b.
    """

    owner: str
    a: Port
    b: Port
    cut: frozenset[int] = frozenset()
    plug: bool = False
    flows: bool = True


@dataclass(frozen=True)
class Stub:
    """A single conductor to a body or an electrode, whose sign stands at its far end."""

    owner: str
    near: Pin
    far: Pin


@dataclass
class Block:
    """A part with all that is fixed in it. ``piece`` of ``pieces``: where it was too long."""

    key: str
    part: str
    ports: list[Port] = field(default_factory=list)
    contacts: list[Contact] = field(default_factory=list)
    inners: list[Inner] = field(default_factory=list)
    stubs: list[Stub] = field(default_factory=list)
    poles: dict[Net, str] = field(default_factory=dict)
    metals: set[Net] = field(default_factory=set)
    """Nets to which the part's own case or frame is joined."""
    piece: int = 1
    pieces: int = 1
    elsewhere: str = ""
    """Where it stands, of what stands elsewhere: here is only one of its terminals."""


@dataclass(frozen=True)
class Strip:
    """Some blocks that are laid out together; ``number`` and ``page`` counted from 1."""

    number: int
    page: int
    keys: tuple[str, ...]


@dataclass
class Conductors:
    """Every block and ribbon of a design; ``missing``: ids of runs that join no conductor.

    ``plans``: how they were divided, for each size of paper.
    """

    blocks: dict[str, Block]
    ribbons: list[Ribbon]
    missing: list[str] = field(default_factory=list)
    cases: int = 1
    plans: dict[tuple[int, int, int], Sequence[Strip]] = field(default_factory=dict)


RANK = ("L", "L1", "L2", "L3", "N", "+", "M", "-", "PEN", "PE", "body", "earth")
"""The order in which conductors lie beside each other."""


def rank(pole: str) -> int:
    """The place of a conductor among others."""
    return RANK.index(pole) if pole in RANK else len(RANK)
