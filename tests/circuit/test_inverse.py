"""Entries of the inverse, against the dense inverse, and how much of it is ever put down."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import coo_matrix, csc_matrix
from scipy.sparse.linalg import SuperLU, splu

from linework.circuit.inverse import half_inverse, large_products, products


def factorised(matrix: csc_matrix) -> SuperLU:
    """As a network is."""
    return splu(
        matrix,
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )


def admittances(size: int, ties: list[tuple[int, int, complex]]) -> csc_matrix:
    """The matrix of a network whose reference is node ``size``."""
    rows: list[int] = []
    columns: list[int] = []
    data: list[complex] = []
    for a, b, y in ties:
        for i, j, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
            if i < size and j < size:
                rows, columns, data = [*rows, i], [*columns, j], [*data, sign * y]
    return csc_matrix(coo_matrix((data, (rows, columns)), shape=(size, size)))


WIRE = st.builds(lambda r, x: 1.0 / complex(r, x), st.floats(1e-3, 2.0), st.floats(0.0, 0.5))
ANY = st.one_of(
    WIRE,
    st.floats(1e-5, 1e-3).map(lambda ohm: complex(1.0 / ohm)),  # contacts
    st.floats(1e-7, 1e-5).map(lambda s: complex(0.0, s)),  # leaks
)


@st.composite
def networks(draw: st.DrawFn, tie: st.SearchStrategy[complex]) -> tuple[int, csc_matrix]:
    """A tree that hangs on the reference, and some ties besides."""
    size = draw(st.integers(1, 25))
    ties = [(n, draw(st.sampled_from([size, *range(n)])), draw(WIRE)) for n in range(size)]
    more = draw(st.lists(st.tuples(st.integers(0, size), st.integers(0, size), tie), max_size=25))
    return size, admittances(size, [*ties, *(item for item in more if item[0] != item[1])])


@settings(max_examples=60, deadline=None)
@given(networks(WIRE))
def test_every_entry_is_that_of_the_dense_inverse(drawn: tuple[int, csc_matrix]) -> None:
    size, matrix = drawn
    half = half_inverse(factorised(matrix))[:, :size]
    dense = np.linalg.inv(matrix.toarray())
    assert (half.T @ half).toarray() == pytest.approx(dense, rel=1e-9, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(networks(ANY))
def test_beside_contacts_and_leaks_it_is_the_inverse_to_rounding(
    drawn: tuple[int, csc_matrix],
) -> None:
    """Contacts of 10 microohm beside leaks of a tenth of a microsiemens: what is left of A Z - 1 is
    rounding at the largest admittance."""
    size, matrix = drawn
    half = half_inverse(factorised(matrix))[:, :size]
    inverse = (half.T @ half).toarray()
    left = matrix @ inverse - np.eye(size)
    scale = float(np.max(np.abs(matrix.toarray()))) * float(np.max(np.abs(inverse)))
    assert np.max(np.abs(left)) <= 1e-13 * max(scale, 1.0)


@settings(max_examples=40, deadline=None)
@given(networks(ANY), st.data())
def test_products_are_taken_where_they_are_asked_for(
    drawn: tuple[int, csc_matrix], data: st.DataObject
) -> None:
    size, matrix = drawn
    half = half_inverse(factorised(matrix))
    rows = np.array(data.draw(st.lists(st.integers(-1, size - 1), min_size=1)), dtype=np.intp)
    columns = np.array(data.draw(st.permutations(rows.tolist())), dtype=np.intp)
    whole = (half.T @ half).toarray()
    assert products(half, half, rows, columns) == pytest.approx(whole[rows, columns], rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(networks(ANY), st.floats(1e-6, 1e-1))
def test_no_large_product_is_missed(drawn: tuple[int, csc_matrix], least: float) -> None:
    size, matrix = drawn
    half = half_inverse(factorised(matrix))[:, :size]
    whole = np.abs((half.T @ half).toarray())
    rows, columns = large_products(half, half, least)
    found = set(zip(rows.tolist(), columns.tolist(), strict=True))
    assert found >= {(int(i), int(j)) for i, j in np.argwhere(whole >= 2.0 * least)}
    assert not found & {(int(i), int(j)) for i, j in np.argwhere(whole < least / 2.0)}


@pytest.mark.parametrize("size", [1000, 4000])
def test_wiring_that_branches_needs_few_entries_a_node(size: int) -> None:
    ties = [(n, (n - 1) // 3 if n else size, 1.0 + 0j) for n in range(size)]
    half = half_inverse(factorised(admittances(size, ties)))
    assert half.nnz < 15 * size


def test_factors_that_are_not_symmetric_are_refused() -> None:
    rows = np.array([[1e-9, 1.0], [1.0, 1e-9]])
    turned = splu(csc_matrix(rows, dtype=complex), permc_spec="NATURAL", diag_pivot_thresh=1.0)
    with pytest.raises(ArithmeticError, match="not symmetric"):
        half_inverse(turned)
