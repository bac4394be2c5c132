"""The one-line diagram: the sheets of the design, replayed on paper with links and flags."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.handover.content import Content
from linework.handover.drawn import painter_of
from linework.handover.one_line import DrawnSheet, drawn_sheet
from linework.handover.sheets import Room, Sheet
from linework.picture.pdf import POINTS_PER_TENTH
from linework.sheet.parts import sheet_numbers
from linework.words import N_


class DiagramPage(Flowable):  # type: ignore[misc]
    """One sheet that fills its page."""

    def __init__(self, content: Content, sheet: int) -> None:
        super().__init__()
        self.content, self.sheet = content, sheet
        self.key, self.name = DIAGRAM.key, f"diagram-{sheet}"
        self.number = 0
        """That of the page on which it comes to lie."""

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its paper in points."""
        frame = self.content.drawing_frame
        return frame.width * POINTS_PER_TENTH, frame.height * POINTS_PER_TENTH

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The whole page."""
        return width, height - 1.0

    def draw(self) -> None:
        """Paint the sheet with its frame, and an entry of the outline."""
        title = self.content.say("One-line diagram")
        canvas = self.canv
        numbers = sheet_numbers(self.content.design)
        canvas.bookmarkPage(self.name)
        if self.sheet == numbers[0]:
            canvas.bookmarkPage(f"section-{DIAGRAM.key}")
        suffix = f" {self.sheet}" if len(numbers) > 1 else ""
        canvas.addOutlineEntry(title + suffix, self.name, level=0)
        drawn = self.drawn()
        left = (drawn.width * 10 - drawn.picture.width * drawn.scale) / 2 * POINTS_PER_TENTH
        above = (drawn.height * 10 - drawn.picture.height * drawn.scale) / 2 * POINTS_PER_TENTH
        # the flowable's own origin is the lower left corner of the page
        top = canvas._pagesize[1] - above
        painter_of(canvas).paint(drawn.picture, left, top, drawn.scale)

    def drawn(self) -> DrawnSheet:
        """The sheet as it is painted."""
        total = self.content.pages.get("", 0)
        return drawn_sheet(self.content, self.sheet, self.number, total, links=True)


def diagram_pages(content: Content, room: Room) -> list[Flowable]:
    """The sheets of the design in order."""
    return [DiagramPage(content, n) for n in sheet_numbers(content.design)]


DIAGRAM = Sheet(
    "diagram", N_("One-line diagram"), N_("one-line diagram"), diagram_pages, whole=True
)
