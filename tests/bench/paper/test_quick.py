from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.bench.paper.pieces import Layer, Piece, pieces_of
from linework.bench.paper.quick import Patch, touched_parts
from linework.design import Change, Design, End
from linework.design.edits import add_part, add_run, move_parts, rate, remove, retitle, seat
from linework.sheet.compose import Composition, compose
from linework.sheet.energised import source_marks, state_named
from tests.bench.hands import small


def after(design: Design, change: Change) -> tuple[Composition, dict[str, Piece]]:
    layout = compose(design)
    pieces = pieces_of(design, layout)
    design.apply(change)
    return Patch(design, layout, pieces, 1).patched(change)


@pytest.mark.parametrize(
    ("change", "touched"),
    [
        (lambda d: move_parts(d, ["GB1"], 25, 0), {"GB1"}),
        (lambda d: move_parts(d, ["QP1"], 25, 0), {"QP1", "QF1"}),
        (lambda d: rate(d, "QF1", {"rating": "15 A"}), {"QP1", "QF1"}),
        (lambda d: add_run(d, End("XD1", "onward"), End("G1", "out")), {"XD1", "G1"}),
    ],
)
def test_what_a_change_touches(change, touched: set[str]) -> None:
    design = small()
    assert touched_parts(design, change(design)) == touched


def test_a_moved_part_takes_its_writing_along_and_lets_others_lie() -> None:
    design = small()
    before = pieces_of(design, compose(design))
    layout, pieces = after(design, move_parts(design, ["GB1"], 100, 50))
    for key in ("GB1#0", "GB1#1"):
        assert (pieces[key].x - before[key].x, pieces[key].y - before[key].y) == (100, 50)
        assert pieces[key].group == before[key].group
    others = {key: piece for key, piece in before.items() if piece.element != "GB1"}
    assert {key: pieces[key] for key in others} == others
    assert all(box in layout.items["GB1"] for box in (layout.drawings["GB1"].box,))


def test_writing_that_says_something_else_now_is_not_left_standing() -> None:
    design = small()
    _, pieces = after(design, retitle(design, "GB1", "house bank"))
    assert "GB1#0" in pieces
    assert not [p for p in pieces.values() if p.element == "GB1" and p.layer is Layer.LABEL]


def test_only_the_runs_of_what_moved_are_laid_anew() -> None:
    design = small()
    ways = dict(compose(design).ways)
    layout, _ = after(design, move_parts(design, ["G1"], 0, 200))
    changed = {key for key, way in layout.ways.items() if ways[key] != way}
    assert changed == {run.id for run in design.runs_at("G1")}


def test_what_is_gone_leaves_nothing_behind() -> None:
    design = small()
    change = remove(design, ["QP1"])
    layout, pieces = after(design, change)
    assert not {p.element for p in pieces.values()} & set(change.pairs)
    assert not set(layout.items) & set(change.pairs)
    assert not set(layout.ways) & set(change.pairs)
    assert "QF1" in layout.drawings, "it sat in the panel and lies by itself now"


def test_a_new_guest_lies_in_its_host_at_once() -> None:
    design = small()
    design.apply(add_part(design, "breaker", at=(2600, 1500), part_id="QF2"))
    layout, pieces = after(design, seat(design, "QF2", "QP1", "2"))
    whole = compose(design)
    assert layout.drawings["QF2"].anchors == whole.drawings["QF2"].anchors
    assert pieces["QP1#0"].layer is Layer.BOARD
    assert pieces["QF2#0"].layer is Layer.SYMBOL


def test_what_is_live_keeps_its_hue_while_it_moves() -> None:
    design = small()
    analysis = analyse(design)
    report = next(r for r in analysis.reports if r.live_runs)
    state = state_named(analysis.reports, report.key)
    layout = compose(design, analysis, report.key)
    pieces = pieces_of(design, layout)
    change = move_parts(design, ["G1"], 0, 200)
    design.apply(change)
    patch = Patch(design, layout, pieces, 1, state, source_marks(design))
    _, patched = patch.patched(change)
    assert patched["G1#0"].group.inks == pieces["G1#0"].group.inks != ()


def test_a_part_that_goes_to_another_sheet_leaves_this_one() -> None:
    from dataclasses import replace

    from linework.design import changed

    design = small()
    part = design.part("GB1")
    layout, pieces = after(design, changed("", [(part, replace(part, sheet=2))]))
    assert "GB1" not in layout.drawings
    assert not [p for p in pieces.values() if p.element == "GB1"]
