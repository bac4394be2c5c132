"""The guide in a window of its own: contents and a field to find in them left, the page right."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, Qt, QUrl
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QTextDocument
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QSplitter,
    QTextBrowser,
    QToolButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from linework import data
from linework.bench.looks import em, tip, worn
from linework.guide import FIRST, Chapter, Shown, chapters, html_of, page, symbol_picture
from linework.picture.inks import Ink
from linework.picture.model import Group
from linework.picture.qt import PIXELS_PER_TENTH, sketch_group
from linework.words import say

_PAGE, _SYMBOL, _SHOT = "page", "symbol", "shot"
"""Schemes of the addresses on a page."""
_SYMBOL_ZOOM = 1.4
_KEY = Qt.ItemDataRole.UserRole


class GuideWindow(QWidget):
    """One window for all; the newest question is shown."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Dialog)
        self.setWindowTitle(say("Guide"))
        self._family, self.key = "", ""
        self._chapters: list[tuple[QTreeWidgetItem, list[QTreeWidgetItem]]] = []
        self.wanted = QLineEdit()
        self.wanted.setPlaceholderText(say("find in the guide"))
        self.wanted.setAccessibleName(say("Find in the guide"))
        self.wanted.setClearButtonEnabled(True)
        for button in self.wanted.findChildren(QToolButton):
            button.setAccessibleName(say("Empty the field"))
        self.contents = QTreeWidget()
        self.contents.setAccessibleName(say("Contents of the guide"))
        self.contents.setHeaderHidden(True)
        self.text = PageView()
        self._lay()
        self.wanted.textChanged.connect(self._sift)
        self.wanted.returnPressed.connect(self._open_first)
        self.contents.currentItemChanged.connect(self._chosen)
        self.text.anchorClicked.connect(self._follow)

    def _lay(self) -> None:
        side = QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.wanted)
        column.addWidget(self.contents)
        parts = QSplitter()
        parts.addWidget(side)
        parts.addWidget(self.text)
        parts.setStretchFactor(1, 1)
        parts.setSizes([em(self, 24), em(self, 48)])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(parts)
        self.resize(em(self, 74), em(self, 44))

    def open(self, key: str, family: str) -> None:
        """Show a page, the first where ``key`` is empty or names none, in a family's words."""
        if family != self._family:
            self._family = family
            self._fill()
        self.show_page(key)
        self.hide()  # shown anew, it comes to the front and takes the keys
        self.show()
        self.text.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_page(self, key: str) -> None:
        """Show the page with this key; the first one where there is none."""
        try:
            found = page(key or FIRST, self._family)
        except LookupError:
            found = page(FIRST, self._family)
        self.key = found.key
        self.text.setHtml(html_of(found, partial("{}:{}".format, _PAGE), _source))
        self._mark(found.key)

    # contents

    def _fill(self) -> None:
        self.contents.clear()
        self._chapters = [(_top(each), _entries(each)) for each in chapters(self._family)]
        for top, lines in self._chapters:
            self.contents.addTopLevelItem(top)
            top.addChildren(lines)
        self._chapters[0][0].setExpanded(True)
        self._sift(self.wanted.text())

    def _lines(self) -> list[QTreeWidgetItem]:
        return [line for _, lines in self._chapters for line in lines]

    def _sift(self, text: str) -> None:
        """Leave the pages all of whose words are in what they say."""
        words = text.casefold().split()
        for top, lines in self._chapters:
            for line in lines:
                line.setHidden(bool(words) and not self._says(line, words))
            top.setHidden(all(line.isHidden() for line in lines))
            top.setExpanded(top.isExpanded() or bool(words))

    def _says(self, line: QTreeWidgetItem, words: list[str]) -> bool:
        text = html_of(page(line.data(0, _KEY), self._family), str, _source).casefold()
        return all(word in text for word in words)

    def _open_first(self) -> None:
        for line in self._lines():
            if not line.isHidden():
                self.contents.setCurrentItem(line)
                return

    def _chosen(self, line: QTreeWidgetItem | None) -> None:
        key = line.data(0, _KEY) if line is not None else None
        if key and key != self.key:
            self.show_page(key)

    def _mark(self, key: str) -> None:
        for line in self._lines():
            if line.data(0, _KEY) == key:
                self.contents.setCurrentItem(line)
                self.contents.scrollToItem(line)

    def _follow(self, address: QUrl) -> None:
        if address.scheme() == _PAGE:
            self.show_page(address.path())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts the window away."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
            return
        super().keyPressEvent(event)


def _top(chapter: Chapter) -> QTreeWidgetItem:
    top = QTreeWidgetItem([chapter.title])
    top.setFlags(Qt.ItemFlag.ItemIsEnabled)
    return top


def _entries(chapter: Chapter) -> list[QTreeWidgetItem]:
    lines = []
    for entry in chapter.entries:
        lines.append(QTreeWidgetItem([entry.title]))
        lines[-1].setData(0, _KEY, entry.key)
        lines[-1].setToolTip(0, tip(entry.title))
    return lines


def _source(shown: Shown) -> str:
    return f"{_SYMBOL if shown.symbol else _SHOT}:{shown.name}"


class PageView(QTextBrowser):
    """Shows a page; its pictures are those of the program, its symbols are drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(say("Page of the guide"))
        self.setOpenLinks(False)
        self.setTabChangesFocus(True)

    def loadResource(self, kind: int, name: QUrl | str) -> object:
        """What stands at an address on the page."""
        address = QUrl(name)
        if kind == QTextDocument.ResourceType.ImageResource and address.scheme() == _SYMBOL:
            return symbol_image(address.path(), self.devicePixelRatioF())
        if kind == QTextDocument.ResourceType.ImageResource and address.scheme() == _SHOT:
            return self._shot(address.path())
        return super().loadResource(kind, name)

    def _shot(self, name: str) -> QImage:
        """A picture of the running program, no wider than the page."""
        file = f"guide/{name}.png"
        image = QImage(str(data.path(file))) if data.exists(file) else QImage()
        room = self.viewport().width() - 2 * em(self, 2)
        if image.width() > room > 0:
            mode = Qt.TransformationMode.SmoothTransformation
            image = image.scaledToWidth(room, mode)
        return image


def symbol_image(name: str, ratio: float) -> QImage:
    """A symbol as it lies on the sheet, in the colours that are worn."""
    drawing, scale = symbol_picture(name), _SYMBOL_ZOOM * PIXELS_PER_TENTH
    width, height = (round(side * scale * ratio) for side in (drawing.width, drawing.height))
    image = QImage(max(width, 1), max(height, 1), QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    palette = worn()
    image.fill(palette.color(Ink.PAPER))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setClipRect(QRectF(0, 0, width, height))
    painter.scale(scale, scale)
    sketch_group(Group(drawing.items)).paint(painter, palette, 1.0)
    painter.end()
    return image
