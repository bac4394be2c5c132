"""Metal on an earth electrode of its own, where a family lets a fault come back through soil."""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.view import Look, View
from linework.study.neutral.earth import on_own_earth
from linework.wiring import Pole


def on_soil(view: View, look: Look) -> frozenset[int]:
    """Labels of such metal (of :attr:`Situation.metallic`): whether a residual-current device ends
    a fault to it is told by rod-as-return. Never where the family wants a ground wire (NFPA 70
    250.4(A)(5)); IEC 60364-4-41 411.5 wants none. Nor where one is drawn and broken."""
    if not view.clause({"INT": "411.5"}):
        return frozenset()
    return on_own_earth(look.studies.situation).difference(_behind_broken(view, look))


def _behind_broken(view: View, look: Look) -> Iterator[int]:
    terminals, label = look.studies.circuit.terminals, look.studies.situation.metallic
    for run in view.design.runs:
        if view.run_values(run.id).pick("broken") == "PE":
            for end in (run.a, run.b):
                nodes = terminals.get((end.part, end.terminal), {})
                yield from (label[node] for pole, node in nodes.items() if pole == Pole.PE)
