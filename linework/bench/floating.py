"""Where the card floats: beside its part, over nothing that it need not cover, with a thin line."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from linework.bench.looks import tone
from linework.picture.inks import Ink

GAP = 26
_EDGE = 8


def place_beside(part: QRect, size: QSize, room: QRect) -> QRect:
    """A rectangle of this size beside a part, inside the room; over the part only if it must be."""
    inside = room.adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)
    wide, high = min(size.width(), inside.width()), min(size.height(), inside.height())
    across = part.center().x() - wide // 2
    down = part.center().y() - high // 3
    corners = (
        QPoint(part.right() + GAP, down),
        QPoint(part.left() - GAP - wide, down),
        QPoint(across, part.bottom() + GAP),
        QPoint(across, part.top() - GAP - high),
    )
    tries = [_pushed_in(QRect(corner, QSize(wide, high)), inside) for corner in corners]
    return min(tries, key=lambda rect: _area(rect.intersected(part)))


def _pushed_in(rect: QRect, inside: QRect) -> QRect:
    x = max(inside.left(), min(rect.x(), inside.right() + 1 - rect.width()))
    y = max(inside.top(), min(rect.y(), inside.bottom() + 1 - rect.height()))
    return QRect(QPoint(x, y), rect.size())


def _area(rect: QRect) -> int:
    return 0 if rect.isEmpty() else rect.width() * rect.height()


class Leash(QWidget):
    """The thin line from the card to its part; it lets the mouse through."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._sheet = parent
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._line = QLineF()
        self.hide()

    def join(self, part: QRect, card: QRect) -> None:
        """Draw from the edge of one to the edge of the other."""
        room = self._sheet.rect()
        visible = part.intersected(room)
        if visible.isEmpty() or visible.intersects(card):
            self.hide()
            return
        a = _nearest(visible, card.center())
        b = _nearest(card, a)
        a = _nearest(visible, b)
        frame = QRect(a, b).normalized().adjusted(-4, -4, 4, 4)
        self.setGeometry(frame)
        self._line = QLineF(a - frame.topLeft(), b - frame.topLeft())
        self.show()
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A line with a dot at the part."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tone(Ink.CHOSEN), 1.4))
        painter.drawLine(self._line)
        painter.setBrush(tone(Ink.CHOSEN))
        painter.drawEllipse(self._line.p1(), 2.5, 2.5)


def _nearest(rect: QRect, to: QPoint) -> QPoint:
    """The point of a rectangle that is nearest to another point."""
    x = max(rect.left(), min(to.x(), rect.right()))
    y = max(rect.top(), min(to.y(), rect.bottom()))
    return QPoint(x, y)
