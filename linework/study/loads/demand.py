"""Study: the current that a conductor must be made for, and how much of it flows for hours.

Told by what a conductor feeds: the loads that stay dead when it is opened. They count with their
rated current where the drop of the wires lets them take less, and with their effective current
where they work by turns. A converter's input counts as long
in the share of what its output feeds; charging a battery is not counted.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS, SOIL
from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation

_NOTHING_A = 1e-9
"""Less than this is what rounding leaves at loads that are off, in ampere."""


@dataclass(frozen=True)
class Share:
    """What a winding must give, in ampere: ``amps`` in all, of it ``long_a`` by loads of three
    hours and more that are no motors, and ``motor_a`` by the largest motor, the part ``motor``
    ("" where it feeds none)."""

    amps: float
    long_a: float = 0.0
    motor_a: float = 0.0
    motor: str = ""


NOTHING = Share(0.0)


class Demand:
    """The demand on the branches of one state, each worked out when asked for."""

    def __init__(self, situation: Situation, loaded: Loaded) -> None:
        self._situation, self._loaded = situation, loaded
        self._long = _long_shares(situation, loaded)
        self._converters = {c.load for c in situation.circuit.conversions}
        self._known: dict[int, tuple[float, float]] = {}

    def amps(self, branch: int) -> tuple[float, float]:
        """The current in ampere that a branch must be made for, and the part of it that flows for
        three hours or more."""
        if branch not in self._known:
            self._known[branch] = self._amps(branch)
        return self._known[branch]

    def _amps(self, branch: int) -> tuple[float, float]:
        drawn = {i: self._loaded.load_a.get(i, 0.0) for i in self.behind(branch)}
        total = sum(drawn.values())
        amps = self._loaded.amps(branch)
        if total <= _NOTHING_A:
            return amps, 0.0
        rated = sum(self._counted_a(i, a) for i, a in drawn.items())
        long = sum(a * self._long.get(i, 0.0) for i, a in drawn.items())
        # what charges a battery flows there besides, and does not grow with the loads
        part = min(amps, total)
        fed = part * rated / total
        return amps - part + fed, fed * long / total

    def of_source(self, source: int, turning: Collection[str]) -> Share:
        """What a winding must give; ``turning``: the parts that are motors. What it feeds together
        with others counts in its own part of that."""
        drawn = _fed(self._situation, source, self._loaded.load_a)
        amps, total = abs(self._loaded.source_a.get(source, 0j)), sum(drawn.values())
        if total <= _NOTHING_A:
            return Share(amps)
        part = min(amps, total)
        counted = {i: part / total * self._counted_a(i, a) for i, a in drawn.items()}
        owners = {i: self._situation.circuit.loads[i].owner for i in counted}
        motors = {i: a for i, a in counted.items() if owners[i] in turning}
        largest = max(motors, key=lambda i: motors[i], default=None)
        long = sum(a * self._long.get(i, 0.0) for i, a in counted.items() if i not in motors)
        amps += sum(counted.values()) - part
        if largest is None:
            return Share(amps, long)
        return Share(amps, long, motors[largest], owners[largest])

    def lasting(self, branch: int) -> set[str]:
        """The parts on a branch that draw for three hours or more."""
        loads = self._situation.circuit.loads
        return {loads[i].owner for i in self.behind(branch) if self._long.get(i, 0.0) > 0.0}

    def brief(self, branch: int) -> float:
        """The share of a branch's current that loads take which run for minutes at most."""
        drawn = {i: self._loaded.load_a.get(i, 0.0) for i in self.behind(branch)}
        loads, total = self._situation.circuit.loads, sum(drawn.values())
        some = sum(a for i, a in drawn.items() if loads[i].data.lasts != "hours")
        return some / total if total > 0.0 else 0.0

    def _counted_a(self, index: int, drawn_a: float) -> float:
        """The current with which a load counts: its effective one where it works by turns."""
        effective = self._situation.circuit.loads[index].data.effective_a
        return max(drawn_a, self._rated_a(index)) if effective is None else effective

    def _rated_a(self, index: int) -> float:
        """The current of a load at its own voltage; a converter takes what it is asked for."""
        load = self._situation.circuit.loads[index].data
        if index in self._converters or load.volts <= 0.0:
            return 0.0
        return load.watts / (load.volts * load.power_factor)

    def behind(self, branch: int) -> list[int]:
        """The indices of the loads that only this branch feeds; where others feed them too, of all
        on it. What ends on a chassis or hull feeds by that metal too."""
        situation = self._situation
        by_body = situation.circuit.branches[branch].sort == "bond"
        whole = situation.metallic if by_body else situation.clusters
        cluster = situation.labels_without(frozenset({branch}), SOIL if by_body else LINKS)
        here = whole[situation.circuit.branches[branch].a]
        hot = {cluster[situation.circuit.sources[s.source].plus] for s in situation.systems}
        back = {cluster[situation.circuit.sources[s.source].minus] for s in situation.systems}
        on_it: list[int] = []
        dead: list[int] = []
        for index, load in situation.loads:
            for node in (load.a, load.b):
                if whole[node] == here:
                    on_it.append(index)
                    if cluster[node] not in hot | back:
                        dead.append(index)
        return dead or on_it


def _long_shares(situation: Situation, loaded: Loaded) -> dict[int, float]:
    """The share of the current of each load that flows long, by load index."""
    long = {i: float(load.data.continuous) for i, load in situation.loads}
    drawn = {i for i, _ in situation.active}
    for _ in situation.circuit.conversions:  # one after the other: a chain is no longer than that
        for conversion in situation.circuit.conversions:
            if conversion.load in long and conversion.source in drawn:
                fed = _fed(situation, conversion.source, loaded.load_a)
                total = sum(fed.values())
                if total:
                    share = sum(a * long[i] for i, a in fed.items()) / total
                    long[conversion.load] = share
    return long


def _fed(situation: Situation, source: int, load_a: Mapping[int, float]) -> dict[int, float]:
    """The loads that a source feeds, with their current in ampere."""
    found: dict[int, float] = {}
    for index, load in situation.loads:
        feeding = {s.source for node in (load.a, load.b) for s in situation.feeds(node)}
        if source in feeding:
            found[index] = load_a.get(index, 0.0)
    return found
