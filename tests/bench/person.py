"""A person before a real window: the pointer and the keys of the X server, by xdotool.

Whatever a :class:`Person` does goes the way of real input: X server, window, widget. Nothing is
called on the program; it is only looked at, to know where to point. Steps are counted.
"""

from __future__ import annotations

import itertools
import subprocess
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QPoint, QRect, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit, QWidget

from linework.bench.card.row import ChoiceRow, Row, TextRow
from linework.bench.frame.window import BenchWindow
from linework.bench.looks.combo import Combo
from linework.design import Design, Part, Run

Spot = tuple[int, int]

PATIENCE_MS = 60_000
"""So long a person waits for anything."""
_GLANCE_MS, _TRIES = 5_000, 6
"""So long a person looks whether a click did anything, and so often it is done again."""
_LOOK_MS = 4
"""Between two looks at what is waited for."""
_STEP_S = "0.01"
"""Between the events of one gesture, so that none is taken together with the next."""
_KEY_MS = 4
"""Between the keys that are pressed one after the other."""


class Person:
    """Sees a window and works it. Points of the paper are in tenths of a millimetre."""

    def __init__(self, bench: BenchWindow) -> None:
        self.bench = bench
        self.count: Counter[str] = Counter()

    @property
    def design(self) -> Design:
        return self.bench.history.design

    def tally(self) -> str:
        """What it took, in words."""
        words = ("clicks", "drags", "keys pressed", "fields typed")
        return ", ".join(f"{self.count[word]} {word}" for word in words)

    # the pointer and the keys

    def _hand(self, *words: object) -> None:
        """Let xdotool work while the window lives."""
        work = subprocess.Popen(["xdotool", *map(str, words)])
        self.wait(lambda: work.poll() is not None)
        assert work.returncode == 0, words
        QTest.qWait(5)

    def wait(self, until: Callable[[], bool]) -> None:
        """Until something can be seen."""
        left = PATIENCE_MS
        while not until():
            assert left > 0, "waited in vain"
            QTest.qWait(_LOOK_MS)
            left -= _LOOK_MS

    def wait_a_while(self, until: Callable[[], bool]) -> None:
        """Until something can be seen, but no longer than a person looks at what does not move."""
        left = _GLANCE_MS
        while left > 0 and not until():
            QTest.qWait(_LOOK_MS)
            left -= _LOOK_MS

    def _focus(self) -> tuple[object, ...]:
        """Without a window manager the pointer's owner gives the keys to its window."""
        top = QApplication.activeModalWidget() or self.bench
        if QGuiApplication.focusWindow() is top.windowHandle():
            return ()
        return ("windowfocus", "--sync", int(top.winId()))

    def click_at(self, at: QPoint) -> None:
        """A click at a point of the screen."""
        self.count["clicks"] += 1
        self._hand("mousemove", at.x(), at.y(), "sleep", _STEP_S, "click", 1)

    def drag_between(self, a: QPoint, b: QPoint) -> None:
        """Press, move in steps, let go."""
        self.count["drags"] += 1
        steps: list[object] = ["mousemove", a.x(), a.y(), "sleep", _STEP_S, "mousedown", 1]
        for part in (0.03, 0.1, 0.5, 0.9, 1.0, 1.0):
            at = a + (b - a) * part
            steps += ["mousemove", round(at.x()), round(at.y()), "sleep", _STEP_S]
        self._hand(*steps, "sleep", 0.05, "mouseup", 1)

    def press(self, *keys: str) -> None:
        """Keys by the names of X: "Return", "ctrl+z"."""
        self.count["keys pressed"] += len(keys)
        popup = QApplication.activePopupWidget() is not None
        self._hand(*(() if popup else self._focus()), "key", "--delay", _KEY_MS, *keys)

    def press_while(self, key: str, more: Callable[[], bool]) -> None:
        """A key as often as there is something more for it, by handfuls."""
        while more():
            self.press(*[key] * 8)

    def type(self, text: str) -> None:
        """A text where the cursor stands."""
        self.count["fields typed"] += 1
        self._hand(*self._focus(), "type", "--delay", 2, "--", text)

    # widgets

    def lies_still(self, widget: QWidget) -> None:
        """Wait until something is where it was a moment ago."""
        places: list[QPoint] = []

        def still() -> bool:
            places.append(widget.mapToGlobal(widget.rect().center()))
            return len(places) > 5 and len(set(places[-5:])) == 1

        self.wait(still)

    def click(self, widget: QWidget) -> None:
        """The middle of something that can be seen."""
        self.wait(lambda: widget.isVisible() and not widget.visibleRegion().isEmpty())
        seen = widget.visibleRegion().boundingRect()
        self.click_at(widget.mapToGlobal(seen.center()))

    def fill(self, line: QLineEdit, text: str) -> None:
        """Click a line, write over what stands there, press Enter: one gesture after the other."""
        self.click(line)
        self.wait(line.hasFocus)
        self.count["keys pressed"] += 2
        self.count["fields typed"] += 1
        keys = ("key", "ctrl+a", "type", "--delay", 2, "--args", 1, "--", text, "key", "Return")
        self._hand(*self._focus(), *keys)

    def pick(self, box: Combo, label: str) -> None:
        """Choose a line of a list, with the keys."""
        labels = [box.itemText(number) for number in range(box.count())]
        found = [n for n, known in enumerate(labels) if known == label]
        goal = found[0] if found else labels.index(next(k for k in labels if label in k))
        self.click(box)
        self.wait(lambda: QApplication.activePopupWidget() is not None)
        self.press("Home", *["Down"] * goal, "Return")
        self.wait(lambda: QApplication.activePopupWidget() is None)

    def dialog(self, open_it: Callable[[], None], answer: Callable[[QDialog], None]) -> None:
        """Do what opens a dialog, and answer it."""
        answered: list[bool] = []

        def look() -> None:
            found = QApplication.activeModalWidget()
            if isinstance(found, QDialog) and found.isVisible():
                timer.stop()
                answer(found)
                answered.append(True)

        timer = QTimer()
        timer.timeout.connect(look)
        timer.start(50)
        open_it()
        self.wait(lambda: bool(answered) and QApplication.activeModalWidget() is None)

    def name_file(self, path: Path) -> Callable[[QDialog], None]:
        """Answer a question for a file's name."""

        def answer(_: QDialog) -> None:
            self.press("ctrl+a")
            self.type(str(path))
            self.press("Return")

        return answer

    # the sheet

    def screen(self, at: Spot) -> QPoint:
        """A point of the paper on the screen."""
        view = self.bench.view
        return view.viewport().mapToGlobal(view.viewportTransform().map(QPoint(*at)))

    def settled(self) -> None:
        """Wait until the sheet lies as it will stay."""
        self.wait(lambda: self.bench.view.sync.settled and not self.bench.view.busy)

    def _drawing(self, designation: str):
        self.settled()
        layout = self.bench.view.sheet_scene.layout
        assert layout is not None
        return layout.drawings[self.design.by_designation(designation).id]

    def _bare(self, box: QRect) -> QPoint:
        """A point of a box, on the screen, that the card does not cover."""
        card = self.bench.card
        for x in (0.5, 0.3, 0.7, 0.1, 0.9):
            for y in (0.5, 0.25, 0.75):
                at = self.screen(
                    (round(box.x() + x * box.width()), round(box.y() + y * box.height()))
                )
                if not card.isVisible() or not card.rect().contains(card.mapFromGlobal(at)):
                    return at
        raise AssertionError("the card covers all of it")

    def choose_nothing(self) -> None:
        """Click the edge of the paper, where nothing lies; the card closes."""
        card = self.bench.card
        if card.isVisible():
            right = round(self.bench.view.sheet_scene.paper.width()) - 60
            corners = [self.screen((x, 60)) for x in (60, right)]
            bare = (at for at in corners if not card.rect().contains(card.mapFromGlobal(at)))
            self.click_at(next(bare))
            self.wait(lambda: not card.isVisible())

    def choose(self, designation: str) -> None:
        """Click a part."""
        box = self._drawing(designation).box
        part = self.design.by_designation(designation)
        self.choose_nothing()
        self.click_at(self._bare(QRect(box.left, box.top, box.width, box.height)))
        self.wait(lambda: self.bench.card.element_id == part.id)

    def choose_run(self, run: Run) -> None:
        """Click the middle of the longest piece of a run, or its tag where that is but a stub."""
        self.settled()
        self.choose_nothing()
        layout = self.bench.view.sheet_scene.layout
        assert layout is not None
        way = layout.ways[run.id]
        pieces = sorted(
            itertools.pairwise(way),
            key=lambda p: -abs(p[0][0] - p[1][0]) - abs(p[0][1] - p[1][1]),
        )
        (ax, ay), (bx, by) = pieces[0]
        shares = (0.5, 0.35, 0.65, 0.2)
        spots = [(round(ax + s * (bx - ax)), round(ay + s * (by - ay))) for s in shares]
        spots += [((b.left + b.right) // 2, (b.top + b.bottom) // 2) for b in layout.items[run.id]]
        spot = next(s for s in spots if self.bench.view.surface.hit(s).element == run.id)
        self.click_at(self.screen(spot))
        self.wait(lambda: self.bench.card.element_id == run.id)

    def _new_part(self, known: set[str]) -> Part:
        def made() -> list[Part]:
            return [part for part in self.design.parts if part.id not in known]

        self.wait(lambda: len(made()) == 1)
        return made()[0]

    def type_part(self, words: str, at: Spot) -> str:
        """Click the paper, write what goes there; the designation it got."""
        known = {part.id for part in self.design.parts}
        self.settled()
        self.choose_nothing()
        self.click_at(self.screen(at))
        self.type(words)
        self.press("Return")
        return self._new_part(known).designation

    def drag_part(self, kind: str, at: Spot) -> str:
        """Drag a part out of the strip; the designation it got."""
        known = {part.id for part in self.design.parts}
        self.settled()
        tile = self.bench.strip.tile(kind)
        self._scroll_to(tile, self.bench.strip)
        middle = tile.visibleRegion().boundingRect().center()
        self.drag_between(tile.mapToGlobal(middle), self.screen(at))
        return self._new_part(known).designation

    def place_of(self, board: str, place: str) -> Spot:
        """Where a place of a board lies on the paper."""
        x, y, _ = self._drawing(board).places[place]
        return x, y

    def join(self, a: str, b: str) -> Run:
        """Drag from a terminal to another, named as "G1.out"; the run."""
        known = {run.id for run in self.design.runs}
        ends = []
        for end in (a, b):
            designation, terminal = end.split(".")
            x, y, _ = self._drawing(designation).anchors[terminal]
            ends.append(self.screen((x, y)))
        self.choose_nothing()
        self.drag_between(*ends)

        def made() -> list[Run]:
            return [run for run in self.design.runs if run.id not in known]

        self.wait(lambda: len(made()) == 1)
        return made()[0]

    # the card

    def rate(self, designation: str, **answers: str) -> None:
        """Choose a part and answer questions on its card."""
        self.choose(designation)
        self._answer(answers)

    def rate_run(self, run: Run, **answers: str) -> None:
        """Choose a run and answer questions on its card."""
        self.choose_run(run)
        self._answer(answers)

    def _answer(self, answers: dict[str, str]) -> None:
        for key, text in answers.items():
            row = self._row(key)
            if isinstance(row, ChoiceRow):
                labels = {str(option.answer): option.label for option in row._options}
                self.pick(row.box, labels.get(text, text))
            elif isinstance(row, TextRow):
                self.fill(row.one, text)

    def _row(self, key: str) -> Row:
        card = self.bench.card
        for _ in range(_TRIES):
            # The card may grow just when the pointer arrives: a person looks and clicks again.
            if key in card.rows:
                break
            fold = self._named("Ratings seldom asked", card)
            self._scroll_to(fold, card)
            self.lies_still(fold)
            self.click(fold)
            self.wait_a_while(lambda: key in card.rows)
        row = card.rows[key]
        self._scroll_to(row, card)
        return row

    def _named(self, name: str, inside: QWidget) -> QWidget:
        (found,) = [w for w in inside.findChildren(QWidget) if w.accessibleName().startswith(name)]
        return found

    def _scroll_to(self, widget: QWidget, inside: QWidget) -> None:
        """Turn the wheel over something until the whole of a widget can be seen."""
        QTest.qWait(30)
        at = inside.mapToGlobal(inside.rect().center())

        def middle() -> QPoint:
            return widget.mapToGlobal(widget.rect().center())

        while widget.visibleRegion().boundingRect().size() != widget.size():
            there = middle()
            off = there - at
            back = min(off.x(), off.y(), key=lambda far: -abs(far)) < 0
            self._hand("mousemove", at.x(), at.y(), "click", 4 if back else 5)
            for _ in range(50):
                if middle() != there:
                    break
                QTest.qWait(10)
            else:
                break  # it goes no farther
        assert not widget.visibleRegion().isEmpty(), widget
