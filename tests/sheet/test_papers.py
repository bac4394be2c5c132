"""A design on any paper: nothing is lost, cut or made smaller; what goes on elsewhere is told."""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import settings as examples

from linework.design import Design, Draft, Interlock, Note, changed
from linework.picture.measure import text_box
from linework.sheet.arranging import lay_out
from linework.sheet.compose import Composition, compose, compose_all
from linework.sheet.frame import PAPERS, frame_of
from linework.sheet.laid import Laid, Options
from linework.sheet.lettering import SMALL
from linework.sheet.papers import set_for
from linework.sheet.parts import is_board, seat_of, sheet_of
from linework.sheet.routing import body_end
from tests.designs import drafts
from tests.sheet.arranged import drawn, names
from tests.sheet.measures import measured
from tests.sheet.samples import trailer, unplaced
from tests.sheet.test_fitting import missing
from tests.trial.rigs import RIGS

RANDOM = int(os.environ.get("LINEWORK_RANDOM_DESIGNS", "8"))
EVERY = "LINEWORK_ALL_PAPERS" in os.environ
"""Every rig on every paper; else each on one of those smaller than it was drawn for."""


def _cases() -> list[tuple[str, str]]:
    found = []
    for number, name in enumerate(names()):
        papers = list(PAPERS) if EVERY or name not in RIGS else [("A4", "letter")[number % 2]]
        found += [(name, paper) for paper in papers]
    return found


@cache
def _set(name: str, paper: str) -> tuple[Design, tuple[Composition, ...]]:
    design = set_for(drawn(name), paper)
    return design, compose_all(design)


def _cut_runs(design: Design) -> dict[str, set[int]]:
    """The runs that go from one sheet to another, and both."""
    number = {part.id: sheet_of(design, part) for part in design.parts}
    found = {}
    for run in design.runs:
        sheets = {number[run.a.part], number[run.b.part]}
        if len(sheets) == 2 and body_end(design, run) is None:
            found[run.id] = sheets
    return found


def _words(sheet: Composition) -> str:
    return " ".join(text.text for text in sheet.texts)


def _smallest(sheet: Composition) -> int:
    """The lowest capitals of what is drawn; the title block has smaller ones (ISO 7200)."""
    block = sheet.frame.block
    texts = [text for text in sheet.texts if not text_box(text).overlaps(block.grown(1))]
    return min((text.height for text in texts), default=SMALL)


def _faults(design: Design, sheets: Sequence[Composition]) -> list[str]:
    """All that is wrong with the sheets of a design, in words."""
    found = [f"missing {name}" for name in missing(design, sheets)]
    for number, sheet in enumerate(sheets, start=1):
        figures = measured(design, sheet)
        found += [f"sheet {number}: {told}" for told in (*figures.outside, *sheet.outside)]
        found += [f"sheet {number} has no room for {key}" for key in sheet.lost]
        found += [f"sheet {number}: {told}" for told in figures.erased]
        if _smallest(sheet) < SMALL:
            found.append(f"sheet {number} has capitals of {_smallest(sheet)}")
    for key, numbers in _cut_runs(design).items():
        for number in numbers:
            sheet = sheets[sorted({p.sheet for p in design.parts}).index(number)]
            if design.get(key).designation not in _words(sheet):  # type: ignore[union-attr]
                found.append(f"sheet {number} does not name {key}")
    return found


@pytest.mark.parametrize(("name", "paper"), _cases())
def test_nothing_is_lost_on_any_paper(name: str, paper: str) -> None:
    design, sheets = _set(name, paper)
    assert {sheet.frame.paper for sheet in sheets} == {paper}
    assert {p.designation for p in design.parts} == {p.designation for p in drawn(name).parts}
    assert _faults(design, sheets) == []


@pytest.mark.parametrize(("name", "paper"), [("vaccination-trailer", "A4"), ("workboat", "A4")])
def test_every_sign_of_another_sheet_leads_to_its_part(name: str, paper: str) -> None:
    design, sheets = _set(name, paper)
    places = {
        (number, sheet.frame.zone_at(drawing.x, drawing.y), design.part(key).designation)
        for number, sheet in enumerate(sheets, start=1)
        for key, drawing in sheet.drawings.items()
    }
    signs = [m for sheet in sheets for text in sheet.texts if (m := _SIGN.fullmatch(text.text))]
    assert len(signs) == 2 * len(_cut_runs(design)) > 0
    assert {(int(m[2]), m[3], m[4]) for m in signs} <= places


_SIGN = re.compile(r"(?:([A-Z])-\1 )?sheet (\d+) ([A-Z]\d+): (\w+)")


@pytest.mark.parametrize(("name", "paper"), [("vaccination-trailer", "A4"), ("ketch", "letter")])
def test_a_match_line_has_its_letter_on_both_sheets(name: str, paper: str) -> None:
    _, sheets = _set(name, paper)
    pairs: dict[str, set[tuple[int, int]]] = {}
    for number, sheet in enumerate(sheets, start=1):
        for label in sheet.placed:
            if label.key.startswith("match-"):
                first, second = (text.text for mark in label.hung for text in mark.items)  # type: ignore[union-attr]
                letter, there = first[-1], int(second.removeprefix("see sheet "))
                pairs.setdefault(letter, set()).add((number, there))
                assert f"{letter}-{letter}" in _words(sheets[there - 1])
    assert pairs
    assert all(len({frozenset(pair) for pair in found}) == 1 for found in pairs.values())


