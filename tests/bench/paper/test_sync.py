from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from linework.analysis import analyse
from linework.bench.paper.items import PieceItem
from linework.bench.paper.pieces import Layer
from linework.bench.paper.scene import Fingerprint, SheetScene
from linework.bench.paper.sync import Sync
from linework.design import Design, End, History, Part, changed
from linework.design.edits import (
    add_note,
    add_part,
    add_run,
    change_settings,
    move_parts,
    rate,
    remove,
    seat,
    unseat,
)
from tests.bench.hands import small

pytestmark = pytest.mark.usefixtures("qapp")


def fresh(design: Design, sheet: int = 1) -> Fingerprint:
    """What a scene built from scratch looks like."""
    scene = SheetScene()
    Sync(scene, History(design), sheet)
    return scene.fingerprint()


class Bench:
    def __init__(self, design: Design | None = None) -> None:
        self.history = History(small() if design is None else design)
        self.scene = SheetScene()
        self.sync = Sync(self.scene, self.history)
        self.history.listen(self.sync.follow)

    @property
    def design(self) -> Design:
        return self.history.design

    def shown(self) -> set[str]:
        return set(self.scene.items_by_key)


def test_every_part_and_run_has_an_item_of_its_own_and_nothing_is_there_twice() -> None:
    bench = Bench()
    shown = [item for item in bench.scene.items() if isinstance(item, PieceItem)]
    elements = {item.piece.element for item in shown}
    expected = {p.id for p in bench.design.parts} | {r.id for r in bench.design.runs}
    assert expected <= elements
    assert len({item.piece.key for item in shown}) == len(shown)
    symbols = [i for i in shown if i.piece.layer in (Layer.SYMBOL, Layer.BOARD)]
    assert sorted(i.piece.element for i in symbols) == sorted(p.id for p in bench.design.parts)


def test_each_sort_of_edit_ends_in_the_scene_that_is_built_from_scratch() -> None:
    bench = Bench()
    do = bench.history.do
    do(move_parts(bench.design, ["XD1"], 100, 200))
    do(rate(bench.design, "QF1", {"rating": "15 A"}))
    do(add_part(bench.design, "lamp", at=(2600, 1500), part_id="EL1", designation="EL1"))
    do(add_run(bench.design, End("XD1", "onward"), End("EL1", "in"), run_id="W9"))
    do(add_note(bench.design, "spare way", (2500, 2000)))
    do(add_part(bench.design, "breaker", part_id="QF2", designation="QF2"))
    do(seat(bench.design, "QF2", "QP1", "2"))
    do(unseat(bench.design, bench.design.seats_of("QF1")[0].id))
    do(change_settings(bench.design, sheet="tabloid", job="Trailer"))
    do(remove(bench.design, ["G1"]))
    bench.sync.settle()
    assert bench.scene.fingerprint() == fresh(bench.design)
    while bench.history.undo():
        bench.sync.settle()
        assert bench.scene.fingerprint() == fresh(bench.design)
    assert bench.design.same_as(small()) is False  # seats have random ids
    assert len(bench.design.parts) == len(small().parts)


def test_a_change_touches_only_the_items_that_it_concerns(monkeypatch: pytest.MonkeyPatch) -> None:
    bench = Bench()
    touched: list[str] = []
    real = PieceItem.show_piece

    def noted(self: PieceItem, piece) -> None:
        touched.append(piece.element)
        real(self, piece)

    before = dict(bench.scene.items_by_key)
    monkeypatch.setattr(PieceItem, "show_piece", noted)
    bench.history.do(move_parts(bench.design, ["GB1"], 0, 50))
    assert set(touched) == {"GB1"}
    assert bench.scene.items_by_key == before


def test_moving_a_part_leaves_the_ways_of_other_runs_as_they_lie() -> None:
    bench = Bench()
    assert bench.scene.layout is not None
    before = dict(bench.scene.layout.ways)
    bench.history.do(move_parts(bench.design, ["G1"], 0, 200))
    after = bench.scene.layout.ways
    changed = {key for key, way in after.items() if before[key] != way}
    assert changed == {run.id for run in bench.design.runs_at("G1")}


