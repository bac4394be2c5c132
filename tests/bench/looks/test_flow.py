"""How rows break."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from linework.bench.looks.flow import Flow


def test_a_row_breaks_where_there_is_no_room(qtbot: QtBot) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = Flow(holder, gap_x=10, gap_y=5)
    for _ in range(4):
        piece = QLabel("x")
        piece.setFixedSize(100, 20)
        flow.addWidget(piece)
    assert flow.heightForWidth(430) == 20
    assert flow.heightForWidth(429) == 45
    assert flow.heightForWidth(100) == 95
    holder.resize(210, 100)
    holder.show()
    xs = [flow.itemAt(n).geometry().x() for n in range(4)]  # type: ignore[union-attr]
    assert xs == [0, 110, 0, 110]