@pytest.mark.parametrize(("name", "paper"), [("vaccination-trailer", "A4"), ("workboat", "A4")])
def test_signs_of_other_sheets_lie_on_no_part_and_on_no_other(name: str, paper: str) -> None:
    design, sheets = _set(name, paper)
    for number in range(1, len(sheets) + 1):
        laid = Laid(design, Options(sheet=number), None, {})
        boxes = [ref.box for ref in laid.references]
        parts = [drawing.box for drawing in laid.drawings.values()]
        assert boxes
        assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
        assert not any(box.overlaps(part) for box in boxes for part in parts)
        assert not any(line.box.overlaps(part) for line in laid.matches for part in parts)


def test_numbers_of_sheets_are_those_of_the_set() -> None:
    """Where the diagram is not the first of a set, its sheets bear the numbers of their pages."""
    design = _apart(trailer())
    words = _words(compose(design, options=Options(sheet=1, number=3, sheets=9)))
    assert re.search(r"sheet 4 \w+: QP1", words)
    assert "sheet 2" not in words
    words = _words(compose(design, options=Options(sheet=2, number=4, sheets=9)))
    assert re.search(r"sheet 3 \w+: QT1", words)
    assert "sheet 1 " not in words


def _apart(design: Design) -> Design:
    board = design.by_designation("QP1")
    design.apply(changed("", [(board, replace(board, sheet=2))]))
    return design


@pytest.mark.parametrize("paper", ["A3", "tabloid"])
def test_what_was_drawn_for_a_smaller_paper_is_moved_as_a_whole_into_the_middle(paper: str) -> None:
    before, (design, (sheet,)) = drawn("beekeepers-trailer"), _set("beekeepers-trailer", paper)
    steps = {
        (design.part(p.id).x - p.x, design.part(p.id).y - p.y)
        for p in before.parts
        if seat_of(before, p) is None
    }
    assert len(steps) == 1
    assert {text.height for text in sheet.texts} == {text.height for text in compose(before).texts}
    boxes = [drawing.whole for drawing in sheet.drawings.values()]
    left, right = min(box.left for box in boxes), max(box.right for box in boxes)
    area = sheet.frame.area
    assert abs((left - area.left) - (area.right - right)) < 300


def test_what_fits_is_moved_with_its_notes_and_bends() -> None:
    design = unplaced(2)
    design = lay_out(design)
    run = next(run for run in design.runs if design.part(run.b.part).designation == "EL1")
    at = design.by_designation("EL1")
    bend = ((at.x - 100, at.y - 100),)
    note = Note("n1", "lamps of the shed", 900, 300)
    design.apply(changed("", [(run, replace(run, route=bend)), (None, note)]))
    moved = set_for(design, "tabloid")
    step = moved.by_designation("EL1").x - at.x, moved.by_designation("EL1").y - at.y
    assert step != (0, 0)
    (other,) = moved.notes
    assert (other.x - note.x, other.y - note.y) == step
    (through,) = [r.route for r in moved.runs if r.route]
    assert through == ((bend[0][0] + step[0], bend[0][1] + step[1]),)


def test_a_note_goes_to_the_sheet_of_what_it_stood_beside() -> None:
    design = drawn("vaccination-trailer")
    board = design.by_designation("QP3")
    note = Note("n1", "fuses of this board in the glove box", board.x, board.y + 40)
    design.apply(changed("", [(None, note)]))
    moved = set_for(design, "A4")
    sheets = compose_all(moved)
    (here,) = moved.notes
    assert here.sheet == moved.by_designation("QP3").sheet
    assert _faults(moved, sheets) == []
    assert "glove box" in _words(sheets[here.sheet - 1])


def test_the_batteries_of_a_bank_and_a_board_with_its_breakers_stay_together() -> None:
    design, _ = _set("mountain-hut", "A4")
    assert len({p.sheet for p in design.parts if p.designation.startswith("GB")}) == 1
    seats = [(p, seat) for p in design.parts if (seat := seat_of(design, p)) is not None]
    hosts = [(p, design.part(s.host)) for p, s in seats if is_board(design, design.part(s.host))]
    assert hosts
    assert all(sheet_of(design, p) == sheet_of(design, board) for p, board in hosts)


def test_what_is_interlocked_across_sheets_says_so_on_both() -> None:
    draft = Draft()
    draft.part("isolator", "QB1", at=(600, 600))
    draft.part("isolator", "QB2", at=(600, 1200))
    lock = Interlock("i1", (("QB1", "contact", "closed"), ("QB2", "contact", "closed")))
    draft.design.apply(changed("", [(None, lock)]))
    part = draft.design.part("QB2")
    draft.design.apply(changed("", [(part, replace(part, sheet=2))]))
    first, second = compose_all(draft.design)
    assert "interlocked with QB2, sheet 2" in _words(first)
    assert "interlocked with QB1, sheet 1" in _words(second)


def test_a_board_larger_than_the_paper_stays_on_its_own() -> None:
    design = unplaced(15)
    assert set_for(design, "letter").settings.sheet == "A3"
    assert frame_of(set_for(unplaced(4), "letter").settings.sheet).paper == "letter"


@given(drafts())
@examples(max_examples=RANDOM, deadline=None)
def test_nothing_of_a_random_design_is_lost(draft: Draft) -> None:
    for paper in ("A4", "letter"):
        design = set_for(draft.design, paper)
        sheets = compose_all(design)
        assert missing(design, sheets) == []
        if frame_of(design.settings.sheet).paper == paper:
            assert all(_smallest(sheet) >= SMALL for sheet in sheets)
