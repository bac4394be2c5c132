"""A drawing that stands among text, and the one painter of a document."""

from __future__ import annotations

from collections.abc import Iterable

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from linework.picture.model import Item
from linework.picture.pdf import POINTS_PER_TENTH, PdfPainter


def painter_of(canvas: Canvas) -> PdfPainter:
    """The one painter of a document: forms of two sheets must not bear the same name."""
    if not hasattr(canvas, "painter"):
        canvas.painter = PdfPainter(canvas)
    painter: PdfPainter = canvas.painter
    return painter


class Drawn(Flowable):  # type: ignore[misc]
    """Items in tenths of a millimetre from a left upper corner, at their true size or at
    ``scale`` of it.

    ``width``, ``height``: the room they take at true size, in tenths of a millimetre.
    """

    def __init__(self, items: Iterable[Item], width: int, height: int, scale: float = 1.0) -> None:
        super().__init__()
        self.items, self.scale = tuple(items), scale
        self.width, self.height = (side * scale * POINTS_PER_TENTH for side in (width, height))

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As large as it was made."""
        return self.width, self.height

    def draw(self) -> None:
        """Paint it with its left upper corner at that of its room."""
        painter_of(self.canv).paint(self.items, 0.0, self.height, self.scale)