def test_the_scene_is_laid_out_from_scratch_once_the_hand_rests(qtbot: QtBot) -> None:
    bench = Bench()
    bench.history.do(move_parts(bench.design, ["G1"], 0, 200))
    assert not bench.sync.settled
    qtbot.waitUntil(lambda: bench.sync.settled, timeout=5000)
    assert bench.scene.fingerprint() == fresh(bench.design)


def test_nothing_is_laid_out_anew_while_the_hand_is_busy(qtbot: QtBot) -> None:
    bench = Bench()
    bench.sync.hold(True)
    bench.history.do(move_parts(bench.design, ["G1"], 0, 200))
    qtbot.wait(600)
    assert not bench.sync.settled
    bench.sync.hold(False)
    qtbot.waitUntil(lambda: bench.sync.settled, timeout=5000)


def test_an_analysis_marks_what_is_live_and_sets_flags_and_goes_again() -> None:
    bench = Bench()
    plain = bench.scene.fingerprint()
    analysis = analyse(bench.design)
    running = next(r for r in analysis.reports if r.live_runs)
    bench.sync.show_analysis(analysis, running.key, running.case)
    flags = {key for key in bench.shown() if key.startswith("flag-")}
    flagged = [f for f in analysis.findings if f.subjects and f.rule != "value-assumed"]
    assert len(flags) == len(flagged)
    assert any(key.startswith("legend") for key in bench.shown())
    assert bench.scene.fingerprint() != plain
    bench.sync.show_analysis(None)
    assert bench.scene.fingerprint() == plain


def test_an_edit_under_an_older_analysis_still_shows_every_part() -> None:
    bench = Bench()
    analysis = analyse(bench.design)
    bench.sync.show_analysis(analysis, analysis.reports[0].key)
    bench.history.do(remove(bench.design, ["G1", "XD1"]))
    bench.sync.settle()
    elements = {i.piece.element for i in bench.scene.items_by_key.values()}
    assert {p.id for p in bench.design.parts} <= elements
    assert not {"G1", "XD1"} & elements


def test_what_is_shown_already_is_not_laid_out_again(monkeypatch: pytest.MonkeyPatch) -> None:
    analysis, bench = analyse(small()), Bench()
    scene, sync = bench.scene, bench.sync
    key = analysis.reports[-1].key
    sync.show_analysis(analysis, key)
    laid: list[object] = []
    monkeypatch.setattr(scene, "lay", lambda *what: laid.append(what))
    sync.show_analysis(analysis, key)
    assert not laid
    sync.show_analysis(analysis, analysis.reports[0].key)
    assert len(laid) == 1
    sync.show_analysis(None)
    assert len(laid) == 2


def test_a_second_sheet_shows_its_own_parts_only() -> None:
    bench = Bench()
    bench.history.do(add_part(bench.design, "lamp", at=(1000, 1000), sheet=2, part_id="EL1"))
    assert "EL1#0" not in bench.shown()
    bench.sync.show_sheet(2)
    assert {p for p in bench.shown() if "#" in p} == {"EL1#0", "EL1#1"}
    assert bench.scene.fingerprint() == fresh(bench.design, 2)


def test_a_closed_sync_lays_nothing_out_when_the_hand_rests(qtbot: QtBot) -> None:
    closed, open_ = Bench(), Bench()
    for bench in (closed, open_):
        bench.history.do(move_parts(bench.design, ["G1"], 50, 0))
        assert not bench.sync.settled
    closed.sync.close()
    qtbot.waitUntil(lambda: open_.sync.settled, timeout=5000)
    qtbot.wait(200)  # the other took no longer to lay out, so that its rest is over as well
    assert not closed.sync.settled


def test_a_kind_that_is_not_known_is_shown_as_a_box() -> None:
    design = small()
    design.apply(changed("", [(None, Part("U1", "flux_gate", "U1", x=2600, y=1500))]))
    bench = Bench(design)
    assert "U1#0" in bench.shown()


def test_the_fingerprint_tells_apart_what_looks_different() -> None:
    bench = Bench()
    before = bench.scene.fingerprint()
    item = bench.scene.items_by_key["G1#0"]
    item.setPos(item.x() + 25, item.y())
    assert bench.scene.fingerprint() != before
    item.setPos(item.x() - 25, item.y())
    assert bench.scene.fingerprint() == before
    bench.scene.addItem(PieceItem(item.piece, bench.scene.look))
    assert bench.scene.fingerprint() != before
