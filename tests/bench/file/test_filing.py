"""Opening, saving and leaving: each question is asked, and each answer does what it says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from linework.bench.file import filing, habits
from linework.bench.file.document import Document
from linework.bench.file.filing import Filing, Reply
from linework.design import Design
from linework.design.edits import rate
from linework.sheet.arranging.arrange import needs_arranging
from linework.storage import Locked, dumps, load, recovery
from tests.bench.benches import small


class Person:
    """Answers questions as the test says, and remembers them."""

    def __init__(self, *replies: Reply) -> None:
        self.replies = list(replies)
        self.asked: list[str] = []

    def __call__(self, title: str, text: str, replies: tuple[tuple[Reply, str], ...]) -> Reply:
        self.asked.append(text)
        reply = self.replies.pop(0)
        assert reply in [item[0] for item in replies]
        return reply


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    said: list[str] = []
    monkeypatch.setattr(filing, "tell", lambda title, text, details, parent: said.append(text))
    return said


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    found = QWidget()
    qtbot.addWidget(found)
    return found


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pump.linework"
    path.write_bytes(dumps(small().design))
    return path


def draw(files: Filing) -> None:
    files.history.do(rate(files.document.design, "EL1", {"power": "60 W"}))


def test_a_file_is_opened_remembered_and_laid_out(file: Path, window: QWidget) -> None:
    files = Filing(window, Person())
    assert files.open(file)
    assert files.document.path == file
    assert habits.load().recent == (str(file.resolve()),)
    assert not needs_arranging(files.document.design)
    assert files.document.saved
    files.document.close()


@pytest.mark.parametrize(
    ("reply", "left", "watts"),
    [(Reply.YES, True, "60 W"), (Reply.NO, True, "100 W"), (Reply.STAY, False, "100 W")],
)
def test_leaving_what_is_not_saved_asks(
    file: Path, window: QWidget, reply: Reply, left: bool, watts: str
) -> None:
    person = Person(reply)
    files = Filing(window, person)
    files.open(file)
    draw(files)
    assert files.new(Design()) is left
    assert len(person.asked) == 1
    assert "pump.linework" in person.asked[0]
    assert load(file).part("EL1").ratings["power"] == watts
    assert (files.document.path is None) is left
    files.document.close()


def test_leaving_what_is_saved_asks_nothing(file: Path, window: QWidget) -> None:
    person = Person()
    files = Filing(window, person)
    files.open(file)
    assert files.may_leave()
    assert person.asked == []
    files.document.close()


def test_a_save_that_fails_while_leaving_keeps_the_drawing(
    tmp_path: Path, window: QWidget, told: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    files = Filing(window, Person(Reply.YES))
    files.open_copy(_written(tmp_path))
    monkeypatch.setattr(files, "_where_to", lambda: tmp_path / "missing" / "x.linework")
    assert not files.may_leave()
    assert len(told) == 1
    assert "missing" in told[0]
    assert files.document.design.parts
    files.document.close()


def _written(folder: Path) -> Path:
    path = folder / "source.linework"
    path.write_bytes(dumps(small().design))
    return path


def test_a_sample_is_opened_as_a_drawing_without_a_name(file: Path, window: QWidget) -> None:
    files = Filing(window, Person())
    assert files.open_copy(file)
    assert files.document.path is None
    assert not files.document.saved
    files.document.close()


def test_the_file_that_is_open_is_read_again_from_the_disk(file: Path, window: QWidget) -> None:
    person = Person(Reply.NO)
    files = Filing(window, person)
    assert files.open(file)
    before = dumps(files.document.design)
    draw(files)
    assert files.open(file)
    assert dumps(files.document.design) == before
    assert files.document.path == file
    assert len(person.asked) == 1, "whether the changes may go, not that it is open elsewhere"
    with pytest.raises(Locked):
        Document.open(file)
    files.document.close()


def test_a_file_that_is_open_elsewhere_is_offered_as_a_copy(file: Path, window: QWidget) -> None:
    other = Document.open(file)
    files = Filing(window, Person(Reply.YES))
    assert files.open(file)
    assert files.document.path is None
    other.close()
    files.document.close()


def test_a_file_that_cannot_be_read_is_told_and_nothing_changes(
    tmp_path: Path, window: QWidget, told: list[str]
) -> None:
    path = tmp_path / "bad.linework"
    path.write_text("{")
    files = Filing(window, Person())
    before = files.document
    assert not files.open(path)
    assert files.document is before
    assert "bad.linework" in told[0]
    assert not files.open(tmp_path / "missing.linework")
    assert "missing.linework" in told[1]
    files.document.close()


def test_what_does_not_fit_is_opened_on_demand(
    tmp_path: Path, window: QWidget, told: list[str]
) -> None:
    raw = json.loads(dumps(small().design))
    next(p for p in raw["parts"] if p["id"] == "EL1")["ratings"]["circuit"] = "dc"
    path = tmp_path / "misfit.linework"
    path.write_text(json.dumps(raw))
    person = Person(Reply.STAY, Reply.YES)
    files = Filing(window, person)
    assert not files.open(path)
    assert files.open(path)
    assert files.document.warnings
    assert told
    files.document.close()


@pytest.mark.parametrize(
    ("reply", "watts", "waiting"),
    [(Reply.YES, "77 W", 0), (Reply.NO, "100 W", 0), (Reply.STAY, "100 W", 1)],
)
def test_what_was_kept_aside_is_offered_when_its_file_is_opened(
    file: Path, window: QWidget, reply: Reply, watts: str, waiting: int
) -> None:
    died = Document.open(file)
    died.history.do(rate(died.design, "EL1", {"power": "77 W"}))
    died.keep_aside()
    died.close(forget=False)
    files = Filing(window, Person(reply))
    assert files.open(file)
    assert files.document.design.part("EL1").ratings["power"] == watts
    assert files.document.path == file
    assert files.document.saved is (reply is not Reply.YES)
    files.document._release()
    if reply is not Reply.YES:
        assert len(recovery.waiting()) == waiting


def test_what_was_kept_aside_is_offered_at_the_start(file: Path, window: QWidget) -> None:
    died = Document.open(file)
    died.history.do(rate(died.design, "EL1", {"power": "77 W"}))
    died.keep_aside()
    died.close(forget=False)
    files = Filing(window, Person(Reply.YES))
    assert files.offer_recovery()
    assert files.document.path == file
    assert not files.document.saved
    assert files.save()
    assert load(file).part("EL1").ratings["power"] == "77 W"
    files.document.close()


def test_what_is_drawn_is_kept_aside_soon(
    file: Path, window: QWidget, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = Filing(window, Person())
    files._aside.setInterval(50)
    files.open(file)
    draw(files)
    qtbot.waitUntil(lambda: recovery.pending(file) is not None, timeout=3000)
    assert files.save()
    assert recovery.pending(file) is None
    files.document.close()


# habits


def test_habits_survive_and_damage_is_no_matter(own_home: Path) -> None:
    assert habits.load() == habits.Habits()
    habits.save(habits.Habits(("/a",), "dark", "A. Builder"))
    assert habits.load() == habits.Habits(("/a",), "dark", "A. Builder")
    (stored,) = own_home.rglob("habits.json")
    for damage in ("{", "[]", '{"recent": 3, "look": "pink", "name": null}', "null"):
        stored.write_text(damage)
        assert habits.load() == habits.Habits()


def test_the_newest_file_comes_first_and_the_list_stays_short(tmp_path: Path) -> None:
    found = habits.Habits()
    for number in range(12):
        found = found.opened(tmp_path / f"{number}.linework")
    found = found.opened(tmp_path / "11.linework").opened(tmp_path / "8.linework")
    names = [Path(item).stem for item in found.recent]
    assert names[:3] == ["8", "11", "10"]
    assert len(names) == habits.MOST_RECENT == len(set(names))
