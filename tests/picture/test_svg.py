"""A drawing as SVG: well-formed, true size, real text in the faces that it carries with it."""

from __future__ import annotations

import base64
import io
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from fontTools.ttLib import TTFont
from numpy.typing import NDArray
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from linework.picture import qt
from linework.picture.inks import Dash, Ink, Pen
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Group,
    Item,
    Line,
    Link,
    Picture,
    Polyline,
    Rect,
    Target,
    Text,
)
from linework.picture.palettes import DARK, PRINT
from linework.picture.svg import Named, Size, svg_text
from linework.picture.symbols import symbol, symbol_names

SVG = "{http://www.w3.org/2000/svg}"
HEAD = "Ω ≤ 4.5 mm² & <b>"


def sampler() -> Picture:
    items: list[Item] = [
        Line(50, 50, 450, 90, Pen(width=50)),
        Line(50, 120, 450, 120, Pen(dash=Dash.DASHED)),
        Polyline(((50, 250), (200, 350), (350, 250)), closed=True, fill=Ink.TINT),
        Rect(500, 50, 200, 100, pen=None, fill=Ink.SOURCE_1),
        Rect(520, 70, 160, 60, radius=20, fill=Ink.PAPER),
        Circle(600, 250, 70, fill=Ink.DANGER),
        Arc(850, 150, 100, 60, 30, 200),
        Arc(850, 300, 100, 40, 200, -250, fill=Ink.NOTE),
        Arc(1050, 150, 30, 80, 0, 360),
        Bezier(((50, 450), (150, 350), (250, 550), (350, 450), (450, 350), (450, 500), (500, 450))),
        Link("there", 10, 10, 20, 20),
        Target("there", 10, 10),
    ]
    return Picture(1200, 600, tuple(items))


def read(text: str) -> ET.Element:
    return ET.fromstring(text)


def darkness(image: QImage) -> NDArray[np.int16]:
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1)
    return 255 - rows[:, : image.width()].astype(np.int16)


def drawn_by_qt(picture: Picture) -> QImage:
    image = QImage(picture.width, picture.height, QImage.Format.Format_Grayscale8)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    qt.paint(painter, picture, PRINT)
    painter.end()
    return image


def drawn_from_svg(picture: Picture) -> QImage:
    renderer = QSvgRenderer(QByteArray(svg_text(picture, {}).encode()))
    assert renderer.isValid()
    image = QImage(picture.width, picture.height, QImage.Format.Format_Grayscale8)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    renderer.render(painter)
    painter.end()
    return image


def overlap(one: QImage, other: QImage) -> float:
    a, b = darkness(one), darkness(other)
    return float(np.minimum(a, b).sum() / np.maximum(a, b).sum())


def test_another_reader_of_svg_draws_the_same_shapes(qapp: QGuiApplication) -> None:
    assert overlap(drawn_by_qt(sampler()), drawn_from_svg(sampler())) > 0.97


