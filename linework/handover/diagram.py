"""The one-line diagram: the sheets of the design, replayed on paper with links and flags."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable
from reportlab.platypus.doctemplate import BaseDocTemplate

from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.drawn import painter_of
from linework.handover.sheets import Room, Sheet
from linework.sheet.compose import Composition, compose, sheet_numbers
from linework.sheet.laid import Options
from linework.words import N_


class DiagramPage(Flowable):  # type: ignore[misc]
    """One sheet that fills its page."""

    def __init__(self, content: Content, sheet: int) -> None:
        super().__init__()
        self.content, self.sheet = content, sheet
        self.name = f"diagram-{sheet}"
        self._page = 0

    def number(self, canvas: Canvas, document: BaseDocTemplate) -> None:
        """The number of the page on which it comes to lie."""
        self._page = document.page
        document.first.setdefault(DIAGRAM.key, document.page)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The whole page."""
        return width, height - 1.0

    def draw(self) -> None:
        """Paint the sheet with its frame, and an entry of the outline."""
        title = self.content.say("One-line diagram")
        canvas = self.canv
        canvas.bookmarkPage(self.name)
        suffix = f" {self.sheet}" if len(sheet_numbers(self.content.design)) > 1 else ""
        canvas.addOutlineEntry(title + suffix, self.name, level=0)
        # the flowable's own origin is the lower left corner of the page
        painter_of(canvas).paint(self.composition().picture, 0.0, canvas._pagesize[1])

    def composition(self) -> Composition:
        """The sheet as it is painted."""
        options = Options(
            sheet=self.sheet,
            number=self._page,
            paper=self.content.paper,
            sheets=max(self.content.pages.get("", 0), self._page),
            title=self.content.say("One-line diagram"),
            date=self.content.date.isoformat(),
            links=True,
            more=board_lines(self.content),
        )
        return compose(self.content.design, self.content.analysis, "", options)


def diagram_pages(content: Content, room: Room) -> list[Flowable]:
    """The sheets of the design in order."""
    return [DiagramPage(content, n) for n in sheet_numbers(content.design)]


DIAGRAM = Sheet(
    "diagram", N_("One-line diagram"), N_("one-line diagram"), diagram_pages, whole=True
)


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
