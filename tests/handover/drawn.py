"""Samples and trial rigs by name: each drawn, analysed and printed once in a process, for all who
look at it. Nobody changes them: who does draws a design of its own."""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

from linework.analysis import Analysis, analyse
from linework.design import Design
from linework.handover.content import Content
from linework.handover.document import content_of, pages_bytes
from linework.storage import load
from tests.trial.rigs import RIGS

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
DATE = datetime.date(2026, 3, 1)
FIRST = "A3"


@cache
def design_of(name: str) -> Design:
    """A rig, or the sample of this name."""
    return RIGS[name]().design if name in RIGS else load(SAMPLES / f"{name}.linework")


@cache
def analysis_of(name: str) -> Analysis:
    """Its analysis, no mend proven."""
    return analyse(design_of(name))


@cache
def plain(name: str) -> Content:
    """What its sheets are made from, as drawn, no mend proven."""
    return Content(design_of(name), analysis_of(name), DATE)


@cache
def whole(name: str, paper: str = FIRST) -> Content:
    """What its set is made from, with the mends that are proven; on other papers by the same
    analysis."""
    if paper == FIRST:
        return content_of(design_of(name), DATE, None, paper)
    known = whole(name)
    return content_of(known.design, DATE, known.analysis, paper)


@cache
def printed(name: str, paper: str = FIRST) -> bytes:
    """Its set."""
    return pages_bytes(whole(name, paper))
