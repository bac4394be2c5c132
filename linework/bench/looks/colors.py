"""The window's colors: the drawing's own palettes, laid on widgets. Nothing else names one."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication, QComboBox, QLayout, QWidget

from linework.picture.inks import Ink
from linework.picture.palettes import CONTRAST, DARK, LIGHT, Palette
from linework.picture.qt import use_fonts

_NAMED = {"light": LIGHT, "dark": DARK, "contrast": CONTRAST}


def palette_of(look: str) -> Palette:
    """The palette of a look; "system" follows the desktop's light or dark."""
    if look in _NAMED:
        return _NAMED[look]
    dark = QGuiApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
    return DARK if dark else LIGHT


def dress(app: QApplication, look: str) -> Palette:
    """Put a look on all windows: style, font, colours."""
    palette = palette_of(look)
    app.setStyle("Fusion")
    font = QFont(use_fonts())
    font.setPointSizeF(max(app.font().pointSizeF(), 9.0))
    app.setFont(font)
    app.setPalette(qt_palette(palette))
    app.setStyleSheet(style_sheet(palette))
    app.setProperty("linework-palette", palette.name)
    return palette


def worn() -> Palette:
    """The palette that the windows wear now."""
    app = QApplication.instance()
    return _NAMED.get(str(app.property("linework-palette")) if app else "", LIGHT)


def tone(ink: Ink) -> QColor:
    """A colour of the palette that is worn."""
    return QColor(worn().color(ink))


def qt_palette(palette: Palette) -> QPalette:
    """The same colours in the roles that Qt's widgets paint with."""
    role = QPalette.ColorRole
    inks = {
        role.Window: Ink.TINT,
        role.WindowText: Ink.INK,
        role.Base: Ink.PAPER,
        role.AlternateBase: Ink.TINT,
        role.Text: Ink.INK,
        role.Button: Ink.PAPER,
        role.ButtonText: Ink.INK,
        role.ToolTipBase: Ink.PAPER,
        role.ToolTipText: Ink.INK,
        role.PlaceholderText: Ink.QUIET,
        role.Highlight: Ink.CHOSEN,
        role.HighlightedText: Ink.PAPER,
        role.Link: Ink.CHOSEN,
        role.Mid: Ink.QUIET,
        role.Dark: Ink.QUIET,
        role.Light: Ink.PAPER,
        role.Midlight: Ink.FAINT,
        role.Shadow: Ink.QUIET,
        role.Accent: Ink.CHOSEN,
    }
    made = QPalette()
    for which, ink in inks.items():
        made.setColor(which, QColor(palette.color(ink)))
    for which in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, which, QColor(palette.color(Ink.QUIET)))
    return made


