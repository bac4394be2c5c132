"""What floats over the sheet: the card with its line, the outlet tester, the start card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QRect, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QVBoxLayout, QWidget

from linework.bench.card import Card, TesterBars
from linework.bench.file import StartCard
from linework.bench.frame.floating import Leash, place_aside, place_beside, regrown
from linework.bench.levers import WalkTag
from linework.bench.looks import Label, em, true_height
from linework.bench.paper import SheetView
from linework.design import Part
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport
    from linework.study.tester import Reading


class TesterTag(QFrame):
    """The tester's three bars beside an outlet that the pointer rests on."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAutoFillBackground(True)
        self.setAccessibleName(say("Outlet tester"))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._layout = QVBoxLayout(self)
        self.title = Label(bold=True)
        self._layout.addWidget(self.title)
        self._bars: TesterBars | None = None
        self.setFixedWidth(em(self, 24))
        self.hide()

    def show_reading(self, title: str, reading: Reading, family: str) -> None:
        """Show what the instrument would say there."""
        if self._bars is None or self._bars.family != family:
            if self._bars is not None:
                self._bars.deleteLater()
            self._bars = TesterBars(family)
            self._layout.addWidget(self._bars)
        self.title.setText(say("Outlet tester at {title}", title=title))
        self._bars.show_reading(reading)
        self.show()
        self.raise_()

    def wanted_height(self) -> int:
        """How high it is with everything it says."""
        return true_height(self, self._layout)


class Overlay(QObject):
    """Keeps what floats in its place while the sheet moves under it."""

    def __init__(self, view: SheetView, card: Card, start: StartCard) -> None:
        super().__init__(view)
        self.view, self.card, self.start = view, card, start
        self.leash, self.tester, self.walk = Leash(view), TesterTag(view), WalkTag(view)
        self._hovered: tuple[str, StateReport | None, bool] = ("", None, False)
        self._walked = ""
        self._about: object = None
        self._part = QRect()
        self.walk.left.connect(self.end_walk)
        view.installEventFilter(self)
        view.viewed.connect(lambda _: self.settle())
        card.resized.connect(self.settle)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Settle again when the sheet has another size; Escape first ends a walk."""
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Show):
            self.settle()
        if not isinstance(event, QKeyEvent) or event.key() != Qt.Key.Key_Escape:
            return False
        walked = event.type() is QEvent.Type.KeyPress and self.walk.isVisible()
        if walked:
            self.end_walk()
        return walked

    def settle(self) -> None:
        """Put everything where it belongs."""
        self._settle_start()
        if not self.card.isVisible() or not self.card.element_id:
            self._about = None
            self.leash.hide()
            return
        part = self.view.rect_of(self.card.element_id)
        self._place_card(part)
        self.leash.join(part, self.card.geometry())
        self.leash.raise_()
        self.card.raise_()

    def _place_card(self, part: QRect) -> None:
        """Beside its part, with room to say more. There it stays, whatever comes in, until a hand
        moves the part, the sheet or the card."""
        room, size = self.view.rect(), QSize(self.card.width(), self.card.wanted_height())
        about = self._lain()
        if about != self._about and not self.card.moved_by_hand:
            most = size + QSize(0, self.card.told.spare_height())
            self.card.setGeometry(place_beside(part, most, room, self._others()))
            self._part = part
        self._about = about
        part = QRect() if self.card.moved_by_hand else self._part
        self.card.setGeometry(regrown(self.card.geometry(), size.height(), part, room))

    def _lain(self) -> object:
        """What a hand can move: where the part lies, and what of the sheet is in view."""
        element = self.view.design.get(self.card.element_id)
        at = (element.x, element.y, element.turn) if isinstance(element, Part) else ()
        return self.card.element_id, at, self.view.viewportTransform(), self.view.rect()

    def _others(self) -> list[QRect]:
        """What else is drawn, and better not covered."""
        room = self.view.rect()
        parts = (part.id for part in self.view.design.parts if part.id != self.card.element_id)
        return [rect for key in parts if (rect := self.view.rect_of(key)).intersects(room)]

    def _settle_start(self) -> None:
        if not self.start.isVisible():
            return
        size = self.start.sizeHint()
        room = self.view.rect()
        rect = QRect(0, 0, self.start.width(), size.height())
        rect.moveCenter(room.center())
        self.start.setGeometry(rect)
        self.start.raise_()

    # the walk through the states

    def walk_to(self, key: str) -> None:
        """The state of this key comes next; what is told of the last one stays until it does."""
        self._walked = key

    def show_walk(self, key: str, title: str, lines: tuple[str, ...]) -> None:
        """Show the state of this key and what changed, at the same place while there is room."""
        lay = self.walk.geometry() if self.walk.isVisible() else QRect()
        self.walk_to(key)
        self.walk.show_step(title, lines)
        room, size = self.view.rect(), self.walk.size()
        lain = QRect(lay.topLeft(), size)
        place = lain if lay.isValid() and room.contains(lain) else None
        self.walk.setGeometry(place or place_aside(size, room, self._others()))

    def end_walk(self) -> None:
        """Put it away; who walked on it by its buttons is on the sheet again."""
        inside = self.walk.isAncestorOf(QApplication.focusWidget() or self.view)
        self.walk.hide()
        if inside:
            self.view.setFocus()

    def follow_walk(self, key: str) -> None:
        """Another state is shown: what is told of the walk is over where it is not that one."""
        if self.walk.isVisible() and key != self._walked:
            self.end_walk()

    # the outlet tester

    @property
    def hovered(self) -> str:
        """What the pointer is on, "" for nothing."""
        return self._hovered[0]

    def hover(self, element_id: str, title: str, report: StateReport | None, family: str) -> None:
        """The pointer is on this element ("" on none): show the tester where it is an outlet."""
        on_card = element_id == self.card.element_id
        if (element_id, report, on_card) == self._hovered:
            return
        self._hovered = element_id, report, on_card
        reading = report.reading(element_id) if report else None
        if reading is None or on_card:
            self.tester.hide()
            return
        self.tester.show_reading(title, reading, family)
        size = QSize(self.tester.width(), self.tester.wanted_height())
        place = place_beside(self.view.rect_of(element_id), size, self.view.rect(), [])
        self.tester.setGeometry(place)
