"""Walks held against a library of graphs, and what is told of the way."""

from __future__ import annotations

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from linework.study.walks import going, hanging_together, walk, way_to

PLACES = st.integers(0, 8)
EDGES = st.lists(st.tuples(PLACES, PLACES), max_size=16)


def steps_of(edges: list[tuple[int, int]]) -> dict[int, list[tuple[int, int]]]:
    """For each place the steps from it: number of the edge, and where it leads."""
    found: dict[int, list[tuple[int, int]]] = {}
    for i, (a, b) in enumerate(edges):
        found.setdefault(a, []).append((i, b))
        found.setdefault(b, []).append((i, a))
    return found


@given(EDGES, PLACES)
def test_what_is_reached_and_how_far_it_is_are_those_of_the_graph(
    edges: list[tuple[int, int]], start: int
) -> None:
    steps = steps_of(edges)
    walked = walk([start], lambda place: steps.get(place, ()))
    graph = nx.Graph(edges)
    graph.add_node(start)
    lengths = nx.single_source_shortest_path_length(graph, start)
    assert {place: len(way_to(place, walked) or ()) for place in walked} == dict(lengths)
    assert list(map(lengths.__getitem__, walked)) == sorted(lengths.values())
    assert set(hanging_together([start], graph.neighbors)) == set(lengths)


@given(EDGES, PLACES, PLACES)
def test_a_way_is_made_of_steps_that_join(
    edges: list[tuple[int, int]], start: int, goal: int
) -> None:
    steps = steps_of(edges)
    way = way_to(goal, walk([start], lambda place: steps.get(place, ())))
    here = {start}
    for i in way or ():
        assert here & set(edges[i])
        here = set(edges[i])
    assert way is None or goal in here


def test_a_place_that_is_not_reached_has_no_way_and_a_start_an_empty_one() -> None:
    steps = steps_of([(0, 1), (2, 3)])
    walked = walk([0, 3], lambda place: steps.get(place, ()))
    assert way_to(5, walked) is None
    assert way_to(0, walked) == []
    assert way_to(2, walked) == [1]


def test_who_stops_early_asks_for_no_further_steps() -> None:
    asked: list[int] = []

    def steps(place: int) -> list[tuple[None, int]]:
        asked.append(place)
        return [(None, place + 1)]

    assert next(place for place, _ in going((0,), steps) if place == 3) == 3
    assert asked == [0, 1, 2]
