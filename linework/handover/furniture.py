"""The frame and title block of every page, the same as round the drawing."""

from __future__ import annotations

from collections.abc import Callable

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus.doctemplate import BaseDocTemplate

from linework.handover.content import Content
from linework.picture.pdf import POINTS_PER_TENTH, PdfPainter
from linework.sheet.frame import TitleBlock, frame_of, title_block

Box = tuple[float, float, float, float]

_GAP = 14.0


def page_size(paper: str) -> tuple[float, float]:
    """Width and height of a paper in points."""
    frame = frame_of(paper)
    return frame.width * POINTS_PER_TENTH, frame.height * POINTS_PER_TENTH


class Furniture:
    """Paints frame and title block of the text pages."""

    def __init__(self, content: Content, size: tuple[float, float], total: int) -> None:
        self.content, self.size, self.total = content, size, total
        self.frame = frame_of(content.design.settings.sheet)

    @property
    def text_box(self) -> Box:
        """Left, bottom, width and height of the room for text, in points, above the title block."""
        area, block = self.frame.area, self.frame.block
        left, right = area.left * POINTS_PER_TENTH + _GAP, area.right * POINTS_PER_TENTH - _GAP
        top = self.size[1] - area.top * POINTS_PER_TENTH - _GAP / 2
        bottom = self.size[1] - block.top * POINTS_PER_TENTH + _GAP / 2
        return left, bottom, right - left, top - bottom

    def painter(self, section: str) -> Callable[[Canvas, BaseDocTemplate], None]:
        """What a page template of this section paints before its text is set."""

        def paint(canvas: Canvas, document: BaseDocTemplate) -> None:
            block = title_block(self.frame, self.title(section, document.page))
            PdfPainter(canvas).paint([*self.frame.items, *block])

        return paint

    def title(self, section: str, page: int) -> TitleBlock:
        """The title block of one page."""
        settings = self.content.design.settings
        return TitleBlock(
            section,
            settings.job,
            settings.site,
            page,
            max(self.total, page),
            settings.revision,
            self.content.date.isoformat(),
            settings.drawn_by,
            settings.checked_by,
            self.content.edition,
        )
