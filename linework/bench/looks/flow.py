"""A layout that fills rows from the left and begins a new one where there is no more room."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class Flow(QLayout):
    """Items keep their own size; ``gap_x`` and ``gap_y`` lie between them."""

    def __init__(self, parent: QWidget | None = None, gap_x: int = 8, gap_y: int = 4) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap_x, self._gap_y = gap_x, gap_y
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """Take an item in at the end."""
        self._items.append(item)

    def count(self) -> int:
        """How many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """The item at a place, None beyond the last."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Give up the item at a place, None beyond the last."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """It wants no more room than it needs."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """The narrower, the more rows."""
        return True

    def heightForWidth(self, width: int) -> int:
        """The height of the rows at a width."""
        return self._laid(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        """Lay the items out."""
        super().setGeometry(rect)
        self._laid(rect, move=True)

    def sizeHint(self) -> QSize:
        """Room for the largest item; the rows follow from the width."""
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        """Room for the largest item."""
        least = QSize()
        for item in self._items:
            least = least.expandedTo(item.minimumSize())
        margins = self.contentsMargins()
        return least + QSize(margins.left() + margins.right(), margins.top() + margins.bottom())

    def _laid(self, rect: QRect, move: bool) -> int:
        """Lay the rows; the height they need."""
        inside = rect.marginsRemoved(self.contentsMargins())
        x, y, high = inside.x(), inside.y(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint()
            if x > inside.x() and x + size.width() > inside.right() + 1:
                x, y, high = inside.x(), y + high + self._gap_y, 0
            if move:
                item.setGeometry(QRect(QPoint(x, y), size))
            x += size.width() + self._gap_x
            high = max(high, size.height())
        margins = self.contentsMargins()
        return y + high - rect.y() + margins.bottom()
