"""Puts the set together; the same design, analysis and date give the same bytes."""

from __future__ import annotations

import datetime
import io
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Spacer,
)

from linework.advice import with_proven_mends
from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.handover.assumed_pages import ASSUMED
from linework.handover.commissioning import COMMISSIONING
from linework.handover.content import Content
from linework.handover.cover import COVER
from linework.handover.diagram import DIAGRAM, DiagramPage
from linework.handover.findings_pages import FINDINGS
from linework.handover.furniture import Furniture
from linework.handover.grounding import GROUNDING
from linework.handover.loops import FURTHER_LOOPS, LOOPS
from linework.handover.materials_page import MATERIALS
from linework.handover.operator import OPERATOR
from linework.handover.pages import SetCanvas, spans
from linework.handover.placards import PLACARDS
from linework.handover.schedules import DEVICES, RUNS
from linework.handover.sheets import Sheet
from linework.handover.states import STATES
from linework.handover.styles import with_room
from linework.handover.testing import TESTS
from linework.handover.threeline import CONDUCTORS
from linework.handover.trips import TRIPS
from linework.picture.fonts import printed
from linework.picture.pdf import use_fonts
from linework.sheet.fitting import on_paper
from linework.sheet.frame import frame_of
from linework.storage import StorageError
from linework.storage.files import write_bytes

SHEETS: tuple[Sheet, ...] = (
    COVER,
    DIAGRAM,
    CONDUCTORS,
    GROUNDING,
    OPERATOR,
    RUNS,
    DEVICES,
    LOOPS,
    TRIPS,
    MATERIALS,
    FINDINGS,
    TESTS,
    COMMISSIONING,
    PLACARDS,
    STATES,
    FURTHER_LOOPS,
    ASSUMED,
)
"""The set in its order. What is annex stands behind, but for the drawing of the conductors: it is
read beside that of the lines."""

Choose = Callable[[Mapping[str, tuple[int, ...]]], Iterable[int]]
"""Takes pages of those of each sheet by its key, and of each page by its number."""


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
    content = replace(
        content,
        titles={sheet.key: sheet.title for sheet in sheets},
        annex=frozenset(sheet.key for sheet in sheets if sheet.annex),
    )
    pages: Mapping[str, int] = {}
    for _ in range(_PASSES):
        data, found, places, last = _build(replace(content, pages=pages), sheets, SetCanvas)
        if found == pages:
            break
        pages = found
    if choose is None:
        return data
    kept = frozenset(choose(spans(pages, places, last)))
    canvas = partial(SetCanvas, kept=kept, known=places)
    return _build(replace(content, pages=pages), sheets, canvas)[0]


_PASSES = 4
"""The first only counts the pages, the second names them; more where that moved one."""


def content_of(
    design: Design, date: datetime.date, analysis: Analysis | None = None, paper: str = ""
) -> Content:
    """What all sheets are made from; the analysis is made anew where there is no whole one."""
    design = on_paper(design)
    if analysis is None or analysis.partial:
        memory = Memory()
        analysis = with_proven_mends(design, analyse(design, memory=memory), memory)
    return Content(design, analysis, date, frame_of(paper or design.settings.sheet).paper)


def _build(
    content: Content, sheets: Sequence[Sheet], maker: Callable[..., SetCanvas]
) -> tuple[bytes, dict[str, int], dict[str, int], dict[str, int]]:
    """One pass: the bytes, the first page of each sheet, the page of all that has a name, the last
    page of each sheet of text."""
    use_fonts()
    out = io.BytesIO()
    document = _Set(out, content)
    made: list[SetCanvas] = []

    def canvas(*args: object, **named: object) -> SetCanvas:
        made.append(maker(*args, **named))
        return made[-1]

    document.build(document.story(sheets), canvasmaker=canvas)
    pages = {**document.first, "": document.page}
    return out.getvalue(), pages, made[-1].places, document.last


class _Titled(Flowable):  # type: ignore[misc]
    """Takes no room; names the sheet in the outline and notes on which page it begins."""

    def __init__(self, title: str, key: str, first: dict[str, int]) -> None:
        super().__init__()
        self.title, self.key, self.first = title, key, first
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """An entry of the outline."""
        self.first[self.key] = self.canv.getPageNumber()
        self.canv.bookmarkPage(f"section-{self.key}")
        self.canv.addOutlineEntry(self.title, f"section-{self.key}", level=0)


class _Ended(Flowable):  # type: ignore[misc]
    """Takes no room; notes on which page a sheet ends."""

    def __init__(self, key: str, last: dict[str, int]) -> None:
        super().__init__()
        self.key, self.last = key, last
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """Nothing to be seen."""
        self.last[self.key] = self.canv.getPageNumber()


_LEAST = 110.0
"""A sheet that goes on behind another begins where there is at least so much room (points)."""


class _Set(BaseDocTemplate):  # type: ignore[misc]
    """The document: pages of text inside the frame, and pages that are one sheet of the diagram."""

    def __init__(self, out: io.BytesIO, content: Content) -> None:
        settings = content.design.settings
        super().__init__(
            out,
            pagesize=Furniture(content, COVER, 0).size,
            title=printed(settings.job) or content.say("Drawing set"),
            author=printed(settings.drawn_by) or content.say("not named"),
            subject=content.say("Drawing set of a power system"),
        )
        self.content = content
        self.total = content.pages.get("", 0)
        self.first: dict[str, int] = {}
        self.last: dict[str, int] = {}

    def story(self, sheets: Sequence[Sheet]) -> list[Flowable]:
        """All that is set, with the change of template and page before each sheet."""
        story: list[Flowable] = []
        flows = False
        for sheet in sheets:
            furniture = Furniture(self.content, sheet, self.total)
            made = sheet.make(self.content, furniture.room)
            if sheet.whole:
                for page in made:
                    story += self._begin(self._whole(page, furniture), [page], bool(story))
            elif made:
                title = _Titled(self.content.say(sheet.title), sheet.key, self.first)
                made = [title, *made, _Ended(sheet.key, self.last)]
                if flows and sheet.flows:
                    story += [with_room(_LEAST), Spacer(1, 5 * mm), *made]
                else:
                    story += self._begin(self._text(sheet, furniture), made, bool(story))
            flows = sheet.flows if made else flows
        return story

    def titles_on(self, page: int) -> list[str]:
        """What stands on a page that is full, in its order."""
        here = [k for k, first in self.first.items() if first <= page <= self.last.get(k, page)]
        return [self.content.titles[key] for key in here if key in self.content.titles]

    def _begin(
        self, template: PageTemplate, content: list[Flowable], further: bool
    ) -> list[Flowable]:
        self.addPageTemplates([template])
        turn = [NextPageTemplate(template.id), PageBreak()] if further else []
        return [*turn, *content]

    def _text(self, sheet: Sheet, furniture: Furniture) -> PageTemplate:
        frames = [Frame(*column, 0, 0, 0, 0) for column in furniture.columns]
        paint = furniture.paint
        return PageTemplate(sheet.key, frames, onPageEnd=paint, pagesize=furniture.size)

    def _whole(self, page: DiagramPage, furniture: Furniture) -> PageTemplate:
        frame = Frame(0, 0, *furniture.size, 0, 0, 0, 0)
        return PageTemplate(page.name, [frame], onPage=page.number, pagesize=furniture.size)
