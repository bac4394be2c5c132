"""When the drawing is judged, what is shown meanwhile, and when nothing holds any more."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from linework.bench.judge.judging import Judging
from linework.bench.judge.worker import Judge, Trouble
from linework.bench.levers.levers import Levers
from linework.bench.process.loop import Workbench
from linework.bench.process.messages import Judged, Mended, Request
from linework.design import Change, Design, Draft, End, History
from linework.design.edits import add_part, add_run, move_parts, rate
from tests.bench.benches import small, two_sources


class Recorder(Judge):
    """Notes what it is asked, and answers in this process when the test says so."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[tuple[bytes, str]] = []
        self.bench = Workbench()

    def start(self) -> None:
        """There is no process."""

    def ask(self, data: bytes, shown: str) -> int:
        """Note it."""
        self.asked.append((data, shown))
        return super().ask(data, shown)

    def request(self) -> Request:
        """What the process would have been sent last."""
        data, shown = self.asked[-1]
        return Request(self._number, shown, data, self._known)

    def answer(self) -> None:
        """Say all that the process would say to it."""
        for message in self.bench.answers(self.request(), lambda: False):
            self._take(message)


class Scene:
    """A design that is drawn on and judged."""

    def __init__(self, draft: Draft, qtbot: QtBot) -> None:
        self.history = History(draft.design)
        self.judge, self.levers = Recorder(), Levers()
        qtbot.addWidget(self.levers)
        self.judging = Judging(self.judge, self.levers)
        self.history.listen(self.judging.follow)
        self.judging.take(self.history.design)

    @property
    def design(self) -> Design:
        return self.history.design

    def dim(self, watts: str = "60 W") -> None:
        self.history.do(rate(self.design, "EL1", {"power": watts}))

    @property
    def is_partial(self) -> bool:
        return self.judging.analysis is not None and self.judging.analysis.partial


@pytest.fixture
def scene(qtbot: QtBot) -> Scene:
    return Scene(two_sources(), qtbot)


def test_a_drawing_is_judged_when_it_is_taken_up(scene: Scene) -> None:
    assert len(scene.judge.asked) == 1
    assert scene.judging.analysis is None
    assert not scene.judging.up_to_date
    scene.judge.answer()
    assert scene.judging.analysis is not None
    assert scene.judging.up_to_date
    assert scene.levers.segments


