"""Puts the set together; the same design, analysis and date give the same bytes."""

from __future__ import annotations

import datetime
import io
from collections.abc import Callable
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
)

from linework.advice import with_proven_mends
from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.handover.assumed_pages import assumed_pages
from linework.handover.content import Content
from linework.handover.cover import cover
from linework.handover.diagram import DiagramPage, diagram_pages
from linework.handover.findings_pages import findings_pages
from linework.handover.furniture import Furniture, page_size
from linework.handover.part_schedule import part_schedule
from linework.handover.schedules import device_schedule, fault_table, run_schedule
from linework.handover.states import state_pages
from linework.handover.styles import REGULAR
from linework.picture.fonts import printed
from linework.picture.pdf import use_fonts
from linework.sheet.arranging import lay_out, needs_arranging
from linework.storage import StorageError
from linework.storage.files import write_bytes
from linework.words import N_, language, say

Section = Callable[[Content, float], list[Flowable]]

SECTIONS: tuple[tuple[str, str, Section], ...] = (
    (N_("State table"), "states", state_pages),
    (N_("Part schedule"), "parts", part_schedule),
    (N_("Run schedule"), "runs", run_schedule),
    (N_("Device schedule"), "devices", device_schedule),
    (N_("Faults and what ends them"), "faults", fault_table),
    (N_("Findings"), "findings", findings_pages),
    (N_("Assumed values"), "assumed", assumed_pages),
)


class HandoverError(Exception):
    """A set that could not be written; the message says where and what to do."""


def write_set(
    design: Design, path: Path, *, date: datetime.date, analysis: Analysis | None = None
) -> None:
    """Write the drawing set. HandoverError where the file cannot be written."""
    data = set_bytes(design, date=date, analysis=analysis)
    try:
        write_bytes(data, path, keep=False)
    except StorageError as fault:
        raise HandoverError(str(fault)) from fault


def set_bytes(design: Design, *, date: datetime.date, analysis: Analysis | None = None) -> bytes:
    """The set as PDF bytes; equal design and date give equal bytes.

    A design that was never drawn, its parts all at one place, is laid out first.
    """
    if needs_arranging(design):
        design = lay_out(design)
    if analysis is None or analysis.partial:
        memory = Memory()
        analysis = with_proven_mends(design, analyse(design, memory=memory), memory)
    content = Content(design, analysis, date)
    pages = _build(content, total=0)[1]
    return _build(content, total=pages)[0]


def _build(content: Content, total: int) -> tuple[bytes, int]:
    """One pass; the first only counts the sheets."""
    use_fonts()
    out = io.BytesIO()
    document = _Set(out, content, total)
    document.build(_story(content, document), canvasmaker=_canvas)
    return out.getvalue(), document.page


def _canvas(*args: object, **named: object) -> Canvas:
    # The tag of a language (BCP 47) has a hyphen where a catalogue's code has an underscore.
    tag = language().replace("_", "-")
    return Canvas(*args, **{**named, "invariant": 1, "initialFontName": REGULAR, "lang": tag})


def _story(content: Content, document: _Set) -> list[Flowable]:
    story: list[Flowable] = [*cover(content, document.text_width)]
    for page in document.diagrams:
        story += [NextPageTemplate(page.name), PageBreak(), page]
    for title, anchor, section in SECTIONS:
        story += [NextPageTemplate(anchor), PageBreak(), _Titled(title, anchor)]
        story += section(content, document.text_width)
    return story


class _Titled(Flowable):  # type: ignore[misc]
    """Takes no room; names the section for the title block and the outline."""

    def __init__(self, title: str, anchor: str) -> None:
        super().__init__()
        self.title, self.anchor = title, anchor
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """An entry of the outline."""
        self.canv.bookmarkPage(f"section-{self.anchor}")
        self.canv.addOutlineEntry(say(self.title), f"section-{self.anchor}", level=0)


class _Set(BaseDocTemplate):  # type: ignore[misc]
    """The document: a page of text inside the frame, or a page that is one sheet of the diagram."""

    def __init__(self, out: io.BytesIO, content: Content, total: int) -> None:
        size = page_size(content.design.settings.sheet)
        settings = content.design.settings
        super().__init__(
            out,
            pagesize=size,
            title=printed(settings.job) or content.say("Drawing set"),
            author=printed(settings.drawn_by) or content.say("not named"),
            subject=content.say("Drawing set of a power system"),
        )
        furniture = Furniture(content, size, total)
        box = furniture.text_box
        self.text_width = box[2] - 12
        self.diagrams: list[DiagramPage] = diagram_pages(content, total)
        pages = [("cover", content.say("Cover"))]
        pages += [(anchor, content.say(title)) for title, anchor, _ in SECTIONS]
        self.addPageTemplates(
            [
                *(
                    PageTemplate(anchor, [Frame(*box, id="text")], onPage=furniture.painter(title))
                    for anchor, title in pages
                ),
                *(
                    PageTemplate(page.name, [Frame(0, 0, *size, 0, 0, 0, 0)], onPage=page.number)
                    for page in self.diagrams
                ),
            ]
        )
