"""How plain a plan is once its runs are laid: what is chosen by, where there are several."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

from linework.design import changed
from linework.picture.geometry import Point
from linework.sheet.arranging.flow import Flow
from linework.sheet.parts import draw_parts
from linework.sheet.routing import Polyline, crossings, joints, routes

_CROSSING, _BEND, _LENGTH = 4.0, 1.0, 0.001
"""What a crossing costs, a bend, and a millimetre of line."""


def tangle(flow: Flow, at: Mapping[str, Point]) -> float:
    """What the lines cost between units that lie at these places on one sheet, jumpers aside."""
    ways = ways_between(flow, at)
    branches = set(joints(flow.design, ways))
    bends = sum(len(set(way[1:-1]) - branches) for way in ways.values())
    length = sum(
        abs(ax - bx) + abs(ay - by) for way in ways.values() for (ax, ay), (bx, by) in pairwise(way)
    )
    return _CROSSING * len(crossings(ways)) + _BEND * bends + _LENGTH * length / 10


def ways_between(flow: Flow, at: Mapping[str, Point]) -> dict[str, Polyline]:
    """The ways of the runs between units that lie at these places on one sheet, jumpers aside."""
    design = flow.design.snapshot()
    moved = [
        (part, replace(part, x=at[part.id][0], y=at[part.id][1]))
        for part in design.parts
        if part.id in at
    ]
    design.apply(changed("", moved))
    drawings = {
        key: drawing
        for key, drawing in draw_parts(design, at_origin=False).items()
        if flow.owner[key] in at
    }
    grounding = {run.id for run in design.runs if flow.is_grounding(run)}
    return {key: way for key, way in routes(design, drawings).items() if key not in grounding}
