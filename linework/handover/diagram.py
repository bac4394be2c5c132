"""The single-line diagram: the sheets of the design, replayed on paper with links and flags."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable
from reportlab.platypus.doctemplate import BaseDocTemplate

from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.picture.pdf import PdfPainter
from linework.sheet.compose import Composition, compose, sheet_numbers
from linework.sheet.laid import Options


class DiagramPage(Flowable):  # type: ignore[misc]
    """One sheet that fills its page."""

    def __init__(self, content: Content, sheet: int, total: int) -> None:
        super().__init__()
        self.content, self.sheet, self.total = content, sheet, total
        self.name = f"diagram-{sheet}"
        self._page = 0

    def number(self, canvas: Canvas, document: BaseDocTemplate) -> None:
        """The number of the page on which it comes to lie."""
        self._page = document.page

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The whole page."""
        return width, height - 1.0

    def draw(self) -> None:
        """Paint the sheet with its frame, and an entry of the outline."""
        title = self.content.say("Single-line diagram")
        canvas = self.canv
        canvas.bookmarkPage(self.name)
        suffix = f" {self.sheet}" if len(sheet_numbers(self.content.design)) > 1 else ""
        canvas.addOutlineEntry(title + suffix, self.name, level=0)
        # the flowable's own origin is the lower left corner of the page
        _painter(canvas).paint(self.composition().picture, 0.0, canvas._pagesize[1])

    def composition(self) -> Composition:
        """The sheet as it is painted."""
        options = Options(
            sheet=self.sheet,
            number=self._page,
            sheets=max(self.total, self._page),
            title=self.content.say("Single-line diagram"),
            date=self.content.date.isoformat(),
            links=True,
            more=board_lines(self.content),
        )
        return compose(self.content.design, self.content.analysis, "", options)


def _painter(canvas: Canvas) -> PdfPainter:
    """The one painter of a document: forms of two sheets must not bear the same name."""
    if not hasattr(canvas, "painter"):
        canvas.painter = PdfPainter(canvas)
    painter: PdfPainter = canvas.painter
    return painter


def diagram_pages(content: Content, total: int) -> list[DiagramPage]:
    """The sheets of the design in order."""
    return [DiagramPage(content, n, total) for n in sheet_numbers(content.design)]


def board_lines(content: Content) -> dict[str, tuple[str, ...]]:
    """Fault level at each board, over all states, to be written beside it."""
    found: dict[str, tuple[str, ...]] = {}
    for part in content.design.parts:
        if not content.design.kind(part).board:
            continue
        at = [
            f
            for r in content.reports
            for f in r.faults
            if f.part == part.id and f.weak_a > 1e-3 and f.kind != "metal"
        ]
        if at:
            least = value_text(min(f.weak_a for f in at), "current")
            most = value_text(max(f.strong_a for f in at), "current")
            found[part.id] = (content.say("fault {least} to {most}", least=least, most=most),)
    return found
