"""What does not fit one sheet goes to several, cut where the fewest runs are cut."""

from __future__ import annotations

from collections.abc import Collection, Iterator

import networkx as nx

from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.plan import Plan

_ROOT = ""
"""From here power comes to all sources."""
_LEAST_SHARE = 0.15
"""A sheet of less than this of all that was to be split is not worth its paper."""
_TRIALS = 4


def split(flow: Flow, keys: Collection[str]) -> list[Plan]:
    """A plan for each sheet, that of the sources first.

    A board stays whole, with what only it feeds. Where a part alone is larger than the paper it
    lies beyond the frame.
    """
    plan = Plan(flow, keys)
    if plan.fits:
        return [plan]
    cuts = list(_cuts(flow, keys))[:_TRIALS]
    for apart in cuts:
        halves = [frozenset(keys) - apart, apart]
        if all(Plan(flow, half, rough=True).fits for half in halves):
            plans = [Plan(flow, half) for half in halves]
            if all(plan.fits for plan in plans):
                return plans
    if not cuts:
        return [plan]
    return [part for half in (set(keys) - cuts[0], cuts[0]) for part in split(flow, half)]


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
    found: dict[frozenset[str], tuple[int, float]] = {}
    for apart in (*sets, _half(flow, flowing)):
        share = sum(_size(flow, key) for key in apart) / whole if whole else 0.0
        if _LEAST_SHARE <= share <= 1 - _LEAST_SHARE:
            with_ground = apart | {key for key in grounding if _belongs(flow, key, apart)}
            found[frozenset(with_ground)] = (_runs_cut(flow, flowing, apart), abs(share - 0.5))
    yield from sorted(found, key=lambda apart: (found[apart], sorted(apart)))


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
    graph.add_nodes_from(keys)
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
