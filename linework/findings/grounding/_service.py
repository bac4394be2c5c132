"""Boards that a supply feeds without a ground wire: they must carry the link themselves."""

from __future__ import annotations

from dataclasses import dataclass

from linework.design import Run
from linework.findings.grounding._metal import ground_nodes
from linework.findings.view import Look, View
from linework.wiring import Pole, is_protective


@dataclass(frozen=True)
class Unlinked:
    """A first board without the link, its supply, and the label of the metal behind it
    (of :attr:`Situation.metallic`)."""

    board: str
    supply: str
    metal: int


def unlinked_services(view: View, look: Look) -> list[Unlinked]:
    """In buildings: boards straight at a supply, by a run with a neutral and no ground wire, whose
    ground bar does not get to that neutral."""
    if view.place != "building":
        return []
    return view.once(("unlinked", id(look)), lambda: _unlinked(view, look))


def _unlinked(view: View, look: Look) -> list[Unlinked]:
    metallic = look.studies.situation.metallic
    live = set(look.studies.situation.owners)
    found = []
    for run in view.design.runs:
        ends = (run.a.part, run.b.part)
        boards = [p for p in ends if view.kind(p).key == "panel"]
        supplies = [p for p in ends if view.kind(p).key == "supply" and p in live]
        if not boards or not supplies or not _three_wires(look, run):
            continue
        bars = {metallic[node] for node in ground_nodes(look.studies.situation, boards[0])}
        home = {metallic[node] for node in ground_nodes(look.studies.situation, supplies[0])}
        if bars.isdisjoint(home):
            found += [Unlinked(boards[0], supplies[0], bar) for bar in sorted(bars)]
    return found


def _three_wires(look: Look, run: Run) -> bool:
    """Whether it brings a neutral and no ground wire."""
    poles = {b.pole for b in look.studies.situation.branches if b.owner == run.id}
    return Pole.N in poles and not any(is_protective(Pole(p)) for p in poles)
