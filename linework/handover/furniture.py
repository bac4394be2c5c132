"""The frame and title block of every page, the same as round the drawing."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.pdfgen.canvas import Canvas

from linework.handover.content import Content
from linework.handover.drawn import painter_of
from linework.handover.sheets import Room, Sheet
from linework.picture.pdf import POINTS_PER_TENTH
from linework.sheet.frame import Frame, frame_of
from linework.sheet.titleblock import TitleBlock, revision_table, title_block, titled

_GAP = 40
"""Free inside the frame line, in tenths of a millimetre."""

_UPRIGHT = ("A4", "letter")
"""Papers on which text is set with the short side level, where more lines find room so."""


class Furniture:
    """Frame and title block of the pages of text of a set.

    ``total``: of all pages, as the title block says it.
    """

    def __init__(self, content: Content, total: int) -> None:
        self.content, self.total = content, total
        self.frame: Frame = frame_of(content.paper, upright=content.paper in _UPRIGHT)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the paper in points."""
        return self.frame.width * POINTS_PER_TENTH, self.frame.height * POINTS_PER_TENTH

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, width and height of the room for text, in points, above the title block."""
        area, high = self.frame.area, self.frame.height
        left, right = area.left + _GAP, area.right - _GAP
        top, bottom = area.top + _GAP, self.frame.block.top - _GAP // 2
        sides = (left, high - bottom, right - left, bottom - top)
        return tuple(side * POINTS_PER_TENTH for side in sides)  # type: ignore[return-value]

    @property
    def room(self) -> Room:
        """What a page may hold."""
        _, _, width, height = self.box
        return Room(width, height)

    @property
    def beside(self) -> float:
        """How much lower the first of several columns may go: at the left of the title block."""
        taken = revision_table(self.frame, self.title(1, ()).revisions)
        free = 0 if taken else self.frame.strip.width
        return (free >= self.frame.width // 3) * self.frame.strip.height * POINTS_PER_TENTH

    def paint(self, canvas: Canvas, page: int, on: Sequence[Sheet]) -> None:
        """What stands round the text of a page that is full, on which stand these sheets."""
        what = self.title(page, on)
        items = [*self.frame.items, *title_block(self.frame, what)]
        items += revision_table(self.frame, what.revisions)
        painter_of(canvas).paint(items, 0.0, self.size[1])

    def title(self, page: int, on: Sequence[Sheet]) -> TitleBlock:
        """The title block of one page, on which these sheets stand."""
        what = TitleBlock(
            _joined([self.content.say(sheet.title) for sheet in on]),
            document=self.content.say(on[0].document) if on else "",
            sheet=page,
            sheets=max(self.total, page),
            date=self.content.date.isoformat(),
        )
        return titled(self.content.design.settings, what)


def _joined(titles: Sequence[str]) -> str:
    """The titles of what stands on one page; of many the first and the last."""
    return " · ".join(titles) if len(titles) < 3 else f"{titles[0]} – {titles[-1]}"
