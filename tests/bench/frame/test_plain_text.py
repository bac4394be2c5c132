"""Nothing that comes from a file is markup on screen: it is read as it was written.

A design whose every text holds tags, a picture, a link, an entity, a mnemonic and Qt's mark for
an unsaved document is opened; then every widget of the window is looked through.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QAction, QTextDocument
from PySide6.QtGui import Qt as Gui
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QMessageBox,
    QTextEdit,
    QTreeWidget,
    QTreeWidgetItemIterator,
    QWidget,
)
from pytestqt.qtbot import QtBot

from linework.bench import looks
from linework.bench.file.filing import Reply
from linework.bench.file.jobform import JobForm
from linework.bench.file.startcard import StartCard
from linework.bench.file.trouble import TroubleDialog
from linework.bench.frame.window import BenchWindow
from linework.bench.paper.runform import RunForm
from linework.design import Draft
from linework.design.edits import add_note, rename
from linework.storage import dumps
from tests.bench.conftest import at_home

BENCH = Path(looks.__file__).resolve().parents[1]

WORDS = ("zjob", "zshore", "zset", "zswitch", "zoutlet", "zlamp", "zwire", "zreason", "zperson")


def nasty(word: str) -> str:
    """A text that would look otherwise if anything in it were markup."""
    return f'<b>{word}</b> <img src="x.png"> <a href="y">&amp;{word}</a> &{word} [*]'


FILE = "<b>zfile</b".replace("/", "") + "><img src=x> &amp;zfile [*].linework"
TEXTS = {**{word: nasty(word) for word in WORDS}, "zfile": FILE}


def design() -> Draft:
    """Texts of every sort: job, designations, titles, a name of a run, a rating, a note."""
    source, switch, outlet, lamp = map(nasty, ("zshore", "zswitch", "zoutlet", "zlamp"))
    draft = Draft(place="vehicle", job=nasty("zjob"))
    draft.part("supply", source, title=nasty("zshore"), breaker="30 A", neutral="bonded")
    draft.part("generator", "G1", title=nasty("zset"), power="5 kVA", neutral="bonded")
    draft.part(
        "transfer_switch", switch, rating="30 A", poles="all", first=nasty("zshore"), second="set"
    )
    draft.part("panel", "QP1", bond="fitted", places="2")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", outlet, title=nasty("zoutlet"), configuration="5-20")
    draft.part("lamp", lamp, power="100 W")
    draft.run(f"{source}.out", f"{switch}.in1", "W1", size="10 AWG", length="25 ft")
    draft.run("G1.out", f"{switch}.in2", "W2", size="10 AWG", length="10 ft")
    draft.run(f"{switch}.load", "QP1.feed", "W3", size="10 AWG", length="6 ft")
    draft.seat("QF1", "QP1", "1")
    draft.run("QF1.load", f"{outlet}.feed", nasty("zwire"), size="18 AWG", length="6 ft")
    draft.run(f"{outlet}.onward", f"{lamp}.in", "W5", size="18 AWG", length="6 ft")
    draft.design.apply(add_note(draft.design, nasty("zset"), QPoint(500, 500).toTuple(), 1))  # type: ignore[arg-type]
    return draft


@pytest.fixture(scope="module")
def bench(
    qapp: QApplication, request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[BenchWindow]:
    """One window for all tests here: they look at it, and leave the drawing as it was."""
    folder = tmp_path_factory.mktemp("plain")
    looks.dress(qapp, "light")
    file = folder / FILE
    file.write_bytes(dumps(design().design))
    with pytest.MonkeyPatch.context() as patch:
        at_home(patch, folder)
        found = BenchWindow(ask=lambda title, text, replies: Reply.NO)
        found.show()
        assert found.filing.open(file)
        QtBot(request).waitUntil(lambda: found.judging.up_to_date, timeout=30_000)
        yield found
        found.judge.stop()
        found.why.hide()
        found.close()
    qapp.setStyleSheet("")


# what a person sees of each sort of widget


def read(text: str, how: Qt.TextFormat) -> str:
    """What Qt shows of a text under a format."""
    rich = how is Qt.TextFormat.RichText
    if rich or (how is not Qt.TextFormat.PlainText and Gui.mightBeRichText(text)):
        document = QTextDocument()
        document.setHtml(text)
        return document.toPlainText()
    return text


def tip(text: str) -> str:
    return read(text, Qt.TextFormat.AutoText)


def caption(text: str) -> str:
    """A button's or menu's text without the marks for its keys."""
    return re.sub(r"&(.)", r"\1", text)


def title(widget: QWidget) -> str:
    held = widget.windowTitle().replace("[*][*]", "\0")
    return held.replace("[*]", "").replace("\0", "[*]")


def seen(widget: QWidget) -> Iterator[tuple[str, str]]:
    """Each text that a widget shows or would show: where, and as what."""
    name = f"{type(widget).__name__} {widget.accessibleName()}"[:60]
    yield f"tip of {name}", tip(widget.toolTip())
    yield f"title of {name}", title(widget)
    for action in widget.findChildren(QAction):
        yield f"action of {name}", caption(action.text())
        if action.toolTip() != action.iconText():  # else its text, which Qt takes as it stands
            yield f"tip of an action of {name}", tip(action.toolTip())
    if isinstance(widget, QLabel | QMessageBox):
        text = read(widget.text(), widget.textFormat())
        # What has no room in its line ends in dots, and is told in full beside it.
        text = text.replace("\xa0", " ")
        begun = text.removesuffix("…")
        whole = widget.accessibleDescription().replace("\xa0", " ")
        yield name, whole if begun != text and whole.startswith(begun) else text
    elif isinstance(widget, QAbstractButton):
        yield name, caption(widget.text())
    elif isinstance(widget, QTextEdit):
        yield name, widget.toPlainText()
    elif isinstance(widget, QComboBox):
        for number in range(widget.count()):
            yield f"tip in {name}", tip(widget.itemData(number, Qt.ItemDataRole.ToolTipRole) or "")
    elif isinstance(widget, QTreeWidget):
        yield from items(widget)


def items(tree: QTreeWidget) -> Iterator[tuple[str, str]]:
    found = QTreeWidgetItemIterator(tree)
    while (item := found.value()) is not None:
        for column in range(tree.columnCount()):
            yield "line of the tree", item.text(column)
            yield "tip in the tree", tip(item.toolTip(column))
        found += 1


def texts_of(top: QWidget) -> list[tuple[str, str]]:
    return [text for widget in [top, *top.findChildren(QWidget)] for text in seen(widget)]


def words_in(texts: list[tuple[str, str]]) -> set[str]:
    """Which of the file's texts are among these; each must be read as it was written."""
    found = set()
    for where, text in texts:
        plain = text.replace("\xa0", " ")
        assert "\ufffc" not in plain, f"a picture in {where}: {text}"
        for word, whole in TEXTS.items():
            if word in plain:
                found.add(word)
                assert word not in plain.replace(whole, ""), f"{where} shows {text!r}"
    return found


