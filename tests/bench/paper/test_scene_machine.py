"""After any edits, undos and redos the scene is the one that is built from scratch."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from linework.analysis import Analysis, analyse
from linework.bench.paper import edits
from linework.bench.paper.pieces import Layer, Piece
from linework.bench.paper.scene import SheetScene
from linework.bench.paper.sync import Sync
from linework.design import Change, EditError, End, History, Run, elements
from linework.design.edits import (
    add_interlock,
    add_note,
    add_part,
    change_settings,
    insert_on_run,
    rate,
    rate_run,
    remove,
    rename,
    reroute,
    retitle,
    seat,
    unseat,
)
from linework.design.edits.seats import places_of
from linework.kinds import kinds
from linework.storage import dumps, loads
from tests.bench.hands import small

GRID = st.integers(4, 150).map(lambda n: 25 * n)
POINT = st.tuples(GRID, st.integers(4, 100).map(lambda n: 25 * n))


@cache
def old_analysis() -> Analysis:
    return analyse(small())


class SceneMachine(RuleBasedStateMachine):
    @initialize()
    def begin(self) -> None:
        # Ids are random; here the same steps must give the same ones.
        self.ids = pytest.MonkeyPatch()
        self.ids.setattr(elements, "secrets", Random(0))
        self.history = History(small())
        self.scene = SheetScene()
        self.sync = Sync(self.scene, self.history)
        self.history.listen(self.sync.follow)
        self.start = self.scene.fingerprint()
        self.names = 0
        self.shown: tuple[Analysis | None, str] = (None, "")

    @property
    def design(self):
        return self.history.design

    def attempt(self, make) -> None:
        """An edit that is refused must leave everything as it was."""
        before = self.scene.fingerprint()
        try:
            change: Change = make()
            self.history.do(change)
        except EditError:
            assert self.scene.fingerprint() == before

    def pick(self, data: st.DataObject, pool: list, label: str):
        return data.draw(st.sampled_from(sorted(pool, key=lambda e: e.id)), label=label)

    @rule(kind=st.sampled_from(sorted(kinds())), at=POINT, turn=st.integers(0, 3))
    def add(self, kind: str, at: tuple[int, int], turn: int) -> None:
        self.names += 1
        part_id = f"n{self.names}"
        self.attempt(lambda: add_part(self.design, kind, at=at, turn=turn, part_id=part_id))

    @precondition(lambda self: self.design.parts)
    @rule(data=st.data(), dx=st.integers(-8, 8), dy=st.integers(-8, 8))
    def move(self, data: st.DataObject, dx: int, dy: int) -> None:
        part = self.pick(data, self.design.parts, "moved")
        self.attempt(lambda: edits.move(self.design, [part.id], 25 * dx, 25 * dy))

    @precondition(lambda self: self.design.parts)
    @rule(data=st.data(), quarters=st.integers(0, 3), flip=st.booleans())
    def turn(self, data: st.DataObject, quarters: int, flip: bool) -> None:
        part = self.pick(data, self.design.parts, "turned")
        self.attempt(lambda: edits.turn(self.design, [part.id], quarters, flip))

    @precondition(lambda self: len(self.design.parts) > 1)
    @rule(data=st.data())
    def join(self, data: st.DataObject) -> None:
        ends = []
        for label in ("from", "to"):
            part = self.pick(data, self.design.parts, label)
            names = [t.name for t in self.design.kind(part).terminals(self.design.values(part))]
            ends.append(End(part.id, data.draw(st.sampled_from(names), label=label)))
        self.attempt(lambda: edits.join(self.design, *ends))

    @precondition(lambda self: self.design.runs)
    @rule(
        data=st.data(),
        kind=st.sampled_from(["breaker", "junction_box", "transfer_switch"]),
        at=POINT,
    )
    def insert(self, data: st.DataObject, kind: str, at: tuple[int, int]) -> None:
        run = self.pick(data, self.design.runs, "run")
        self.attempt(lambda: insert_on_run(self.design, run.id, kind, at=at))

    @precondition(lambda self: self.design.runs)
    @rule(data=st.data(), bend=POINT, clear=st.booleans())
    def bend(self, data: st.DataObject, bend: tuple[int, int], clear: bool) -> None:
        run = self.pick(data, self.design.runs, "run")
        self.attempt(lambda: reroute(self.design, run.id, () if clear else (bend,)))

    @precondition(lambda self: self.design.runs)
    @rule(data=st.data(), broken=st.sampled_from(["none", "N", "PE"]))
    def cut(self, data: st.DataObject, broken: str) -> None:
        run = self.pick(data, self.design.runs, "run")
        self.attempt(lambda: rate_run(self.design, run.id, {"broken": broken, "size": "10 AWG"}))

    @precondition(lambda self: len(self.design.parts) > 1)
    @rule(data=st.data())
    def sit(self, data: st.DataObject) -> None:
        part = self.pick(data, self.design.parts, "guest")
        host = self.pick(data, self.design.parts, "host")
        names = [place.name for place in places_of(self.design, host)]
        if names:
            place = data.draw(st.sampled_from(names))
            self.attempt(lambda: seat(self.design, part.id, host.id, place))

    @precondition(lambda self: self.design.seats)
    @rule(data=st.data())
    def stand_up(self, data: st.DataObject) -> None:
        found = self.pick(data, self.design.seats, "seat")
        self.attempt(lambda: unseat(self.design, found.id))

    @precondition(lambda self: self.design.elements)
    @rule(data=st.data())
    def remove(self, data: st.DataObject) -> None:
        keys = sorted(set(self.design.elements) - {"settings"})
        if keys:
            gone = data.draw(st.lists(st.sampled_from(keys), min_size=1, max_size=3))
            self.attempt(lambda: remove(self.design, gone))

    @precondition(lambda self: self.design.parts)
    @rule(data=st.data(), title=st.sampled_from(["", "cabin", "a very long title of a part here"]))
    def title(self, data: st.DataObject, title: str) -> None:
        part = self.pick(data, self.design.parts, "part")
        self.names += 1
        self.attempt(lambda: retitle(self.design, part.id, title))
        self.attempt(lambda: rename(self.design, part.id, f"{part.designation[:3]}{self.names}"))

    @precondition(lambda self: any(p.kind == "panel" for p in self.design.parts))
    @rule(data=st.data(), places=st.sampled_from(["1", "4", "12"]))
    def grow(self, data: st.DataObject, places: str) -> None:
        panels = [p for p in self.design.parts if p.kind == "panel"]
        panel = self.pick(data, panels, "panel")
        self.attempt(lambda: rate(self.design, panel.id, {"places": places}))

    @precondition(lambda self: sum(p.kind == "breaker" for p in self.design.parts) > 1)
    @rule()
    def lock(self) -> None:
        two = sorted(p.id for p in self.design.parts if p.kind == "breaker")[:2]
        excludes = [(key, "breaker", "closed") for key in two]
        self.attempt(lambda: add_interlock(self.design, excludes, "lock"))

    @rule(at=POINT)
    def note(self, at: tuple[int, int]) -> None:
        self.attempt(lambda: add_note(self.design, "a note", at))

    @rule(paper=st.sampled_from(["A3", "A4", "tabloid"]), family=st.sampled_from(["NA", "INT"]))
    def paper(self, paper: str, family: str) -> None:
        self.attempt(lambda: change_settings(self.design, sheet=paper, family=family))

    @rule(on=st.booleans(), number=st.integers(0, 30))
    def show(self, on: bool, number: int) -> None:
        """An analysis of the design as it was at the start: it may name what is long gone."""
        reports = old_analysis().reports
        self.shown = (old_analysis() if on else None, reports[number % len(reports)].key)
        self.sync.show_analysis(*self.shown)

    @rule(times=st.integers(1, 4))
    def undo(self, times: int) -> None:
        for _ in range(times):
            self.history.undo()

    @rule(times=st.integers(1, 4))
    def redo(self, times: int) -> None:
        for _ in range(times):
            self.history.redo()

    @invariant()
    def the_scene_follows(self) -> None:
        """At once nothing is missing or left over; once the hand rests all is as from scratch."""
        shown = {i.piece.element for i in self.scene.items_by_key.values()} - {""}
        assert {p.id for p in self.design.parts} <= shown
        assert shown <= set(self.design.elements)
        runs = {r.id for r in self.design.runs}
        assert {key for key in shown if isinstance(self.design.get(key), Run)} == runs
        at_once = self.symbols()
        self.sync.settle()
        assert at_once == self.symbols()
        scene = SheetScene()
        Sync(scene, History(self.design)).show_analysis(*self.shown)
        assert self.scene.fingerprint() == scene.fingerprint()

    @invariant()
    def the_file_follows(self) -> None:
        """What would be saved now reads as the design that is shown."""
        assert loads(dumps(self.design), "as written").elements == self.design.elements

    def symbols(self) -> dict[str, Piece]:
        layers = (Layer.SYMBOL, Layer.BOARD)
        shown = (item.piece for item in self.scene.items_by_key.values())
        return {piece.element: piece for piece in shown if piece.layer in layers}

    def teardown(self) -> None:
        if not hasattr(self, "ids"):
            return
        self.ids.undo()
        while self.history.undo():
            pass
        self.sync.show_analysis(None)
        assert self.scene.fingerprint() == self.start


SceneMachine.TestCase.settings = settings(
    max_examples=12,
    stateful_step_count=10,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


@pytest.mark.usefixtures("qapp")
class TestScene(SceneMachine.TestCase):  # type: ignore[name-defined,misc]
    pass