_SHEET = """
QFrame#card, QFrame#finding { background: {paper}; border: 1px solid {quiet}; border-radius: 5px; }
QFrame#finding[level="danger"] { border: 2px solid {danger}; }
QFrame#finding[level="warning"] { border: 2px solid {warning}; }
QFrame#finding:focus, QFrame#finding[chosen="true"] { border: 2px solid {chosen}; }
QFrame#band { background: {tint}; border: none; border-bottom: 1px solid {faint}; }
QFrame#side { background: {tint}; border: none; border-left: 1px solid {faint}; }
Label[tone="quiet"] { color: {quiet}; }
Label[tone="danger"] { color: {danger}; }
Label[tone="warning"] { color: {warning}; }
Label[tone="note"] { color: {note}; }
Label[tone="sound"] { color: {sound}; }
Label[tone="assumed"] { color: {assumed}; }
QPushButton, QToolButton { background: {paper}; color: {ink}; border: 1px solid {quiet};
  border-radius: 4px; padding: 3px 9px; }
QPushButton:hover, QToolButton:hover { background: {chosen-field}; }
QPushButton:pressed, QToolButton:pressed { background: {faint}; }
QPushButton:focus, QToolButton:focus { border: 2px solid {chosen}; padding: 2px 8px; }
QPushButton:disabled, QToolButton:disabled { color: {quiet}; border: 1px dashed {quiet}; }
QPushButton:checked { background: {ink}; color: {paper}; }
QPushButton#main { background: {chosen}; color: {paper}; border: 1px solid {chosen}; }
QPushButton#main:hover { background: {ink}; border-color: {ink}; }
QPushButton#main:focus { border: 2px solid {ink}; }
QToolButton#plain, QPushButton#plain { border: 1px solid transparent; background: transparent;
  padding: 2px 4px; }
QToolButton#plain:focus, QPushButton#plain:focus { border: 2px solid {chosen}; padding: 1px 3px; }
QToolButton#plain:hover, QPushButton#plain:hover { background: {chosen-field}; }
QPushButton#segment { border-radius: 0px; margin: 0px; padding: 3px 8px; }
QPushButton#segment:focus { border: 2px solid {chosen}; padding: 2px 7px; }
QPushButton#segment:checked:focus { background: {chosen}; }
QLineEdit, QPlainTextEdit, QTextBrowser { background: {paper}; color: {ink};
  border: 1px solid {quiet}; border-radius: 3px; padding: 2px 4px; }
QLineEdit:focus, QPlainTextEdit:focus, QTextBrowser:focus {
  border: 2px solid {chosen}; padding: 1px 3px; }
QLineEdit[assumed="true"] { background: {assumed-field};
  placeholder-text-color: {assumed}; color: {assumed}; }
QLineEdit[wrong="true"] { border: 2px solid {danger}; padding: 1px 3px; }
QLineEdit#heading { border: 1px solid transparent; background: transparent; font-weight: 600; }
QLineEdit#heading:hover { border: 1px solid {quiet}; }
QLineEdit#heading:focus { border: 2px solid {chosen}; background: {paper}; }
QTreeView, QListView { background: {paper}; color: {ink}; border: 1px solid {quiet}; }
QTreeView:focus, QListView:focus { border: 2px solid {chosen}; }
QTreeView::item:selected, QListView::item:selected { background: {chosen}; color: {paper}; }
QHeaderView::section { background: {tint}; color: {ink}; border: none; padding: 3px; }
QScrollArea { border: none; background: transparent; }
QScrollBar { background: {tint}; border: none; margin: 0px; }
QScrollBar:vertical { width: 12px; }
QScrollBar:horizontal { height: 12px; }
QScrollBar::handle { background: {quiet}; border-radius: 3px; margin: 3px; }
QScrollBar::handle:vertical { min-height: 24px; }
QScrollBar::handle:horizontal { min-width: 24px; }
QScrollBar::handle:hover { background: {chosen}; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0px; height: 0px; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QMenuBar { background: {tint}; color: {ink}; }
QMenuBar::item { padding: 3px 9px; background: transparent; }
QMenuBar::item:selected, QMenu::item:selected { background: {chosen}; color: {paper}; }
QMenu { background: {paper}; color: {ink}; border: 1px solid {quiet}; }
QMenu::item { padding: 3px 26px 3px 20px; }
QMenu::item:disabled { color: {quiet}; }
QMenu::separator { height: 1px; background: {faint}; margin: 3px 8px; }
QToolTip { background: {paper}; color: {ink}; border: 1px solid {quiet}; padding: 3px; }
QCheckBox:focus, QRadioButton:focus { color: {chosen}; }
"""


def style_sheet(palette: Palette) -> str:
    """The style sheet in the colours of a palette."""
    text = _SHEET
    for ink in Ink:
        text = text.replace("{" + ink.value + "}", palette.color(ink))
    return text


def mark(widget: QWidget, name: str, value: object) -> None:
    """Set a property that the style sheet looks at, and have it look again."""
    if widget.property(name) == value:
        return
    widget.setProperty(name, value)
    widget.style().unpolish(widget)
    widget.style().polish(widget)


def true_height(widget: QWidget, layout: QLayout, width: int = 0) -> int:
    """The height that a widget needs at a width (0: its own), also before it was ever shown."""
    for piece in widget.findChildren(QWidget):
        piece.ensurePolished()  # else the style sheet's padding is not counted
    for inner in [*widget.findChildren(QLayout), layout]:
        inner.invalidate()
    if not layout.hasHeightForWidth():
        return layout.totalSizeHint().height()
    return layout.totalHeightForWidth(width or widget.width())


def paint_assumed(box: QComboBox, assumed: bool) -> None:
    """Show in a list, as in a field, that nobody gave what stands there."""
    colors = QPalette(QGuiApplication.palette())
    if assumed:
        for role, ink in (
            (QPalette.ColorRole.Button, Ink.ASSUMED_FIELD),
            (QPalette.ColorRole.ButtonText, Ink.ASSUMED),
            (QPalette.ColorRole.Text, Ink.ASSUMED),
        ):
            colors.setColor(role, tone(ink))
    box.setPalette(colors)


def em(widget: QWidget, number: float) -> int:
    """A length in widths of the font's letter m, so that sizes follow the font."""
    return round(widget.fontMetrics().horizontalAdvance("m") * number)