def words_read(top: QWidget) -> set[str]:
    return words_in(texts_of(top))


# the window with all its pieces


def test_the_window_at_rest_shows_every_text_as_it_was_written(bench: BenchWindow) -> None:
    found = words_read(bench)
    assert {"zjob", "zfile", "zshore", "zset", "zswitch", "zoutlet"} <= found
    assert "zfile" in title(bench) or "zjob" in title(bench)


def test_so_does_the_card_of_each_part_and_run(bench: BenchWindow) -> None:
    found = set()
    for element in (*bench.history.design.parts, *bench.history.design.runs):
        bench.view.select((element.id,))
        assert bench.card.isVisible()
        found |= words_read(bench.card)
    assert "zshore" in found


def test_so_do_the_margin_the_reasons_and_the_tree(bench: BenchWindow) -> None:
    findings = bench.judging.analysis.findings
    assert findings
    found: set[str] = set()
    for number, card in enumerate(list(bench.margin.every_card())):
        assert card.finding is not None
        bench.margin.asked_why.emit(card.finding)
        if number == 0:
            bench.margin.accepted.emit(card.finding, nasty("zreason"), nasty("zperson"), "today")
        found |= words_read(bench.why)
    assert {"zoutlet", "zshore", "zwire"} <= found
    assert {"zreason", "zperson"} <= words_read(bench.margin)
    bench.menus.actions["tree"].trigger()
    assert set(WORDS) - {"zjob", "zreason", "zperson"} <= words_read(bench.tree)


