"""Study: the drawn loads switched on; currents in every conductor, voltage at every load."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from linework.circuit.model import Load
from linework.circuit.network import IN_USE, Complex, Network, emf
from linework.study.situation import Situation
from linework.study.verify import Check, verify

_STOP = 1e-10
_ROUNDS = 60
_LAMP_EXPONENT = 0.6
"""Filament: current rises with voltage to the power 0.6 (from memory); resistance with 0.4."""


@dataclass(frozen=True)
class Loaded:
    """Solutions by frequency.

    ``volts``: complex potentials. ``branch_a``: current of each closed branch.
    ``load_v``, ``load_w``: at each load. ``source_a``, ``source_w``: of each source.
    ``residual_a``: of each ground-fault device. ``solved`` False: ``cause`` says why.
    """

    volts: dict[float, Complex] = field(default_factory=dict)
    branch_a: dict[float, dict[int, complex]] = field(default_factory=dict)
    load_v: dict[int, float] = field(default_factory=dict)
    load_a: dict[int, float] = field(default_factory=dict)
    source_a: dict[int, complex] = field(default_factory=dict)
    source_w: dict[int, float] = field(default_factory=dict)
    residual_a: dict[int, float] = field(default_factory=dict)
    converter_w: dict[int, float] = field(default_factory=dict)
    floor_a: float = 0.0
    checks: tuple[Check, ...] = ()
    solved: bool = True
    cause: str = ""

    def amps(self, branch: int) -> float:
        """Root of the sum of squares over the frequencies of the current in a branch, in ampere."""
        return math.sqrt(sum(abs(found.get(branch, 0j)) ** 2 for found in self.branch_a.values()))


def loaded(situation: Situation) -> Loaded:
    """All frequencies, converters settled in the order of the energy."""
    taken: dict[int, float] = {}
    volts: dict[float, Complex] = {}
    injected: dict[float, Complex] = {}
    for _ in range(_ROUNDS):
        for hertz in sorted(situation.hertz, reverse=True):
            net = situation.network(hertz, IN_USE)
            solution = _settled(net, taken)
            if solution is None:
                return Loaded(solved=False, cause=_unsettled(net))
            volts[hertz], injected[hertz] = solution
        after = _conversions(situation, volts)
        if _same(taken, after):
            return _result(situation, volts, injected, taken)
        taken = after
    return Loaded(solved=False, cause="the converters feed each other and find no rest")


def _same(one: dict[int, float], other: dict[int, float]) -> bool:
    keys = one.keys() | other.keys()
    return all(
        abs(one.get(k, 0.0) - other.get(k, 0.0)) <= 1e-9 * max(abs(other.get(k, 0.0)), 1.0)
        for k in keys
    )


def _conversions(situation: Situation, volts: dict[float, Complex]) -> dict[int, float]:
    """Watts that each converter takes at its input."""
    taken: dict[int, float] = {}
    for conversion in situation.circuit.conversions:
        source = situation.circuit.sources[conversion.source]
        if not situation.state.holds(source.when):
            continue
        net = situation.network(source.data.hertz, IN_USE)
        if source.data.limit is not None and source.data.group == "charger":
            given = (source.data.rated_a or 0.0) * source.data.volts
        else:
            current = net.source_output(volts[source.data.hertz]).get(conversion.source, 0j)
            across = volts[source.data.hertz][source.plus] - volts[source.data.hertz][source.minus]
            given = max(float((across * np.conj(current)).real), 0.0)
        taken[conversion.load] = given / conversion.data.efficiency + conversion.data.idle_w
    return taken


def _settled(net: Network, taken: dict[int, float]) -> tuple[Complex, Complex] | None:
    """Repeated solves on one factorisation until the loads that are not linear agree."""
    fixed = _sources(net)
    moving = [i for i in range(len(net.circuit.loads)) if _moves(net, i, taken)]
    volts = net.solve(fixed)
    for _ in range(_ROUNDS):
        inject = np.array(fixed)
        for i in moving:
            load = net.circuit.loads[i]
            across = complex(volts[load.a] - volts[load.b])
            extra = net.load_y.get(i, 0j) * across - _wanted(load, across, taken.get(i))
            inject[load.a] += extra
            inject[load.b] -= extra
        after = net.solve(inject)
        change = float(np.max(np.abs(after - volts), initial=0.0))
        volts = after
        if change <= _STOP * max(float(np.max(np.abs(volts), initial=0.0)), 1.0):
            return volts, inject
    return None


def _sources(net: Network) -> npt.NDArray[np.complex128]:
    """Injections of the sources; a limited one beside a stiff one gives its rated current."""
    out = net.source_currents([i for i in net.active if not _is_charger(net, i)])
    for i in net.active:
        source = net.circuit.sources[i]
        if _is_charger(net, i) and source.data.hertz == net.hertz:
            # so that its own admittance carries nothing at nominal voltage
            current = emf(source) * net.source_y[i] if _alone(net, i) else _charge(net, i)
            out[source.plus] += current
            out[source.minus] -= current
    return out


def _is_charger(net: Network, index: int) -> bool:
    return net.circuit.sources[index].data.group == "charger"


def _alone(net: Network, index: int) -> bool:
    """Whether no battery holds the voltage where this charger feeds."""
    mine = net.islands.label[net.circuit.sources[index].plus]
    return not any(
        i != index
        and net.islands.label[net.circuit.sources[i].plus] == mine
        and net.circuit.sources[i].data.hertz == net.hertz
        and not _is_charger(net, i)
        for i in net.active
    )


def _charge(net: Network, index: int) -> complex:
    """Current that makes a charger deliver its rating into a battery at nominal voltage."""
    source = net.circuit.sources[index]
    battery = min(
        (
            s.data.volts
            for s in (net.circuit.sources[i] for i in net.active)
            if s.data.group == "cells"
        ),
        default=source.data.volts,
    )
    return complex((source.data.rated_a or 0.0) + battery * net.source_y[index])


def _moves(net: Network, index: int, taken: dict[int, float]) -> bool:
    load = net.circuit.loads[index]
    if not net.islands.live(load.a) or not net.here.state.holds(load.when):
        return False
    if index in taken:
        return (load.data.hertz == 0.0) == (net.hertz == 0.0)
    return index in net.load_y and load.data.model != "impedance"


def _wanted(load: Load, across: complex, watts: float | None) -> complex:
    """Current in ampere that a load takes at a voltage."""
    data = load.data
    power = data.watts if watts is None else watts
    tangent = math.sqrt(max(1.0 / data.power_factor**2 - 1.0, 0.0))
    if abs(across) < 0.3 * data.volts or data.volts <= 0.0:
        # far below its voltage a load no longer holds its power; an impedance stands in
        return across * complex(power, -power * tangent) / max(data.volts, 1e-9) ** 2
    if data.model == "lamp":
        rise = (abs(across) / data.volts) ** (_LAMP_EXPONENT - 1.0)
        return across * power / data.volts**2 * rise
    return complex(np.conj(complex(power, power * tangent) / across))


def _unsettled(net: Network) -> str:
    return f"loads at {net.hertz:g} Hz ask for more than the conductors can carry"


def _result(
    situation: Situation,
    volts: dict[float, Complex],
    injected: dict[float, Complex],
    taken: dict[int, float],
) -> Loaded:
    branch_a: dict[float, dict[int, complex]] = {}
    load_v: dict[int, float] = {}
    load_a: dict[int, float] = {}
    source_a: dict[int, complex] = {}
    source_w: dict[int, float] = {}
    checks: list[Check] = []
    floor = 0.0
    for hertz, solution in volts.items():
        net = situation.network(hertz, IN_USE)
        branch_a[hertz] = net.branch_currents(solution)
        checks.append(verify(net, solution, injected[hertz]))
        floor = max(floor, net.rounding_a(solution))
        _loads_of(net, solution, load_v)
        _sources_of(net, solution, source_a, source_w)
    residual = {
        index: math.sqrt(
            sum(
                abs(sum(found.get(i, 0j) for i in sensor.senses)) ** 2
                for found in branch_a.values()
            )
        )
        for index, sensor in enumerate(situation.circuit.sensors)
    }
    for index, across in load_v.items():
        load = situation.circuit.loads[index]
        load_a[index] = abs(_wanted(load, complex(across), taken.get(index)))
    return Loaded(
        volts, branch_a, load_v, load_a, source_a, source_w, residual, taken, floor, tuple(checks)
    )


def _loads_of(net: Network, volts: Complex, load_v: dict[int, float]) -> None:
    for index, load in enumerate(net.circuit.loads):
        if net.islands.live(load.a) and net.here.state.holds(load.when):
            dc_load, dc_net = load.data.hertz == 0.0, net.hertz == 0.0
            across = abs(complex(volts[load.a] - volts[load.b]))
            if dc_load == dc_net or across > load_v.get(index, 0.0):
                load_v[index] = across


def _sources_of(
    net: Network, volts: Complex, amps: dict[int, complex], watts: dict[int, float]
) -> None:
    for index, current in net.source_output(volts).items():
        source = net.circuit.sources[index]
        if source.data.hertz == net.hertz:
            if _is_charger(net, index) and not _alone(net, index):
                current = complex(source.data.rated_a or 0.0)
            across = volts[source.plus] - volts[source.minus]
            amps[index] = current
            watts[index] = float((across * np.conj(current)).real)
