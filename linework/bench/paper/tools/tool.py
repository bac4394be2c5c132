"""The shape of a tool: it begins with a press, follows the pointer, and ends or is dropped."""

from __future__ import annotations

from dataclasses import dataclass

from linework.picture.geometry import Point


@dataclass(frozen=True, slots=True)
class Spot:
    """Where the pointer is: on the paper in tenths of a millimetre, in the window in pixels.

    ``adds``: the key that adds to what is chosen is held; ``asks``: the key by which a run asks
    which conductor goes where even if only one way is plain.
    """

    x: int
    y: int
    px: int = 0
    py: int = 0
    adds: bool = False
    asks: bool = False

    @property
    def at(self) -> Point:
        """The point on the paper."""
        return self.x, self.y


class Tool:
    """One interaction. Until it is released nothing has happened to the design."""

    def move(self, spot: Spot) -> None:
        """The pointer moved."""

    def release(self, spot: Spot) -> None:
        """The button was let go: at most one edit."""

    def cancel(self) -> None:
        """Dropped: whatever was shown goes, and nothing has happened."""