def test_so_do_the_walk_the_tester_the_hint_and_the_notice(bench: BenchWindow) -> None:
    for _ in range(4):
        bench.menus.actions["walk"].trigger()
        words_read(bench.overlay.walk)
    assert "zlamp" in words_read(bench.overlay.walk)
    outlet = bench.history.design.by_designation(nasty("zoutlet"))
    report = bench.judging.report
    bench.overlay.hover(outlet.id, nasty("zoutlet"), report, "NA")
    assert "zoutlet" in words_read(bench.overlay.tester)
    bench.view.show_hint(nasty("zlamp"))
    assert "zlamp" in words_read(bench.view)
    bench.view.refuse(nasty("zlamp"))
    assert "zlamp" in words_read(bench.top.notice)


@pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # of the menu, offscreen
def test_so_do_what_is_taken_back_and_the_menus(bench: BenchWindow) -> None:
    lamp = bench.history.design.by_designation(nasty("zlamp"))
    bench.history.do(rename(bench.history.design, lamp.id, nasty("zperson")))
    assert bench.menus.actions["undo"].isEnabled()
    assert "zlamp" in words_read(bench.top.buttons["undo"])
    bench.menus.actions["undo"].trigger()
    assert "zlamp" in words_read(bench.top.notice)
    bench._fill_recent()
    assert "zfile" in words_read(bench.menus.subs["recent"])
    bench.view.ask((nasty("zwire"),), lambda number: None)
    menu = bench.view._menu
    assert menu is not None
    assert "zwire" in words_read(menu)
    menu.close()


def test_so_do_the_forms_and_the_start_card(bench: BenchWindow, qtbot: QtBot) -> None:
    for form in (
        RunForm(bench.history.design, bench.view.surface.layout, (), bench),
        JobForm(bench.history.design, whole=True, parent=bench),
        TroubleDialog(nasty("zjob"), nasty("zset"), nasty("zlamp"), bench),
        StartCard(bench.filing.habits.recent, bench),
    ):
        qtbot.addWidget(form)
        form.show()
        found = words_read(form)
        assert found or isinstance(form, RunForm | JobForm)
        form.close()


def test_so_does_every_question(bench: BenchWindow) -> None:
    asked: list[list[tuple[str, str]]] = []

    def answer() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QDialog)
        asked.append(texts_of(box))
        QTest.keyClick(box, Qt.Key.Key_Escape)

    bench.filing._ask, no = bench.filing._asked, bench.filing._ask
    bench.history.do(rename(bench.history.design, "QF1", "QF9"))
    QTimer.singleShot(0, answer)
    assert not bench.filing.may_leave()
    QTimer.singleShot(0, answer)
    replies = ((Reply.YES, "&Yes"), (Reply.STAY, "&No"))
    assert bench.filing._asked(nasty("zjob"), nasty("zset"), replies) is Reply.STAY
    bench.filing._ask = no
    bench.history.undo()
    assert [words_in(texts) for texts in asked] == [{"zfile"}, {"zset", "zjob"}]


# by construction


def calls(tree: ast.AST, name: str) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and getattr(node.func, "attr", "") == name:
            yield node


def test_markup_is_made_and_read_in_one_place_only() -> None:
    for file in sorted(BENCH.rglob("*.py")):
        tree = ast.parse(file.read_text(encoding="utf-8"))
        names = {n.id for n in ast.walk(tree) if isinstance(n, ast.Name)}
        modules = {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
        room = file.relative_to(BENCH).as_posix()
        if room != "looks/labels.py":
            assert not names & {"QLabel", "QToolTip", "QWhatsThis", "QErrorMessage"}, room
            assert "html" not in modules, room
        for call in calls(tree, "setToolTip"):
            assert getattr(getattr(call.args[-1], "func", None), "id", "") == "tip", room
        for call in calls(tree, "setHtml"):
            # the guide's pages are written by linework/guide/html.py, which has a test of its own
            assert room in ("margin/whywindow.py", "frame/guidewindow.py"), ast.unparse(call)
