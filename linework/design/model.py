"""The document: a networkx multigraph of frozen values.

Nodes are parts, edges are runs and seats; interlocks, notes, accepted findings
and the settings lie beside them. Only :meth:`Design.apply` changes a design.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from copy import copy
from typing import TypeVar

import networkx as nx

from linework.design.change import Change, EditError
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
from linework.design.nesting import nesting_faults
from linework.design.shelf import Shelf
from linework.kinds import RUN_RATINGS, Kind, Values, kind_of
from linework.words import say

_E = TypeVar("_E", bound=Element)
_T = TypeVar("_T")

Settled = Mapping[tuple[str, str], str]
"""(id of a part or run, rating key) -> the possibility taken in one case."""


class Design:
    """One design. ``graph`` is a networkx MultiGraph of parts (nodes), runs and seats (edges)."""

    def __init__(self, settings: Settings | None = None) -> None:
        self.graph = nx.MultiGraph()
        self._shelf = Shelf()
        self.revision = 0
        self._answers: dict[str, str] | None = None
        self._settled: Settled = {}
        self._worked_out: dict[Hashable, object] = {}
        self._put(settings or Settings())

    # reading

    def get(self, element_id: str) -> Element | None:
        """The element with this id, or None."""
        return self._shelf.get(element_id)

    def __contains__(self, element_id: str) -> bool:
        return self._shelf.get(element_id) is not None

    @property
    def settings(self) -> Settings:
        """What holds for the whole design."""
        return self._shelf.all(Settings)[0]

    @property
    def elements(self) -> Mapping[str, Element]:
        """Every element by its id, to be read only."""
        return self._shelf.by_id

    @property
    def parts(self) -> list[Part]:
        """All parts."""
        return self._shelf.all(Part)

    @property
    def runs(self) -> list[Run]:
        """All runs."""
        return self._shelf.all(Run)

    @property
    def seats(self) -> list[Seat]:
        """All seats."""
        return self._shelf.all(Seat)

    @property
    def interlocks(self) -> list[Interlock]:
        """All interlocks."""
        return self._shelf.all(Interlock)

    @property
    def notes(self) -> list[Note]:
        """All notes."""
        return self._shelf.all(Note)

    @property
    def accepted(self) -> list[Accepted]:
        """All accepted findings."""
        return self._shelf.all(Accepted)

    def part(self, part_id: str) -> Part:
        """The part with this id. KeyError if there is none."""
        found = self._shelf.get(part_id)
        if not isinstance(found, Part):
            raise KeyError(part_id)
        return found

    def by_designation(self, designation: str) -> Part:
        """The part with this reference designation. KeyError if there is none."""
        for part_id in self._shelf.named(Part, designation):
            return self.part(part_id)
        raise KeyError(designation)

    def named(self, sort: type[Part] | type[Run], designation: str) -> list[str]:
        """The ids of the parts, or of the runs, that bear this designation."""
        return self._shelf.named(sort, designation)

    def kind(self, part: Part) -> Kind:
        """The kind of a part (an unknown one is a plain box)."""
        return kind_of(part.kind)

    def values(self, part: Part) -> Values:
        """The ratings of a part with the defaults of its kind and of this design."""
        taken = self._taken(part.id)
        return self.kind(part).values(part.ratings, taken, self.setting_answers())

    def run_values(self, run: Run) -> Values:
        """The ratings of a run with their defaults."""
        return Values(RUN_RATINGS, run.ratings, self._taken(run.id), self.setting_answers())

    def _taken(self, owner: str) -> dict[str, str]:
        return {key: taken for (of, key), taken in self._settled.items() if of == owner}

    def setting_answers(self) -> dict[str, str]:
        """What a default may take from the settings (written "$voltage" in a declaration). To be
        read only."""
        if self._answers is None:
            settings = self.settings
            self._answers = {
                "voltage": settings.voltage,
                "frequency": settings.frequency,
                "family": settings.family,
                "place": settings.place,
                "outage": "yes" if self._outages_count() else "no",
            }
        return self._answers

    def _outages_count(self) -> bool:
        """Whether a supply may be dead while everything stays joined to it: where it is wired in
        for good, and where something changes over by itself when it fails."""
        if not self.settings.kind_of_place.aboard:
            return True
        return any(self.kind(part).changes_over for part in self.parts)

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
        return self.worked_out(("edges", part_id, sort), lambda: self._edges_now(part_id, sort))

    def _edges_now(self, part_id: str, sort: type[_E]) -> list[_E]:
        keys = {key for _, _, key in self.graph.edges(part_id, keys=True)}
        found = [self._shelf.get(key) for key in sorted(keys)]
        return [item for item in found if isinstance(item, sort)]

    def worked_out(self, key: Hashable, make: Callable[[], _T]) -> _T:
        """What follows from the design as it stands, made once, to be read only; every change of
        the design forgets it. ``key`` begins with the name of what is asked."""
        if key not in self._worked_out:
            self._worked_out[key] = make()
        return self._worked_out[key]  # type: ignore[return-value]

    def snapshot(self) -> Design:
        """A copy for the checker: the same frozen values."""
        made = Design(self.settings)
        for element in self.elements.values():
            made._put(element)
        made.revision = self.revision
        made._settled = self._settled
        return made

    def in_case(self, settled: Settled) -> Design:
        """The same design, its unknowns read as settled, and so all terminals, places and pole
        maps that hang on them. Not a copy: it holds the very elements, and takes no change."""
        read = copy(self)
        read._settled = {**self._settled, **settled}
        read._worked_out = {}
        return read

    def same_as(self, other: Design) -> bool:
        """Whether both hold equal elements."""
        return dict(self.elements) == dict(other.elements)

    # changing

    def apply(self, change: Change) -> None:
        """Carry out a change. EditError (and nothing changed) unless every before stands.

        TypeError where this is but a design read in one case.
        """
        if self._settled:
            raise TypeError("a design read in one case takes no change")
        self._check_stands(change)
        self._check_whole(change)
        pairs = change.pairs.values()
        for before, after in sorted(pairs, key=lambda pair: isinstance(pair[0], Part)):
            if before is not None:
                self._take_away(before, after)
        for _, after in sorted(pairs, key=lambda pair: not isinstance(pair[1], Part)):
            if after is not None:
                self._put(after)
        self.revision += 1

    def _check_stands(self, change: Change) -> None:
        for element_id, (before, after) in change.pairs.items():
            fits = all(item is None or item.id == element_id for item in (before, after))
            if not fits or self.get(element_id) != before:
                raise EditError(
                    say("'{title}' does not fit the design as it stands now", title=change.title)
                )
            if isinstance(before, Settings) and not isinstance(after, Settings):
                raise EditError(say("the settings of a design cannot be taken away"))

    def _check_whole(self, change: Change) -> None:
        """No run or seat may be left without its parts."""
        after = {key: pair[1] for key, pair in change.pairs.items()}
        for element in after.values():
            for part_id in _ends(element):
                stands = after[part_id] if part_id in after else self.get(part_id)
                if not isinstance(stands, Part):
                    raise EditError(
                        say("'{title}' joins a part that is not there", title=change.title)
                    )
        for part_id, (before, now) in change.pairs.items():
            if isinstance(before, Part) and not isinstance(now, Part):
                self._check_bare(part_id, after, change.title)
        self._check_nesting(after)

    def _check_bare(self, part_id: str, after: Mapping[str, Element | None], title: str) -> None:
        """Nothing may hang on a part that goes, once the change is made."""
        if part_id not in self.graph:
            return
        for _, _, key in self.graph.edges(part_id, keys=True):
            if key not in after or part_id in _ends(after[key]):
                raise EditError(say("'{title}' would leave a run without its part", title=title))

    def _check_nesting(self, after: Mapping[str, Element | None]) -> None:
        """No part may sit in itself, by whatever way, once the change is made."""
        new = [element for element in after.values() if isinstance(element, Seat)]
        if not new:
            return
        seats = [*(seat for seat in self.seats if seat.id not in after), *new]
        names = {e.id: e.designation for e in (*self.parts, *after.values()) if isinstance(e, Part)}
        faults = nesting_faults([(seat.part, seat.host) for seat in seats], names.__getitem__)
        for fault in faults.values():
            raise EditError(fault)

    def _put(self, element: Element) -> None:
        self._answers = None
        self._worked_out.clear()
        self._shelf.put(element)
        if isinstance(element, Part):
            self.graph.add_node(element.id, part=element)
        elif isinstance(element, Run):
            self.graph.add_edge(element.a.part, element.b.part, key=element.id, run=element)
        elif isinstance(element, Seat):
            self.graph.add_edge(element.part, element.host, key=element.id, seat=element)

    def _take_away(self, element: Element, after: Element | None) -> None:
        """What of an element is no longer there after the change; edges go before their nodes."""
        self._answers = None
        self._worked_out.clear()
        if type(element) is not type(after) or _ends(element) != _ends(after):
            if isinstance(element, Part):
                self.graph.remove_node(element.id)
            elif isinstance(element, Run | Seat):
                one, other = _ends(element)
                self.graph.remove_edge(one, other, key=element.id)
        if after is None:
            self._shelf.drop(element.id)


def _ends(element: Element | None) -> tuple[str, ...]:
    if isinstance(element, Run):
        return (element.a.part, element.b.part)
    if isinstance(element, Seat):
        return (element.part, element.host)
    return ()
