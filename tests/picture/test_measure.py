"""Sizes: text against Qt's and reportlab's own measuring, shapes against geometry."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF, QGuiApplication

from linework.picture import pdf, qt
from linework.picture.fonts import WRITING, Face
from linework.picture.geometry import Box
from linework.picture.inks import Pen
from linework.picture.measure import advance, bounds, box_of, boxes, em_size, text_width
from linework.picture.model import Arc, Bezier, Circle, Group, Line, Link, Rect, Target, Text

LABELS = (
    "QP1 panel",
    "3 × 10 AWG, 25 ft",
    "R = 0.08 Ω at 20 °C ≤ 4.5 mm²",
    "Travelling workshop, sheet 1 of 2",
    "IΔ 6 mA → 25 ms",
    "WAVE AVATAR To Ty",
)
every_face = pytest.mark.parametrize("which", WRITING, ids=lambda which: which.name)
every_label = pytest.mark.parametrize("label", LABELS)


def _qt_font(which: Face, height: int) -> QFont:
    """The same face through Qt's font database, ten times as large to keep rounding out."""
    family = qt.use_fonts()
    assert family in QFontDatabase.families()
    font = QFont(family)
    font.setWeight(QFont.Weight.DemiBold if which.bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    font.setKerning(False)
    font.setPixelSize(round(10 * em_size(height, which)))
    return font


@every_face
@every_label
def test_text_is_as_wide_as_qt_says(qapp: QGuiApplication, which: Face, label: str) -> None:
    measured = QFontMetricsF(_qt_font(which, 35)).horizontalAdvance(label) / 10
    ours = advance(label, 35, which.bold)
    assert ours == pytest.approx(measured, rel=0.02)


@every_face
def test_text_is_as_high_as_qt_says(qapp: QGuiApplication, which: Face) -> None:
    metrics = QFontMetricsF(_qt_font(which, 35))
    ink = metrics.tightBoundingRect("Hg")
    box = box_of(Text(0, 0, "Hg", 35, bold=which.bold))
    assert metrics.capHeight() / 10 == pytest.approx(35, rel=0.02)
    assert box.top == pytest.approx(ink.top() / 10, abs=1)
    assert box.bottom == pytest.approx(ink.bottom() / 10, abs=1)


@every_face
@every_label
def test_text_is_as_wide_as_reportlab_says(which: Face, label: str) -> None:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    pdf.use_fonts()
    size = em_size(35, which)
    measured = stringWidth(label, which.name, size)
    # reportlab rounds each advance to a thousandth of the font size.
    ours = advance(label, 35, which.bold)
    assert ours == pytest.approx(measured, abs=len(label) * size / 1000)


@given(st.text(max_size=30), st.text(max_size=30))
def test_widths_add_up_and_round_upwards(one: str, other: str) -> None:
    assert advance(one + other, 35) == pytest.approx(advance(one, 35) + advance(other, 35))
    assert 0 <= text_width(one, 35) - advance(one, 35) < 1


def test_text_boxes_hang_as_told() -> None:
    width = advance("Hxx", 30)
    assert box_of(Text(0, 0, "Hxx", 30)) == Box(0, -30, math.ceil(width), 0)
    middle = box_of(Text(0, 0, "Hxx", 30, "middle", "middle"))
    assert middle == Box(math.floor(-width / 2), -15, math.ceil(width / 2), 15)
    end = box_of(Text(0, 0, "Hxx", 30, "end", "top"))
    assert end == Box(math.floor(-width), 0, 0, 30)


def test_upward_text_runs_to_the_top_with_its_capitals_to_the_left() -> None:
    box = box_of(Text(0, 0, "Hxx", 30, upward=True))
    assert box == Box(-30, -math.ceil(advance("Hxx", 30)), 0, 0)


def test_an_arc_takes_only_the_room_it_sweeps() -> None:
    assert box_of(Arc(0, 0, 50, 50, 90, 180)) == Box(-50, -50, 0, 50)
    assert box_of(Arc(0, 0, 50, 50, 0, -90)) == Box(0, -50, 50, 0)
    assert box_of(Arc(0, 0, 50, 20, 10, 360)) == Box(-50, -20, 50, 20)
    # 210 to 330 degrees over the top of a radius 100: half the chord is 86.6, the ends 50 up.
    assert box_of(Arc(0, 0, 100, 100, 210, 120)) == Box(-87, -100, 87, -50)


@given(st.integers(-360, 720), st.integers(-360, 360), st.integers(1, 300), st.integers(1, 300))
def test_every_point_of_an_arc_lies_in_its_box(start: int, sweep: int, rx: int, ry: int) -> None:
    box = box_of(Arc(0, 0, rx, ry, start, sweep))
    for part in range(51):
        angle = math.radians(start + sweep * part / 50)
        x, y = rx * math.cos(angle), ry * math.sin(angle)
        assert box.left - 1e-3 <= x <= box.right + 1e-3
        assert box.top - 1e-3 <= y <= box.bottom + 1e-3


def test_a_curve_lies_within_the_box_of_its_points() -> None:
    assert box_of(Bezier(((0, 0), (10, -20), (20, 30), (40, 0)))) == Box(0, -20, 40, 30)


def test_bounds_take_the_line_width_in_and_leave_guides_out() -> None:
    items = (
        Line(0, 0, 100, 0, Pen(width=50)),
        Rect(0, 0, 10, 10, pen=None),
        Target("far", 900, 900),
        Link("far", 800, 800, 50, 50),
    )
    # Half of 0.5 mm, rounded up to whole tenths.
    assert bounds(items) == Box(-3, -3, 103, 10)
    assert bounds(items[2:]) is None


def test_boxes_name_the_element_they_stand_for() -> None:
    (boxed,) = boxes((Group((Circle(0, 0, 10, None),), x=100, tag="p1"),))
    assert (boxed.tag, boxed.box) == ("p1", Box(90, -10, 110, 10))
