"""The same drawing through every painter: compared as rasters, and the PDF read back."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from pypdf import PdfReader
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter
from reportlab.pdfgen.canvas import Canvas

from linework.picture import marks, pdf, qt
from linework.picture.fonts import face
from linework.picture.inks import MEDIUM, WIDE, Dash, Ink, Pen
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
from linework.picture.palettes import DARK, LIGHT, PRINT, Palette
from linework.picture.symbols import positions, symbol, symbol_names
from linework.words import FAMILIES

POINTS = 72 / 254
CELL = 350

# Not pdftoppm of the same package: it shifts thin lines to whole pixels.
needs_poppler = pytest.mark.skipif(
    shutil.which("pdftocairo") is None, reason="pdftocairo (poppler-utils) draws the PDF"
)


def _qt_image(picture: Picture, palette: Palette, scale: float, zoom: float = 1.0) -> QImage:
    size = round(picture.width * scale), round(picture.height * scale)
    image = QImage(*size, QImage.Format.Format_Grayscale8)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(scale, scale)
    qt.paint(painter, picture, palette, zoom)
    painter.end()
    return image


def _pdf_bytes(*pictures: Picture) -> bytes:
    pdf.use_fonts()
    file = io.BytesIO()
    first = pictures[0]
    size = first.width * POINTS, first.height * POINTS
    canvas = Canvas(file, pagesize=size, invariant=1, initialFontName=face().name)
    painter = pdf.PdfPainter(canvas)
    for picture in pictures:
        painter.paint(picture)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _pdf_image(picture: Picture, folder: Path, scale: float) -> QImage:
    (folder / "page.pdf").write_bytes(_pdf_bytes(picture))
    size = ["-scale-to-x", str(round(picture.width * scale))]
    size += ["-scale-to-y", str(round(picture.height * scale))]
    command = ["pdftocairo", "-png", "-singlefile", *size, "page.pdf", "page"]
    subprocess.run(command, cwd=folder, check=True, timeout=60)
    image = QImage(str(folder / "page.png"))
    return image.convertToFormat(QImage.Format.Format_Grayscale8)


def _darkness(image: QImage) -> NDArray[np.int16]:
    """Rows of pixels, 0 white to 255 black; a row of an image may be padded."""
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1)
    return 255 - rows[:, : image.width()].astype(np.int16)


def overlap(one: QImage, other: QImage) -> float:
    """Ink that both share over ink that either has: 1 when they are the same."""
    a, b = _darkness(one), _darkness(other)
    return float(np.minimum(a, b).sum() / np.maximum(a, b).sum())


def _sheet_of(family: str) -> Picture:
    """Every symbol in every position, each lying another way, with its name."""
    items: list[Item] = []
    forms = [(n, p) for n in symbol_names() for p in positions(n, family) or ("",)]
    for number, (name, position) in enumerate(forms):
        x, y = CELL * (number % 8) + CELL // 2, CELL * (number // 8) + CELL // 2
        lying = symbol(name, family, position, places=2)
        lying = lying.at(x, y - 20, turn=number % 4, mirror=number % 3 == 0)
        items.append(lying.group)
        items.append(Text(x, y + 160, f"{name} {position}", 25, "middle"))
    return Picture(8 * CELL, (len(forms) // 8 + 1) * CELL, tuple(items))


def _sampler() -> Picture:
    """Each kind of shape, dash, width, fill and writing once."""
    items: list[Item] = [
        Line(50, 50, 450, 90, Pen(width=WIDE)),
        Line(50, 120, 450, 120, Pen(dash=Dash.DASHED)),
        Line(50, 150, 450, 150, Pen(width=WIDE, dash=Dash.CHAIN)),
        Line(50, 180, 450, 180, Pen(width=MEDIUM, dash=Dash.DOTTED)),
        Polyline(((50, 250), (200, 350), (350, 250)), closed=True, fill=Ink.TINT),
        Rect(500, 50, 200, 100, pen=None, fill=Ink.SOURCE_1),
        Rect(520, 70, 160, 60, radius=20, fill=Ink.PAPER),
        Circle(600, 250, 70, fill=Ink.DANGER),
        Text(600, 250, "1", 60, "middle", "middle", bold=True, ink=Ink.PAPER),
        Arc(850, 150, 100, 60, 30, 200),
        Arc(850, 300, 100, 40, 200, -250, fill=Ink.NOTE),
        Arc(1050, 150, 30, 80, 0, 360),
        Bezier(((50, 450), (150, 350), (250, 550), (350, 450), (450, 350), (450, 500), (500, 450))),
        Text(50, 600, "R = 0.08 Ω at 20 °C ≤ 4.5 mm² → IΔ", 35),
        Text(50, 680, "Bold designation -QP1", 50, bold=True),
        Text(50, 740, "note ⚠ under the symbol", 29),
        Text(50, 800, "both ∠ at once", 35, bold=True, ink=Ink.SOURCE_2),
        Text(1100, 800, "upward, read from the right", 35, upward=True),
        Group((Rect(0, 0, 80, 40), Text(40, 20, "G", 25, "middle", "middle")), 800, 500, turn=1),
        *marks.interlock(600, 450, 760, 450),
    ]
    items += [Line(600, 600, 700, 600), Group(marks.jump(), 650, 600)]
    return Picture(1200, 900, tuple(items))


@needs_poppler
@pytest.mark.parametrize("family", FAMILIES)
def test_screen_and_paper_show_the_same_symbols(
    qapp: QGuiApplication, tmp_path: Path, family: str
) -> None:
    sheet = _sheet_of(family)
    shown, printed = _qt_image(sheet, PRINT, 1), _pdf_image(sheet, tmp_path, 1)
    assert overlap(shown, printed) > 0.9


@needs_poppler
def test_screen_and_paper_show_the_same_shapes_and_writing(
    qapp: QGuiApplication, tmp_path: Path
) -> None:
    sampler = _sampler()
    shown, printed = _qt_image(sampler, PRINT, 1), _pdf_image(sampler, tmp_path, 1)
    assert overlap(shown, printed) > 0.9


@needs_poppler
def test_the_comparison_sees_a_stroke_that_lies_elsewhere(
    qapp: QGuiApplication, tmp_path: Path
) -> None:
    right = Picture(500, 500, (Rect(100, 100, 200, 200),))
    wrong = Picture(500, 500, (Rect(110, 100, 200, 200),))
    assert overlap(_qt_image(right, PRINT, 1), _pdf_image(right, tmp_path, 1)) > 0.95
    assert overlap(_qt_image(right, PRINT, 1), _pdf_image(wrong, tmp_path, 1)) < 0.6


# -- Qt --------------------------------------------------------------------------------------------


def test_far_off_there_is_no_text_and_then_only_boxes(qapp: QGuiApplication) -> None:
    picture = Picture(400, 200, (Group((Circle(100, 100, 50),)), Text(200, 120, "HHH", 40)))
    near, far, farthest = (_ink(picture, zoom) for zoom in (1.0, 0.4, 0.2))
    assert near["right"] > 0
    assert far["right"] == 0
    assert far["left"] > 0
    assert farthest["left"] > 3 * far["left"]


def _ink(picture: Picture, zoom: float) -> dict[str, int]:
    dark = _darkness(_qt_image(picture, PRINT, 1, zoom)) > 20
    half = picture.width // 2
    return {"left": int(dark[:, :half].sum()), "right": int(dark[:, half:].sum())}


@pytest.mark.parametrize("scale", [0.3, 0.7, 1, 2, 5])
@pytest.mark.parametrize("upward", [False, True])
def test_text_is_drawn_at_every_magnification(
    qapp: QGuiApplication, scale: float, upward: bool
) -> None:
    """As much ink at any scale: glyph runs vanish without a word when they become too large."""
    picture = Picture(200, 200, (Text(100, 150, "HEH", 35, upward=upward),))
    ink = _darkness(_qt_image(picture, PRINT, scale)).sum() / 255 / scale**2
    assert ink == pytest.approx(973, rel=0.15)


def test_a_part_takes_the_hue_of_its_source_without_being_made_anew(qapp: QGuiApplication) -> None:
    ready = qt.sketch_group(Group((Rect(0, 0, 60, 60, pen=None, fill=Ink.INK),)))
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.translate(20, 20)
    ready.paint(painter, LIGHT, inks={Ink.INK: Ink.SOURCE_2})
    painter.end()
    assert image.pixelColor(50, 50).name() == LIGHT.color(Ink.SOURCE_2)


def test_a_group_is_made_ready_once_for_each_way_of_lying(qapp: QGuiApplication) -> None:
    group = symbol("lamp", "NA").group
    assert qt.sketch_group(group) is qt.sketch_group(group)
    assert qt.sketch_group(group, turn=1) is not qt.sketch_group(group)


def test_a_covering_shape_hides_what_lies_under_it(qapp: QGuiApplication) -> None:
    covered = Picture(
        200, 200, (Circle(80, 100, 40, fill=Ink.PAPER), Circle(120, 100, 40, fill=Ink.PAPER))
    )
    rows = _darkness(_qt_image(covered, PRINT, 1))
    # The first circle's right end, x = 120, lies under the second circle's field.
    assert rows[100][120] == 0
    assert rows[100][40] > 200


def test_the_dark_palette_turns_the_paper(qapp: QGuiApplication) -> None:
    image = _qt_image(Picture(50, 50, ()), DARK, 1)
    assert image.pixelColor(10, 10).lightness() < 60


# -- PDF ------------------------------------------------------------------------------------------


def test_text_on_paper_is_text_in_embedded_fonts() -> None:
    reader = PdfReader(io.BytesIO(_pdf_bytes(_sampler())))
    text = reader.pages[0].extract_text()
    assert "R = 0.08 Ω at 20 °C ≤ 4.5 mm² → IΔ" in text
    assert "upward, read from the right" in text
    for font in reader.pages[0]["/Resources"]["/Font"].values():  # type: ignore[index]
        descriptor = font.get_object()["/FontDescriptor"].get_object()
        assert "/FontFile2" in descriptor


def test_a_symbol_used_often_is_written_once_for_each_way_of_lying() -> None:
    lamp = symbol("lamp", "NA")
    spread = [lamp.at(100 + 20 * at, 100).group for at in range(50)]
    spread += [lamp.at(100 + 20 * at, 500, turn=1).group for at in range(50)]
    content = _pdf_bytes(Picture(2000, 1000, tuple(spread)), Picture(2000, 1000, tuple(spread)))
    reader = PdfReader(io.BytesIO(content))
    forms = [page["/Resources"]["/XObject"] for page in reader.pages]  # type: ignore[index]
    assert [len(found) for found in forms] == [2, 2]
    assert len(re.findall(rb"/Subtype /Form", content)) == 2


def test_links_lead_to_targets() -> None:
    one = Picture(1000, 500, (Link("there", 100, 50, 200, 100), Text(100, 100, "see there", 35)))
    inner = Group((Target("there", 20, 30),), x=300, y=200)
    two = Picture(1000, 500, (inner, Text(300, 240, "here", 35)))
    reader = PdfReader(io.BytesIO(_pdf_bytes(one, two)))
    (annotation,) = reader.pages[0]["/Annots"]  # type: ignore[misc]
    link = annotation.get_object()
    left, bottom, right, top = (float(value) for value in link["/Rect"])
    # A field from 10 to 30 mm across and 5 to 15 mm down a page 50 mm high, in points.
    expected = [100 * POINTS, 350 * POINTS, 300 * POINTS, 450 * POINTS]
    assert [left, bottom, right, top] == pytest.approx(expected, abs=0.01)
    page, _, left, top, _ = link["/Dest"]
    assert page == reader.pages[1].indirect_reference
    assert float(top) == pytest.approx(270 * POINTS, abs=0.01)
    assert float(left) == pytest.approx(320 * POINTS, abs=0.01)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert _pdf_bytes(_sampler()) == _pdf_bytes(_sampler())


def test_a_drawing_can_be_placed_and_scaled_on_a_page() -> None:
    pdf.use_fonts()
    file = io.BytesIO()
    canvas = Canvas(file, pagesize=(400, 300), initialFontName=face().name)
    items = (Target("corner", 100, 100),)
    pdf.PdfPainter(canvas).paint(items, left=50, top=250, scale=2)
    canvas.linkAbsolute("", "corner", (0, 0, 10, 10))
    canvas.save()
    (annotation,) = PdfReader(io.BytesIO(file.getvalue())).pages[0]["/Annots"]  # type: ignore[misc]
    _, _, left, top, _ = annotation.get_object()["/Dest"]
    assert float(left) == pytest.approx(50 + 200 * POINTS, abs=0.01)
    assert float(top) == pytest.approx(250 - 200 * POINTS, abs=0.01)
