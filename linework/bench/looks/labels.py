"""Texts as they were written: nothing that comes from a file is markup on the window.

Qt takes a text that looks like markup for markup, in labels and tips, and "&" for the mark of a
key on buttons and menus. Here alone that is dealt with.
"""

from __future__ import annotations

import html
from dataclasses import dataclass, replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtGui import Qt as Gui
from PySide6.QtWidgets import QLabel, QWidget

STRONG = QFont.Weight.DemiBold
"""That of the bundled bold face; a heavier one would be faked from it."""


class Label(QLabel):
    """Shows a text as it stands."""

    def __init__(self, text: str = "", parent: QWidget | None = None, *, bold: bool = False):
        super().__init__(text, parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        if bold:
            font = self.font()
            font.setWeight(STRONG)
            self.setFont(font)


@dataclass(frozen=True)
class Span:
    """A piece of a text. ``hue``: a colour's name, "" for that of the label."""

    text: str
    bold: bool = False
    hue: str = ""


class SpanLabel(QLabel):
    """Shows a text of which pieces stand out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.RichText)

    def setText(self, text: str) -> None:
        """A text of which nothing stands out."""
        self.show_spans(Span(text))

    def show_spans(self, *spans: Span) -> None:
        """The pieces one after the other."""
        super().setText("".join(map(_marked, spans)))

    def show_line(self, width: int, *spans: Span) -> None:
        """The pieces in one line of this width: what has no room is in the tip."""
        whole = "".join(span.text for span in spans)
        left, kept = width, list[Span]()
        for span in spans:
            font = self.font()
            font.setWeight(STRONG if span.bold else font.weight())
            metrics = QFontMetrics(font)
            if metrics.horizontalAdvance(span.text) > left:
                cut = metrics.elidedText(span.text, Qt.TextElideMode.ElideRight, max(left, 0))
                kept.append(replace(span, text=cut))
                break
            left -= metrics.horizontalAdvance(span.text)
            kept.append(span)
        self.show_spans(*kept)
        self.setAccessibleDescription(whole)
        cut_off = "".join(span.text for span in kept) != whole
        self.setToolTip(tip(whole if cut_off else ""))


def _marked(span: Span) -> str:
    text = literal(span.text)
    color = f" style='color:{span.hue}'" if span.hue else ""
    return f"<b{color}>{text}</b>" if span.bold else f"<span{color}>{text}</span>"


def literal(text: str) -> str:
    """A text within markup."""
    return html.escape(text)


def tip(text: str) -> str:
    """A text for a tool tip."""
    if not Gui.mightBeRichText(text):
        return text
    return f'<span style="white-space:pre">{literal(text)}</span>'


def caption(text: str) -> str:
    """A text for a button or a line of a menu, none of whose signs names a key."""
    return text.replace("&", "&&")


def window_title(text: str) -> str:
    """A text within a window's title, where "[*]" stands for the mark of what is not saved."""
    return text.replace("[*]", "[*][*]")
