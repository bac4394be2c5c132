"""Boards that are fed without a ground wire: straight from a supply they must carry the link
themselves; further on, where another stands before it, they may where it has always been so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.design import Design, Part, PlaceKind, Run
from linework.study.neutral.metal import grounded_at
from linework.study.once import once
from linework.study.stands import place_of
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
    circuit, metallic = studies.circuit, studies.situation.metallic
    live = set(studies.situation.owners)
    found = []
    for run in design.runs:
        ends = (run.a.part, run.b.part)
        boards = [p for p in ends if _board_in_building(design, p)]
        supplies = [p for p in ends if design.kind(design.part(p)).source.off_site and p in live]
        if not boards or not supplies or not _three_wires(studies, run):
            continue
        bars = grounded_at(circuit, metallic, boards[0])
        home = grounded_at(circuit, metallic, supplies[0])
        if bars.isdisjoint(home):
            found += [Unlinked(boards[0], supplies[0], bar) for bar in sorted(bars)]
    return found


@dataclass(frozen=True)
class LinkedFeeder:
    """A board with a link of its own that a run feeds without a ground wire from behind another
    link; ``rod``: whether its ground bar has an electrode without the way through that link."""

    board: str
    run: str
    rod: bool


@once
def linked_feeders(studies: Studies, design: Design) -> list[LinkedFeeder]:
    """In buildings."""
    return [
        found
        for system in studies.neutrals
        if system.is_ac and len(system.bonds) > 1
        for bond in system.bonds
        if isinstance(design.get(bond.owner), Part) and _board_in_building(design, bond.owner)
        for found in _fed_by(studies, design, bond.owner)
    ]


def _fed_by(studies: Studies, design: Design, board: str) -> Iterator[LinkedFeeder]:
    circuit, cluster = studies.circuit, studies.situation.clusters
    bars = grounded_at(circuit, cluster, board)
    rods = (part.id for part in design.parts if design.kind(part).electrode)
    rod = any(bars & grounded_at(circuit, cluster, each) for each in rods)
    for run in design.runs_at(board, "feed"):
        other = run.a.part if run.b.part == board else run.b.part
        supplied = design.kind(design.part(other)).source.off_site
        if not supplied and _three_wires(studies, run):
            yield LinkedFeeder(board, run.id, rod)


def _board_in_building(design: Design, part: str) -> bool:
    board = design.kind(design.part(part)).board
    return board and place_of(design, part) is PlaceKind.BUILDING


def _three_wires(studies: Studies, run: Run) -> bool:
    """Whether it brings a neutral and no ground wire."""
    poles = {b.pole for b in studies.situation.branches if b.owner == run.id}
    return Pole.N in poles and not any(is_protective(Pole(p)) for p in poles)
