"""A drawing as an image: its size on paper, its place on it, and the same ink as on the screen."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QGuiApplication, QImage

from linework.picture.inks import Ink
from linework.picture.model import Picture, Rect, Text
from linework.picture.png import PictureTooLarge, png_bytes


def image_of(data: bytes) -> QImage:
    image = QImage()
    assert image.loadFromData(QByteArray(data), "PNG")
    return image


def test_an_a3_sheet_at_300_dots_per_inch(qapp: QGuiApplication) -> None:
    image = image_of(png_bytes(Picture(4200, 2970, ()), 420, 297))
    # 420 mm / 25.4 mm x 300 = 4960.6
    assert (image.width(), image.height()) == (4961, 3508)
    assert image.dotsPerMeterX() == pytest.approx(300 / 0.0254, abs=1)


def test_a_drawing_lies_in_the_middle_of_a_paper_of_another_shape(qapp: QGuiApplication) -> None:
    field = Rect(0, 0, 1000, 500, pen=None, fill=Ink.INK)
    image = image_of(png_bytes(Picture(1000, 500, (field,)), 100, 100, 254))
    assert (image.width(), image.height()) == (1000, 1000)
    dark = [y for y in range(1000) if image.pixelColor(500, y).lightness() < 128]
    assert (dark[0], dark[-1], len(dark)) == (250, 749, 500)


def test_writing_is_not_left_out_where_a_drawing_is_made_small(qapp: QGuiApplication) -> None:
    picture = Picture(4000, 4000, (Text(1000, 2500, "H", 1500),))
    image = image_of(png_bytes(picture, 40, 40, 72))
    assert min(image.pixelColor(x, 58).lightness() for x in range(image.width())) < 128


def test_what_is_too_large_is_refused(qapp: QGuiApplication) -> None:
    with pytest.raises(PictureTooLarge):
        png_bytes(Picture(10, 10, ()), 1e6, 1e6)


def test_the_same_drawing_gives_the_same_bytes(qapp: QGuiApplication) -> None:
    picture = Picture(1000, 500, (Text(100, 100, "as before"),))
    assert png_bytes(picture, 100, 50) == png_bytes(picture, 100, 50)
