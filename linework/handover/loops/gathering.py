"""Which faults to metal are shown as loops: of each board and kind of source the worst."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from linework.circuit import settle
from linework.circuit.network import NotSolved
from linework.design import Design
from linework.design.names import natural
from linework.handover.circuits import branches
from linework.handover.content import Content
from linework.handover.faults import FLOWS, weight
from linework.handover.locking import circuits_of
from linework.study.once import once
from linework.study.report import FaultReport, StateReport
from linework.study.shorts.faults import Fault, Point, fault_points, weakest
from linework.study.shorts.loops import Loop, loop_of
from linework.study.situation import Situation

NO_BOARD = ""
_ALIKE = 1e-3
"""Two solutions of one short differ by less: one has the leaks of other sources, one has not."""


@dataclass(frozen=True)
class FaultLoop:
    """One fault to metal. ``board``: id of that behind which it lies, "" for none; ``sources``:
    ids of the parts that feed it; ``floats``: these have no link to ground."""

    board: str
    sources: tuple[str, ...]
    fault: FaultReport
    report: StateReport
    floats: bool

    @property
    def flows(self) -> bool:
        """Whether it drives a current."""
        return self.fault.weak_a > FLOWS

    @property
    def gravity(self) -> tuple[float, ...]:
        """The worse the larger: metal that stays live, what nothing ends, then as in the table of
        faults."""
        if not self.flows:
            return (0.0 if self.floats else 2.0,)
        return (1.0 if not self.fault.by and self._lasts else 0.0, *weight(self.fault))

    @property
    def _lasts(self) -> bool:
        return math.isinf(self.fault.latest_s)


def fault_loops(content: Content) -> list[FaultLoop]:
    """The worst of each board and kind of source: first that of each board, then the rest, each
    the worst first. Of what floats one for each kind of source."""
    worst: dict[object, FaultLoop] = {}
    for each in _all(content):
        groups = frozenset(_group(content, source) for source in each.sources)
        floating = not each.flows and each.floats
        key = (NO_BOARD if floating else each.board, groups, floating)
        if key not in worst or each.gravity > worst[key].gravity:
            worst[key] = each
    order = sorted(worst.values(), key=lambda e: _rank(content, e))
    order.sort(key=lambda e: e.gravity, reverse=True)
    first: dict[str, FaultLoop] = {}
    for each in order:
        first.setdefault(each.board, each)
    return [*first.values(), *(e for e in order if e not in first.values())]


def _rank(content: Content, each: FaultLoop) -> tuple[object, ...]:
    board = natural(content.name(each.board)) if each.board else ()
    return not each.board, board, [natural(content.name(s)) for s in each.sources]


def _all(content: Content) -> Iterator[FaultLoop]:
    """Every fault to metal at a board, a load or an outlet."""
    boards = _boards(content)
    for report in content.reports:
        for fault in report.faults:
            if fault.kind == "metal" and fault.part in boards:
                fed = report.live.get((fault.part, fault.terminal), ())
                sources = _driving(content, fed)
                if sources and fault.part not in sources:
                    floats = _floats(report, sources)
                    yield FaultLoop(boards[fault.part], sources, fault, report, floats)


def _boards(content: Content) -> Mapping[str, str]:
    """Each board, load and outlet, and the board behind which it lies; a board is its own."""
    design = content.design
    found: dict[str, str] = {}
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        kind = design.kind(part)
        if kind.board:
            found[part.id] = part.id
            for branch in branches(content, part.id):
                for end in branch.fed:
                    for here in (end, *(design.part(s.part) for s in design.seated_in(end.id))):
                        if design.kind(here).consumes or design.kind(here).receptacle:
                            found[here.id] = part.id
        elif kind.consumes or kind.receptacle:
            found.setdefault(part.id, NO_BOARD)
            for host in design.seats_of(part.id):  # the device that an outlet of a set sits in
                if kind.receptacle and host.host not in found:
                    found[host.host] = NO_BOARD
    return found


def _driving(content: Content, owners: Iterable[str]) -> tuple[str, ...]:
    """Of what feeds a point that which drives its fault: on a store's conductors the stores."""
    live = tuple(owners)
    stores = tuple(o for o in live if content.design.kind(content.design.part(o)).source.stores)
    return stores or live


def _group(content: Content, part: str) -> str:
    return content.design.kind(content.design.part(part)).source.value


def _floats(report: StateReport, sources: Iterable[str]) -> bool:
    """Whether no neutral or minus of these sources has a link."""
    mine = [bond for bond in report.bonds if {*bond.sources} & {*sources}]
    return not any(bond.places for bond in mine)


# the way of the current


def solved(content: Content, each: FaultLoop) -> Loop | None:
    """Its way, solved anew in that case in which it drives the current of the report; None where
    that cannot be found."""
    design = content.design
    return _solved(design, design.revision, each.report.free, each.fault)


@once
def _solved(
    design: Design, _: int, free: tuple[tuple[str, str, str], ...], told: FaultReport
) -> Loop | None:
    for circuit in circuits_of(design, design.revision):
        choice = {(part, selector): at for part, selector, at in free}
        if not choice.keys() <= circuit.selectors.keys():
            continue
        try:
            situation = Situation(circuit, settle(circuit, choice))
            points = [*_points(situation, told)]
            for point, outcome in zip(points, weakest(situation, points), strict=True):
                if math.isclose(outcome.current_a, told.weak_a, rel_tol=_ALIKE, abs_tol=FLOWS):
                    return loop_of(situation, Fault(point, outcome, outcome))
        except NotSolved:
            continue
    return None


def _points(situation: Situation, told: FaultReport) -> Iterator[Point]:
    """The shorts of a situation that a report may mean, of one frequency."""
    wanted = (told.part, told.terminal, told.pole, told.to, told.kind)
    for hertz in situation.hertz:
        found = [
            point
            for owner in situation.owners
            for point in fault_points(situation, hertz, owner)
            if (point.part, point.terminal, point.pole, point.to, point.kind) == wanted
        ]
        if found:
            yield from found
            return
