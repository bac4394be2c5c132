"""Study: where neutral meets ground in this state, and whether the links close a ring."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import networkx as nx

from linework.circuit.model import Branch
from linework.design import Design
from linework.study.situation import Situation
from linework.study.ways.windings import drivers, shares_conductor


@dataclass(frozen=True)
class Bond:
    """One link in circuit: its branch index, owner, and the clusters that it joins."""

    branch: int
    owner: str
    neutral: int
    ground: int
    off_site: bool


@dataclass(frozen=True)
class NeutralSystem:
    """One live neutral (or minus) with the sources that share it and the bonds on it.

    ``ring``: bonds that, with neutral and ground, close a ring. ``grounds``: the
    clusters of ground wire that the bonds reach.
    """

    neutral: int
    sources: tuple[int, ...]
    owners: tuple[str, ...]
    is_ac: bool
    bonds: tuple[Bond, ...]
    ring: tuple[Bond, ...]

    @property
    def grounds(self) -> frozenset[int]:
        """Clusters of ground wire joined to this neutral."""
        return frozenset(bond.ground for bond in self.bonds)


def neutral_systems(situation: Situation) -> list[NeutralSystem]:
    """Every live neutral of the state. The link of a neutral that an autotransformer makes serves
    the source of its hot conductors too."""
    bonds, made_for = _bonds(situation), _made_for(situation)
    ringed = _ringed(bonds)
    return [
        NeutralSystem(
            label,
            tuple(s.source for s in systems),
            tuple(sorted({s.owner for s in systems})),
            any(s.is_ac for s in systems),
            tuple(bond for bond in bonds if label in (bond.neutral, made_for.get(bond.neutral))),
            tuple(bond for bond in ringed if label in (bond.neutral, bond.ground)),
        )
        for label, systems in situation.back_of.items()
    ]


def _made_for(situation: Situation) -> dict[int, int]:
    """The neutral that an autotransformer makes -> the return of the source that drives it."""
    sources = situation.circuit.sources
    return {
        system.back: driver.back
        for system in situation.systems
        if shares_conductor(situation, sources[system.source])
        for driver, _ in drivers(situation, sources[system.source])
    }


def forbids_link(design: Design, owner: str) -> bool:
    """Whether the maker of a source forbids to join its neutral to ground."""
    values = design.values(design.part(owner))
    return "bond_allowed" in values.declared and values.pick("bond_allowed") == "no"


def _bonds(situation: Situation) -> list[Bond]:
    """The bonds in circuit that hang on a live return, seen from that return."""
    found: list[Bond] = []
    label = situation.clusters
    for index in sorted(situation.closed):
        branch = situation.circuit.branches[index]
        if branch.sort != "bond":
            continue
        a, b = label[branch.a], label[branch.b]
        ends = [(a, b), (b, a)]
        for neutral, ground in ends:
            if neutral in situation.back_of and neutral != ground:
                found.append(Bond(index, branch.owner, neutral, ground, _off_site(branch)))
                break
        else:
            if a == b and a in situation.back_of:
                found.append(Bond(index, branch.owner, a, b, _off_site(branch)))
    return found


def _off_site(branch: Branch) -> bool:
    return branch.name == "bond off site"


def _ringed(bonds: list[Bond]) -> list[Bond]:
    """The bonds that lie on a ring of clusters; soil never closes one."""
    if len(bonds) < 2:
        return [bond for bond in bonds if bond.neutral == bond.ground]
    pairs = Counter(frozenset((bond.neutral, bond.ground)) for bond in bonds)
    graph = nx.Graph(pair for pair in pairs if len(pair) == 2)
    bridges = {frozenset(edge) for edge in nx.bridges(graph)}
    return [
        bond
        for bond in bonds
        for pair in (frozenset((bond.neutral, bond.ground)),)
        if pairs[pair] > 1 or pair not in bridges
    ]
