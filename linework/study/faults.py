"""Study: every live pole shorted to neutral, ground wire, body and other lines, at every terminal.

Two assumptions bound the truth: sources at their weakest with hot conductors
(clearing), sources at their strongest with cold ones (withstand). Loads are off,
as in the usual short-circuit calculation (IEC 60909-0). All faults of a network
come from one factorisation: with ``V`` the potentials before the fault and ``w``
those of one ampere sent in at p and taken out at q, a short of p to q carries
``I = (Vp - Vq) / (wp - wq)`` and moves the potentials by ``-w I``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from linework.circuit.network import STRONGEST, WEAKEST, Complex, Network, NotSolved, Reals, emf
from linework.study.limits import falls_of
from linework.study.situation import Situation
from linework.wiring import Pole, Source, is_protective, is_ungrounded

FaultKind = Literal["metal", "neutral", "line"]


@dataclass(frozen=True)
class Point:
    """Where a fault lies: a live pole of a terminal, to what, and the nodes."""

    part: str
    terminal: str
    pole: str
    to: str
    kind: FaultKind
    node: int
    to_node: int
    hertz: float


class Flows(Mapping[int, float]):
    """Currents of one fault by the index of a branch, device or sensor; rows are shared by all."""

    __slots__ = ("_rows", "_values")

    def __init__(self, rows: dict[int, int], column: Reals) -> None:
        self._rows = rows
        self._values: list[float] = column.tolist()

    def __getitem__(self, key: int) -> float:
        return self._values[self._rows[key]]

    def get(self, key: int, default: float = 0.0) -> float:  # type: ignore[override]
        """The current, or nothing where it does not flow."""
        row = self._rows.get(key)
        return default if row is None else self._values[row]

    def pairs(self) -> Iterator[tuple[int, float]]:
        """Each index with its current; as ``items``, without their cost."""
        return zip(self._rows, self._values, strict=True)

    def __iter__(self) -> Iterator[int]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


@dataclass(frozen=True)
class Outcome:
    """What one assumption gives.

    ``before_v``: voltage between the two points before. ``current_a`` at first;
    ``later_a`` what the sources still drive after ``later_s`` seconds, off after
    ``off_s`` (None: never). ``metal_v``: voltage on touchable metal at first (None:
    no metal concerned, NaN: not defined), at ``metal``. ``branch_a``: current of each
    watched branch at first; ``device_a``: the largest in the contacts of each device
    that carries some; ``residual_a``: of each ground-fault device.
    """

    before_v: float
    current_a: float
    later_a: float
    later_s: float
    off_s: float | None
    metal_v: float | None
    metal: int | None
    branch_a: Flows
    device_a: Flows
    residual_a: Flows

    @property
    def later_share(self) -> float:
        """What is left of the first current when the source has fallen back."""
        return self.later_a / self.current_a if self.current_a > 0.0 else 0.0


@dataclass(frozen=True)
class Fault:
    """One short, judged at its weakest and strongest."""

    point: Point
    weak: Outcome
    strong: Outcome


def faults(situation: Situation, owner: str) -> list[Fault]:
    """Every fault on the conductors of one source part. NotSolved where a network is singular."""
    found: list[Fault] = []
    for hertz in situation.hertz:
        points = fault_points(situation, hertz, owner)
        if points:
            weak = _Shorts(situation, hertz, False).outcomes(points)
            strong = _Shorts(situation, hertz, True).outcomes(points)
            found += [Fault(*item) for item in zip(points, weak, strong, strict=True)]
    return found


def strongest(situation: Situation, points: Sequence[Point]) -> list[Outcome]:
    """Shorts of one frequency with sources at their strongest and conductors cold. NotSolved where
    the network is singular."""
    return _Shorts(situation, points[0].hertz, True).outcomes(points) if points else []


def fault_points(situation: Situation, hertz: float, owner: str) -> list[Point]:
    """The shorts that can happen: each pair of nodes once, at the first terminal that shows it.

    What two sources feed at once belongs to the one that comes first.
    """
    seen: set[tuple[int, int]] = set()
    points: list[Point] = []
    for (part, terminal), nodes in situation.circuit.terminals.items():
        for pole, node in nodes.items():
            feeds = [s for s in situation.feeds(node) if s.hertz == hertz]
            if not feeds or feeds[0].owner != owner:
                continue
            for to, other, kind in _targets(situation, nodes, pole):
                if other != node and (node, other) not in seen:
                    seen.update({(node, other), (other, node)})
                    points.append(Point(part, terminal, pole, to, kind, node, other, hertz))
    return points


def _targets(
    situation: Situation, nodes: Mapping[str, int], pole: str
) -> list[tuple[str, int, FaultKind]]:
    out: list[tuple[str, int, FaultKind]] = []
    for other, node in nodes.items():
        if other == pole:
            continue
        if is_protective(Pole(other)):
            out.append((other, node, "metal"))
        elif is_ungrounded(Pole(other)):
            out.append((other, node, "line"))
        else:
            out.append((other, node, "neutral"))
    if not any(kind == "metal" for _, _, kind in out):
        out += [("body", node, "metal") for node in situation.circuit.bodies]
    return out


class _Shorts:
    """All shorts of one network."""

    def __init__(self, situation: Situation, hertz: float, strong: bool) -> None:
        self.situation, self.strong = situation, strong
        self.net: Network = situation.network(hertz, STRONGEST if strong else WEAKEST)
        self.metals = sorted({m.node for m in situation.circuit.metals})
        self.watched = self._watched()

    def _watched(self) -> list[int]:
        """The closed branches whose currents decide: devices, sensors, runs, bonds."""
        circuit = self.situation.circuit
        ours = {i for d in circuit.devices for i in d.branches}
        ours |= {i for s in circuit.sensors for i in s.senses}
        ours |= {i for i, b in enumerate(circuit.branches) if b.sort in ("run", "bond")}
        return sorted(ours & set(self.net.closed))

    def outcomes(self, points: Sequence[Point]) -> list[Outcome]:
        current, during = self._shorted(points)
        before = self._before(points)
        falls = falls_of(*self._sources(during), self.strong)
        amps = self._branches(during) * np.array([fall.scale for fall in falls])
        rows = {branch: row for row, branch in enumerate(self.watched)}
        residual = np.abs(self._residuals(amps, rows))
        flow, sensors = np.abs(amps), {i: i for i in range(len(self.situation.circuit.sensors))}
        devices, through = self._devices(flow, rows)
        found = []
        for i, (point, fall) in enumerate(zip(points, falls, strict=True)):
            first = float(np.abs(current[i])) * fall.scale
            metal_v, metal = self._metal(point, during[:, i], fall.scale, first)
            found.append(
                Outcome(
                    float(before[i]),
                    first,
                    float(np.abs(current[i])) * fall.later_scale,
                    fall.later_s,
                    fall.off_s,
                    metal_v,
                    metal,
                    Flows(rows, flow[:, i]),
                    Flows(devices, through[:, i]),
                    Flows(sensors, residual[:, i]),
                )
            )
        return found

    def _before(self, points: Sequence[Point]) -> Reals:
        """Voltage between the points before the short, zero where nothing joins them."""
        volts = self.net.open_volts
        across = volts[[p.node for p in points]] - volts[[p.to_node for p in points]]
        return np.where([self._one_island(p) for p in points], np.abs(across), 0.0)

    def _shorted(self, points: Sequence[Point]) -> tuple[Complex, Complex]:
        """Current of each short, and the potentials while it lasts, a column each.

        An ampere is sent in at p and taken out at q together: sent in alone it would return
        through soil, and what differs between p and q be lost in the rounding.
        """
        net, volts = self.net, self.net.open_volts
        p, q = [point.node for point in points], [point.to_node for point in points]
        column = np.arange(len(points))
        through = np.zeros((net.size, len(points)), dtype=np.complex128)
        through[p, column], through[q, column] = 1.0, -1.0
        moved = net.solve(through)
        loop = moved[p, column] - moved[q, column]
        joined = np.array([self._one_island(point) for point in points])
        safe = np.where(np.abs(loop) > 0.0, loop, 1.0)
        current = np.where(joined, (volts[p] - volts[q]) / safe, 0.0)
        during = volts[:, None] - moved * current[None, :]
        self._check(points, net.source_currents()[:, None] - through * current, current, during)
        return current, during

    def _check(
        self, points: Sequence[Point], injected: Complex, current: Complex, during: Complex
    ) -> None:
        """Kirchhoff holds at every node in every fault. NotSolved where it does not.

        What is superposed is rounded at the voltage before the fault.
        """
        limit = self.net.limit_a(during) + 1e-9 * np.abs(current)
        limit += self.net.rounding_a(self.net.open_volts)
        over = self.net.unbalance(during, injected) / limit
        if np.any(over > 1.0):
            worst = points[int(np.argmax(over))]
            raise NotSolved(f"a fault at {worst.part} does not balance")

    def _one_island(self, point: Point) -> bool:
        label = self.net.islands.label
        return label[point.node] == label[point.to_node] and self.net.islands.live(point.node)

    def _branches(self, volts: Complex) -> Complex:
        branches, y = self.situation.circuit.branches, self.net.branch_y
        a = [branches[i].a for i in self.watched]
        b = [branches[i].b for i in self.watched]
        weight = np.array([y[i] for i in self.watched], dtype=np.complex128)
        return (volts[a] - volts[b]) * weight[:, None]

    def _devices(self, flow: Reals, rows: dict[int, int]) -> tuple[dict[int, int], Reals]:
        """The largest current in the contacts of each device in circuit: its row, and the rows."""
        found: dict[int, int] = {}
        largest: list[Reals] = []
        for index, device in enumerate(self.situation.circuit.devices):
            contacts = [rows[i] for i in device.branches if i in rows]
            if contacts:
                found[index] = len(largest)
                largest.append(flow[contacts].max(axis=0))
        return found, np.array(largest).reshape(len(largest), flow.shape[1])

    def _residuals(self, amps: Complex, rows: dict[int, int]) -> Complex:
        sensors = self.situation.circuit.sensors
        out = np.zeros((len(sensors), amps.shape[1]), dtype=np.complex128)
        for index, sensor in enumerate(sensors):
            through = [rows[i] for i in sensor.senses if i in rows]
            if through:
                out[index] = amps[through].sum(axis=0)
        return out

    def _sources(self, volts: Complex) -> tuple[list[Source], Reals]:
        """The sources of this frequency, and the current of each in each fault, in ampere.

        Without chargers on a battery: the network already holds them to their current.
        """
        circuit, held = self.situation.circuit, self.net.held
        ours = [
            i
            for i in self.net.active
            if circuit.sources[i].data.hertz == self.net.hertz and i not in held
        ]
        found = [circuit.sources[i] for i in ours]
        e = np.array([emf(s) for s in found], dtype=np.complex128)
        y = np.array([self.net.source_y[i] for i in ours], dtype=np.complex128)
        across = volts[[s.plus for s in found]] - volts[[s.minus for s in found]]
        return [s.data for s in found], np.abs((e[:, None] - across) * y[:, None])

    def _metal(
        self, point: Point, volts: Complex, scale: float, first_a: float
    ) -> tuple[float | None, int | None]:
        """The largest voltage of touchable metal against the reference, and where it stands.

        Metal whose island has no path to the reference is not defined there (NaN). What only
        capacitance joins to the fault is left out: a hand takes its voltage away.
        """
        if point.kind != "metal":
            return None, None
        if first_a <= self.net.rounding_a(self.net.open_volts):
            return math.nan, point.to_node
        label = self.net.islands.label
        reference = self.net.islands.reference[label[point.to_node]]
        joined = self.situation.conductive
        near = {joined[point.to_node], joined[reference]}
        together = [
            m for m in self.metals if label[m] == label[point.to_node] and joined[m] in near
        ]
        if point.to_node not in together:
            together.append(point.to_node)
        rise = np.abs(volts[together] - volts[reference]) * scale
        worst = int(np.argmax(rise))
        return float(rise[worst]), together[worst]
