"""The parts strip under the paper: every kind, in the order in which power flows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from PySide6.QtCore import QByteArray, QMimeData, QPoint, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QDrag,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Label, mark, tip
from linework.bench.paper import KIND_MIME
from linework.design import Design, Part, Settings
from linework.kinds import Kind, Ratings, kinds
from linework.picture.inks import Ink
from linework.picture.palettes import LIGHT, Palette
from linework.picture.qt import PIXELS_PER_TENTH, Sketch, sketch_group
from linework.sheet.parts import draw_part
from linework.words import N_, say

HEADINGS = {
    "sources": N_("Sources"),
    "conversion": N_("Conversion"),
    "switching": N_("Switching"),
    "protection": N_("Protection"),
    "distribution": N_("Distribution"),
    "loads": N_("Loads"),
    "grounding": N_("{Grounding}"),
}
"""By place in the strip."""

_LARGEST = 0.9
"""Symbols are shown at this zoom at most; larger ones are made to fit."""
_LINES = {1: 5.0, 2: 3.9}
"""Height of a tile in lines of its writing, by the number of rows."""
_WRITING = 0.92
"""Writing on tiles against the window's."""
_ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)
_PLACES = "2"
"""A board on its tile has so many places."""


class KindTile(QAbstractButton):
    """One kind: its symbol over its name. Dragged out it carries the kind to the sheet.

    ``walked``: an arrow key was pressed.
    """

    walked = Signal(object)

    def __init__(self, kind: Kind, family: str, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self.kind = kind
        self._palette = palette
        self._sketch = _sketch(kind, family)
        self._pressed_at: QPoint | None = None
        self._lines = _LINES[1]
        font = self.font()
        font.setPointSizeF(font.pointSizeF() * _WRITING)
        self.setFont(font)
        name = say(kind.name, family=family)
        self.setText(name)
        self.setAccessibleName(name)
        self.setAccessibleDescription(say("Drag onto the sheet, or press Enter to place it."))
        self.setToolTip(
            tip(say("{name}: drag onto the sheet, or press Enter to place it", name=name))
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)

    def use_palette(self, palette: Palette) -> None:
        """Show the same in other colours."""
        self._palette = palette
        self.update()

    def use_rows(self, rows: int) -> None:
        """Be one of so many rows: lower in two than in one."""
        self._lines = _LINES[rows]
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """As the font wants it: as wide as the name needs in two lines, under the symbol."""
        metrics = self.fontMetrics()
        two, step = 2 * metrics.lineSpacing(), metrics.averageCharWidth()
        wrap = int(Qt.TextFlag.TextWordWrap)
        width = 7 * step
        while (
            needed := metrics.boundingRect(QRect(0, 0, width, 999), wrap, self.text())
        ).height() > two or needed.width() > width:
            width += step
        return QSize(width + 6, round(self._lines * metrics.lineSpacing()) + 6)

    def minimumSizeHint(self) -> QSize:
        """Not smaller."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Symbol, name, and where the focus is."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        color = self._palette.color
        over = self.underMouse() or self.isDown()
        painter.setBrush(QColor(color(Ink.CHOSEN_FIELD if over else Ink.PAPER)))
        focused = self.hasFocus()
        edge = QColor(color(Ink.CHOSEN if focused else Ink.FAINT))
        painter.setPen(QPen(edge, 2.0 if focused else 1.0))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 5, 5)
        lines = self.fontMetrics().lineSpacing() * 2
        self._paint_symbol(painter, self.rect().adjusted(6, 4, -6, -lines - 4))
        painter.setPen(QColor(color(Ink.INK)))
        below = self.rect().adjusted(3, self.height() - lines - 3, -3, -2)
        flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(below, int(flags) | int(Qt.TextFlag.TextWordWrap), self.text())

    def _paint_symbol(self, painter: QPainter, room: QRect) -> None:
        paint_in(painter, self._sketch, QRectF(room), self._palette)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """The begin of a click or a drag."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._pressed_at = event.position().toPoint()
        super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Far enough from where it was pressed the part is on its way."""
        if self._pressed_at is None or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        way = event.position().toPoint() - self._pressed_at
        if way.manhattanLength() >= QApplication.startDragDistance():
            self._pressed_at = None
            self.setDown(False)
            self.drag().exec(Qt.DropAction.CopyAction)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click is over."""
        self._pressed_at = None
        super().mouseReleaseEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows are the strip's: a button would go on in the order of Tab, and the area scroll."""
        if event.key() in _ARROWS:
            self.walked.emit(event.key())
        else:
            super().keyPressEvent(event)

    def drag(self) -> QDrag:
        """What is carried: the key of the kind, under the symbol as a picture."""
        drag = QDrag(self)
        data = QMimeData()
        data.setData(KIND_MIME, QByteArray(self.kind.key.encode()))
        drag.setMimeData(data)
        room = QSize(64, 40)
        picture = QPixmap(room)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setOpacity(0.35)
        paint_in(painter, self._sketch, QRectF(QPointF(0, 0), room.toSizeF()), self._palette)
        painter.end()
        drag.setPixmap(picture)
        drag.setHotSpot(QPoint(room.width() // 2, room.height() // 2))
        return drag


def paint_in(painter: QPainter, ready: Sketch, room: QRectF, palette: Palette) -> None:
    """Paint a symbol in the middle of a room, at most at its usual size."""
    box = ready.box
    if box is None or room.isEmpty():
        return
    scale = min(
        _LARGEST * PIXELS_PER_TENTH,
        room.width() / max(box.width, 1),
        room.height() / max(box.height, 1),
    )
    painter.save()
    painter.translate(room.center())
    painter.scale(scale, scale)
    painter.translate(-(box.left + box.right) / 2, -(box.top + box.bottom) / 2)
    # Writing in a symbol belongs to it: it is drawn however small the symbol is shown.
    ready.paint(painter, palette, max(scale / PIXELS_PER_TENTH, 0.5))
    painter.restore()


def _sketch(kind: Kind, family: str) -> Sketch:
    design = Design(Settings(family=family))
    few = Ratings.of({"places": _PLACES}) if "places" in kind.declared else Ratings()
    return sketch_group(draw_part(design, Part("tile", kind.key, "", few)).group)


@dataclass(frozen=True)
class _Group:
    """The tiles of one place in the strip, in a grid of their own."""

    grid: QGridLayout
    tiles: tuple[KindTile, ...]

    def columns(self, rows: int) -> int:
        return -(-len(self.tiles) // rows)

    def arrange(self, rows: int) -> None:
        for number, tile in enumerate(self.tiles):
            tile.use_rows(rows)
            row, column = divmod(number, self.columns(rows))
            self.grid.addWidget(tile, row, column)


class PartsStrip(QWidget):
    """All kinds in groups, side by side; in two rows where one would not fit into the window.

    ``chosen`` carries the key of a kind to be placed.
    """

    chosen = Signal(object)

    def __init__(
        self, family: str, parent: QWidget | None = None, palette: Palette = LIGHT
    ) -> None:
        super().__init__(parent)
        self._palette = palette
        self._family = family
        self.tiles: list[KindTile] = []
        self._groups: list[_Group] = []
        self._rows = 1
        self.setAccessibleName(say("Parts"))
        self._area = QScrollArea(self)
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setWidgetResizable(True)
        self._area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._fill()

    def set_family(self, family: str) -> None:
        """Say and draw everything as this family does."""
        if family != self._family:
            self._family = family
            self._fill()

    def use_palette(self, palette: Palette) -> None:
        """Show the same in other colours."""
        self._palette = palette
        for tile in self.tiles:
            tile.use_palette(palette)

    def _fill(self) -> None:
        self.tiles.clear()
        self._groups.clear()
        inner = QWidget()
        row = QHBoxLayout(inner)
        row.setContentsMargins(8, 3, 8, 5)
        row.setSpacing(9)
        for place, group in groupby(kinds().values(), key=lambda kind: kind.strip):
            row.addLayout(self._group(place, group, inner))
        row.addStretch(1)
        self._area.setWidget(inner)
        self._arrange()

    def _group(self, place: str, kinds_there: Iterator[Kind], parent: QWidget) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(2)
        heading = Label(say(HEADINGS[place], family=self._family), parent)
        mark(heading, "tone", "quiet")
        column.addWidget(heading)
        tiles = tuple(KindTile(kind, self._family, self._palette, parent) for kind in kinds_there)
        for tile in tiles:
            tile.clicked.connect(lambda _=False, key=tile.kind.key: self.chosen.emit(key))
            tile.walked.connect(self._walk)
        grid = QGridLayout()
        grid.setSpacing(3)
        self.tiles += tiles
        self._groups.append(_Group(grid, tiles))
        column.addLayout(grid)
        return column

    def _arrange(self) -> None:
        """One row where it fits, else two; a scroll bar only where two do not fit either."""
        inner = self._area.widget()
        layout = inner.layout() if inner is not None else None
        if inner is None or layout is None:
            return
        for rows in _LINES:
            self._rows = rows
            for group in self._groups:
                group.arrange(rows)
            layout.activate()
            wide = layout.minimumSize().width()
            if wide <= self.width():
                break
        bar = self._area.horizontalScrollBar().sizeHint().height() if wide > self.width() else 0
        self.setFixedHeight(layout.minimumSize().height() + bar)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width may want another number of rows."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._arrange()
        # No layout of its own: that would put the old height back once the new one is set here.
        self._area.setGeometry(self.rect())

    def tile(self, kind: str) -> KindTile:
        """The tile of a kind. KeyError if there is none."""
        for tile in self.tiles:
            if tile.kind.key == kind:
                return tile
        raise KeyError(kind)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter places the kind, Home and End go to the first and last."""
        focused = self._focused()
        if focused is None:
            super().keyPressEvent(event)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.chosen.emit(self.tiles[focused].kind.key)
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self._focus(0 if event.key() == Qt.Key.Key_Home else len(self.tiles) - 1)
        else:
            super().keyPressEvent(event)

    def _focused(self) -> int | None:
        return next((at for at, tile in enumerate(self.tiles) if tile.hasFocus()), None)

    def _walk(self, key: Qt.Key) -> None:
        """Left and right go from tile to tile and round, up and down to the other row."""
        focused = self._focused()
        if focused is None:
            return
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._focus(self._across(focused, down=key == Qt.Key.Key_Down))
        else:
            self._focus((focused + (1 if key == Qt.Key.Key_Right else -1)) % len(self.tiles))

    def _across(self, number: int, *, down: bool) -> int:
        """The tile in the other row of the same group; this one where there is none."""
        first = 0
        for group in self._groups:
            if number < first + len(group.tiles):
                step = group.columns(self._rows) if down else -group.columns(self._rows)
                there = first <= number + step < first + len(group.tiles)
                return number + step if there else number
            first += len(group.tiles)
        return number

    def _focus(self, number: int) -> None:
        tile = self.tiles[number]
        tile.setFocus(Qt.FocusReason.TabFocusReason)
        self._area.ensureWidgetVisible(tile, 40, 0)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel goes along the strip."""
        bar = self._area.horizontalScrollBar()
        turned = event.angleDelta().y() or event.angleDelta().x()
        bar.setValue(bar.value() - turned)
        event.accept()
