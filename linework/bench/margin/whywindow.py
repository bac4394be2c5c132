"""Why a finding is one: the rule's own text and the numbers behind it. It lies beside the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QTextBrowser, QVBoxLayout, QWidget

from linework.bench.looks import em, literal, window_title
from linework.guide import reason_of
from linework.words import say

if TYPE_CHECKING:
    from linework.findings.model import Finding


_EDGE = 24


class WhyWindow(QWidget):
    """One window for all; the newest question is shown."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Dialog)
        self.setWindowTitle(say("Why"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        self.text = QTextBrowser()
        self.text.setAccessibleName(say("Why"))
        self.text.setTabChangesFocus(True)
        layout.addWidget(self.text)
        self.resize(em(self, 46), em(self, 40))

    def explain(self, finding: Finding, family: str, sound: tuple[str, ...] = ()) -> None:
        """Show the reason of a finding, and what is ``sound`` at its places all the same."""
        self.setWindowTitle(say("Why: {title}", title=window_title(finding.title)))
        self.text.setHtml(page(finding, family, sound))
        if not self.isVisible():
            self._lie_beside()
        self.hide()  # shown anew, it comes to the front and takes the keys
        self.show()

    def _lie_beside(self) -> None:
        """At the left edge of the work, where the margin and most of the sheet stay free."""
        parent = self.parentWidget()
        if parent is not None:
            corner = parent.mapToGlobal(parent.rect().bottomLeft())
            self.resize(self.width(), min(self.height(), parent.height() * 3 // 4))
            self.move(corner.x() + _EDGE, corner.y() - self.height() - _EDGE)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts the window away."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
            return
        super().keyPressEvent(event)


def page(finding: Finding, family: str, sound: tuple[str, ...] = ()) -> str:
    """The text as rich text: message, numbers, the rule's headings, the states, what is sound."""
    from linework.findings.evidence import shown

    reason = reason_of(finding.rule)
    parts = [f"<h3>{literal(finding.title)}</h3>", _paragraph(finding.message)]
    numbers = [literal(shown(item, family)) for item in finding.evidence]
    if numbers:
        parts.append(_list(say("The numbers"), numbers))
    parts.append(_paragraph(reason.opening))
    for heading in reason.headings:
        parts.append(f"<h4>{literal(heading.title)}</h4>")
        parts += [_paragraph(text) for text in heading.text.split("\n\n")]
    if finding.spoken:
        states = [literal(state) for state in finding.spoken]
        parts.append(_list(say("In these states"), states))
    if sound:
        parts.append(_list(say("Sound there, and why"), [literal(line) for line in sound]))
    parts.append(_paragraph(say("Rule: {rule}", rule=finding.rule)))
    return "".join(parts)


def _paragraph(text: str) -> str:
    return f"<p>{literal(text)}</p>"


def _list(title: str, items: list[str]) -> str:
    rows = "".join(f"<li>{item}</li>" for item in items)
    return f"<h4>{literal(title)}</h4><ul>{rows}</ul>"
