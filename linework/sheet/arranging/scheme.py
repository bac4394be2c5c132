"""What is to be arranged: units with room for their writing, and joints by which power flows."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from linework.picture.geometry import MODULE, Box
from linework.picture.symbolfile import Direction

_SIGN = Box(0, -30, 500, 30)
"""The sign of another sheet, about the point where a line comes to it."""


@dataclass(frozen=True)
class Unit:
    """A part with all that sits in it, about its origin.

    ``roomy``: the box with its writing. ``direct``: it has to do with direct current only.
    ``in_line``: a fuse or switch, whose writing may stand above it or below.
    ``strip``: where its kind lies in the parts strip. ``rank``: the order of what wants to lie at
    one height.
    """

    id: str
    box: Box
    roomy: Box
    direct: bool
    strip: str
    board: bool = False
    rank: tuple[int, tuple[tuple[str, int], ...]] = (99, ())
    in_line: bool = False

    @property
    def is_load(self) -> bool:
        """Whether it is a load or an outlet."""
        return self.strip == "loads"

    @property
    def order(self) -> tuple[object, ...]:
        """Direct current below, then along the flow, then by name."""
        return (self.direct, *self.rank, self.id)


@dataclass(frozen=True, slots=True)
class Port:
    """Where a run ends at a unit, about its origin; ``name`` is the part's and the terminal's."""

    unit: str
    name: str
    x: int
    y: int
    side: Direction

    @property
    def is_level(self) -> bool:
        """Whether a run comes out to the left or right."""
        return self.side in ("left", "right")


@dataclass(frozen=True, slots=True)
class Joint:
    """Power flows from one unit to another. ``plug``: no run, but a plug in an outlet.

    ``meets``: no way says which; both give power to what they share.
    """

    id: str
    source: Port
    target: Port
    meets: bool = False
    direct: bool = False
    plug: bool = False

    @property
    def drops(self) -> bool:
        """Whether it goes straight down from one unit to the next."""
        return {self.source.side, self.target.side} == {"down", "up"}

    @property
    def ports(self) -> tuple[Port, Port]:
        """Both ends."""
        return self.source, self.target


@dataclass(frozen=True)
class Scheme:
    """Units by id, and the joints between them."""

    units: Mapping[str, Unit]
    joints: tuple[Joint, ...]

    def only(self, keys: Collection[str]) -> Scheme:
        """Some of the units; a joint that is cut goes to the sign of another sheet."""
        units = {key: unit for key, unit in self.units.items() if key in keys}
        joints: list[Joint] = []
        for joint in self.joints:
            out, into = joint.source.unit in units, joint.target.unit in units
            if out and into:
                joints.append(joint)
            elif out or into:
                sign = Unit(f"sign {joint.id}", _SIGN, _SIGN, joint.direct, "")
                units[sign.id] = sign
                joints.append(_to_sign(joint, sign.id, out))
        return Scheme(dict(sorted(units.items(), key=lambda one: one[1].order)), tuple(joints))


def _to_sign(joint: Joint, sign: str, out: bool) -> Joint:
    """The joint with a sign at the end that lies on another sheet."""
    if out:
        port = Port(sign, sign, _SIGN.left, 0, "left")
        return Joint(joint.id, joint.source, port, False, joint.direct)
    port = Port(sign, sign, _SIGN.right, 0, "right")
    return Joint(joint.id, port, joint.target, False, joint.direct)


def steps(value: int) -> int:
    """How many steps of the grid a length takes."""
    return -(-value // MODULE)


def up_to_grid(value: int) -> int:
    """The grid line at or after a figure."""
    return steps(value) * MODULE
