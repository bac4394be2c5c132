"""How a system is made dead: what to stop, pull out, switch off and open, and what stays live.

Nothing of it is written by hand. A means is a switch that a hand can move and lock; it is kept
where the circuit, searched in every state that the others leave open, has something live without
it. A source that is only stopped may start again: the gap behind it is kept as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cached_property

from linework.circuit import Circuit, settle
from linework.circuit.incircuit import InCircuit
from linework.circuit.model import SelectorAt, SelectorKey
from linework.circuit.states import caught
from linework.design import Design
from linework.kinds import Kind
from linework.study.answers.touched import Place, live_places
from linework.study.memory import Case, Memory
from linework.wiring import SourceGroup

FUSE = "element"
"""Names the selector of what is taken out of its holder."""

Live = Mapping[Place, frozenset[str]]
"""Part and terminal -> the parts whose sources make it live in some state."""


class Sort(IntEnum):
    """What is done, in the order in which it is: what runs first, stores last."""

    STOP = 1
    UNPLUG = 2
    MAINS = 3
    TRANSFER = 4
    ELECTRONIC = 5
    SUN = 6
    STORE = 7


@dataclass(frozen=True)
class Means:
    """One thing to do: bring the selector of a part into a position."""

    key: SelectorKey
    position: str
    sort: Sort

    @property
    def part(self) -> str:
        """The id of the part."""
        return self.key[0]


@dataclass(frozen=True)
class Step:
    """One thing to do, in its place.

    ``needed``: without it something is live. Else it is the gap behind a source that is only
    stopped, or it takes the load off before a switch is opened.
    """

    means: Means
    needed: bool


@dataclass(frozen=True)
class Lockout:
    """The steps in their order; what is live after them, by what; ``proven`` False where not all
    states could be searched. ``before``: what is live before them."""

    steps: tuple[Step, ...]
    live: Live
    before: Live
    proven: bool


def lockout(design: Design, circuits: Sequence[Circuit], memory: Memory | None = None) -> Lockout:
    """Worked out for all cases of a design together; ``circuits``: one for each.

    ``memory``: of an analysis of the design, whose searches are not made anew.
    """
    return _Search(design, circuits, memory or Memory()).found()


# the circuit with some of its switches held


def openable(design: Design, circuit: Circuit) -> Circuit:
    """The circuit in which what melts can be taken out of its holder, as by a switch."""
    fuses = {part.id for part in design.parts if design.kind(part).melts}
    whole = {part: (((part, FUSE), frozenset({"in"})),) for part in fuses}
    branches = tuple(
        replace(b, when=(*b.when, *whole[b.owner]))
        if b.owner in whole and b.sort == "contact"
        else b
        for b in circuit.branches
    )
    more = {
        (part, FUSE): SelectorAt((part, FUSE), ("in", "out"), "in", "protection") for part in fuses
    }
    return replace(circuit, branches=branches, selectors={**circuit.selectors, **more}, _sets={})


def held(circuit: Circuit, positions: Mapping[SelectorKey, str]) -> Circuit:
    """The circuit with some selectors locked where they stand."""
    selectors = {
        key: replace(s, positions=(positions[key],), rest=positions[key]) if key in positions else s
        for key, s in circuit.selectors.items()
    }
    return replace(circuit, selectors=selectors, _sets={})


def live_anywhere(circuit: Circuit) -> tuple[Live, bool]:
    """What is live in any state, and whether all of them were searched."""
    return _live_in(Case(circuit))


def _live_in(case: Case) -> tuple[Live, bool]:
    circuit = case.circuit
    found, choices = case.circuits, case.search.choices
    live: dict[Place, frozenset[str]] = {}
    for standing in (*found.at_rest, *found.passing):
        known = min(standing.arrangements, key=len)
        free = {key: at for key, at in known.items() if key in choices.free}
        state = settle(circuit, choices.example(free))
        if standing.passing is not None:
            state = caught(state, *standing.passing)
        for place, owners in live_places(InCircuit(circuit, state)).items():
            live[place] = live.get(place, frozenset()) | owners
    return live, not found.cut and not found.restless


# what can be done


def means_of(design: Design, circuit: Circuit) -> list[Means]:
    """Everything that a hand can bring to a position in which it parts or stops something."""
    found: list[Means] = []
    for key, selector in sorted(circuit.selectors.items()):
        off: tuple[str, ...]
        kind = design.kind(design.part(key[0]))
        if selector.moves == "source":
            sort, off = Sort.STOP, ("stopped", "off")
        elif kind.plugs:
            sort, off = Sort.UNPLUG, ("unplugged",)
        elif selector.moves == "hand" and not kind.source.charges:
            sort = Sort.TRANSFER if kind.source is SourceGroup.NONE else Sort.ELECTRONIC
            off = ("off",)
        elif selector.moves == "protection" and not (kind.consumes or kind.receptacle):
            sort, off = Sort.STORE, ("open", "out")
        else:
            continue
        found += [Means(key, at, sort) for at in selector.positions if at in off]
    return found


class _Search:
    """Which means are kept, for one design."""

    def __init__(self, design: Design, circuits: Sequence[Circuit], memory: Memory) -> None:
        self.design = design
        self.plain = [memory.case(circuit) for circuit in circuits]
        self.circuits = [openable(design, circuit) for circuit in circuits]
        self.means = means_of(design, self.circuits[0])
        self.proven = True
        self._known: dict[frozenset[Means], Live] = {}

    def _kind(self, part: str) -> Kind:
        return self.design.kind(self.design.part(part))

    def live(self, means: Iterable[Means]) -> Live:
        """What is live with these done, in any state and case."""
        done = frozenset(means)
        if done not in self._known:
            at = {m.key: m.position for m in done}
            self._known[done] = self._together(Case(held(circuit, at)) for circuit in self.circuits)
        return self._known[done]

    @cached_property
    def before(self) -> Live:
        """What is live before anything is done, all fuses in their holders."""
        return self._together(self.plain)

    def _together(self, cases: Iterable[Case]) -> Live:
        found: dict[Place, frozenset[str]] = {}
        for case in cases:
            here, all_of_it = _live_in(case)
            self.proven &= all_of_it
            for place, owners in here.items():
                found[place] = found.get(place, frozenset()) | owners
        return found

    def found(self) -> Lockout:
        stops = [m for m in self.means if m.sort is Sort.STOP]
        others = self._opened([m for m in self.means if m.sort is not Sort.STOP])
        gaps = self._kept(others, others, self._own(stops))
        kept = self._kept([*gaps, *stops], stops)
        live = self.live(kept)
        steps = [Step(self._sorted(m, kept), self._grows(m, kept)) for m in kept]
        steps += [Step(m, False) for m in self._besides(kept)]
        steps.sort(key=lambda s: (s.means.sort, self.design.part(s.means.part).designation))
        return Lockout(tuple(steps), live, self.before, self.proven)

    def _grows(self, means: Means, kept: Sequence[Means]) -> bool:
        return not self.live(m for m in kept if m is not means).keys() <= self.live(kept).keys()

    def _opened(self, means: list[Means]) -> list[Means]:
        """The switches, and of the fuses only those behind which more than leads is live."""
        fuses = [m for m in means if m.key[1] == FUSE]
        switches = [m for m in means if m.key[1] != FUSE]
        least = self._serious(self.live(means))
        for fuse in fuses:
            left = [m for m in fuses if m is not fuse]
            if self._serious(self.live([*switches, *left])) <= least:
                fuses = left
        return [*switches, *fuses]

    def _serious(self, live: Live) -> set[str]:
        """The live parts at which somebody works: loads, outlets, boards, what turns power over."""
        kinds = {part: self._kind(part) for part, _ in live}
        return {
            part
            for part, kind in kinds.items()
            if kind.consumes
            or kind.receptacle
            or kind.board
            or (kind.source is not SourceGroup.NONE and not kind.source.stores)
        }

    def _own(self, stops: Sequence[Means]) -> frozenset[str]:
        """The parts that are only stopped, with what is built onto them: live if they start."""
        found = {m.part for m in stops}
        fresh = sorted(found)
        while fresh:
            seated = {seat.part for part in fresh for seat in self.design.seated_in(part)}
            fresh = sorted(p for p in seated - found if not self._kind(p).plugs)
            found |= set(fresh)
        return frozenset(found)

    def _kept(
        self,
        means: Sequence[Means],
        among: Sequence[Means],
        but: frozenset[str] = frozenset(),
    ) -> list[Means]:
        """What is needed ``among`` some means for as little live as with all of them, ``but`` at
        some parts; what sits on a board goes first, what parts most visibly goes last."""

        def left_live(done: Iterable[Means]) -> set[Place]:
            return {place for place in self.live(done) if place[0] not in but}

        least = left_live(means)
        kept = list(means)
        drop = sorted(among, key=self._worth)
        seated = [m for m in drop if self._worth(m)[0] == 0]
        for gone in ([seated] if len(seated) > 1 else []) + [[m] for m in drop]:
            left = [m for m in kept if m not in gone]
            if len(left) < len(kept) and left_live(left) <= least:
                kept = left
        return kept

    def _worth(self, means: Means) -> tuple[int, str]:
        part, kind = self.design.part(means.part), self._kind(means.part)
        if kind.seat and not kind.plugs and self.design.seats_of(part.id):
            rank = 0
        elif means.sort is Sort.ELECTRONIC:
            rank = 1
        else:
            rank = 4 if means.sort is Sort.UNPLUG else 2 if kind.board or kind.transfers else 3
        return rank, part.designation

    def _sorted(self, means: Means, kept: Sequence[Means]) -> Means:
        """A switch by what it parts from its source: a supply, the sun, a store."""
        if means.sort is not Sort.STORE:
            return means
        more = self.live(m for m in kept if m is not means)
        base = self.live(kept)
        owners = {o for place, by in more.items() if place not in base for o in by}
        groups = {self._kind(owner).source for owner in owners}
        sun = any(g.solar for g in groups)
        if any(g.stores for g in groups) and not (sun and self._parts_the_sun(base)):
            return means
        direct = sun or any(g.charges for g in groups)
        return replace(means, sort=Sort.SUN if sun else Sort.STORE if direct else Sort.MAINS)

    def _parts_the_sun(self, live: Live) -> bool:
        """Whether an array reaches nothing but itself and switches. Where no bond holds one side
        of a battery, what the sun drives has both for its sources."""
        for part, by in ((part, by) for (part, _), by in live.items()):
            source = self._kind(part).source
            lit = any(self._kind(owner).source.solar for owner in by)
            if lit and source and not (source.solar or source.stores):
                return False
        return True

    def _besides(self, kept: Sequence[Means]) -> list[Means]:
        """What takes the load off first, and what can be locked besides: electronics and levers
        that are live before."""
        lit = {part for part, _ in self.before}
        return [
            m
            for m in self.means
            if m not in kept and m.part in lit and m.sort in (Sort.ELECTRONIC, Sort.TRANSFER)
        ]
