"""Runs on the sheet: their ways, and the lines and letters that are drawn along them."""

from linework.sheet.routing.callouts import jumpers_block, method_of, wanted_for_run
from linework.sheet.routing.cutting import CutSign, cut_sign, is_cut
from linework.sheet.routing.folding import body_end, frame_sign, is_body
from linework.sheet.routing.lanes import VECTORS, Polyline, simplified
from linework.sheet.routing.routing import (
    Drawings,
    connect,
    end_of,
    exit_of,
    is_drawn_here,
    on_one_sheet,
    route,
    routes,
    run_end,
    way_to,
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
    "CutSign",
    "Drawings",
    "Polyline",
    "body_end",
    "connect",
    "crossings",
    "cut_sign",
    "draw_run",
    "end_of",
    "exit_of",
    "frame_sign",
    "is_body",
    "is_cut",
    "is_drawn_here",
    "joints",
    "jumpers_block",
    "method_of",
    "on_one_sheet",
    "route",
    "routes",
    "run_end",
    "simplified",
    "wanted_for_run",
    "way_boxes",
    "way_to",
]
