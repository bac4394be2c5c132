"""Runs on the sheet: their ways, and the lines and letters that are drawn along them."""

from linework.sheet.routing.callouts import wanted_for_run
from linework.sheet.routing.lanes import VECTORS, Polyline, simplified
from linework.sheet.routing.routing import (
    Drawings,
    connect,
    end_of,
    exit_of,
    on_one_sheet,
    route,
    routes,
)
from linework.sheet.routing.runs import (
    BOW,
    Crossing,
    crossings,
    draw_run,
    joints,
    way_boxes,
)

__all__ = [
    "BOW",
    "VECTORS",
    "Crossing",
    "Drawings",
    "Polyline",
    "connect",
    "crossings",
    "draw_run",
    "end_of",
    "exit_of",
    "joints",
    "on_one_sheet",
    "route",
    "routes",
    "simplified",
    "wanted_for_run",
    "way_boxes",
]
