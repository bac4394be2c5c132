"""The frame and title block of every page, the same as round the drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus.doctemplate import BaseDocTemplate

from linework.handover.content import Content
from linework.handover.drawn import painter_of
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import BETWEEN, WIDE
from linework.picture.model import Group, Item
from linework.picture.pdf import POINTS_PER_TENTH
from linework.sheet.frame import Frame, frame_of
from linework.sheet.titleblock import TitleBlock, revision_table, title_block, titled

_GAP = 40
"""Free inside the frame line, in tenths of a millimetre."""

_UPRIGHT = {"A3": "A4", "tabloid": "letter"}
"""The paper on which a set keeps what is carried about or cut out."""


class Furniture:
    """Frame and title block of one sheet's pages.

    ``total``: of all pages, as the title block says it.
    """

    def __init__(self, content: Content, sheet: Sheet, total: int) -> None:
        self.content, self.sheet, self.total = content, sheet, total
        paper = content.paper
        name = _UPRIGHT.get(paper, paper) if sheet.upright else paper
        upright = sheet.upright or (sheet.narrow and paper not in _UPRIGHT)
        self.frame: Frame = frame_of(name, upright)
        self._first = True

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
    def columns(self) -> list[tuple[float, float, float, float]]:
        """Of the same, what text is set in, from left to right."""
        left, bottom, width, height = self.box
        if not self.sheet.flows or width < WIDE:
            return [self.box]
        half = (width - BETWEEN) / 2
        return [(x, bottom, half, height) for x in (left, left + half + BETWEEN)]

    @property
    def room(self) -> Room:
        """What a column may hold."""
        _, _, width, height = self.columns[0]
        return Room(width, height)

    def paint(self, canvas: Canvas, document: BaseDocTemplate) -> None:
        """What stands round the text of a page that is full; the foot only on a sheet's first."""
        what = self.title(document.page, document.titles_on(document.page))
        items = [*self.frame.items, *title_block(self.frame, what)]
        items += revision_table(self.frame, what.revisions)
        if self._first:
            items += self._foot(self.sheet.foot, what)
        self._first = False
        painter_of(canvas).paint(items, 0.0, self.size[1])

    def _foot(
        self, foot: Callable[[Content, int, int], Iterable[Item]] | None, what: TitleBlock
    ) -> list[Item]:
        """What stands at the left of the title block, moved there."""
        strip = self.frame.strip
        taken = 0 if not revision_table(self.frame, what.revisions) else 520
        width = strip.width - taken - 2 * _GAP
        if foot is None or width < 300:
            return []
        items = tuple(foot(self.content, width, strip.height - _GAP))
        return [Group(items, strip.left + _GAP, strip.top + _GAP // 2)]

    def title(self, page: int, titles: Sequence[str]) -> TitleBlock:
        """The title block of one page, on which stand sheets of these titles."""
        what = TitleBlock(
            _joined([self.content.say(title) for title in titles]),
            document=self.content.say(self.sheet.document),
            sheet=page,
            sheets=max(self.total, page),
            date=self.content.date.isoformat(),
        )
        return titled(self.content.design.settings, what)


def _joined(titles: Sequence[str]) -> str:
    """The titles of what stands on one page; of many the first and the last."""
    return " · ".join(titles) if len(titles) < 3 else f"{titles[0]} … {titles[-1]}"
