"""What a press of the button begins: by what lies there, and which keys are held."""

from __future__ import annotations

from linework.bench.paper.hits import Hit
from linework.bench.paper.surface import Surface
from linework.bench.paper.tools.band import BandTool
from linework.bench.paper.tools.bend import BendTool
from linework.bench.paper.tools.drag import DragTool
from linework.bench.paper.tools.join import JoinTool
from linework.bench.paper.tools.tool import Spot, Tool
from linework.design import End


def begin(surface: Surface, spot: Spot, found: Hit) -> Tool | None:
    """The tool for a press; None where a press is only a click.

    What is pressed becomes chosen, unless it was already; with the adding key it is added or
    taken out again.
    """
    if found.sort == "terminal":
        return JoinTool(surface, End(found.element, found.terminal))
    if found.sort in ("paper", "desk"):
        return BandTool(surface, spot)
    if not found.element:
        return None
    choose(surface, found.element, spot.adds)
    if found.element not in surface.selection:
        return None
    if found.sort in ("part", "note"):
        return DragTool(surface, spot, surface.selection)
    if found.sort == "run" and found.element in surface.layout.ways:
        return BendTool(surface, spot, found.element)
    return None


def choose(surface: Surface, element: str, adds: bool) -> None:
    """Choose an element; with the adding key, besides the others or no longer."""
    chosen = surface.selection
    if adds and element in chosen:
        surface.select(key for key in chosen if key != element)
    elif adds:
        surface.select((*chosen, element))
    elif element not in chosen:
        surface.select((element,))