def test_another_reader_of_svg_draws_the_same_symbols(qapp: QGuiApplication) -> None:
    """Without their letters, which that reader sets in a face of its own."""
    items = []
    for number, name in enumerate(symbol_names()):
        at = symbol(name, "NA").at(
            200 + 350 * (number % 8), 200 + 350 * (number // 8), turn=number % 4
        )
        bare = tuple(item for item in at.group.items if not isinstance(item, Text))
        items.append(Group(bare, at.group.x, at.group.y, at.group.turn, at.group.mirror))
    sheet = Picture(2800, 3000, tuple(items))
    assert overlap(drawn_by_qt(sheet), drawn_from_svg(sheet)) > 0.95


def test_the_comparison_sees_a_stroke_that_lies_elsewhere(qapp: QGuiApplication) -> None:
    right = Picture(500, 500, (Rect(100, 100, 200, 200),))
    wrong = Picture(500, 500, (Rect(110, 100, 200, 200),))
    assert overlap(drawn_by_qt(right), drawn_from_svg(right)) > 0.95
    assert overlap(drawn_by_qt(right), drawn_from_svg(wrong)) < 0.6


def test_size_is_that_of_the_paper_in_millimetres() -> None:
    own = read(svg_text(Picture(4200, 2970, ()), {}))
    assert (own.get("width"), own.get("height")) == ("420mm", "297mm")
    assert own.get("viewBox") == "0 0 4200 2970"
    smaller = read(svg_text(Picture(4200, 2970, ()), {}, size=Size(279.4, 215.9)))
    assert (smaller.get("width"), smaller.get("height")) == ("279.4mm", "215.9mm")
    assert smaller.get("viewBox") == "0 0 4200 2970"


def test_text_stays_text_with_its_measured_length() -> None:
    text = Text(100, 200, HEAD, 35, "middle", bold=True)
    upward = Text(300, 400, "upward", 35, upward=True)
    tree = read(svg_text(Picture(500, 500, (text, upward)), {}))
    one, other = tree.iter(f"{SVG}text")
    assert "".join(one.itertext()) == HEAD
    # In the middle of (100, 200): it begins half its length before.
    assert float(one.get("x", "0")) + float(one.get("textLength", "0")) / 2 == pytest.approx(100)
    assert (one[0].get("font-weight"), one.get("y")) == ("bold", "200")
    assert other.get("transform", "").startswith("rotate(-90 ")


def test_the_faces_that_are_used_are_carried_along_with_the_signs_that_are_written() -> None:
    items = (Text(0, 50, "ABC Ω", 35), Text(0, 90, "abc ⚠", 35, bold=True))
    content = svg_text(Picture(500, 500, items), {})
    faces = re.findall(r"@font-face\{.*?base64,([A-Za-z0-9+/=]+)\)", content)
    carried = [TTFont(io.BytesIO(base64.b64decode(data))).getBestCmap() for data in faces]
    assert sorted("".join(map(chr, sorted(signs))) for signs in carried) == [" ABCΩ", " abc", "⚠"]


def test_groups_bear_names_that_a_person_knows_and_ids_are_unique() -> None:
    parts = (
        Group((Line(0, 0, 9, 9), Line(0, 9, 9, 0)), tag="x1"),
        Group((Line(0, 0, 50, 0),), tag="unknown"),
        Group((Text(5, 5, "QF1"),), tag="x1"),
        Group((Line(1, 1, 2, 2),), tag="x2"),
        Group((Line(1, 1, 2, 2),), tag="x3"),
    )
    names = {"x1": Named("QF1", "QF1 <lights>"), "x2": Named('12 "V"'), "x3": Named("12 'V'")}
    tree = read(svg_text(Picture(100, 100, parts), names))
    groups = list(tree.iter(f"{SVG}g"))
    ids = [group.get("id") for group in groups]
    assert ids == ["QF1", "QF1..2", "_12__V_", "_12__V_..2"]
    assert groups[0].get("data-name") == "QF1"
    assert groups[2].get("data-name") == '12 "V"'
    title = groups[0].find(f"{SVG}title")
    assert title is not None
    assert title.text == "QF1 <lights>"
    assert len(groups[0].findall(f"{SVG}line")) == 2


def test_signs_that_xml_cannot_hold_do_not_break_it() -> None:
    tree = read(svg_text(Picture(99, 99, (Text(0, 9, "a\x00\x1b\ud800b"),)), {}, title="\x01x"))
    (text,) = tree.iter(f"{SVG}text")
    assert "".join(text.itertext()) == "a   b"


def test_a_palette_gives_the_inks() -> None:
    picture = Picture(99, 99, (Line(0, 0, 9, 9, Pen(Ink.DANGER)),))
    tree = read(svg_text(picture, {}, palette=DARK))
    (line,) = tree.iter(f"{SVG}line")
    assert line.get("stroke") == DARK.color(Ink.DANGER)
    assert line.get("class") == "danger"


def test_the_same_drawing_gives_the_same_text() -> None:
    picture = Picture(99, 99, (Text(0, 9, "once and again"), *sampler().items))
    assert svg_text(picture, {}) == svg_text(picture, {})
