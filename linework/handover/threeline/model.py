"""What the conductor drawing is made of: blocks with their inner circuit, ribbons between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum, auto

from linework.wiring import Pole

Net = int
"""A conductor inside a block: the number of its node in the circuit of the first case."""


class Means(Enum):
    """What joins two nets inside a part."""

    SWITCH = auto()
    BREAKER = auto()
    FUSE = auto()
    PLUG = auto()
    WIRE = auto()
    BOND = auto()
    BLOCKING = auto()
    """Lets no small direct voltage through, as a galvanic isolator."""


class Device(Enum):
    """What lies between two nets, or leads from one into the soil."""

    SOURCE = auto()
    CELLS = auto()
    DRAW = auto()
    WINDING = auto()
    SOIL = auto()


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

    ``root``: the part whose block it is. ``owner``: the id of the run or seat; ``end``: at which
    of its two ends. ``elsewhere``: its block stands on another strip.
    """

    block: str
    part: str
    terminal: str
    pins: tuple[Pin, ...]
    root: str
    owner: str = ""
    end: int = 0
    elsewhere: bool = False


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
    from_above: frozenset[Net] = frozenset()
    goes_on: frozenset[Net] = frozenset()
    """Nets whose bars come from an earlier piece, or go on in a later one."""
    elsewhere: str = ""
    """Where it stands, of what stands elsewhere: here is only one of its terminals."""


def ends_of(block: Block) -> Iterator[Net]:
    """The net of everything that ends at one, each as often as something does."""
    for port in block.ports:
        yield from (pin.net for pin in port.pins)
    for contact in block.contacts:
        yield from (contact.a, contact.b)
    for inner in block.inners:
        yield from inner.nets
    yield from (stub.near.net for stub in block.stubs)


@dataclass(frozen=True)
class Strip:
    """Some blocks that are laid out together; ``number`` and ``page`` counted from 1.

    ``airy``: its boards so long that what hangs on them lies straight beside them.
    """

    number: int
    page: int
    keys: tuple[str, ...]
    airy: bool = False


@dataclass
class Conductors:
    """Every block and ribbon of a design; ``missing``: ids of runs that join no conductor.

    ``doubtful``: parts that are inside otherwise in some case than is drawn. ``plans``: how all was
    divided, for each size of paper.
    """

    blocks: dict[str, Block]
    ribbons: list[Ribbon]
    missing: list[str] = field(default_factory=list)
    cases: int = 1
    doubtful: set[str] = field(default_factory=set)
    plans: dict[tuple[int, int, int], tuple[Conductors, Sequence[Strip]]] = field(
        default_factory=dict
    )


RANK = (
    *(Pole.L, Pole.L1, Pole.L2, Pole.L3, Pole.N),
    *(Pole.POS, Pole.MID, Pole.NEG),
    *(Pole.PEN, Pole.PE, Pole.BODY, Pole.EARTH),
)
"""The order in which conductors lie beside each other."""


def rank(pole: str) -> int:
    """The place of a conductor among others."""
    return RANK.index(Pole(pole)) if pole in RANK else len(RANK)
