"""The measures count what they say they do, and every sample's sheets keep to them."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from linework.design import Draft
from linework.picture.inks import Ink
from linework.picture.model import Group, Item, Line, Picture, Rect, Text
from linework.sheet.arranging import lay_out
from linework.sheet.compose import Composition, compose, compose_all
from linework.storage import load
from tests.sheet.measures import measured
from tests.sheet.samples import at_random, trailer
from tests.trial.rigs import RIGS

RANDOM = int(os.environ.get("LINEWORK_RANDOM_DESIGNS", "40"))
SAMPLES = sorted(Path(__file__).parents[2].glob("samples/*.linework"))


def _with(*items: Item) -> Composition:
    """An empty sheet with these on it, each a thing of its own."""
    sheet = compose(Draft().design)
    groups = tuple(Group((item,), tag=f"t{number}") for number, item in enumerate(items))
    return replace(sheet, picture=Picture(4200, 2970, groups))


def _count(*items: Item) -> tuple[int, int, int]:
    found = measured(Draft().design, _with(*items))
    return len(found.overlaps), len(found.erased), len(found.outside)


WORD = Text(1000, 1000, "W12", 25)


def test_writing_on_writing_and_too_near_a_line_is_counted() -> None:
    assert _count(WORD, replace(WORD, y=1100)) == (0, 0, 0)
    assert _count(WORD, replace(WORD, y=1028)) == (1, 0, 0)
    assert _count(WORD, Line(900, 1030, 1200, 1030)) == (0, 0, 0)
    assert _count(WORD, Line(900, 1003, 1200, 1003)) == (1, 0, 0)


def test_writing_in_a_field_that_covers_a_line_is_not_on_it() -> None:
    line = Line(900, 990, 1200, 990)
    field = Rect(985, 965, 100, 44, fill=Ink.PAPER)
    assert _count(line, field, WORD)[0] == 0
    assert _count(field, line, WORD)[0] == 1


def test_a_field_over_the_line_of_something_else_is_counted_and_what_leaves_the_frame() -> None:
    assert _count(Line(900, 990, 1200, 990), Rect(985, 965, 80, 44, fill=Ink.PAPER))[1] == 1
    assert _count(Line(5, 990, 1200, 990)) == (0, 0, 1)


def test_ways_that_meet_and_ways_through_symbols_are_counted() -> None:
    design = trailer()
    sheet = compose(design)
    box = sheet.drawings["G1"].box
    _, y = box.center
    through = {"W5": ((box.left - 100, y), (box.right + 100, y))}
    found = measured(design, replace(sheet, ways=through))
    assert found.through == ["W5 through G1"]
    corner = {"W5": ((100, 100), (200, 100), (200, 300)), "W2": ((200, 100), (400, 100))}
    assert measured(design, replace(sheet, ways=corner)).touching == ["W2 W5"]
    cross = {"W5": ((100, 200), (300, 200)), "W2": ((200, 100), (200, 300))}
    crossed = measured(design, replace(sheet, ways=cross))
    assert (crossed.touching, crossed.crossings, crossed.bends) == ([], 1, 0)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_writing_of_a_sample_lies_on_anything(path: Path) -> None:
    design = load(path)
    for sheet in compose_all(design):
        found = measured(design, sheet)
        assert found.overlaps == []
        assert found.erased == []
        assert found.outside == []
        assert found.touching == []
        assert found.lost == 0


@given(st.integers(0, 10_000))
@examples(max_examples=RANDOM, deadline=None)
def test_no_writing_of_a_random_design_lies_on_anything(seed: int) -> None:
    design = at_random(seed)
    found = measured(design, compose(design))
    assert found.overlaps == []
    assert found.erased == []


def test_signs_of_other_sheets_cover_no_line() -> None:
    design = lay_out(RIGS["rescue_van"]().design)
    sheets = compose_all(design)
    assert len(sheets) > 1
    for sheet in sheets:
        found = measured(design, sheet)
        assert found.erased == []
        assert found.overlaps == []
