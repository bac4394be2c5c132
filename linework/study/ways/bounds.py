"""Study: the most that devices further on let through a conductor that none protects itself.

A neutral or minus beside its hot conductor is protected with it. One in a run of its own, or of a
size of its own, carries what the devices before all loads behind it let pass; so does what links
the batteries of a string or bank, and what brings current back to or from a chassis or hull. Runs
that join the same two places are taken as one: which carries what hangs on their resistance. The
minus of what charges is bounded by the device in its plus too: broken, it draws from the bank what
that lets pass. This is asked apart, for not all at once breaks.
"""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS, SOIL
from linework.circuit.series import ways_back
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.ways.sums import Inflow, inflow
from linework.wiring import Pole, is_ungrounded

_Across = tuple[int, int]
"""Hot and return node of a load or outlet."""


@dataclass(frozen=True)
class Bound:
    """A conductor (branch index) and the most that sources together drive through it for good, one
    way round."""

    branch: int
    systems: tuple[System, ...]
    inflow: Inflow


@dataclass
class _Returning:
    """Windings whose current comes back through a conductor from one side, and the hot ends of what
    it serves for them."""

    systems: list[System]
    hot: set[int]


def bounds(
    situation: Situation, wanted: Collection[int], *, broken: bool = False
) -> Iterator[Bound]:
    """For each of these branches and each way round that currents pass it.

    Currents of direct current add up; each winding of alternating current counts by itself. What
    some way reaches without a limit has no bound; it is unprotected already. ``broken``: by what a
    charger that is broken lets through, and by no load.
    """
    for branch in sorted(wanted):
        for found in _returning(situation, branch, beside(situation, branch), broken):
            most = inflow(situation, found.hot, found.systems)
            if most.finite:
                yield Bound(branch, tuple(found.systems), most)


def beside(situation: Situation, branch: int) -> frozenset[int]:
    """A branch and the other wires in circuit that join the same two nodes."""
    ends = situation.circuit.branches[branch]
    return _between(situation).get(frozenset((ends.a, ends.b)), frozenset({branch}))


@once
def _between(situation: Situation) -> dict[frozenset[int], frozenset[int]]:
    """The wires in circuit by the two nodes that they join."""
    found: dict[frozenset[int], set[int]] = {}
    for i in situation.closed:
        branch = situation.circuit.branches[i]
        if branch.sort == "run":
            found.setdefault(frozenset((branch.a, branch.b)), set()).add(i)
    return {ends: frozenset(wires) for ends, wires in found.items()}


def _returning(
    situation: Situation, branch: int, out: frozenset[int], broken: bool
) -> Collection[_Returning]:
    """The windings whose current passes a branch, or one beside it (``out``: all of these), by the
    side from which they drive it."""
    by_body = situation.circuit.branches[branch].sort == "bond"
    cluster = situation.labels_without(out, SOIL if by_body else LINKS)
    ends = situation.circuit.branches[branch]
    found: dict[Hashable, _Returning] = {}
    for system in situation.systems:
        hot = _hanging(situation, system, out, (by_body, broken))
        if hot:
            back = ways_back(situation, system.source, cluster)
            side = cluster[ends.a] in back
            key = (system.source, side) if system.is_ac else side
            group = found.setdefault(key, _Returning([], set()))
            group.systems.append(system)
            group.hot |= hot
    return found.values()


def _hanging(
    situation: Situation, system: System, out: frozenset[int], asked: tuple[bool, bool]
) -> set[int]:
    """The hot ends of what a source cannot feed without some branches. Through a chassis leads only
    what ends on it; whether a minus wire is needed is asked of wires alone. ``asked``: whether
    bonds lead, and whether of broken chargers."""
    by_body, _ = asked
    fed = _fed_by(situation, system, *asked)
    label = situation.labels_without(out, SOIL if by_body else LINKS)
    return {a for a, _ in set(fed) - set(_fed(situation, system, label, fed))} if fed else set()


@once
def _fed_by(situation: Situation, system: System, by_body: bool, broken: bool) -> list[_Across]:
    label = situation.metallic if by_body else situation.clusters
    pairs = _in_chargers(situation, system) if broken else _across(situation)
    return _fed(situation, system, label, pairs)


def _in_chargers(situation: Situation, system: System) -> list[_Across]:
    """The posts of what charges, for what does not."""
    chargers = [(i, s) for i, s in situation.active if s.data.group.charges]
    own = {i for i, _ in chargers}
    return [] if system.source in own else [(s.plus, s.minus) for _, s in chargers]


def _across(situation: Situation) -> list[_Across]:
    """What may draw current for good, as no starter does: loads, either way round, and the contacts
    of outlets."""
    loads = [load for _, load in situation.loads if load.data.lasts != "seconds"]
    pairs = [(a, b) for x in loads for a, b in ((x.a, x.b), (x.b, x.a))]
    for face in situation.circuit.faces:
        lines = [n for pole, n in face.nodes.items() if is_ungrounded(Pole(pole))]
        backs = [n for pole, n in face.nodes.items() if pole in (Pole.N, Pole.NEG)]
        pairs += [(a, b) for a in lines for b in backs]
    return pairs


def _fed(
    situation: Situation, system: System, label: Sequence[int], pairs: Collection[_Across]
) -> list[_Across]:
    """Those that a source reaches and comes back from, through its string where it has one."""
    plus = label[situation.circuit.sources[system.source].plus]
    back = ways_back(situation, system.source, label)
    return [(a, b) for a, b in pairs if label[a] == plus and label[b] in back]
