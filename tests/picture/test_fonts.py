"""The bundled fonts: every sign we print is there, and what is wrong with a file is said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from linework import data
from linework.picture import fonts
from linework.picture.fonts import FACES, Face, FontError, face, metrics, missing_signs, printed
from linework.picture.truetype import FontFileError, read_metrics

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


@pytest.mark.parametrize("which", FACES, ids=lambda which: which.name)
def test_capitals_have_the_height_of_the_design(which: Face) -> None:
    # Height of the letter H in its outline; Qt measures the same, see test_measure.
    measures = metrics(which)
    assert (measures.units_per_em, measures.cap_height) == (2048, 1493)


def test_faces_are_found_by_their_look() -> None:
    assert face().name == "DejaVuSans"
    assert face(bold=True).name == "DejaVuSans-Bold"
    assert face(condensed=True).name == "DejaVuSansCondensed"
    assert face(True, True).name == "DejaVuSansCondensed-Bold"


def test_the_licence_lies_beside_the_fonts() -> None:
    text = data.read_text("fonts/LICENSE-DejaVu.txt")
    assert "Bitstream Vera Fonts Copyright" in text
    assert "Arev Fonts Copyright" in text


def test_a_missing_font_is_named_and_cured() -> None:
    gone = Face("DejaVuSanz", bold=False, condensed=False)
    with pytest.raises(FontError, match=r"a font is missing.*DejaVuSanz\.ttf.*DejaVuSans\.ttf"):
        metrics(gone)


def test_a_damaged_font_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cut = tmp_path / "Cut.ttf"
    cut.write_bytes(fonts.font_path(FACES[0]).read_bytes()[:40_000])
    monkeypatch.setattr(fonts, "font_path", lambda which: cut)
    with pytest.raises(FontError, match=rf"{re.escape(str(cut))} cannot be read"):
        metrics(Face("Cut", bold=False, condensed=False))


@pytest.mark.parametrize("content", [b"", b"\x00\x01\x00\x00", b"OTTO" + bytes(100), b"%PDF-1.4"])
def test_other_bytes_are_no_font(content: bytes) -> None:
    with pytest.raises(FontFileError):
        read_metrics(content)


def test_what_has_no_shape_is_drawn_as_a_space() -> None:
    assert printed("a\nb\tc\u200bd\ud800") == "a b c d "
