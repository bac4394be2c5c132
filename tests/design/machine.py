"""Random editing: every edit, undo and redo, in any order, with what must hold at any time.

Derive a class from :class:`DesignMachine` to hold more against a design that is being edited: a
scene, a file. Add ``@invariant()`` or ``@rule()`` methods, or listen to ``self.history``.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import TypeVar

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from linework.design import (
    Change,
    Design,
    EditError,
    Element,
    End,
    History,
    Part,
    PlaceKind,
    Run,
    edits,
    elements,
)
from linework.design.edits.runs import why_not
from linework.design.edits.seats import places_of
from linework.design.integrity import flaws_of
from linework.design.positions import positions_of
from linework.kinds import RUN_RATINGS, Answer, OneOf, Rating, kinds
from linework.wiring import Pole
from linework.words import FAMILIES
from tests.kinds.cases import sample

WORDS = st.text(alphabet="ab 1", max_size=4)
STEPS = st.integers(-4, 4).map(lambda n: 25 * n)
DATA = st.data()
MOST_PARTS = 10

_T = TypeVar("_T")


def answer(rating: Rating) -> st.SearchStrategy[Answer | None]:
    """No answer, one that fits, possibilities, or now and then one that does not fit."""
    words = [choice.value for choice in rating.choices]
    known: list[Answer] = [*words] if words else [sample(rating)]
    if len(words) > 1:
        known.append(OneOf((words[0], words[-1])))
    return st.none() | st.sampled_from(known) | st.just("nonsense")


class DesignMachine(RuleBasedStateMachine):
    """A person at work on a design."""

    def __init__(self) -> None:
        super().__init__()
        # Ids are random, and lists are sorted by them; here the same steps must give the same ones.
        self.ids = pytest.MonkeyPatch()
        self.ids.setattr(elements, "secrets", Random(0))
        self.history = History(self.beginning())
        self.heard: list[Change] = []
        self.history.listen(self.heard.append)
        self.before: list[dict[str, Element]] = []
        self.behind: list[dict[str, Element]] = []

    def beginning(self) -> Design:
        """The design to start from."""
        return Design()

    @property
    def design(self) -> Design:
        """The design as it stands."""
        return self.history.design

    def now(self) -> dict[str, Element]:
        """What the design holds."""
        return dict(self.design.elements)

    def attempt(self, make: Callable[..., Change], *args: object, **more: object) -> None:
        """Make an edit and carry it out; one that is refused must leave no trace."""
        stood, revision, told = self.now(), self.design.revision, len(self.heard)
        try:
            change = make(self.design, *args, **more)
        except EditError as refusal:
            assert str(refusal)  # noqa: PT017
            assert self.now() == stood
            return
        assert (self.now(), self.design.revision) == (stood, revision), "an edit changed a design"
        self.history.do(change)
        if change:
            self.before.append(stood)
            self.behind.clear()
            assert self.heard[told:] == [change]
            assert self.design.revision == revision + 1

    # choices

    def pick(self, data: st.DataObject, options: Sequence[_T]) -> _T:
        return data.draw(st.sampled_from(options))

    def part(self, data: st.DataObject) -> Part:
        return self.pick(data, self.design.parts)

    def run(self, data: st.DataObject) -> Run:
        return self.pick(data, self.design.runs)

    def end(self, data: st.DataObject) -> End:
        part = self.part(data)
        terminals = self.design.kind(part).terminals(self.design.values(part))
        return End(part.id, self.pick(data, terminals).name)

    def answers(self, data: st.DataObject, declared: dict[str, Rating]) -> dict[str, Answer | None]:
        keys = data.draw(st.lists(st.sampled_from(sorted(declared)), max_size=3, unique=True))
        return {key: data.draw(answer(declared[key])) for key in keys}

    def some_parts(self, data: st.DataObject) -> list[str]:
        ids = [part.id for part in self.design.parts]
        return data.draw(st.lists(st.sampled_from(ids), min_size=1, max_size=3, unique=True))

    # edits

    @rule(data=DATA, title=WORDS, x=STEPS, y=STEPS, turn=st.integers(0, 3))
    def add_part(self, data: st.DataObject, title: str, x: int, y: int, turn: int) -> None:
        if len(self.design.parts) >= MOST_PARTS:
            return
        kind = self.pick(data, [*kinds(), "nonsense"])
        declared = dict(kinds()[kind].declared) if kind in kinds() else {"x": RUN_RATINGS["size"]}
        given = {k: v for k, v in self.answers(data, declared).items() if v is not None}
        name = data.draw(st.sampled_from(["", "", "", "G1", " "]))
        self.attempt(
            edits.add_part,
            kind,
            designation=name,
            at=(x, y),
            title=title,
            turn=turn,
            ratings=given,
        )

    @precondition(lambda self: self.design.parts)
    @rule(data=DATA)
    def rate(self, data: st.DataObject) -> None:
        part = self.part(data)
        declared = dict(self.design.kind(part).declared)
        self.attempt(edits.rate, part.id, self.answers(data, declared))

    @precondition(lambda self: self.design.parts)
    @rule(data=DATA, name=st.sampled_from(["G1", "QP1", "new", " "]), title=WORDS)
    def rename(self, data: st.DataObject, name: str, title: str) -> None:
        part = self.part(data)
        self.attempt(edits.rename, part.id, name)
        self.attempt(edits.retitle, part.id, title)

    @precondition(lambda self: self.design.parts)
    @rule(data=DATA, dx=STEPS, dy=STEPS, quarters=st.integers(-1, 4), flip=st.booleans())
    def move_and_turn(
        self, data: st.DataObject, dx: int, dy: int, quarters: int, flip: bool
    ) -> None:
        ids = self.some_parts(data)
        self.attempt(edits.move_parts, ids, dx, dy)
        self.attempt(edits.turn_parts, ids, quarters, flip)

    @precondition(lambda self: len(self.design.parts) > 1)
    @rule(data=DATA, mapped=st.booleans())
    def add_run(self, data: st.DataObject, mapped: bool) -> None:
        a, b = self.end(data), self.end(data)
        pole = st.sampled_from(list(Pole))
        poles = data.draw(st.lists(st.tuples(pole, pole), max_size=2)) if mapped else None
        given = {k: v for k, v in self.answers(data, RUN_RATINGS).items() if v is not None}
        self.attempt(
            edits.add_run, a, b, ratings=given, poles=None if poles is None else tuple(poles)
        )

    @precondition(lambda self: len(self.design.parts) > 1)
    @rule(data=DATA)
    def join_like_to_like(self, data: st.DataObject) -> None:
        """Random ends seldom fit: here are two that do."""
        a = self.end(data)
        fitting = [
            End(part.id, terminal.name)
            for part in self.design.parts
            for terminal in self.design.kind(part).terminals(self.design.values(part))
            if part.id != a.part and not why_not(self.design, a, End(part.id, terminal.name))
        ]
        if fitting:
            self.attempt(edits.add_run, a, self.pick(data, fitting))

    @precondition(lambda self: self.design.runs)
    @rule(data=DATA, name=st.sampled_from(["W1", "new", ""]))
    def change_run(self, data: st.DataObject, name: str) -> None:
        run = self.run(data)
        self.attempt(edits.rate_run, run.id, self.answers(data, RUN_RATINGS))
        self.attempt(edits.rename_run, run.id, name)
        bends = data.draw(st.lists(st.tuples(STEPS, STEPS), max_size=2))
        self.attempt(edits.reroute, run.id, bends)
        crossed = ((Pole.L, Pole.N), (Pole.N, Pole.L))
        self.attempt(edits.set_poles, run.id, data.draw(st.sampled_from([None, crossed, ()])))

    @precondition(lambda self: self.design.runs and len(self.design.parts) < MOST_PARTS)
    @rule(data=DATA)
    def insert_on_run(self, data: st.DataObject) -> None:
        run, kind = self.run(data), self.pick(data, list(kinds()))
        self.attempt(edits.insert_on_run, run.id, kind, at=(0, 0))

    @precondition(lambda self: self.design.parts)
    @rule(data=DATA)
    def seat(self, data: st.DataObject) -> None:
        places = [
            (host.id, place.name)
            for host in self.design.parts
            for place in places_of(self.design, host)[:2]
        ]
        seated = [part.id for part in self.design.parts if self.design.kind(part).seat]
        if places and seated:
            self.attempt(edits.seat, self.pick(data, seated), *self.pick(data, places))

    @precondition(lambda self: self.design.seats)
    @rule(data=DATA)
    def unseat(self, data: st.DataObject) -> None:
        self.attempt(edits.unseat, self.pick(data, self.design.seats).id)

    @precondition(lambda self: len(self.design.parts) > 1)
    @rule(data=DATA)
    def add_interlock(self, data: st.DataObject) -> None:
        items = [
            (part.id, selector, position)
            for part in self.design.parts
            for selector, positions in positions_of(
                self.design, part, self.design.seats_of(part.id)
            ).items()
            for position in sorted(positions)
        ]
        if items:
            chosen = data.draw(st.lists(st.sampled_from(items), min_size=1, max_size=3))
            self.attempt(edits.add_interlock, chosen)

    @rule(text=WORDS, x=STEPS, reason=WORDS, rule_id=st.sampled_from(["a", "b"]))
    def annotate(self, text: str, x: int, reason: str, rule_id: str) -> None:
        self.attempt(edits.add_note, text, (x, 0))
        for note in self.design.notes[:1]:
            self.attempt(edits.change_note, note.id, text)
        self.attempt(
            edits.accept_finding, rule_id, ("x",), text, reason=reason, by="", date="2025-04-01"
        )

    @rule(
        family=st.sampled_from([*FAMILIES, "XX"]),
        place=st.sampled_from([str(place) for place in PlaceKind]),
        volts=st.sampled_from(["120 V", "230 V", "120"]),
    )
    def change_settings(self, family: str, place: str, volts: str) -> None:
        self.attempt(edits.change_settings, family=family, place=place, voltage=volts)

    @rule(data=DATA)
    def remove(self, data: st.DataObject) -> None:
        ids = data.draw(st.lists(st.sampled_from(list(self.now())), max_size=2))
        self.attempt(edits.remove, ids)

    @precondition(lambda self: self.design.notes or self.design.interlocks)
    @rule(data=DATA)
    def drop_element(self, data: st.DataObject) -> None:
        beside = [item.id for item in (*self.design.notes, *self.design.interlocks)]
        self.attempt(edits.drop_element, self.pick(data, beside))

    # back and forth

    @rule(times=st.integers(1, 3))
    def undo(self, times: int) -> None:
        for _ in range(min(times, len(self.before))):
            self.behind.append(self.now())
            assert self.history.undo() or self.heard[-1].title == ""
            assert self.now() == self.before.pop()

    @rule(times=st.integers(1, 3))
    def redo(self, times: int) -> None:
        for _ in range(min(times, len(self.behind))):
            self.before.append(self.now())
            self.history.redo()
            assert self.now() == self.behind.pop()

    # what must hold

    @invariant()
    def the_graph_agrees_with_the_elements(self) -> None:
        graph, design = self.design.graph, self.design
        assert {node: data["part"] for node, data in graph.nodes(data=True)} == {
            part.id: part for part in design.parts
        }
        edges = {
            key: (frozenset((a, b)), data) for a, b, key, data in graph.edges(keys=True, data=True)
        }
        assert graph.number_of_edges() == len(edges)
        runs = {r.id: (frozenset((r.a.part, r.b.part)), {"run": r}) for r in design.runs}
        seats = {s.id: (frozenset((s.part, s.host)), {"seat": s}) for s in design.seats}
        assert edges == {**runs, **seats}

    @invariant()
    def elements_are_found_by_sort_and_name(self) -> None:
        design = self.design
        sorts = (
            design.parts,
            design.runs,
            design.seats,
            design.interlocks,
            design.notes,
            design.accepted,
            [design.settings],
        )
        found = {item.id: item for sort in sorts for item in sort}
        assert found == self.now()
        assert sum(map(len, sorts)) == len(found)
        for part in design.parts:
            assert design.named(Part, part.designation) == [part.id]
        for run in design.runs:
            assert design.named(Run, run.designation) == [run.id]

    @invariant()
    def no_edit_leaves_a_flaw(self) -> None:
        assert [(element.id, flaw) for element, flaw in flaws_of(self.design)] == []

    @invariant()
    def the_history_knows_where_it_is(self) -> None:
        assert bool(self.history.undo_title) == bool(self.before)
        assert bool(self.history.redo_title) == bool(self.behind)

    def teardown(self) -> None:
        """All the way back is the start, all the way forth the end."""
        self.ids.undo()
        end, way = self.now(), len(self.before)
        start = self.before[0] if self.before else end
        for _ in range(way):
            self.history.undo()
        assert self.now() == start
        assert self.history.undo() == ""
        for _ in range(way):
            self.history.redo()
        assert self.now() == end
