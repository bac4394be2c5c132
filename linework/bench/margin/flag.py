"""The flag of a finding as on the sheet: forked for danger, pointed for warning, else plain."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from linework.bench.looks import worn
from linework.picture.qt import sketch
from linework.sheet.signs import flag_box, flag_items


class FlagLabel(QWidget):
    """One flag at the size of the text beside it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = ("note", 0, False)

    def show_flag(self, level: str, number: int, accepted: bool) -> None:
        """``level``: danger, warning or note; ``number`` as on the sheet."""
        self._look = (level, number, accepted)
        self.updateGeometry()
        self.update()

    def _scale(self) -> float:
        """Pixels for a tenth of a millimetre: the cloth as high as a line of text."""
        return self.fontMetrics().height() / 46

    def sizeHint(self) -> QSize:
        """As large as the flag is drawn."""
        box, scale = flag_box(*self._look), self._scale()
        return QSize(round(box.width * scale) + 1, round(box.height * scale) + 1)

    def minimumSizeHint(self) -> QSize:
        """The same: a flag cut off says something else."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the flag as on the sheet."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box, scale = flag_box(*self._look), self._scale()
        painter.scale(scale, scale)
        painter.translate(-box.left, -box.top)
        sketch(flag_items(*self._look)).paint(painter, worn(), 1.0)
