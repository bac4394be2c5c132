"""A real X11 window: the platform's libraries are all there, and what is painted is shown."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot


@pytest.mark.window
def test_a_window_is_shown_and_takes_a_click(qtbot: QtBot) -> None:
    assert QGuiApplication.platformName() == "xcb"
    button = QPushButton("press")
    button.setFlat(True)
    button.setAutoFillBackground(True)
    button.setPalette(QPalette(Qt.GlobalColor.blue))
    qtbot.addWidget(button)
    button.resize(200, 100)
    with qtbot.waitExposed(button):
        button.show()
    with qtbot.waitSignal(button.clicked):
        QTest.mouseClick(
            button.windowHandle(), Qt.MouseButton.LeftButton, pos=button.rect().center()
        )
    screen = button.screen().grabWindow(button.winId())
    assert screen.toImage().pixelColor(5, 5) == Qt.GlobalColor.blue
