"""The sparse network of one state, one frequency and one assumption on sources and temperature.

Nodal analysis: every source is its electromotive force behind its impedance,
so the matrix is the admittance matrix of the live islands without their
reference nodes. It is factorised once; solutions are right-hand sides.

A winding on the core of another (:attr:`Source.primary`) has no electromotive force of its own:
behind its leakage impedance z stands n times the voltage of its primary, whose current is n times
its own. Both together are one term y c c^T of the matrix, with y = 1/z and c the weights 1, -1, -n
and n at its ends and those of its primary (ideal transformer with leakage; magnetising current
left out). It stays symmetric, and no conductor joins the two sides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal

import numpy as np
import numpy.typing as npt

from linework.circuit.incircuit import InCircuit
from linework.circuit.inverse import half_inverse
from linework.circuit.islands import Extra, Islands, carries, counted_leaks, find_islands
from linework.circuit.model import Branch, LiveSource, Load
from linework.circuit.series import ways_back
from linework.wiring import Source

if TYPE_CHECKING:
    from scipy.sparse import csc_matrix

Complex = npt.NDArray[np.complex128]
Reals = npt.NDArray[np.float64]
Nodes = Sequence[int] | npt.NDArray[np.intp]
Strength = Literal["weak", "strong", "regulated"]
"""Sources at their weakest, strongest, or holding the voltage at their terminals (in use)."""

_REGULATED_OHM = 1e-4
"""Stands for what regulates its voltage: a generator, inverter or charger, no solar array."""


class NotSolved(ArithmeticError):
    """A network that could not be solved; the message says which part and why."""


@dataclass(frozen=True)
class Assumption:
    """What a solution assumes: source strength, cold or hot conductors, loads on or off."""

    strength: Strength
    hot: bool
    loads: bool


IN_USE = Assumption("regulated", hot=True, loads=True)
WEAKEST = Assumption("weak", hot=True, loads=False)
STRONGEST = Assumption("strong", hot=False, loads=False)


def source_ohm(source: LiveSource, strength: Strength, scale: float) -> complex:
    """Internal impedance in ohm; ``scale`` turns the reactance to the frequency solved."""
    data = source.data
    if strength == "regulated":
        if data.rated_a is not None and not data.group.solar and data.primary is None:
            return complex(_REGULATED_OHM, 0.0)
        return complex(data.ohm_r.usual, data.ohm_x.usual * scale)
    r, x = data.ohm_r, data.ohm_x
    z = complex(r.high, x.high * scale) if strength == "weak" else complex(r.low, x.low * scale)
    return z if abs(z) > 1e-7 else complex(1e-7, 0.0)


@dataclass(frozen=True)
class Coupling:
    """A winding on the core of another: nodes with their weights, and the admittance of its
    leakage in siemens. ``weights`` times potentials is the voltage lost in it."""

    nodes: npt.NDArray[np.intp]
    weights: Reals
    y: complex

    def amps(self, volts: Complex) -> Complex:
        """The current into its plus, for each column of ``volts``."""
        lost: Complex = np.tensordot(self.weights, volts[self.nodes], axes=1) * self.y
        return lost

    def taken_va(self, volts: Complex) -> complex:
        """The power lost in its leakage, in volt-ampere."""
        return complex(abs(complex(self.amps(volts))) ** 2 / self.y)


class Network:
    """The factorised network. All vectors have one entry for each node of the circuit."""

    def __init__(
        self, here: InCircuit, hertz: float, assumption: Assumption, extra: Extra = ()
    ) -> None:
        self.here, self.circuit, self.hertz = here, here.circuit, hertz
        self.assumption = assumption
        self.islands: Islands = find_islands(here, hertz, assumption.loads, extra)
        self.scale = hertz / self.circuit.hertz if self.circuit.hertz else 0.0
        self.size = len(self.circuit.spots)
        self._number()
        self._collect(extra)
        self._factorise()

    # setting up

    def _number(self) -> None:
        pinned = set(self.islands.reference.values())
        self.position = np.full(self.size, -1, dtype=np.int64)
        self.free = [n for n in range(self.size) if self.islands.live(n) and n not in pinned]
        self.position[self.free] = np.arange(len(self.free))

    def _collect(self, extra: Extra) -> None:
        """Branches, sources and loads in circuit, with their admittances."""
        live, here = self.islands.live, self.here
        branches = self.circuit.branches
        self.closed = [i for i in sorted(here.closed) if live(branches[i].a)]
        self.branch_y = {i: 1.0 / self._branch_ohm(branches[i]) for i in self.closed}
        strength = self.assumption.strength
        self.held = {i: held_a(s.data, strength) for i, s in _on_batteries(here)}
        self.source_y = {
            i: 0j if i in self.held else 1.0 / source_ohm(s, strength, self.scale)
            for i, s in here.active
            if live(s.plus)
        }
        self.active = list(self.source_y)
        self.coupled = {
            i: _coupling(s, self.source_y[i])
            for i, s in here.active
            if i in self.source_y and s.primary and s.data.hertz == self.hertz
        }
        on = here.loads if self.assumption.loads else []
        self.load_y = {i: load_admittance(x) for i, x in on if live(x.a) and carries(x, self.hertz)}
        leaks = (*counted_leaks(here, self.hertz), *extra)
        self._arrange([item for item in leaks if live(item[0])])

    def _branch_ohm(self, branch: Branch) -> complex:
        r = branch.r_hot if self.assumption.hot else branch.r_cold
        return complex(r, branch.x * self.scale)

    def _arrange(self, leaks: list[tuple[int, int, complex]]) -> None:
        """Every element in circuit, branches first: two nodes and an admittance in siemens each."""
        branches, sources, loads = self.circuit.branches, self.circuit.sources, self.circuit.loads
        elements = [
            *((branches[i].a, branches[i].b, y) for i, y in self.branch_y.items()),
            *(
                (sources[i].plus, sources[i].minus, y)
                for i, y in self.source_y.items()
                if i not in self.coupled
            ),
            *((loads[i].a, loads[i].b, y) for i, y in self.load_y.items()),
            *leaks,
        ]
        self.a = np.array([e[0] for e in elements], dtype=np.intp)
        self.b = np.array([e[1] for e in elements], dtype=np.intp)
        self.y = np.array([e[2] for e in elements], dtype=np.complex128)
        most = (abs(c.y) * float(np.max(c.weights**2)) for c in self.coupled.values())
        self.largest_s = max(float(np.max(np.abs(self.y), initial=0.0)), *most, 0.0)

    def _factorise(self) -> None:
        # Takes a second to load: only for those who solve.
        from scipy.sparse import csc_matrix
        from scipy.sparse.linalg import splu

        count = len(self.free)
        if count == 0:
            self._lu = None
            return
        a, b, y = self.position[self.a], self.position[self.b], self.y
        both = (a >= 0) & (b >= 0)
        rows = np.concatenate([a[a >= 0], b[b >= 0], a[both], b[both]])
        cols = np.concatenate([a[a >= 0], b[b >= 0], b[both], a[both]])
        data = np.concatenate([y[a >= 0], y[b >= 0], -y[both], -y[both]])
        for coupling in self.coupled.values():
            one, other, term = self._term(coupling)
            rows, cols = np.append(rows, one), np.append(cols, other)
            data = np.append(data, term)
        matrix = csc_matrix((data, (rows, cols)), shape=(count, count))
        try:
            self._lu = splu(
                matrix,
                permc_spec="MMD_AT_PLUS_A",
                diag_pivot_thresh=0.0,
                options={"SymmetricMode": True},
            )
        except RuntimeError as fault:
            raise NotSolved(f"{fault}") from fault

    def _term(self, coupling: Coupling) -> tuple[Nodes, Nodes, Complex]:
        """What a coupling adds to the matrix: rows, columns, siemens."""
        at = self.position[coupling.nodes]
        free = np.flatnonzero(at >= 0)
        one, other = np.repeat(free, free.size), np.tile(free, free.size)
        weights = coupling.weights
        both = (weights[one] * weights[other]).astype(np.complex128)
        return at[one], at[other], coupling.y * both

    # solving

    def solve(self, currents: Complex) -> Complex:
        """Potentials for currents injected at the nodes (ampere); one column a problem."""
        wide = currents.reshape(self.size, -1)
        out = np.zeros_like(wide, dtype=np.complex128)
        if self._lu is not None:
            out[self.free] = self._lu.solve(np.ascontiguousarray(wide[self.free]))
        return out.reshape(currents.shape)

    def source_currents(self, held: Mapping[int, float] | None = None) -> Complex:
        """Injections of the electromotive forces of this frequency, in ampere.

        ``held``: other currents for the sources in :attr:`held`.
        """
        given = self.held if held is None else held
        out = np.zeros(self.size, dtype=np.complex128)
        for i in self.active:
            source = self.circuit.sources[i]
            if source.data.hertz == self.hertz and i not in self.coupled:
                current = given.get(i, emf(source) * self.source_y[i])
                out[source.plus] += current
                out[source.minus] -= current
        return out

    @cached_property
    def open_volts(self) -> Complex:
        """Potentials with every source on and nothing injected besides."""
        return self.solve(self.source_currents())

    def branch_currents(self, volts: Complex) -> dict[int, complex]:
        """Current of each closed branch from its a to its b, in ampere."""
        branches = self.circuit.branches
        return {
            i: complex((volts[branches[i].a] - volts[branches[i].b]) * y)
            for i, y in self.branch_y.items()
        }

    def source_output(self, volts: Complex) -> dict[int, complex]:
        """Current that each source sends out of its plus, in ampere."""
        out: dict[int, complex] = {}
        for i in self.active:
            source = self.circuit.sources[i]
            if i in self.coupled:
                out[i] = -complex(self.coupled[i].amps(volts))
                continue
            e = emf(source) if source.data.hertz == self.hertz else 0j
            across = volts[source.plus] - volts[source.minus]
            out[i] = complex(self.held.get(i, (e - across) * self.source_y[i]))
        return out

    # entries of the inverse

    @cached_property
    def half(self) -> csc_matrix:
        """Of :func:`half_inverse`; a column for each entry of ``position``."""
        from scipy.sparse import csc_matrix

        if self._lu is None:
            return csc_matrix((0, 1), dtype=np.complex128)
        try:
            return half_inverse(self._lu)
        except ArithmeticError as fault:
            raise NotSolved(f"{fault}") from fault

    def halves(self, a: Nodes, b: Nodes) -> csc_matrix:
        """A column for each pair of nodes. The product of two columns is the voltage along the one
        pair for an ampere sent in and taken out at the other, in ohm."""
        found: csc_matrix = self.half[:, self.position[a]] - self.half[:, self.position[b]]
        return found

    @cached_property
    def branch_halves(self) -> csc_matrix:
        """As ``halves`` for each of ``closed``, times its admittance: products tell its current."""
        from scipy.sparse import diags

        count = len(self.closed)
        return (self.halves(self.a[:count], self.b[:count]) @ diags(self.y[:count])).tocsc()

    def seen_ohm(self, a: int, b: int) -> complex:
        """Impedance between two nodes with every source in place, in ohm."""
        pair = self._half_at(a) - self._half_at(b)
        return complex(np.sum(pair * pair))

    def _half_at(self, node: int) -> Complex:
        """The column of ``half`` of one node, put down whole."""
        half = self.half
        at = int(self.position[node]) % half.shape[1]
        within = slice(half.indptr[at], half.indptr[at + 1])
        column = np.zeros(half.shape[0], dtype=np.complex128)
        column[half.indices[within]] = half.data[within]
        return column

    def impedances(self, nodes: Nodes) -> Complex:
        """Potentials of some nodes for one ampere injected at each of them, a column each."""
        half = np.stack([self._half_at(node) for node in nodes], axis=1)
        found: Complex = np.einsum("ia,ib->ab", half, half)
        return found

    def spread(self, halves: Complex) -> Complex:
        """The potentials of all nodes for a sum of columns as of ``halves``, in volt an ampere."""
        out = np.zeros(self.size, dtype=np.complex128)
        out[self.free] = (self.half.T @ halves)[:-1]
        return out

    # checking

    def unbalance(self, volts: Complex, injected: Complex) -> Reals:
        """The largest sum of currents at a node that should be zero, in ampere (Kirchhoff).

        One figure for each column of ``volts``.
        """
        flow = (volts[self.a] - volts[self.b]) * self.y.reshape(-1, *[1] * (volts.ndim - 1))
        total = injected - self._arriving @ flow
        for coupling in self.coupled.values():
            through = np.multiply.outer(coupling.weights, coupling.amps(volts))
            np.subtract.at(total, coupling.nodes, through)
        worst: Reals = np.max(np.abs(total[self.free]), axis=0, initial=0.0)
        return worst

    @cached_property
    def _arriving(self) -> csc_matrix:
        """For each node (row) the elements that begin (1) and end (-1) there."""
        from scipy.sparse import csc_matrix

        count = self.a.size
        ends, signs = np.concatenate([self.a, self.b]), np.repeat([1.0, -1.0], count)
        elements = np.tile(np.arange(count), 2)
        return csc_matrix((signs, (ends, elements)), shape=(self.size, count))

    def limit_a(self, volts: Complex) -> Reals:
        """What ``unbalance`` may be: 1e-9 of the largest branch current, and rounding."""
        first = slice(len(self.branch_y))
        flow = np.abs((volts[self.a[first]] - volts[self.b[first]]).T * self.y[first])
        limit: Reals = 1e-9 * np.max(flow, axis=-1, initial=0.0) + self.rounding_a(volts)
        return limit

    def rounding_a(self, volts: Complex) -> float:
        """Currents below this are rounding: 1e-14 of largest conductance times largest voltage."""
        return 1e-14 * self.largest_s * float(np.max(np.abs(volts), initial=0.0))


def _coupling(source: LiveSource, y: complex) -> Coupling:
    turns = source.data.turns
    nodes = np.array((source.plus, source.minus, *source.primary), dtype=np.intp)
    return Coupling(nodes, np.array((1.0, -1.0, -turns, turns)), y)


def _on_batteries(here: InCircuit) -> list[tuple[int, LiveSource]]:
    """Chargers, and arrays without a controller, on the conductors of a battery: it holds the
    voltage, they give their current."""
    label = here.conductive
    across = {
        frozenset((label[s.plus], far))
        for i, s in here.active
        if s.data.group.stores or s.data.group.sealed
        for far in ways_back(here, i, label)
    }
    return [
        (i, s)
        for i, s in here.active
        if (s.data.group.charges or s.data.group.solar)
        and frozenset((label[s.plus], label[s.minus])) in across
    ]


def held_a(source: Source, strength: Strength) -> float:
    """Current of a charger on a battery, in ampere: none at the least, as the battery may be full,
    or the array in the dark; its limit at the most; its rating in use."""
    if strength == "weak":
        return 0.0
    if strength == "strong" and source.limit is not None:
        return (source.limit.first_a or source.limit.sustained_a).high
    return source.rated_a or 0.0


def emf(source: LiveSource) -> complex:
    """Electromotive force of a source as a phasor in volt (rms)."""
    angle = np.deg2rad(source.data.phase_deg)
    if source.data.hertz == 0.0:
        return complex(source.data.volts, 0.0)
    # exact signs for 0 and 180 degrees, so that two legs cancel without rounding
    turns = {0.0: 1 + 0j, 180.0: -1 + 0j}.get(source.data.phase_deg)
    return source.data.volts * (turns if turns is not None else complex(np.exp(1j * angle)))


def load_admittance(load: Load) -> complex:
    """Admittance in siemens of a load at its rated voltage: conj(S) / U^2."""
    data = load.data
    if data.watts <= 0.0 or data.volts <= 0.0:
        return 0j
    tangent = np.sqrt(max(1.0 / data.power_factor**2 - 1.0, 0.0))
    return complex(data.watts, -data.watts * tangent) / data.volts**2


def frequencies(here: InCircuit) -> list[float]:
    """The frequencies of the sources that are on."""
    return sorted({s.data.hertz for _, s in here.active})