def test_a_moved_symbol_is_not_judged_again(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    scene.history.do(move_parts(scene.design, ["G1"], 50, 50))
    qtbot.wait(300)
    assert len(scene.judge.asked) == 1
    assert scene.judging.up_to_date


def test_a_changed_rating_is_judged_after_a_short_rest(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    for watts in ("60 W", "70 W", "80 W"):
        scene.dim(watts)
    assert not scene.judging.up_to_date
    assert scene.judging.progress()
    qtbot.waitUntil(lambda: len(scene.judge.asked) == 2, timeout=3000)
    assert b"80 W" in scene.judge.asked[-1][0]
    assert scene.judge.asked[-1][1] == scene.levers.key
    scene.judge.answer()
    assert scene.judging.up_to_date
    assert scene.judging.progress() == ""


def test_undo_to_what_was_judged_is_judged_too(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    scene.dim()
    scene.history.undo()
    qtbot.waitUntil(lambda: len(scene.judge.asked) == 2, timeout=3000)


def test_undone_and_done_again_before_it_was_asked_about(scene: Scene, qtbot: QtBot) -> None:
    scene.dim()
    scene.judging._idle.stop()
    scene.judging._ask()
    scene.judge.answer()
    asked = len(scene.judge.asked)
    scene.history.undo()
    scene.history.redo()
    assert not scene.judging.up_to_date
    qtbot.waitUntil(lambda: len(scene.judge.asked) > asked)
    scene.judge.answer()
    assert scene.judging.up_to_date


def test_mends_of_an_older_drawing_are_withdrawn_at_once(scene: Scene, qtbot: QtBot) -> None:
    heard: list[Change] = []
    scene.judging.mended.connect(lambda _, change: heard.append(change))
    scene.judge.answer()
    assert "Take the link out of QP1" in [change.title for change in heard]
    before = len(heard)
    with qtbot.waitSignal(scene.judging.unmended):
        scene.dim()
    scene.judge._take(Mended(scene.judge._number, "x", "late", Change("late")))
    assert len(heard) == before


def test_the_first_state_shown_is_one_in_which_the_load_is_fed(scene: Scene) -> None:
    scene.judge.answer()
    report = scene.judging.report
    assert report is not None
    assert any(load.sources for load in report.loads)
    assert not scene.levers.pinned


def test_levers_do_not_move_by_themselves_when_more_is_drawn(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    before = scene.levers.choice
    assert not scene.levers.pinned
    design = scene.design
    scene.history.do(add_part(design, "generator", at=(900, 900), part_id="G9"))
    scene.history.do(add_part(design, "lamp", at=(1500, 900), part_id="EL9"))
    scene.history.do(add_run(design, End("G9", "out"), End("EL9", "in")))
    qtbot.waitUntil(lambda: b"G9" in scene.judge.asked[-1][0], timeout=3000)
    scene.judge.answer()
    assert {key: scene.levers.choice[key] for key in before} == before
    assert scene.levers.choice["G9", "set"] == "running", "what is new is shown in use"
    scene.judge.answer()
    assert scene.judging.report is not None, "the shown state is asked for by its own name"


def test_a_state_that_cannot_stand_says_so_and_is_not_waited_for(scene: Scene) -> None:
    scene.judge.answer()
    scene.levers.set_choice({("G1", "set"): "running", ("QT1", "lever"): "off"})
    known = scene.judging.analysis
    assert known is not None
    bare = replace(known, reports=(), gaps=(), partial=True)
    scene.judge._take(Judged(scene.judge._number, bare, scene.levers.board))
    assert scene.judging.report is None
    assert scene.judging.why_waiting()


def test_a_state_that_somebody_chose_stays(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    scene.levers.set_choice({("G1", "set"): "running", ("QT1", "lever"): "off"})
    scene.dim()
    qtbot.waitUntil(lambda: b"60 W" in scene.judge.asked[-1][0], timeout=3000)
    scene.judge.answer()
    assert scene.levers.key == "G1=running QT1=off"


def test_a_state_without_a_report_of_its_own_is_asked_for_once(scene: Scene) -> None:
    scene.judge.answer()
    key = "G1=running QT1=off"
    assert scene.judging.analysis is not None
    assert key not in {report.key for report in scene.judging.analysis.reports}
    off = {("G1", "set"): "running", ("QT1", "lever"): "off"}
    scene.levers.set_choice(off)
    assert scene.judge.asked[-1][1] == key
    scene.judge.answer()
    assert scene.judging.report is not None
    assert scene.judging.report.key == key
    assert scene.judging.up_to_date
    asked = len(scene.judge.asked)
    scene.levers.set_choice({**off, ("QT1", "lever"): "2"})
    scene.levers.set_choice(off)
    assert len(scene.judge.asked) == asked


def test_the_verdict_on_one_state_waits_a_little_for_the_whole(scene: Scene, qtbot: QtBot) -> None:
    scene.judge.answer()
    scene.dim()
    qtbot.waitUntil(lambda: len(scene.judge.asked) == 2, timeout=3000)
    answers = Workbench().answers(scene.judge.request(), lambda: False)
    scene.judge._take(next(m for m in answers if isinstance(m, Judged)))
    assert not scene.is_partial
    assert not scene.judging.up_to_date
    qtbot.waitUntil(lambda: scene.is_partial, timeout=3000)
    assert not scene.judging.up_to_date
    scene.judge.answer()
    assert not scene.is_partial
    assert scene.judging.up_to_date


def test_after_a_trouble_nothing_holds(scene: Scene) -> None:
    scene.judge.answer()
    scene.judge.trouble.emit(Trouble("The checking stopped."))
    assert scene.judging.analysis is None
    assert not scene.judging.up_to_date
    assert scene.judging.trouble is not None
    scene.judging.again()
    scene.judge.answer()
    assert scene.judging.up_to_date


def test_an_error_nobody_caught_takes_the_verdict_away(scene: Scene) -> None:
    scene.judge.answer()
    scene.judging.invalidate()
    assert scene.judging.analysis is None
    assert len(scene.judge.asked) == 2
    scene.judge.answer()
    assert scene.judging.up_to_date


def test_another_drawing_takes_nothing_over(scene: Scene) -> None:
    scene.judge.answer()
    scene.levers.set_choice({("G1", "set"): "running", ("QT1", "lever"): "2"})
    scene.judging.take(small().design)
    assert scene.judging.analysis is None
    assert not scene.levers.pinned
    scene.judge.answer()
    assert set(scene.levers.choice) == {("G1", "set")}


def test_the_same_drawing_taken_up_again_is_judged_whole_with_its_mends(scene: Scene) -> None:
    """A file that is opened while it is open has the very bytes that were judged last."""
    mended: list[object] = []
    scene.judge.mended.connect(mended.append)
    scene.judge.answer()
    assert mended
    mended.clear()
    scene.judging.take(scene.design)
    assert not scene.judging.up_to_date
    scene.judge.answer()
    assert scene.judging.up_to_date
    assert mended
