"""The document: a networkx multigraph of frozen values.

Nodes are parts, edges are runs and seats; interlocks, notes, accepted findings
and the settings lie beside them. Only :meth:`Design.apply` changes a design.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

import networkx as nx

from linework.design.change import Change, EditError, Pair
from linework.design.elements import (
    Accepted,
    Element,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    Settings,
)
from linework.kinds import Kind, Values, kind_of
from linework.words import say

_E = TypeVar("_E", bound=Element)


class Design:
    """One design. ``graph`` is a networkx MultiGraph of parts (nodes), runs and seats (edges)."""

    def __init__(self, settings: Settings | None = None) -> None:
        self.graph: nx.MultiGraph[str] = nx.MultiGraph()
        self._elements: dict[str, Element] = {}
        self.revision = 0
        self._put(settings or Settings())

    # reading

    def get(self, element_id: str) -> Element | None:
        """The element with this id, or None."""
        return self._elements.get(element_id)

    def __contains__(self, element_id: str) -> bool:
        return element_id in self._elements

    def _all(self, sort: type[_E]) -> Iterator[_E]:
        return (item for item in self._elements.values() if isinstance(item, sort))

    @property
    def settings(self) -> Settings:
        """What holds for the whole design."""
        found = self._elements["settings"]
        assert isinstance(found, Settings)
        return found

    @property
    def elements(self) -> Mapping[str, Element]:
        """Every element by its id."""
        return self._elements

    @property
    def parts(self) -> list[Part]:
        """All parts."""
        return list(self._all(Part))

    @property
    def runs(self) -> list[Run]:
        """All runs."""
        return list(self._all(Run))

    @property
    def seats(self) -> list[Seat]:
        """All seats."""
        return list(self._all(Seat))

    @property
    def interlocks(self) -> list[Interlock]:
        """All interlocks."""
        return list(self._all(Interlock))

    @property
    def notes(self) -> list[Note]:
        """All notes."""
        return list(self._all(Note))

    @property
    def accepted(self) -> list[Accepted]:
        """All accepted findings."""
        return list(self._all(Accepted))

    def part(self, part_id: str) -> Part:
        """The part with this id. KeyError if there is none."""
        found = self._elements[part_id]
        if not isinstance(found, Part):
            raise KeyError(part_id)
        return found

    def by_designation(self, designation: str) -> Part:
        """The part with this reference designation. KeyError if there is none."""
        for part in self._all(Part):
            if part.designation == designation:
                return part
        raise KeyError(designation)

    def kind(self, part: Part) -> Kind:
        """The kind of a part (an unknown one is a plain box)."""
        return kind_of(part.kind)

    def values(self, part: Part, settled: Mapping[str, str] | None = None) -> Values:
        """The ratings of a part with the defaults of its kind and of this design."""
        return self.kind(part).values(part.ratings, settled, self.setting_answers())

    def setting_answers(self) -> dict[str, str]:
        """What a default may take from the settings (written "$voltage" in a declaration)."""
        settings = self.settings
        return {
            "voltage": settings.voltage,
            "frequency": settings.frequency,
            "family": settings.family,
            "place": settings.place,
            "outage": "yes" if settings.place in ("building", "field") else "no",
        }

    def runs_at(self, part_id: str, terminal: str | None = None) -> list[Run]:
        """The runs that end at a part, or at one of its terminals."""
        return [
            run
            for run in self._edges(part_id, Run)
            if terminal is None
            or any(e.part == part_id and e.terminal == terminal for e in (run.a, run.b))
        ]

    def seats_of(self, part_id: str) -> list[Seat]:
        """The places in which a part sits or may be put."""
        return [seat for seat in self._edges(part_id, Seat) if seat.part == part_id]

    def seated_in(self, host_id: str) -> list[Seat]:
        """The seats that a part offers and that are taken."""
        return [seat for seat in self._edges(host_id, Seat) if seat.host == host_id]

    def _edges(self, part_id: str, sort: type[_E]) -> list[_E]:
        if part_id not in self.graph:
            return []
        keys = {key for _, _, key in self.graph.edges(part_id, keys=True)}
        found = [self._elements[key] for key in sorted(keys)]
        return [item for item in found if isinstance(item, sort)]

    def snapshot(self) -> Design:
        """A copy for the checker: the same frozen values."""
        copy = Design(self.settings)
        for element in self._elements.values():
            copy._put(element)
        copy.revision = self.revision
        return copy

    def same_as(self, other: Design) -> bool:
        """Whether both hold equal elements."""
        return dict(self._elements) == dict(other._elements)

    # changing

    def apply(self, change: Change) -> None:
        """Carry out a change. EditError (and nothing changed) unless every before stands."""
        for element_id, (before, _) in change.pairs.items():
            if self._elements.get(element_id) != before:
                raise EditError(
                    say("'{title}' does not fit the design as it stands now", title=change.title)
                )
        self._check_whole(change)
        for pair in _taken_first(change):
            if pair[0] is not None:
                self._drop(pair[0])
        for pair in _parts_first(change):
            if pair[1] is not None:
                self._put(pair[1])
        self.revision += 1

    def _check_whole(self, change: Change) -> None:
        """No run or seat may be left without its parts."""
        after = {key: pair[1] for key, pair in change.pairs.items()}

        def stands(part_id: str) -> bool:
            return (after[part_id] if part_id in after else self.get(part_id)) is not None

        for element in after.values():
            if not all(stands(part_id) for part_id in _ends(element)):
                raise EditError(say("'{title}' joins a part that is not there", title=change.title))
        gone = {
            key
            for key, (before, now) in change.pairs.items()
            if now is None and isinstance(before, Part)
        }
        for part_id in gone:
            for edge in (*self._edges(part_id, Run), *self._edges(part_id, Seat)):
                if edge.id not in after or (
                    after[edge.id] is not None and part_id in _ends(after[edge.id])
                ):
                    raise EditError(
                        say("'{title}' would leave a run without its part", title=change.title)
                    )

    def _put(self, element: Element) -> None:
        self._elements[element.id] = element
        if isinstance(element, Part):
            self.graph.add_node(element.id, part=element)
        elif isinstance(element, Run):
            self.graph.add_edge(element.a.part, element.b.part, key=element.id, run=element)
        elif isinstance(element, Seat):
            self.graph.add_edge(element.part, element.host, key=element.id, seat=element)

    def _drop(self, element: Element) -> None:
        del self._elements[element.id]
        if isinstance(element, Part):
            self._forget_node(element)
        elif isinstance(element, Run):
            self.graph.remove_edge(element.a.part, element.b.part, key=element.id)
        elif isinstance(element, Seat):
            self.graph.remove_edge(element.part, element.host, key=element.id)

    def _forget_node(self, part: Part) -> None:
        """Keep the node while edges that are only re-put still hang on it."""
        if self.graph.degree(part.id) == 0:
            self.graph.remove_node(part.id)


def _ends(element: Element | None) -> tuple[str, ...]:
    if isinstance(element, Run):
        return (element.a.part, element.b.part)
    if isinstance(element, Seat):
        return (element.part, element.host)
    return ()


def _parts_first(change: Change) -> list[Pair]:
    return sorted(change.pairs.values(), key=lambda pair: not isinstance(pair[1], Part))


def _taken_first(change: Change) -> list[Pair]:
    return sorted(change.pairs.values(), key=lambda pair: isinstance(pair[0], Part))
