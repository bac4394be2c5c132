"""Study: every live pole shorted to neutral, ground wire, body and other lines, at every terminal;
where no ground wire is at a terminal, to the case of its part.

Two assumptions bound the truth: sources at their weakest with hot conductors
(clearing), sources at their strongest with cold ones (withstand). Loads are off,
as in the usual short-circuit calculation (IEC 60909-0).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from linework.circuit.network import STRONGEST, WEAKEST, NotSolved
from linework.study.once import once
from linework.study.shorts.flows import Flows, flows_of
from linework.study.shorts.limits import Fall, falls_of
from linework.study.shorts.rises import metal_volts
from linework.study.shorts.shorted import Shorted
from linework.study.situation import Situation
from linework.wiring import Pole, is_protective, is_ungrounded

_AT_ONCE = 1024
"""So many shorts are held against the limits of the sources at once; bounds the memory."""

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


@dataclass(frozen=True)
class Outcome:
    """What one assumption gives.

    ``before_v``: voltage between the two points before. ``current_a`` at first;
    ``later_a`` what the sources still drive after ``later_s`` seconds, off after
    ``off_s`` (None: never). ``metal_v``: voltage on touchable metal at first (None:
    no metal concerned, NaN: not defined). Of what carries the fault's current, some
    ``LEAST_SHARE`` of it at the least: ``branch_a`` in each run and bond, in each contact of
    a device and in each sensor; ``device_a`` the largest in the contacts of each device;
    ``residual_a`` of each ground-fault device.
    """

    before_v: float
    current_a: float
    later_a: float
    later_s: float
    off_s: float | None
    metal_v: float | None
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
            weak = _outcomes(situation, points, False)
            strong = _outcomes(situation, points, True)
            found += [Fault(*item) for item in zip(points, weak, strong, strict=True)]
    return found


def strongest(situation: Situation, points: Sequence[Point]) -> list[Outcome]:
    """Shorts of one frequency with sources at their strongest and conductors cold. NotSolved where
    the network is singular."""
    return _outcomes(situation, points, True) if points else []


def weakest(situation: Situation, points: Sequence[Point]) -> list[Outcome]:
    """The same with sources at their weakest and conductors hot."""
    return _outcomes(situation, points, False) if points else []


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
            for to, other, kind in _targets(situation, part, nodes, pole):
                if other != node and (node, other) not in seen:
                    seen.update({(node, other), (other, node)})
                    points.append(Point(part, terminal, pole, to, kind, node, other, hertz))
    return points


def _targets(
    situation: Situation, part: str, nodes: Mapping[str, int], pole: str
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
        out += [(str(Pole.PE), node, "metal") for node in _cases(situation).get(part, ())]
        out += [("body", node, "metal") for node in situation.circuit.bodies]
    return out


@once
def _cases(situation: Situation) -> dict[str, tuple[int, ...]]:
    """Part -> the nodes of its own touchable metal."""
    found: dict[str, dict[int, None]] = {}
    for metal in situation.circuit.metals:
        if not metal.data.body:
            found.setdefault(metal.owner, {})[metal.node] = None
    return {part: tuple(nodes) for part, nodes in found.items()}


def _outcomes(situation: Situation, points: Sequence[Point], strong: bool) -> list[Outcome]:
    """All shorts of one frequency, sources and conductors as ``strong`` has it."""
    net = situation.network(points[0].hertz, STRONGEST if strong else WEAKEST)
    shorts = Shorted(net, [point.node for point in points], [point.to_node for point in points])
    _check(shorts, points)
    falls = _falls(shorts, strong)
    scale = np.array([fall.scale for fall in falls])
    amps, carriers = np.abs(shorts.current), shorts.carriers()
    to_metal = [point.kind == "metal" for point in points]
    metal_v = metal_volts(situation, shorts, carriers, scale, to_metal)
    flows = zip(*flows_of(situation, shorts, carriers, scale), strict=True)
    return [
        Outcome(
            float(shorts.before_v[i]),
            float(amps[i]) * fall.scale,
            float(amps[i]) * fall.later_scale,
            fall.later_s,
            fall.off_s,
            float(metal_v[i]) if point.kind == "metal" else None,
            *carried,
        )
        for i, (point, fall, carried) in enumerate(zip(points, falls, flows, strict=True))
    ]


def _check(shorts: Shorted, points: Sequence[Point]) -> None:
    worst = shorts.unbalanced()
    if worst is not None:
        raise NotSolved(f"a fault at {points[worst].part} does not balance")


def _falls(shorts: Shorted, strong: bool) -> list[Fall]:
    """How the sources of this frequency hold their current in each short.

    Without chargers on a battery: the network already holds them to their current. Without
    windings that others drive: what these give, those feel.
    """
    net = shorts.net
    sources = net.circuit.sources
    left_out = {*net.held, *net.coupled}
    ours = [i for i in net.active if sources[i].data.hertz == net.hertz and i not in left_out]
    data = [sources[i].data for i in ours]
    blocks = np.array_split(np.arange(shorts.count), 1 + shorts.count // _AT_ONCE)
    return [f for block in blocks for f in falls_of(data, shorts.sources(ours, block), strong)]
