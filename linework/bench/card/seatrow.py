"""The card's row that says where a part sits, or to which outlets a plug can be carried."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from linework.bench.card import seating
from linework.bench.card.seating import Spot
from linework.bench.looks import Combo
from linework.design import Design, Part
from linework.design.names import natural
from linework.words import say


class SeatRow(QWidget):
    """``placed`` (Spot or None) for what sits in one place; ``allowed`` (Spot, bool) for a plug."""

    placed = Signal(object)
    allowed = Signal(object, bool)

    def __init__(self, design: Design, part: Part, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        held, free = seating.spots_of(design, part), seating.free_spots(design, part)
        if seating.moved_by_hand(design, part):
            for spot in sorted((*held, *free), key=lambda s: natural(s.label)):
                layout.addWidget(self._check(spot, spot in held))
        else:
            layout.addWidget(self._list(held, free))

    def _check(self, spot: Spot, held: bool) -> QCheckBox:
        box = QCheckBox(spot.label)
        box.setChecked(held)
        box.setAccessibleName(say("Goes into {place}", place=spot.label))
        box.toggled.connect(lambda on: self.allowed.emit(spot, on))
        return box

    def _list(self, held: list[Spot], free: list[Spot]) -> Combo:
        box = Combo(say("Sits in"))
        box.addItem(say("nowhere: it stands by itself"), None)
        for spot in sorted((*held, *free), key=lambda s: natural(s.label)):
            box.addItem(spot.label, spot)
            if spot in held:
                box.setCurrentIndex(box.count() - 1)
        box.activated.connect(lambda number: self.placed.emit(box.itemData(number)))
        return box


def has_seats(design: Design, part: Part) -> bool:
    """Whether the row says anything: the part sits somewhere, or could."""
    return bool(seating.spots_of(design, part) or seating.free_spots(design, part))
