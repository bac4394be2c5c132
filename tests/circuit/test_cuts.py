"""What falls apart, against all sets joined anew."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from linework.circuit.cuts import cut
from linework.circuit.unions import joined


@st.composite
def opened_graphs(draw: st.DrawFn) -> tuple[int, list[tuple[int, int]], frozenset[int]]:
    size = draw(st.integers(1, 14))
    node = st.integers(0, size - 1)
    branches = draw(st.lists(st.tuples(node, node), max_size=20))
    some = st.sets(st.integers(0, len(branches) - 1), max_size=6) if branches else st.just(set())
    return size, branches, frozenset(draw(some))


@given(opened_graphs())
def test_the_pieces_are_those_of_all_sets_joined_anew(
    drawn: tuple[int, list[tuple[int, int]], frozenset[int]],
) -> None:
    size, branches, opened = drawn
    ties: list[list[tuple[int, int]]] = [[] for _ in range(size)]
    for i, (a, b) in enumerate(branches):
        ties[a].append((i, b))
        ties[b].append((i, a))
    ends = [node for i in sorted(opened) for node in branches[i]]
    found = cut(joined(size, branches), ties, opened, ends)
    expected = joined(size, (pair for i, pair in enumerate(branches) if i not in opened))
    assert len(found) == size
    for a in range(size):
        for b in range(size):
            assert (found[a] == found[b]) == (expected[a] == expected[b])


def test_the_larger_piece_keeps_its_labels() -> None:
    ties = [[(0, 1)], [(0, 0), (1, 2)], [(1, 1), (2, 3)], [(2, 2)]]
    found = cut([7, 7, 7, 7], ties, {0}, [0, 1])
    assert found[0] < 0
    assert list(found[1:]) == [7, 7, 7]
