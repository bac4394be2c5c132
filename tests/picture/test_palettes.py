"""Contrast by the formula of WCAG 2.1, and hues that keep their meaning apart."""

from __future__ import annotations

import colorsys

import pytest

from linework.picture.inks import SOURCES, Ink, source_ink
from linework.picture.palettes import PALETTES, Palette, contrast, luminance, rgb

WRITING = (
    Ink.INK,
    Ink.QUIET,
    Ink.DANGER,
    Ink.WARNING,
    Ink.NOTE,
    Ink.SOUND,
    Ink.ASSUMED,
    Ink.CHOSEN,
    *SOURCES,
)
every_palette = pytest.mark.parametrize("palette", PALETTES.values(), ids=lambda p: p.name)


def test_the_formula_against_known_ratios() -> None:
    # WCAG 2.1: black on white 21:1. #767676 is the lightest grey that passes 4.5:1 on white and
    # #949494 the lightest that passes 3:1 (well known values of that formula).
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")
    assert contrast("#949494", "#ffffff") >= 3 > contrast("#959595", "#ffffff")


@every_palette
def test_every_ink_has_a_color(palette: Palette) -> None:
    assert set(palette.colors) == set(Ink)
    for ink in Ink:
        assert all(0 <= part <= 1 for part in palette.rgb(ink))


@every_palette
@pytest.mark.parametrize("ink", WRITING)
def test_writing_stands_out_from_paper_and_tint(palette: Palette, ink: Ink) -> None:
    least = 7 if palette.name == "contrast" else 4.5
    for ground in (Ink.PAPER, Ink.TINT):
        assert contrast(palette.color(ink), palette.color(ground)) >= least


@every_palette
def test_writing_stands_out_from_its_own_field(palette: Palette) -> None:
    for ink, field in (
        (Ink.INK, Ink.ASSUMED_FIELD),
        (Ink.ASSUMED, Ink.ASSUMED_FIELD),
        (Ink.INK, Ink.CHOSEN_FIELD),
        (Ink.CHOSEN, Ink.CHOSEN_FIELD),
    ):
        assert contrast(palette.color(ink), palette.color(field)) >= 4.5


@every_palette
def test_a_wire_or_its_edge_stands_out_from_the_paper(palette: Palette) -> None:
    assert contrast(palette.color(Ink.WIRE_EDGE), palette.color(Ink.PAPER)) >= 3


@every_palette
def test_the_paper_lies_on_a_desk_of_another_shade(palette: Palette) -> None:
    desk, paper = palette.color(Ink.DESK), palette.color(Ink.PAPER)
    assert luminance(desk) < luminance(paper)


@every_palette
@pytest.mark.parametrize("ink", SOURCES)
def test_no_source_is_red_or_green(palette: Palette, ink: Ink) -> None:
    hue = colorsys.rgb_to_hls(*palette.rgb(ink))[0] * 360
    assert 18 <= hue <= 340, f"{hue:.0f} degrees is a red"
    assert not 75 < hue < 170, f"{hue:.0f} degrees is a green"


@every_palette
def test_sources_differ_from_each_other_and_from_danger(palette: Palette) -> None:
    shown = [palette.color(ink) for ink in (*SOURCES, Ink.DANGER)]
    assert len(set(shown)) == len(shown)
    for at, one in enumerate(shown):
        for other in shown[at + 1 :]:
            assert _distance(one, other) > 0.15


def _distance(one: str, other: str) -> float:
    return sum((a - b) ** 2 for a, b in zip(rgb(one), rgb(other), strict=True)) ** 0.5


def test_print_stays_readable_without_color() -> None:
    """A grey of the same lightness, as a black and white printer makes it, is dark enough."""
    palette = PALETTES["print"]
    for ink in WRITING:
        grey = _same_grey(palette.color(ink))
        assert contrast(grey, palette.color(Ink.PAPER)) >= 4.5


def _same_grey(color: str) -> str:
    red, green, blue = rgb(color)
    level = round(255 * (0.299 * red + 0.587 * green + 0.114 * blue))  # ITU-R BT.601 luma
    return f"#{level:02x}{level:02x}{level:02x}"


def test_luminance_runs_from_black_to_white() -> None:
    assert luminance("#000000") == 0
    assert luminance("#ffffff") == pytest.approx(1)


def test_source_hues_repeat_after_the_last() -> None:
    assert source_ink(0) is Ink.SOURCE_1
    assert source_ink(6) is Ink.SOURCE_1
