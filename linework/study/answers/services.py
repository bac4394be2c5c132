"""Boards that a supply feeds without a ground wire: they must carry the link themselves."""

from __future__ import annotations

from dataclasses import dataclass

from linework.design import Design, PlaceKind, Run
from linework.study.neutral.metal import grounded_at
from linework.study.once import once
from linework.study.studies import Studies
from linework.wiring import Pole, is_protective


@dataclass(frozen=True)
class Unlinked:
    """A first board without the link, its supply, and the label of the metal behind it
    (of :attr:`Situation.metallic`)."""

    board: str
    supply: str
    metal: int


@once
def unlinked_services(studies: Studies, design: Design) -> list[Unlinked]:
    """In buildings: boards straight at a supply, by a run with a neutral and no ground wire, whose
    ground bar does not get to that neutral."""
    if design.settings.kind_of_place is not PlaceKind.BUILDING:
        return []
    circuit, metallic = studies.circuit, studies.situation.metallic
    live = set(studies.situation.owners)
    found = []
    for run in design.runs:
        ends = (run.a.part, run.b.part)
        boards = [p for p in ends if design.kind(design.part(p)).board]
        supplies = [p for p in ends if design.kind(design.part(p)).source.off_site and p in live]
        if not boards or not supplies or not _three_wires(studies, run):
            continue
        bars = grounded_at(circuit, metallic, boards[0])
        home = grounded_at(circuit, metallic, supplies[0])
        if bars.isdisjoint(home):
            found += [Unlinked(boards[0], supplies[0], bar) for bar in sorted(bars)]
    return found


def _three_wires(studies: Studies, run: Run) -> bool:
    """Whether it brings a neutral and no ground wire."""
    poles = {b.pole for b in studies.situation.branches if b.owner == run.id}
    return Pole.N in poles and not any(is_protective(Pole(p)) for p in poles)
