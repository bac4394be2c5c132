"""Entries of the inverse of a factorised network matrix, none but those asked for.

With A = L D L^T (symmetric, L unit lower triangular) the inverse is R^T R with
R = D^(-1/2) L^(-1). Column j of L^(-1) is e_j less the columns of the rows below the diagonal
of column j of L, each times its entry there; it is not zero only at j and at the nodes above j
in the elimination tree (W. Tinney, V. Brandwajn, S. Chan 1985; R. Betancourt, F. Alvarado 1986;
from memory). A network that branches out like wiring has a shallow tree, so R is about as sparse
as L: an entry of the inverse, which Takahashi, Fagan and Chin (1973) find on the pattern of L
only, is here the product of two short columns wherever it lies.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import SuperLU

Indices = npt.NDArray[np.intp]
_SMALL = 150
"""Up to so many nodes it costs less to put the inverse down whole than to look for its zeros."""
_AT_ONCE = 1 << 21
"""Entries of products worked out at once; bounds the memory."""


def half_inverse(lu: SuperLU) -> csc_matrix:
    """R of a symmetric matrix that was factorised without leaving its diagonal: R^T R = A^-1.

    Its last column, which index -1 finds, is empty and stands for the reference.
    ArithmeticError where rows and columns were not exchanged alike.
    """
    from scipy.sparse import csc_matrix

    if not np.array_equal(lu.perm_r, lu.perm_c):
        raise ArithmeticError("the factors are not symmetric")
    if lu.shape[0] <= _SMALL:
        return _small_half_inverse(lu)
    lower = csc_matrix(lu.L)
    lower.sort_indices()
    depth = _depths(lower)
    order = np.argsort(depth, kind="stable")
    place = np.empty_like(order)
    place[order] = np.arange(order.size)
    inverse = _inverted(lower[order][:, order], depth[order])
    scale = 1.0 / np.sqrt(lu.U.diagonal().astype(np.complex128))[order]
    inverse.data *= scale[inverse.indices]
    half = inverse[:, place[lu.perm_c]]
    half.sort_indices()
    ends = np.append(half.indptr, half.indptr[-1])
    return csc_matrix((half.data, half.indices, ends), shape=(order.size, order.size + 1))


def _small_half_inverse(lu: SuperLU) -> csc_matrix:
    """The same put down whole, row by row: what is zero comes out as zero, and stays away.

    Sums of products are not given to the library for linear algebra: for so few it takes longer to
    wake its threads than to add up.
    """
    from scipy.sparse import csc_matrix

    size, lower = lu.shape[0], lu.L.toarray()
    inverse = np.eye(size, dtype=np.complex128)
    for row in range(1, size):
        inverse[row, :row] = np.einsum("i,ij->j", -lower[row, :row], inverse[:row, :row])
    whole = np.zeros((size, size + 1), dtype=np.complex128)
    scale = 1.0 / np.sqrt(lu.U.diagonal().astype(np.complex128))
    whole[:, :size] = (scale[:, None] * inverse)[:, lu.perm_c]
    return csc_matrix(whole)


def _depths(lower: csc_matrix) -> Indices:
    """How far below its root each node stands in the elimination tree.

    The parent of a column is its first entry below the diagonal.
    """
    first, above = lower.indptr, lower.indices.tolist()
    starts, ends = first[:-1].tolist(), first[1:].tolist()
    depth = [0] * len(starts)
    for j in reversed(range(len(starts))):
        if ends[j] - starts[j] > 1:
            depth[j] = depth[above[starts[j] + 1]] + 1
    return np.array(depth, dtype=np.intp)


def _inverted(unit: csc_matrix, depth: Indices) -> csc_matrix:
    """The inverse of a unit triangular matrix whose columns stand by their depth, level by
    level: all columns of a depth follow from those of lesser depth."""
    from scipy.sparse import csc_matrix, identity

    size = depth.size
    strict = csc_matrix(unit - identity(size, format="csc"))
    room = int(np.sum(depth + 1))
    data = np.zeros(room, dtype=np.complex128)
    indices = np.zeros(room, dtype=np.int32)
    indptr = np.zeros(size + 1, dtype=np.int32)
    levels = np.searchsorted(depth, np.arange(depth.max(initial=-1) + 2)).tolist()
    for begin, end in pairwise(levels):
        own = np.ones(end - begin), np.arange(begin, end), np.arange(end - begin + 1)
        new = csc_matrix(own, shape=(size, end - begin))
        start = int(indptr[begin])
        if begin:
            known = (data[:start], indices[:start], indptr[: begin + 1])
            new = new - csc_matrix(known, shape=(size, begin)) @ strict[:begin, begin:end]
        data[start : start + new.nnz], indices[start : start + new.nnz] = new.data, new.indices
        indptr[begin + 1 : end + 1] = start + new.indptr[1:]
    full = int(indptr[size])
    return csc_matrix((data[:full], indices[:full], indptr), shape=(size, size))


def products(
    one: csc_matrix, other: csc_matrix, rows: Indices, columns: Indices
) -> npt.NDArray[np.complex128]:
    """Entries (rows[k], columns[k]) of one^T other."""
    found = np.zeros(rows.size, dtype=np.complex128)
    long = np.diff(one.indptr)[rows] + np.diff(other.indptr)[columns]
    block = np.cumsum(long) // _AT_ONCE
    edges = np.flatnonzero(np.diff(block, prepend=-1, append=-1)).tolist()
    for begin, end in pairwise(edges):
        left, right = one[:, rows[begin:end]], other[:, columns[begin:end]]
        found[begin:end] = np.asarray(left.multiply(right).sum(axis=0)).ravel()
    return found


def large_products(one: csc_matrix, other: csc_matrix, least: float) -> tuple[Indices, Indices]:
    """Where entries of one^T other are not below ``least``: rows and columns, by column.

    Terms of a hundredth of that are left out of the search; of many thousand entries that differ
    from nothing few are large where currents branch.
    """
    at_most = least / 100.0
    found = (_pruned(one, other, at_most).T @ _pruned(other, one, at_most)).tocsc()
    found.sort_indices()
    large = np.abs(found.data) >= least
    columns = np.repeat(np.arange(found.shape[1]), np.diff(found.indptr))
    return found.indices[large].astype(np.intp), columns[large]


def _pruned(matrix: csc_matrix, beside: csc_matrix, least: float) -> csc_matrix:
    """Without what makes no term of ``least`` with any column of the other."""
    largest = np.zeros(matrix.shape[0])
    np.maximum.at(largest, beside.indices, np.abs(beside.data))
    found = matrix.copy()
    found.data[np.abs(matrix.data) * largest[matrix.indices] < least] = 0.0
    found.eliminate_zeros()
    return found
