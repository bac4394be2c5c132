"""Draws up a band and chooses what lies wholly inside it."""

from __future__ import annotations

from linework.bench.paper.hits import inside
from linework.bench.paper.surface import Surface
from linework.bench.paper.tools.tool import Spot, Tool
from linework.picture.geometry import Box, box_around


class BandTool(Tool):
    """A band from where the button went down."""

    def __init__(self, surface: Surface, start: Spot) -> None:
        self._surface = surface
        self._start = start
        self._before = surface.selection if start.adds else ()

    def _band(self, spot: Spot) -> Box:
        return box_around((self._start.at, spot.at))

    def move(self, spot: Spot) -> None:
        """The band follows."""
        self._surface.show_field(self._band(spot))

    def release(self, spot: Spot) -> None:
        """What lies inside is chosen; with the adding key besides what was chosen before."""
        self._surface.clear()
        found = inside(self._surface.design, self._surface.layout, self._band(spot))
        self._surface.select(dict.fromkeys((*self._before, *found)))

    def cancel(self) -> None:
        """The band goes; what was chosen stays."""
        self._surface.clear()
