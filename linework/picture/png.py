"""Paints a drawing into PNG, with or without a display."""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter

from linework.picture import qt
from linework.picture.inks import Ink
from linework.picture.model import Picture
from linework.picture.palettes import PRINT, Palette

MM_PER_INCH = 25.4


class PictureTooLarge(ValueError):
    """So many pixels that no image of this size can be made."""


def png_bytes(
    picture: Picture,
    width_mm: float,
    height_mm: float,
    dots_per_inch: int = 300,
    palette: Palette = PRINT,
) -> bytes:
    """The drawing on a paper of this size, as large as fits, in its middle.

    PictureTooLarge where there is no room for its pixels; FontError if a font is missing.
    """
    _without_display()
    per_mm = dots_per_inch / MM_PER_INCH
    image = QImage(round(width_mm * per_mm), round(height_mm * per_mm), QImage.Format.Format_RGB32)
    if image.isNull():
        raise PictureTooLarge(f"{width_mm:g} x {height_mm:g} mm at {dots_per_inch} dots per inch")
    image.setDotsPerMeterX(round(per_mm * 1000))
    image.setDotsPerMeterY(round(per_mm * 1000))
    image.fill(QColor(palette.color(Ink.PAPER)))
    _paint(image, picture, palette)
    return _encoded(image)


def _paint(image: QImage, picture: Picture, palette: Palette) -> None:
    scale = min(image.width() / picture.width, image.height() / picture.height)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(
        (image.width() - scale * picture.width) / 2, (image.height() - scale * picture.height) / 2
    )
    painter.scale(scale, scale)
    # On paper nothing is left out, however small the drawing is made.
    qt.paint(painter, picture, palette, max(scale / qt.PIXELS_PER_TENTH, 1.0))
    painter.end()


def _encoded(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not image.save(buffer, "PNG"):  # type: ignore[call-overload]
        raise PictureTooLarge(f"{image.width()} x {image.height()} pixels")
    return bytes(buffer.data().data())


@cache
def _without_display() -> object:
    """Fonts need an application; one without a screen, unless the program has one already."""
    running = QGuiApplication.instance()
    return running or QGuiApplication(["linework", "-platform", "offscreen"])
