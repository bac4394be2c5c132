"""Which way power flows along each run: from what must give it to what must take it.

Boards, loads and converters say by the roles of their terminals which is which. A fuse, a switch or
a bar passes power either way: it takes it at the terminal at which the nearest source reaches it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from heapq import heappop, heappush

from linework.design import Design, End, Part, Run

GIVES, TAKES = "gives", "takes"

Flows = Mapping[str, tuple[str, str]]
"""By run: whether its first and its second end give power to it or take it from it."""

_FROM_SOURCE, _FROM_REST = 0.0, 0.5
"""How far off power already is where it comes out of a source, and out of anything else."""


def flows(design: Design, runs: Iterable[Run]) -> Flows:
    """Of each of some runs, at each of its ends, ``GIVES`` or ``TAKES``.

    Where two sources meet, both ends give.
    """
    return _Feeding(design, sorted(runs, key=lambda run: run.id)).found()


def role_of(design: Design, end: End) -> str:
    """The role of the terminal at which a run ends, "both" for one that its kind does not have."""
    part = design.part(end.part)
    terminals = design.kind(part).terminals(design.values(part))
    return next((t.role for t in terminals if t.name == end.terminal), "both")


class _Feeding:
    """Power spreads from the terminals that give it, to the nearest first."""

    def __init__(self, design: Design, runs: list[Run]) -> None:
        self.design, self.runs = design, runs
        self.at: dict[str, list[tuple[Run, int]]] = {}
        for run in runs:
            for which, end in enumerate((run.a, run.b)):
                self.at.setdefault(end.part, []).append((run, which))
        self.sure = {
            (run.id, which): self._sure(end)
            for run in runs
            for which, end in enumerate((run.a, run.b))
        }
        self.reached: dict[str, str] = {}

    def found(self) -> dict[str, tuple[str, str]]:
        self._spread()
        return {run.id: (self._at_end(run, 0), self._at_end(run, 1)) for run in self.runs}

    def _spread(self) -> None:
        heap = [
            (self._start(run, which), run.id, which)
            for run in self.runs
            for which in (0, 1)
            if self.sure[run.id, which] == GIVES
        ]
        heap.sort()
        while heap:
            far, run_id, which = heappop(heap)
            run = self.design.get(run_id)
            assert isinstance(run, Run)
            end = (run.a, run.b)[1 - which]
            if self.sure[run_id, 1 - which] or end.part in self.reached:
                continue
            self.reached[end.part] = end.terminal
            for other, at in self.at[end.part]:
                if (other.a, other.b)[at].terminal != end.terminal:
                    heappush(heap, (far + 1, other.id, at))

    def _start(self, run: Run, which: int) -> float:
        part = self.design.part((run.a, run.b)[which].part)
        return _FROM_SOURCE if self.design.kind(part).strip == "sources" else _FROM_REST

    def _at_end(self, run: Run, which: int) -> str:
        end, other = (run.a, run.b)[which], (run.a, run.b)[1 - which]
        if self.sure[run.id, which]:
            return self.sure[run.id, which]
        if end.part in self.reached:
            return TAKES if self.reached[end.part] == end.terminal else GIVES
        roles = role_of(self.design, end), role_of(self.design, other)
        if "in" in roles or "out" in roles:
            return TAKES if roles[0] == "in" or roles[1] == "out" else GIVES
        return TAKES if which else GIVES

    def _sure(self, end: End) -> str:
        """What the terminal says by itself; "" where power may go either way."""
        part = self.design.part(end.part)
        kind, role = self.design.kind(part), role_of(self.design, end)
        if kind.strip == "sources" or kind.plugs:
            return TAKES if role == "in" else GIVES
        if kind.strip == "conversion":
            return GIVES if role == "out" else TAKES
        if kind.strip == "loads" or kind.board or kind.transfers or self._is_seated(part):
            return {"in": TAKES, "out": GIVES}.get(role, "")
        return ""

    def _is_seated(self, part: Part) -> bool:
        return bool(self.design.seats_of(part.id)) and not self.design.kind(part).plugs
