"""Puts the set together; the same design, analysis and date give the same bytes."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

from linework.advice import with_proven_mends
from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.handover.assumed_pages import ASSUMED
from linework.handover.binding import Binding, Choose
from linework.handover.commissioning import COMMISSIONING
from linework.handover.content import Content
from linework.handover.cover import COVER
from linework.handover.diagram import DIAGRAM
from linework.handover.findings_pages import FINDINGS
from linework.handover.grounding import GROUNDING
from linework.handover.loops import FURTHER_LOOPS, LOOPS
from linework.handover.materials_page import MATERIALS
from linework.handover.operator import OPERATOR
from linework.handover.placards import PLACARDS
from linework.handover.schedules import DEVICES, RUNS, TRIPS
from linework.handover.sheets import Sheet
from linework.handover.sound import SOUND
from linework.handover.states import STATES
from linework.handover.testing import TESTS
from linework.handover.threeline import CONDUCTORS
from linework.sheet.frame import frame_of
from linework.sheet.papers import set_for
from linework.storage import StorageError
from linework.storage.files import write_bytes

SHEETS: tuple[Sheet, ...] = (
    COVER,
    FINDINGS,
    DIAGRAM,
    GROUNDING,
    OPERATOR,
    RUNS,
    DEVICES,
    LOOPS,
    TRIPS,
    TESTS,
    COMMISSIONING,
    PLACARDS,
    CONDUCTORS,
    FURTHER_LOOPS,
    ASSUMED,
    SOUND,
    STATES,
    MATERIALS,
)
"""The set in its order; what is annex stands behind."""


class HandoverError(Exception):
    """A set that could not be written; the message says where and what to do."""


def write_set(
    design: Design,
    path: Path,
    *,
    date: datetime.date,
    analysis: Analysis | None = None,
    paper: str = "",
    sheets: Sequence[Sheet] = SHEETS,
) -> None:
    """Write the drawing set. HandoverError where the file cannot be written."""
    data = set_bytes(design, date=date, analysis=analysis, paper=paper, sheets=sheets)
    try:
        write_bytes(data, path, keep=False)
    except StorageError as fault:
        raise HandoverError(str(fault)) from fault


def set_bytes(
    design: Design,
    *,
    date: datetime.date,
    analysis: Analysis | None = None,
    paper: str = "",
    sheets: Sequence[Sheet] = SHEETS,
) -> bytes:
    """The set as PDF bytes; equal design and date give equal bytes.

    A design that was never drawn is laid out first, and what lies off the paper is moved onto
    it. ``paper``: "" takes the design's; PaperError for one that there is not. ``sheets``: which,
    in this order.
    """
    return pages_bytes(content_of(design, date, analysis, paper), sheets)


def pages_bytes(
    content: Content, sheets: Sequence[Sheet] = SHEETS, choose: Choose | None = None
) -> bytes:
    """The set, or those of its pages that ``choose`` takes of all, with the numbers they have."""
    binding = Binding(content, sheets)
    if choose is None:
        return binding.whole()
    return binding.chosen(choose)


def content_of(
    design: Design, date: datetime.date, analysis: Analysis | None = None, paper: str = ""
) -> Content:
    """What all sheets are made from; the analysis is made anew where there is no whole one."""
    design = set_for(design, paper or design.settings.sheet)
    memory = None
    if analysis is None or analysis.partial:
        memory = Memory()
        analysis = with_proven_mends(design, analyse(design, memory=memory), memory)
    paper = frame_of(paper or design.settings.sheet).paper
    return Content(design, analysis, date, paper, memory=memory)
