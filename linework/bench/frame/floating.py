"""Where the card floats: beside its part, over nothing that it need not cover, with a thin line."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from linework.bench.looks import tone
from linework.picture.inks import Ink

GAP = 26
_EDGE = 8


def place_beside(part: QRect, size: QSize, room: QRect, others: list[QRect]) -> QRect:
    """A rectangle of this size near a part, inside the room.

    It covers the part only if it must, and of the others as little as can be.
    """
    inside = room.adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)
    fitted = QSize(min(size.width(), inside.width()), min(size.height(), inside.height()))
    tries = [_pushed_in(QRect(corner, fitted), inside) for corner in _corners(part, fitted)]
    return min(tries, key=lambda rect: _cost(rect, part, others))


def regrown(lain: QRect, high: int, part: QRect, room: QRect) -> QRect:
    """The rectangle that lay there with another height. Its upper edge stays where it is, and it
    grows neither over its part below nor out of the room."""
    inside = room.adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)
    most = inside.bottom() + 1 - lain.top()
    beside = part.right() < lain.left() or part.left() > lain.right()
    if not beside and part.top() > lain.top() + GAP:
        most = min(most, part.top() - _EDGE - lain.top())
    return QRect(lain.topLeft(), QSize(lain.width(), max(1, min(high, most))))


def place_aside(size: QSize, room: QRect, others: list[QRect]) -> QRect:
    """A rectangle of this size at the edge of the room where it covers least of the others."""
    inside = room.adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)
    across = (inside.left(), inside.center().x() - size.width() // 2, inside.right() - size.width())
    down = (inside.top(), inside.bottom() - size.height())
    tries = [_pushed_in(QRect(QPoint(x, y), size), inside) for y in down for x in across]
    return min(tries, key=lambda rect: sum(_area(rect.intersected(other)) for other in others))


def _corners(part: QRect, size: QSize) -> list[QPoint]:
    """Left upper corners to try: at the four sides of the part, and shifted along them."""
    wide, high = size.width(), size.height()
    found = []
    for share in (0.33, 0.0, 0.66, 1.0):
        down = part.center().y() - round(high * share)
        across = part.center().x() - round(wide * share)
        for step in (1, 4, 8):
            gap = GAP * step
            found += [
                QPoint(part.right() + gap, down),
                QPoint(part.left() - gap - wide, down),
                QPoint(across, part.bottom() + gap),
                QPoint(across, part.top() - gap - high),
            ]
    return found


def _cost(rect: QRect, part: QRect, others: list[QRect]) -> float:
    covered = sum(_area(rect.intersected(other)) for other in others)
    away = (rect.center() - part.center()).manhattanLength()
    return 100.0 * _area(rect.intersected(part)) + covered + 20.0 * away


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
