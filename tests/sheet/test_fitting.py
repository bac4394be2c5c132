"""Nothing that was drawn is lost: every part, run and name is on some sheet inside its frame."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as examples

from linework.design import Design, Draft, changed
from linework.handover.document import content_of
from linework.picture.geometry import Box, joined_boxes
from linework.sheet.compose import Composition, compose_all
from linework.sheet.fitting import on_paper
from linework.sheet.frame import frame_of
from linework.storage import load
from tests.designs import drafts
from tests.sheet.samples import trailer

SAMPLES = sorted(Path(__file__).parents[2].glob("samples/*.linework"))
RANDOM = int(os.environ.get("LINEWORK_RANDOM_DESIGNS", "8"))


def missing(design: Design, sheets: Sequence[Composition]) -> list[str]:
    """Parts, runs and names of which some sheet does not show all inside its frame."""
    words = {text.text for sheet in sheets for text in sheet.texts}
    shown = {key for sheet in sheets for key, boxes in sheet.items.items() if _in(sheet, boxes)}
    drawn = [*design.parts, *design.runs]
    found = [element.designation for element in drawn if element.id not in shown]
    told = " ".join(words)
    return found + [f"name {e.designation}" for e in drawn if e.designation not in told]


def _in(sheet: Composition, boxes: tuple[Box, ...]) -> bool:
    whole = joined_boxes(boxes)
    return whole is not None and sheet.frame.area.contains(whole)


def _draft(*places: tuple[int, int]) -> Design:
    draft = Draft()
    for number, at in enumerate(places, start=1):
        draft.part("lamp", f"EL{number}", at=at)
    return draft.design


@pytest.mark.parametrize(
    "places",
    [
        ((6000, 500),),
        ((6000, 500), (800, 800)),
        ((0, 0), (800, 800)),
        ((0, 0), (0, 0), (900, 900)),
        ((-3000, 800), (800, 800), (9000, 9000)),
        ((3800, 2700), (800, 800)),
    ],
)
def test_a_part_off_the_paper_is_brought_onto_it(places: tuple[tuple[int, int], ...]) -> None:
    design = on_paper(_draft(*places))
    assert missing(design, compose_all(design)) == []


def test_a_sheet_that_lies_beside_the_paper_is_shifted_as_a_whole() -> None:
    design = trailer()
    beside = [(part, replace(part, x=part.x - 900, y=part.y - 400)) for part in design.parts]
    design.apply(changed("", beside))
    moved = on_paper(design)
    shifts = {
        (moved.part(p.id).x - p.x, moved.part(p.id).y - p.y)
        for p in design.parts
        if not design.seats_of(p.id)
    }
    assert len(shifts) == 1
    assert missing(moved, compose_all(moved)) == []


def test_what_finds_no_room_on_its_sheet_goes_to_another() -> None:
    block = frame_of("A4").block.grown(110)
    places = [(x, y) for x in range(350, 2850, 250) for y in range(250, 2000, 250)]
    free = [(x, y) for x, y in places if not block.holds(x, y)]
    design = on_paper(_draft(*free, (9000, 9000)), "A4")
    last = design.by_designation(f"EL{len(free) + 1}")
    assert last.sheet == 2
    assert all(part.sheet == 1 for part in design.parts if part is not last)


def test_a_design_on_its_paper_stays_as_it_is() -> None:
    design = trailer()
    assert on_paper(design) is design


def test_the_set_is_made_of_what_is_on_paper() -> None:
    design = _draft((6000, 500), (800, 800))
    content = content_of(design, datetime.date(2026, 12, 1), None)
    assert missing(content.design, compose_all(content.design, content.analysis)) == []


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_part_and_run_of_a_sample_is_on_paper(path: Path) -> None:
    design = on_paper(load(path))
    assert missing(design, compose_all(design)) == []


@given(drafts())
@examples(max_examples=RANDOM, deadline=None)
def test_every_part_and_run_of_a_random_design_is_on_paper(draft: Draft) -> None:
    design = on_paper(draft.design)
    assert missing(design, compose_all(design)) == []
