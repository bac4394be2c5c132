"""The style sheet and its colours."""

from __future__ import annotations

import re

import pytest

from linework.bench.looks.colors import palette_of, style_sheet
from linework.picture.inks import Ink


@pytest.mark.parametrize("look", ["light", "dark", "contrast"])
def test_the_style_sheet_is_filled_from_the_palette_alone(look: str) -> None:
    palette = palette_of(look)
    text = style_sheet(palette)
    assert not re.findall(r"\{[a-z-]+\}", text)
    named = set(re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[ ;])", text))
    assert named <= {palette.color(ink) for ink in Ink}
