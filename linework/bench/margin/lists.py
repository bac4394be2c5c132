"""The lists under the findings: not checked, sound, assumed. A line that stays is the same one, so
that what is marked in it for copying stays marked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from linework.bench.looks import Label, mark
from linework.bench.margin.text import Section
from linework.words import say

if TYPE_CHECKING:
    from linework.design import Accepted

_Key = tuple[str, str, object]
"""Title of the section, text, and what the line stands for."""


class Lists(QVBoxLayout):
    """``taken_back`` (Accepted) when a person forgets one."""

    taken_back = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._known: dict[_Key, QWidget] = {}

    @property
    def lines(self) -> tuple[QWidget, ...]:
        """Every line from top to bottom."""
        return tuple(self._known.values())

    def show_sections(self, sections: list[Section]) -> None:
        """Show these and no others."""
        wanted = {key: section for section in sections for key in _keys(section)}
        for key in [key for key in self._known if key not in wanted]:
            line = self._known.pop(key)
            self.removeWidget(line)
            line.hide()
            line.deleteLater()
        known, self._known = self._known, {}
        for place, (key, section) in enumerate(wanted.items()):
            line = known.get(key) or self._made(key, section)
            if self.indexOf(line) != place:
                self.insertWidget(place, line)
            line.show()
            self._known[key] = line

    def _made(self, key: _Key, section: Section) -> QWidget:
        _, text, item = key
        if not text:
            return _title(section)
        return _line(text, section) if item is None else self._forget(text, item)

    def _forget(self, text: str, item: object) -> QPushButton:
        forget = QPushButton(say("Take back"))
        forget.setAccessibleName(say("Take back: {what}", what=text))
        forget.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        forget.clicked.connect(lambda: self.taken_back.emit(item))
        return forget


def _keys(section: Section) -> Iterator[_Key]:
    yield section.title, "", None
    items: tuple[Accepted | None, ...] = section.items or (None,) * len(section.lines)
    for text, item in zip(section.lines, items, strict=True):
        yield section.title, text, None
        if item is not None:
            yield section.title, text, item


def _title(section: Section) -> Label:
    title = Label(section.title, bold=True)
    title.setContentsMargins(0, 8, 0, 0)
    title.setWordWrap(True)
    return title


def _line(text: str, section: Section) -> Label:
    label = Label(f"{section.sign} {text}" if section.sign else text)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    mark(label, "tone", section.tone)
    return label
