"""The whole window: what one piece tells, another shows; files, findings, states, keys, names."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QAccessible, QGuiApplication, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QWidget,
)
from pytestqt.qtbot import QtBot

from linework.bench import looks
from linework.bench.app import _parser
from linework.bench.card.row import TextRow
from linework.bench.file.filing import Reply
from linework.bench.file.guard import Fault
from linework.bench.frame import commands, window
from linework.bench.frame.window import BenchWindow
from linework.bench.paper.runform import RunForm
from linework.design import End, Run
from linework.design.edits import add_run, rate
from linework.picture.inks import Ink
from linework.storage import dumps, load
from tests.bench.benches import part, two_sources


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "trailer.linework"
    path.write_bytes(dumps(two_sources().design))
    return path


@pytest.fixture
def bench(qtbot: QtBot, file: Path) -> Iterator[BenchWindow]:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    looks.dress(app, "light")
    found = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(found)
    found.filing.open(file)
    # Without a window manager, as in tests, no window of X11 becomes the active one.
    bare = QGuiApplication.platformName() == "xcb"
    with qtbot.waitExposed(found) if bare else qtbot.waitActive(found):
        found.show()
    qtbot.waitUntil(lambda: found.judging.up_to_date, timeout=30_000)
    yield found
    found.judge.stop()
    found.filing.document.close()
    app.setStyleSheet("")


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    said: list[str] = []

    def tell(title: str, text: str, details: str = "", parent: object = None) -> None:
        said.append(text)

    monkeypatch.setattr(window, "tell", tell)
    monkeypatch.setattr(commands, "tell", tell)
    return said


def trigger(bench: BenchWindow, name: str) -> None:
    bench.menus.actions[name].trigger()


# drawing, judging, undoing


def test_a_file_is_shown_judged_and_named(bench: BenchWindow) -> None:
    assert "Trailer" in bench.top.job.text()
    assert "trailer.linework" in bench.top.file.text()
    assert "saved" in bench.top.file.text()
    assert bench.margin.cards
    assert bench.levers.segments
    assert not bench.start.isVisible()


def test_an_edit_on_the_card_is_drawn_judged_and_taken_back(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    bench.view.select(("EL1",))
    assert bench.card.isVisible()
    row = bench.card.rows["power"]
    assert isinstance(row, TextRow)
    row.one.setText("60 W")
    row.one.commit()
    assert bench.isWindowModified()
    assert "changed" in bench.top.file.text()
    assert bench.menus.actions["undo"].isEnabled()
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
    qtbot.waitUntil(lambda: "Takes 5" in bench.card.told.foot.text(), timeout=5_000)
    trigger(bench, "undo")
    assert part(bench.history.design, "EL1").ratings["power"] == "100 W"
    assert not bench.isWindowModified()
    trigger(bench, "redo")
    assert part(bench.history.design, "EL1").ratings["power"] == "60 W"


def test_saving_takes_in_what_is_being_typed(bench: BenchWindow, file: Path) -> None:
    bench.view.select(("EL1",))
    row = bench.card.rows["power"]
    assert isinstance(row, TextRow)
    row.one.setText("40 W")
    trigger(bench, "save")
    assert load(file).part("EL1").ratings["power"] == "40 W"
    assert "saved" in bench.top.file.text()


def test_a_proven_mend_is_offered_and_carried_out(bench: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bool(bench.margin.changes), timeout=30_000)
    card = next(c for c in bench.margin.cards if c.mend.isVisible())
    assert card.finding is not None
    cured = card.finding
    card.mend.click()
    assert part(bench.history.design, "QP1").ratings["bond"] == "absent"
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
    shown = {(c.finding.rule, c.finding.subjects) for c in bench.margin.cards if c.finding}
    assert (cured.rule, cured.subjects) not in shown
    trigger(bench, "undo")
    assert part(bench.history.design, "QP1").ratings["bond"] == "fitted"


def test_accepting_is_an_edit_with_a_reason(bench: BenchWindow, qtbot: QtBot) -> None:
    card = bench.margin.cards[0]
    card.open_form()
    assert card.form is not None
    card.form.give()
    assert "reason" in card.form.fault.text()
    assert not bench.history.design.accepted
    card.form.reason.setText("measured on site")
    card.form.by.setText("A. Builder")
    card.form.give()
    (accepted,) = bench.history.design.accepted
    assert (accepted.reason, accepted.by) == ("measured on site", "A. Builder")
    assert bench.filing.habits.name == "A. Builder"
    qtbot.waitUntil(
        lambda: any(c.finding and c.finding.accepted for c in bench.margin.cards), timeout=30_000
    )
    back = next(c for c in bench.margin.cards if c.finding and c.finding.accepted)
    back.back.click()
    assert not bench.history.design.accepted


def accept_first(bench: BenchWindow, reason: str) -> None:
    card = bench.margin.cards[0]
    card.open_form()
    assert card.form is not None
    card.form.reason.setText(reason)
    card.form.give()


def test_an_acceptance_is_shown_at_once_and_nothing_is_judged_for_it(bench: BenchWindow) -> None:
    asked: list[object] = []
    bench.judge.ask = lambda *words: asked.append(words)  # type: ignore[method-assign]
    accept_first(bench, "measured on site")
    card = bench.margin.cards[0]
    assert card.finding is not None
    assert card.finding.accepted is not None
    assert "measured on site" in card.reason.text()
    trigger(bench, "undo")
    assert bench.margin.cards[0].accept.isVisible()
    assert not bench.margin.cards[0].reason.isVisible()
    assert bench.judging.up_to_date
    assert not asked


def test_an_accepted_finding_comes_back_with_its_reason_when_its_numbers_change(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    accept_first(bench, "measured on site")
    finding = bench.margin.cards[0].finding
    assert finding is not None
    for power, still in (("100.1 W", True), ("300 W", False)):
        lamp = bench.history.design.by_designation("EL1")
        bench.carry_out(lambda p=power, i=lamp.id: rate(bench.history.design, i, {"power": p}))
        qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
        card = next(
            c
            for c in bench.margin.cards
            if c.finding
            and (c.finding.rule, c.finding.subjects) == (finding.rule, finding.subjects)
        )
        assert card.finding is not None
        assert (card.finding.accepted is not None) is still, power
    assert "measured on site" in card.reason.text()
    assert "open again" in card.reason.text()
    card.open_form()
    assert card.form is not None
    assert card.form.reason.text() == "measured on site"
    card.form.give()
    (accepted,) = bench.history.design.accepted
    assert accepted.fingerprint == card.finding.fingerprint
    assert "open again" not in card.reason.text()


def test_what_was_accepted_and_is_found_no_more_is_listed_and_can_be_taken_back(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    accept_first(bench, "measured on site")
    finding = bench.margin.cards[0].finding
    assert finding is not None
    assert finding.rule == "bond-doubled"
    panel = bench.history.design.by_designation("QP1").id
    bench.carry_out(lambda: rate(bench.history.design, panel, {"bond": "absent"}))
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
    told = [label.text() for label in bench.margin.findChildren(QLabel) if label.isVisible()]
    assert any("no longer found" in text for text in told)
    names = {b.accessibleName(): b for b in bench.margin.findChildren(QPushButton)}
    (back,) = [b for name, b in names.items() if "QP1: measured on site" in name]
    back.click()
    assert not bench.history.design.accepted


# states


def test_walking_goes_through_all_states_and_round(bench: BenchWindow) -> None:
    analysis = bench.judging.analysis
    assert analysis is not None
    seen = []
    for _ in range(len(analysis.reports)):
        trigger(bench, "walk")
        seen.append(bench.levers.key)
    assert len(set(seen)) == len({r.key for r in analysis.reports if not r.passing})
    trigger(bench, "walk_back")
    assert bench.levers.key == seen[-2]


def test_walking_says_what_changes_from_state_to_state(bench: BenchWindow) -> None:
    bench.levers.set_choice(bench.levers.board.rest())
    tag = bench.overlay.walk
    told: dict[str, str] = {}
    for _ in range(8):
        trigger(bench, "walk")
        told[bench.levers.key] = tag.told.text()
        assert tag.isVisible()
        assert bench.view.rect().contains(tag.geometry())
        number = bench.levers.state.text().split()[1]
        assert tag.title.text().startswith(f"State {number} of ")
    assert "QT1 transfer switch is moved to: set" in told["G1=running QT1=set"]
    fed = "\n".join(told.values())
    assert "Fed from G1 now: EL1" in fed
    assert "Dead now: EL1" in fed
    assert "Findings in this state: " in fed


def test_a_walk_ends_with_escape_with_a_lever_and_with_an_edit(bench: BenchWindow) -> None:
    tag = bench.overlay.walk
    bench.view.setFocus()
    trigger(bench, "walk")
    QTest.keyClick(bench.view, Qt.Key.Key_Escape)
    assert not tag.isVisible()
    trigger(bench, "walk")
    tag.next.setFocus()
    tag.next.click()
    assert tag.next.hasFocus()
    tag.close_button.click()
    assert not tag.isVisible()
    assert bench.view.hasFocus()
    trigger(bench, "walk")
    other = {"stopped": "running", "running": "stopped"}[bench.levers.choice["G1", "set"]]
    bench.levers.move_lever(("G1", "set"), other)
    assert not tag.isVisible()
    trigger(bench, "walk")
    bench.carry_out(lambda: rate(bench.history.design, "EL1", {"power": "60 W"}))
    assert not tag.isVisible()


def test_the_outlet_tester_stands_beside_an_outlet_under_the_pointer(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    before = set(bench.history.design.elements)
    bench.view.place_kind("outlet")
    (outlet,) = set(bench.history.design.elements) - before
    bench.view.select(())
    bench.carry_out(lambda: add_run(bench.history.design, End("QF1", "load"), End(outlet, "feed")))
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
    bench.view.sync.settle()
    bench.levers.set_choice({("G1", "set"): "running", ("QT1", "lever"): "2"})
    tester = bench.overlay.tester
    layout = bench.view.surface.layout
    points = [layout.drawings[outlet].box.center]
    points += [(x, y) for x, y, _ in layout.drawings[outlet].anchors.values()]
    for at in points:
        bench.view.hovered.emit(bench.view.surface.hit((5, 5)))
        assert not tester.isVisible()
        bench.view.hovered.emit(bench.view.surface.hit(at))
        assert tester.isVisible(), at

    def lamps() -> list[str]:
        words = [w.text() for w in tester.findChildren(QLabel)]
        return [w.split()[-1] for w in words if w.endswith((" lit", " dark"))]

    assert lamps() == ["lit", "lit", "dark"]
    bench.levers.set_choice({("G1", "set"): "stopped", ("QT1", "lever"): "2"})
    assert lamps() == ["dark", "dark", "dark"], "it follows the state under the resting pointer"
    bench.view.select((outlet,))
    assert not tester.isVisible(), "the card shows the same"


def test_a_finding_leads_to_a_state_in_which_it_holds(bench: BenchWindow) -> None:
    card = next(c for c in bench.margin.cards if c.where.isVisible())
    assert card.finding is not None
    assert card.finding.standing is not None
    for _ in card.finding.states:
        card.where.click()
        assert card.finding.standing.holds(bench.levers.choice)


def test_choosing_a_finding_brings_its_place_into_view(bench: BenchWindow) -> None:
    bench.view.zoom_by(6.0)
    card = bench.margin.cards[0]
    assert card.finding is not None
    QTest.mouseClick(card, Qt.MouseButton.LeftButton)
    rect = bench.view.rect_of(card.finding.subjects[0])
    assert bench.view.viewport().rect().intersects(rect)


# the card floats


def test_the_card_floats_inside_the_sheet_off_its_part(bench: BenchWindow) -> None:
    for name in ("GS1", "G1", "QT1", "QP1", "EL1"):
        bench.view.select((name,))
        assert bench.view.rect().contains(bench.card.geometry())
        assert not bench.card.geometry().intersects(bench.view.rect_of(name))
        assert bench.overlay.leash.isVisible()


def test_escape_on_the_card_lets_go_of_the_part(bench: BenchWindow) -> None:
    bench.view.select(("GS1",))
    trigger(bench, "card")
    QTest.keyClick(bench.card, Qt.Key.Key_Escape)
    assert not bench.card.isVisible()
    assert bench.view.selection == ()


# clipboard, tree, looks


def test_the_card_stays_under_the_hand_while_its_part_is_rated(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    bench.view.select(("QP1",))
    lay = bench.card.geometry()
    for bus in ("60 A", "100 A", "125 A"):
        bench.carry_out(lambda b=bus: rate(bench.history.design, "QP1", {"bus": b}))
        assert bench.card.geometry().topLeft() == lay.topLeft()
        qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
        assert bench.card.geometry().topLeft() == lay.topLeft()


def test_the_wheel_over_the_card_leaves_the_sheet_alone(bench: BenchWindow) -> None:
    bench.view.select(("QP1",))
    before = bench.view.viewportTransform()
    at = bench.card.rect().center()
    for _ in range(12):
        event = QWheelEvent(
            QPointF(at),
            QPointF(bench.card.mapToGlobal(at)),
            QPoint(),
            QPoint(0, -120),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(bench.card, event)
        assert event.isAccepted()
    assert bench.view.viewportTransform() == before


def test_a_run_is_drawn_with_the_keys_alone(bench: BenchWindow) -> None:
    bench.view.place_kind("junction_box")
    (box,) = bench.view.selection
    before = set(bench.history.design.elements)
    bench.view.select((box, "EL1"))

    def answer() -> None:
        form = QApplication.activeModalWidget()
        assert isinstance(form, RunForm)
        QTest.keyClick(form, Qt.Key.Key_Return)

    QTimer.singleShot(200, answer)
    trigger(bench, "run")
    (run,) = set(bench.history.design.elements) - before
    drawn = bench.history.design.get(run)
    assert isinstance(drawn, Run)
    assert {drawn.a.part, drawn.b.part} == {box, "EL1"}
    assert bench.view.selection == (run,)
    trigger(bench, "undo")
    assert run not in bench.history.design


def test_copy_paste_and_duplicate(bench: BenchWindow) -> None:
    bench.view.select(("EL1",))
    trigger(bench, "copy")
    trigger(bench, "paste")
    assert sorted(p.designation for p in bench.history.design.parts if p.kind == "lamp") == [
        "EL1",
        "EL2",
    ]
    kept = QGuiApplication.clipboard().text()
    trigger(bench, "duplicate")
    assert len(bench.history.design.parts) == 8
    assert QGuiApplication.clipboard().text() == kept
    bench.view.select(())
    bench.view.set_caret((1000, 2000))
    trigger(bench, "paste")
    (lamp,) = bench.view.selection
    assert (part(bench.history.design, "EL4").x, part(bench.history.design, "EL4").y) == (
        1000,
        2000,
    )
    trigger(bench, "cut")
    assert lamp not in bench.history.design
    trigger(bench, "undo")
    assert lamp in bench.history.design


def test_the_tree_takes_the_place_of_the_margin(bench: BenchWindow) -> None:
    trigger(bench, "tree")
    assert bench.tree.isVisible()
    line = next(i for i in bench.tree._all() if i.text(0).startswith("QT1"))
    bench.tree.list.setCurrentItem(line)
    assert bench.view.selection == ("QT1",)
    trigger(bench, "tree")
    assert bench.margin.isVisible()


@pytest.mark.parametrize("look", ["dark", "contrast", "light"])
def test_the_look_is_worn_by_everything_and_remembered(bench: BenchWindow, look: str) -> None:
    bench.wear(look)
    assert bench.filing.habits.look == look
    assert looks.worn() is looks.palette_of(look)
    assert bench.view.sheet_scene.look.palette is looks.worn()


# what goes wrong


def test_an_error_nobody_caught_is_told_and_work_goes_on(
    bench: BenchWindow, told: list[str], qtbot: QtBot
) -> None:
    bench.caught(Fault("ValueError: by a test", "Traceback"))
    assert "by a test" in told[0]
    assert bench.judging.analysis is None
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)


def test_a_lost_analysis_process_is_shown_and_comes_back(bench: BenchWindow, qtbot: QtBot) -> None:
    os.kill(bench.judge.process_id(), signal.SIGKILL)
    qtbot.waitUntil(lambda: bench.margin.trouble.isVisible(), timeout=10_000)
    assert not bench.margin.cards
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=30_000)
    assert not bench.margin.trouble.isVisible()
    assert bench.margin.cards


def test_a_refused_edit_is_told_in_a_line(bench: BenchWindow) -> None:
    bench.view.select(("EL1",))
    trigger(bench, "interlock")
    assert "two or more breakers" in bench.top.notice.text()


# the drawing set


def test_the_drawing_set_is_written_beside_the_work(
    bench: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    target = tmp_path / "set.pdf"
    bench.commands.write_set(target)
    assert bench.handing.busy
    qtbot.waitUntil(lambda: not bench.handing.busy, timeout=60_000)
    assert target.read_bytes().startswith(b"%PDF")
    assert "set.pdf" in bench.top.notice.text()


def test_every_file_that_is_written_is_named(
    bench: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    bench.commands.write_set(tmp_path / "set.csv")
    qtbot.waitUntil(lambda: not bench.handing.busy, timeout=60_000)
    names = sorted(path.name for path in tmp_path.glob("set-*.csv"))
    assert "set-materials.csv" in names
    assert [name for name in names if name not in bench.top.notice.text()] == []


def test_a_set_that_cannot_be_written_is_told(
    bench: BenchWindow, qtbot: QtBot, tmp_path: Path, told: list[str]
) -> None:
    bench.commands.write_set(tmp_path / "missing" / "set.pdf")
    qtbot.waitUntil(lambda: not bench.handing.busy, timeout=60_000)
    assert "missing" in told[0]


def test_a_cancelled_set_leaves_no_file(bench: BenchWindow, tmp_path: Path) -> None:
    target = tmp_path / "set.pdf"
    bench.commands.write_set(target)
    bench.handing.cancel()
    assert not bench.handing.busy
    assert not target.exists()


# names, tab order, visible focus


def reachable(bench: BenchWindow) -> list[QWidget]:
    """Every widget that takes the focus by Tab and can be seen."""
    return [
        widget
        for widget in bench.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
        and widget.window() is bench
    ]


def name_of(widget: QWidget) -> str:
    found = QAccessible.queryAccessibleInterface(widget)
    return found.text(QAccessible.Text.Name) if found is not None else ""


def everything_open(bench: BenchWindow) -> None:
    bench.view.select(("G1",))
    bench.card._fold()
    bench.margin.cards[0].open_form()


def test_every_widget_that_takes_the_focus_has_a_name(bench: BenchWindow) -> None:
    everything_open(bench)
    found = reachable(bench)
    assert len(found) > 40
    assert [widget for widget in found if not name_of(widget).strip()] == []
    trigger(bench, "tree")
    assert [widget for widget in reachable(bench) if not name_of(widget).strip()] == []


def test_every_field_button_and_list_has_a_name_also_where_it_is_hidden(
    bench: BenchWindow,
) -> None:
    everything_open(bench)
    kinds = (QAbstractButton, QLineEdit, QComboBox)
    nameless = [
        widget
        for widget in bench.findChildren(QWidget)
        if isinstance(widget, kinds)
        and not widget.objectName().startswith("qt_")
        and not name_of(widget).strip()
    ]
    assert nameless == []


def test_tab_reaches_every_widget_that_takes_the_focus(bench: BenchWindow) -> None:
    everything_open(bench)
    wanted = set(reachable(bench))
    seen: set[QWidget] = set()
    bench.view.setFocus()
    for _ in range(3 * len(wanted)):
        widget = QApplication.focusWidget()
        assert widget is not None
        seen.add(widget)
        QTest.keyClick(widget, Qt.Key.Key_Tab)
    missed = [(type(w).__name__, name_of(w)) for w in wanted - seen]
    assert missed == []


def test_the_focus_can_be_seen(bench: BenchWindow) -> None:
    everything_open(bench)
    shown: dict[type, QWidget] = {}
    for widget in reachable(bench):
        if not isinstance(widget, QAbstractScrollArea):
            shown.setdefault(type(widget), widget)
    assert len(shown) >= 6
    for widget in shown.values():
        bench.view.setFocus()
        QApplication.processEvents()
        without = widget.grab().toImage()
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        if isinstance(widget, QLineEdit):
            widget.deselect()
        QApplication.processEvents()
        assert widget.hasFocus(), (type(widget).__name__, name_of(widget))
        assert widget.grab().toImage() != without, (type(widget).__name__, name_of(widget))


def test_keys_put_the_hand_on_each_piece(bench: BenchWindow) -> None:
    bench.view.select(("QF1",))
    for name, piece in (
        ("card", bench.card),
        ("to_margin", bench.margin),
        ("to_levers", bench.levers),
    ):
        trigger(bench, name)
        focused = QApplication.focusWidget()
        assert focused is not None
        assert piece.isAncestorOf(focused), name
    trigger(bench, "to_sheet")
    assert QApplication.focusWidget() is bench.view


# starting


def test_the_arguments_are_a_file_and_a_picture() -> None:
    arguments = _parser().parse_args(["a.linework", "--screenshot", "b.png"])
    assert (arguments.file, arguments.screenshot) == ("a.linework", "b.png")


def test_an_empty_sheet_offers_how_to_begin(qtbot: QtBot) -> None:
    found = BenchWindow(ask=lambda *_: Reply.NO)
    qtbot.addWidget(found)
    found.show()
    assert found.start.isVisible()
    assert found.view.rect().contains(found.start.geometry())
    assert found.top.file.text() == "a new sheet"
    found.view.place_kind("generator")
    assert not found.start.isVisible()
    found.judge.stop()
    found.filing.document.close()


@pytest.mark.window
def test_a_real_window_shows_a_judged_drawing_and_takes_clicks(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    assert QGuiApplication.platformName() == "xcb"
    segments = bench.levers.segments["QT1", "lever"]
    button = segments.buttons[1]
    at = button.mapTo(bench, button.rect().center())
    QTest.mouseClick(bench.windowHandle(), Qt.MouseButton.LeftButton, pos=at)
    qtbot.waitUntil(lambda: bench.levers.choice["QT1", "lever"] == "off", timeout=3000)
    picture = bench.screen().grabWindow(bench.winId()).toImage()
    assert picture.width() > 800
    colors = {
        picture.pixelColor(x, y).name()
        for x in range(0, picture.width(), 7)
        for y in range(0, picture.height(), 7)
    }
    for ink in (Ink.PAPER, Ink.TINT, Ink.DANGER):
        assert looks.worn().color(ink) in colors
