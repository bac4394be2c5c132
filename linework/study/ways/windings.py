"""Study: windings that others drive through a core, and whether they still have power."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from linework.circuit.model import Circuit, LiveSource, Load
from linework.study.situation import Situation, System


def drivers(situation: Situation, source: LiveSource) -> list[tuple[System, int]]:
    """The windings of other parts that feed the primary of a source, each with the end of it that
    their hot conductor reaches."""
    return [
        (system, node)
        for node in source.primary
        for system in situation.feeds(node)
        if system.owner != source.owner
    ]


def shares_conductor(situation: Situation, source: LiveSource) -> bool:
    """Whether a winding has a conductor in common with its primary: of an autotransformer."""
    label = situation.clusters
    own = {label[source.plus], label[source.minus]}
    return not own.isdisjoint(label[node] for node in source.primary)


def drives(situation: Situation, one: System, other: System) -> bool:
    """Whether a winding feeds the primary of another."""
    driven = situation.circuit.sources[other.source]
    return any(one.source == system.source for system, _ in drivers(situation, driven))


def live_windings(situation: Situation, cluster: Sequence[int]) -> list[System]:
    """The windings that have power with conductors as in ``cluster``: one that others drive only
    while a hot conductor still reaches its primary."""
    sources = situation.circuit.sources
    live = [s for s in situation.systems if not sources[s.source].primary]
    waiting = [s for s in situation.systems if sources[s.source].primary]
    while waiting:
        hot = {(cluster[sources[s.source].plus], s.owner) for s in live}
        more = [s for s in waiting if _reached(sources[s.source], cluster, hot)]
        if not more:
            break
        live += more
        waiting = [s for s in waiting if s not in more]
    return live


def _reached(source: LiveSource, cluster: Sequence[int], hot: set[tuple[int, str]]) -> bool:
    ends = {cluster[node] for node in source.primary}
    return any(label in ends and owner != source.owner for label, owner in hot)


def wound_inputs(circuit: Circuit) -> frozenset[int]:
    """The loads that stand for what windings take for those that they drive, by index."""
    return frozenset(c.load for c in circuit.conversions if circuit.sources[c.source].primary)


def kept_apart(situation: Situation, system: System, but: Collection[str]) -> bool:
    """Whether all that a winding feeds, or would, is a core behind whose shield its ground wire
    ends.

    Loads and outlets of the parts in ``but`` do not count.
    """
    label, circuit = situation.clusters, situation.circuit
    loads = [
        x for x in circuit.loads if x.owner not in but and system.hot in (label[x.a], label[x.b])
    ]
    faces = [f for f in circuit.faces if f.owner not in but]
    served = any(system.hot in {label[n] for n in f.nodes.values()} for f in faces)
    return bool(loads) and not served and all(_shielded(situation, x) for x in loads)


def _shielded(situation: Situation, load: Load) -> bool:
    """Whether the metal of a part that lies beside the conductors of this input is joined to none
    of its other metal."""
    circuit, label = situation.circuit, situation.metallic
    if load.data.own:
        return False
    near, far = set[int](), set[int]()
    for metal in (m for m in circuit.metals if m.owner == load.owner):
        beside = [circuit.terminals[metal.owner, name] for name in metal.data.beside]
        nodes = {node for terminal in beside for node in terminal.values()}
        touches = not beside or not nodes.isdisjoint({load.a, load.b})
        (near if touches else far).add(label[metal.node])
    return bool(far) and near.isdisjoint(far)


@dataclass(frozen=True)
class Core:
    """Windings in circuit that one primary drives: the load that this is, its rated current in
    ampere, and theirs by the index of their source."""

    owner: str
    load: int
    primary_a: float
    windings: dict[int, float]


def cores(situation: Situation) -> list[Core]:
    """The transformers that are live."""
    circuit, found = situation.circuit, dict[int, dict[int, float]]()
    on = {i for i, _ in situation.active}
    for c in circuit.conversions:
        source = circuit.sources[c.source]
        if c.source in on and source.primary and source.data.rated_a is not None:
            found.setdefault(c.load, {})[c.source] = source.data.rated_a
    return [
        Core(
            circuit.loads[load].owner,
            load,
            sum(amps * circuit.sources[i].data.turns for i, amps in mine.items()),
            mine,
        )
        for load, mine in found.items()
    ]
