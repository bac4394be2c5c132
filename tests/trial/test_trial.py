"""The trial's own tools: rigs hold together."""

from __future__ import annotations

import pytest

from linework.design.integrity import flaws_of
from tests.trial.rigs import RIGS


@pytest.mark.parametrize("name", RIGS)
def test_each_rig_is_drawn_whole(name: str) -> None:
    design = RIGS[name]().design
    assert [flaw.message for _, flaw in flaws_of(design)] == []
    assert 14 <= len(design.parts) <= 36


@pytest.mark.parametrize("name", RIGS)
def test_each_rig_says_why_it_is_sound(name: str) -> None:
    told = RIGS[name].__doc__ or ""
    assert "Minus" in told or "Neutral" in told or "hull" in told
    assert " guard" in told


def test_there_are_many_of_them() -> None:
    assert len(RIGS) >= 20
