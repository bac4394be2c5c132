"""The bundled fonts: every sign we print is there, and what is wrong with a file is said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from linework import data
from linework.picture import fonts
from linework.picture.fontfile import FaceMetrics, FontFileError
from linework.picture.fonts import (
    FACES,
    SPARE,
    WRITING,
    Face,
    FontError,
    face,
    metrics,
    missing_signs,
    printed,
    stretches,
)
from linework.picture.measure import advance

PRINTED = (
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
    " !\"#$%&'()*+,-./:;<=>?@[]_{}|~"
    "ΩµμΔδφΦΣη²³½¼≤≥≈≠±→←↑↓↔⇄⊥∠∿√⚠✓✗·×÷°′″–—−…§©“”‘’«»•■□▲▼●○☐☑"  # noqa: RUF001
    "ÄÖÜäöüßéèêñçåÅøØ"
)


def test_every_sign_we_print_is_in_every_face() -> None:
    assert missing_signs(PRINTED) == ()


def test_a_sign_that_no_face_has_is_named_once() -> None:
    # The earth and direct current signs of Unicode are in no bundled face: we draw them.
    assert missing_signs("a⏚b⎓⏚") == ("⏚", "⎓")


@pytest.mark.parametrize(
    ("which", "units", "capitals"),
    [*((which, 1000, 698) for which in WRITING), *((which, 2048, 1493) for which in SPARE)],
    ids=lambda value: getattr(value, "name", ""),
)
def test_capitals_have_the_height_of_the_design(which: Face, units: int, capitals: int) -> None:
    # Height of the letter H in its outline; Qt measures the same, see test_measure.
    measures = metrics(which)
    assert (measures.units_per_em, measures.cap_height) == (units, capitals)


def test_a_sign_that_the_writing_lacks_comes_from_the_spare_face() -> None:
    assert [(which.name, signs) for which, signs in stretches("5 Ω ⚠ ∠9", bold=True)] == [
        ("IBMPlexSansCondensed-SemiBold", "5 Ω "),
        ("DejaVuSansCondensed-Bold", "⚠"),
        ("IBMPlexSansCondensed-SemiBold", " "),
        ("DejaVuSansCondensed-Bold", "∠"),
        ("IBMPlexSansCondensed-SemiBold", "9"),
    ]
    # What nobody has stays an empty box of the writing's own face.
    assert stretches("⏚") == ((face(), "⏚"),)


def test_signs_of_two_faces_stand_in_a_row() -> None:
    alone = advance("5 Ω ", 35) + advance("⚠", 35) + advance(" x", 35)
    assert advance("5 Ω ⚠ x", 35) == pytest.approx(alone)


@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("LICENSE-DejaVu.txt", ("Bitstream Vera Fonts Copyright", "Arev Fonts Copyright")),
        ("LICENSE-IBMPlex.txt", ("SIL Open Font License, Version 1.1", 'Font Name "Plex"')),
    ],
)
def test_the_licence_lies_beside_the_fonts(file: str, words: tuple[str, ...]) -> None:
    text = data.read_text(f"fonts/{file}")
    assert [word for word in words if word not in text] == []


def test_a_missing_font_is_named_and_cured() -> None:
    gone = Face("DejaVuSanz", bold=False)
    with pytest.raises(
        FontError, match=r"a font is missing.*DejaVuSanz\.ttf.*DejaVuSansCondensed\.ttf"
    ):
        metrics(gone)


def test_a_damaged_font_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cut = tmp_path / "Cut.ttf"
    cut.write_bytes(fonts.font_path(FACES[0]).read_bytes()[:40_000])
    monkeypatch.setattr(fonts, "font_path", lambda which: cut)
    with pytest.raises(FontError, match=rf"{re.escape(str(cut))} cannot be read"):
        metrics(Face("Cut", bold=False))


@pytest.mark.parametrize("content", [b"", b"\x00\x01\x00\x00", b"OTTO" + bytes(100), b"%PDF-1.4"])
def test_other_bytes_are_no_font(content: bytes) -> None:
    with pytest.raises(FontFileError):
        FaceMetrics(content)


def test_what_has_no_shape_is_drawn_as_a_space() -> None:
    assert printed("a\nb\tc\u200bd\ud800") == "a b c d "
