"""Puts a new part of a kind where it is let go: into a place, into a run, or on the paper."""

from __future__ import annotations

from linework.bench.paper.edits import Answers
from linework.bench.paper.overlay import Figure
from linework.bench.paper.surface import Surface, snapped_point
from linework.bench.paper.targets import Target, placed, target_of_kind
from linework.bench.paper.tools.tool import Spot, Tool
from linework.design import Part
from linework.kinds import Ratings
from linework.picture.geometry import Box
from linework.sheet.parts import draw_part
from linework.words import say

_NOT_YET = "new part"
_SPOT = 30


class PlaceTool(Tool):
    """A part from the strip on its way to the sheet."""

    def __init__(self, surface: Surface, kind: str, answers: Answers | None = None) -> None:
        self._surface = surface
        self._kind = kind
        self._answers: Answers = answers or {}
        part = Part(_NOT_YET, kind, "", Ratings.of(self._answers), sheet=surface.sheet)
        drawing = draw_part(surface.design, part)
        surface.show_ghost([Figure(drawing.group, 0, 0)])

    def _target(self, spot: Spot) -> Target:
        surface = self._surface
        return target_of_kind(surface.design, surface.layout, self._kind, spot.at, surface.slop)

    def move(self, spot: Spot) -> None:
        """The ghost follows; the place or run that would take it lights up, or says why not."""
        self._surface.move_ghost(*snapped_point(spot.at))
        target = self._target(spot)
        self._surface.hint(target.refusal or self._said(target))
        free = target.sort == "paper" or target.refusal
        box = Box(target.x, target.y, target.x, target.y).grown(_SPOT)
        self._surface.show_field(None if free else box)

    def _said(self, target: Target) -> str:
        if target.sort == "place":
            host = self._surface.design.part(target.element)
            return say("into {host}, place {place}", host=host.designation, place=target.place)
        return say("into this run") if target.sort == "run" else ""

    def release(self, spot: Spot) -> None:
        """One edit; the new part is then chosen."""
        surface = self._surface
        surface.clear()
        target = self._target(spot)
        at = snapped_point(spot.at)
        change = surface.make(
            lambda: placed(surface.design, self._kind, target, at, surface.sheet, self._answers)
        )
        if change is not None:
            pairs = change.pairs.values()
            surface.select(new.id for old, new in pairs if old is None and isinstance(new, Part))

    def cancel(self) -> None:
        """The ghost goes."""
        self._surface.clear()
