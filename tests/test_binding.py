"""The Qt binding keeps count of its references.

PySide6 6.12.0 on Python 3.10 and 3.11 dropped one reference to None on every call that returns
nothing, and the process aborted after some thousand calls ("none_dealloc"). From Python 3.12 on,
None is not counted, so there this test says nothing about None, only about the value set.
"""

from __future__ import annotations

import gc
import sys

from PySide6.QtCore import QObject, QPointF
from PySide6.QtGui import QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsRectItem
from pytestqt.qtbot import QtBot

CALLS = 4000
# Other parts of the interpreter take and give a few references to None meanwhile.
SLACK = 200


def test_setters_lose_no_reference_to_none(qtbot: QtBot) -> None:
    item, pen, path, thing = QGraphicsRectItem(), QPen(), QPainterPath(), QObject()
    gc.collect()
    before = sys.getrefcount(None)
    for number in range(CALLS):
        item.setPos(number, number)
        item.setZValue(number)
        pen.setWidthF(1.0)
        path.lineTo(QPointF(number + 1.0, 0.0))
        thing.setObjectName("name")
    gc.collect()
    assert abs(sys.getrefcount(None) - before) < SLACK
    assert item.pos() == QPointF(CALLS - 1, CALLS - 1)
    assert path.elementCount() == CALLS + 1


def test_a_value_handed_over_is_let_go(qtbot: QtBot) -> None:
    thing, value = QObject(), object()
    before = sys.getrefcount(value)
    for _ in range(CALLS):
        thing.setProperty("value", value)
        thing.setProperty("value", None)
    gc.collect()
    assert abs(sys.getrefcount(value) - before) < SLACK
