"""The ways to mend, each on a small design; no rule makes an edit of its own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import linework.findings as home
from linework.design import Design, End, Run
from linework.findings.mending import (
    change_part,
    change_run,
    class_t,
    join,
    move,
    plant,
    put_into,
    rerate,
    resize,
    take_away,
    tie,
    together,
)
from linework.findings.model import Mend
from linework.findings.view import View
from tests.findings.camps import camp


def after(design: Design, mend: Mend) -> Design:
    copy = design.snapshot()
    copy.apply(mend.edit(copy))
    return copy


def drawn(**ratings: str) -> tuple[Design, View]:
    draft = camp(**ratings)
    return draft.design, View(draft.design, ())


def test_ratings_of_parts_and_runs_change_and_nothing_else() -> None:
    design, view = drawn()
    for mend, changed, key, value in (
        (rerate(view, "QF1", 15.0), "QF1", "rating", "15 A"),
        (resize(view, "W2", "10 AWG"), "W2", "size", "10 AWG"),
        (resize(view, "W2", "10 AWG", "neutral_size"), "W2", "neutral_size", "10 AWG"),
        (change_part("", "QP1", {"bond": "fitted"}), "QP1", "bond", "fitted"),
        (change_run("", "W1", {"size": None}), "W1", "size", None),
    ):
        mended = after(design, mend)
        differing = {i for i, e in mended.elements.items() if e != design.get(i)}
        assert differing == {changed}
        element = mended.get(changed)
        assert element is not None
        assert element.ratings.get(key) == value  # type: ignore[union-attr]


def test_a_title_names_what_and_how_much() -> None:
    _, view = drawn()
    assert rerate(view, "QF1", 15.0).title == "Make QF1 15 A"
    assert resize(view, "W2", "10 AWG").title == "Make W2 10 AWG"
    assert class_t(view, "QF1", ()).title == "Make QF1 a fuse of class T"


def test_what_was_marked_on_the_old_fuse_is_forgotten() -> None:
    draft = camp()
    draft.part("fuse", "FU1", rating="30 A", voltage="58 V", interrupting="1 kA", type="anl")
    mend = class_t(View(draft.design, ()), "FU1", ("voltage", "interrupting"))
    part = after(draft.design, mend).part("FU1")
    assert dict(part.ratings) == {"rating": "30 A", "type": "class_t"}


def test_a_part_put_into_a_run_shares_out_its_length() -> None:
    design, _ = drawn()
    run = design.get("W1")
    assert isinstance(run, Run)
    mended = after(design, put_into("", run, "isolator", {"rating": "30 A"}, (2.0, 4.096)))
    (added,) = (part for part in mended.parts if part.kind == "isolator")
    pieces = {r.id: mended.run_values(r).num("length") for r in mended.runs_at(added.id)}
    foot = 0.3048
    assert pieces.pop("W1") == pytest.approx(6.5 * foot)  # tenths of a foot, as people write
    assert list(pieces.values()) == pytest.approx([13.4 * foot])


def test_runs_are_joined_and_taken_away() -> None:
    design, _ = drawn()
    joined = after(design, join("", End("QP1", "ground"), End("EA1", "in"), {"size": "8 AWG"}))
    assert len(joined.runs) == len(design.runs) + 1
    (new,) = (run for run in joined.runs if run.id not in design)
    assert dict(new.ratings) == {"size": "8 AWG"}
    assert [run.id for run in after(design, take_away("", "W3")).runs] == ["W1", "W2"]


def test_an_electrode_is_planted_below_its_board_and_tied_to_it() -> None:
    design, _ = drawn()
    board = design.part("QP1")
    mended = after(design, plant("", board, 750))
    (rod,) = (part for part in mended.parts if part.kind == "electrode")
    assert (rod.x, rod.y) == (board.x, board.y + 750)
    assert {end.part for run in mended.runs_at(rod.id) for end in (run.a, run.b)} == {
        "QP1",
        rod.id,
    }
    twice = after(mended, tie("", board, rod.id))
    assert len(twice.runs_at(rod.id)) == 2


def test_several_are_one_step_and_a_part_moves_with_what_hangs_on_it() -> None:
    design, _ = drawn()
    steps = [change_part("", owner, {"handle": "tied"}) for owner in ("QF1", "QF2")]
    mended = after(design, together("", "tie them", steps))
    assert together("", "tie them", steps).edit(design).title == "tie them"
    assert [mended.values(mended.part(o)).pick("handle") for o in ("QF1", "QF2")] == ["tied"] * 2
    (seated,) = design.seats_of("QF2")
    moved = after(design, move("", seated, "QP1", "4"))
    assert [(s.host, s.place) for s in moved.seats_of("QF2")] == [("QP1", "4")]
    assert moved.runs_at("QF2") == design.runs_at("QF2")


def test_no_rule_makes_an_edit_of_its_own() -> None:
    root = Path(home.__file__).parent
    making = re.compile(r"from linework\.design\.edits import|\bMend\(\w")
    found = {p.name for p in root.rglob("*.py") if making.search(p.read_text(encoding="utf-8"))}
    assert found == {"mending.py"}
