"""What does not fit one sheet, or is a tangle there, goes to several: the fewest runs are cut."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import combinations

import networkx as nx

from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.plan import Plan

_ROOT = ""
"""From here power comes to all sources."""
_LEAST_SHARE = 0.15
"""A sheet of less than this of all that was to be split is not worth its paper, if there is
another cut."""
_TRIALS = 12
"""So many cuts are looked at, those of the fewest runs first."""
_A_RUN = 0.2
"""A run that is cut weighs as much as this share of all that was to be split."""
_TANGLED, _PLAINER = 80.0, 0.6
"""Lines that cost so much on one sheet (see ``tangle``) are tried on two, which must cost no more
than this share of it together."""


def split(flow: Flow, keys: Collection[str]) -> list[Plan]:
    """A plan for each sheet, that of the sources first.

    A board stays whole, with what only it feeds. What fits one sheet stays on it, unless it is a
    tangle there that two sheets part. Where a part alone is larger than the paper it lies beyond
    the frame.
    """
    if not keys:
        return []
    splitting = _Splitting(flow)
    plans = splitting.joined(splitting.pieces(frozenset(keys)))
    return sorted(plans, key=lambda plan: min(flow.scheme.units[key].order for key in plan.keys))


class _Splitting:
    """The sheets of one design. What was found of a set of units is kept."""

    def __init__(self, flow: Flow) -> None:
        self.flow = flow
        self.known: dict[frozenset[str], bool] = {}

    def pieces(self, keys: frozenset[str]) -> list[Plan]:
        """One half after the other is cut off until each fits."""
        plan = Plan(self.flow, keys)
        if plan.fits and plan.tangle < _TANGLED:
            return [plan]
        cuts = list(_cuts(self.flow, keys))[:_TRIALS]
        halves = next(filter(None, (self._halved(keys, apart) for apart in cuts)), None)
        if halves and (not plan.fits or _parts_a_tangle(plan, halves)):
            return halves
        if plan.fits or not cuts:
            return [plan]
        apart = max(cuts, key=lambda apart: (self._worth(keys, apart), sorted(apart)))
        return [part for half in (keys - apart, apart) for part in self.pieces(half)]

    def _halved(self, keys: frozenset[str], apart: frozenset[str]) -> list[Plan]:
        """A plan of each half, nothing where one does not fit."""
        halves = keys - apart, apart
        if not all(map(self._seems_to_fit, halves)):
            return []
        plans = [Plan(self.flow, half) for half in halves]
        return plans if all(plan.fits for plan in plans) else []

    def _worth(self, keys: frozenset[str], apart: frozenset[str]) -> float:
        """The more one sheet takes of all, and the fewer runs are cut, the better."""
        fitting = [half for half in (apart, keys - apart) if self._seems_to_fit(half)]
        share = max((self._share(half, keys) for half in fitting), default=0.0)
        return share - _A_RUN * _runs_cut(self.flow, keys, apart)

    def _share(self, half: Collection[str], keys: Collection[str]) -> float:
        whole = sum(_size(self.flow, key) for key in keys)
        return sum(_size(self.flow, key) for key in half) / whole

    def _seems_to_fit(self, keys: frozenset[str]) -> bool:
        if keys not in self.known:
            self.known[keys] = Plan(self.flow, keys, rough=True).fits
        return self.known[keys]

    def joined(self, plans: list[Plan]) -> list[Plan]:
        """The same on fewer sheets, where two of them fit on one; first those of most runs."""
        while pair := self._pair(plans):
            one, other, both = pair
            plans = [both if plan is one else plan for plan in plans if plan is not other]
        return plans

    def _pair(self, plans: list[Plan]) -> tuple[Plan, Plan, Plan] | None:
        pairs = list(combinations(plans, 2))
        pairs.sort(
            key=lambda pair: -_runs_cut(self.flow, pair[0].keys | pair[1].keys, pair[0].keys)
        )
        for one, other in pairs:
            keys = one.keys | other.keys
            if one.fits and other.fits and self._seems_to_fit(keys):
                both = Plan(self.flow, keys)
                if both.fits and not _parts_a_tangle(both, [one, other]):
                    return one, other, both
        return None


def _parts_a_tangle(whole: Plan, halves: Sequence[Plan]) -> bool:
    """Whether lines that are a tangle on one sheet are much plainer on several."""
    apart = sum(half.tangle for half in halves)
    return whole.tangle >= _TANGLED and apart <= _PLAINER * whole.tangle


def _cuts(flow: Flow, keys: Collection[str]) -> Iterator[frozenset[str]]:
    """Sets that may go to a sheet of their own, the best first.

    They are what one unit alone feeds, all direct current, and a half that hangs on the rest by
    few runs.
    """
    units = [key for key in flow.scheme.units if key in keys]
    grounding = {key for key in units if flow.kind(key).strip == "grounding"}
    flowing = [key for key in units if key not in grounding]
    sets = [*_fed_alone(flow, flowing), {k for k in flowing if flow.scheme.units[k].direct}]
    whole = sum(_size(flow, key) for key in flowing)
    found: dict[frozenset[str], tuple[bool, int, float]] = {}
    banks = _banks(flow, flowing)
    for apart in (*sets, _half(flow, flowing)):
        apart = apart.union(*(bank for bank in banks if bank & apart))
        share = sum(_size(flow, key) for key in apart) / whole if whole else 0.0
        if 0 < share < 1:
            with_ground = apart | {key for key in grounding if _belongs(flow, key, apart)}
            poor = not _LEAST_SHARE <= share <= 1 - _LEAST_SHARE
            cut = _runs_cut(flow, flowing, apart)
            found[frozenset(with_ground)] = (poor, cut, abs(share - 0.5))
    rich = [apart for apart in found if not found[apart][0]]
    yield from sorted(rich or found, key=lambda apart: (found[apart], sorted(apart)))


def _runs_cut(flow: Flow, keys: Collection[str], apart: Collection[str]) -> int:
    return sum(
        (joint.source.unit in apart) != (joint.target.unit in apart)
        for joint in flow.scheme.joints
        if joint.source.unit in keys and joint.target.unit in keys
    )


def _half(flow: Flow, keys: list[str]) -> set[str]:
    """About half of the units, joined to the others by few runs; the first one is not among them.

    After Kernighan and Lin, by networkx.
    """
    if len(keys) < 2:
        return set()
    graph = nx.Graph()
    graph.add_nodes_from(range(len(keys)))
    at = {key: number for number, key in enumerate(keys)}
    for joint in flow.scheme.joints:
        if joint.source.unit in at and joint.target.unit in at:
            ends = at[joint.source.unit], at[joint.target.unit]
            graph.add_edge(*ends, weight=graph.get_edge_data(*ends, {"weight": 0})["weight"] + 1)
    bisect = nx.community.kernighan_lin_bisection
    halves = bisect(graph, seed=0)
    return {keys[number] for half in halves if 0 not in half for number in half}


def _fed_alone(flow: Flow, keys: list[str]) -> list[set[str]]:
    """For each unit: it, and what power reaches by no way but through it."""
    graph = nx.DiGraph()
    graph.add_nodes_from([_ROOT, *keys])
    for joint in flow.scheme.joints:
        if joint.source.unit in graph and joint.target.unit in graph:
            graph.add_edge(joint.source.unit, joint.target.unit)
            if joint.meets:
                graph.add_edge(joint.target.unit, joint.source.unit)
    starts = [key for key in keys if not graph.in_degree(key) or _is_source(flow, key)]
    graph.add_edges_from((_ROOT, key) for key in starts)
    above = nx.immediate_dominators(graph, _ROOT)  # type: ignore[no-untyped-call]
    tree = nx.DiGraph((over, key) for key, over in above.items() if key and over != key)
    behind = nx.descendants
    return [{key, *behind(tree, key)} for key in keys if key in tree]  # type: ignore[no-untyped-call]


def _banks(flow: Flow, keys: list[str]) -> list[set[str]]:
    """Sources that are joined to each other, as the batteries of a bank: they stay together."""
    sources = {key for key in keys if _is_source(flow, key)}
    graph = nx.Graph()
    for joint in flow.scheme.joints:
        if joint.source.unit in sources and joint.target.unit in sources:
            graph.add_edge(joint.source.unit, joint.target.unit)
    return list(nx.connected_components(graph))


def _is_source(flow: Flow, key: str) -> bool:
    kind = flow.kind(key)
    return kind.strip == "sources" and not kind.lets_in


def _size(flow: Flow, key: str) -> int:
    """What a unit fills of the paper, with room for the writing of a run beside it."""
    box = flow.scheme.units[key].roomy
    return (box.width + 200) * box.height


def _belongs(flow: Flow, key: str, apart: Collection[str]) -> bool:
    """Whether most of what is joined to a body or electrode goes to the other sheet."""
    mine = set(flow.members[key])
    others = [
        flow.owner[other.part] in apart
        for run in flow.design.runs
        for here, other in ((run.a, run.b), (run.b, run.a))
        if here.part in mine and flow.owner[other.part] != key
    ]
    return 2 * sum(others) > len(others)
