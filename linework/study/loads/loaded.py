"""Study: the drawn loads switched on; currents in every conductor, voltage at every load."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from linework.circuit.model import Load
from linework.circuit.network import IN_USE, Complex, Network, load_admittance
from linework.study.loads.sharing import left_for_charging
from linework.study.loads.sun import Yield, yields
from linework.study.loads.verify import Check, verify
from linework.study.situation import Situation
from linework.words import say

_STOP = 1e-10
_ROUNDS = 200
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


@dataclass
class _Settled:
    """The solution of one frequency: potentials, injections, what chargers on a battery give."""

    volts: Complex
    injected: Complex
    charge_a: dict[int, float]


def loaded(situation: Situation) -> Loaded:
    """All frequencies, converters settled in the order of the energy."""
    taken: dict[int, float] = {}
    solved: dict[float, _Settled] = {}
    sunny, shared = yields(situation), dict[int, float]()
    for _ in range(_ROUNDS):
        for hertz in sorted(situation.hertz, reverse=True):
            net = situation.network(hertz, IN_USE)
            settled = _settled(net, taken, sunny, shared)
            if settled is None:
                return Loaded(solved=False, cause=_unsettled(net))
            solved[hertz] = settled
        shared = left_for_charging(situation, {h: found.volts for h, found in solved.items()})
        after = _conversions(situation, solved, sunny)
        if _same(taken, after):
            return _result(situation, solved, taken)
        taken = after
    return Loaded(solved=False, cause=say("the converters feed each other and find no rest"))


def _same(one: dict[int, float], other: dict[int, float]) -> bool:
    keys = one.keys() | other.keys()
    return all(
        abs(one.get(k, 0.0) - other.get(k, 0.0)) <= 1e-9 * max(abs(other.get(k, 0.0)), 1.0)
        for k in keys
    )


def _conversions(
    situation: Situation, solved: dict[float, _Settled], sunny: dict[int, Yield]
) -> dict[int, float]:
    """Watts that each converter takes at its input."""
    taken: dict[int, float] = {}
    on = {i for i, _ in situation.active}
    for conversion in situation.circuit.conversions:
        source = situation.circuit.sources[conversion.source]
        if conversion.source not in on or source.primary:  # the network turns that over itself
            continue
        found = solved[source.data.hertz]
        given = _given_w(situation, conversion.source, found)
        wanted = given / conversion.data.efficiency + conversion.data.idle_w
        sun = sunny.get(conversion.source)
        if sun is not None:
            wanted = sun.taken_w(wanted, given / source.data.volts)
        # the legs of an inverter take from the same battery
        taken[conversion.load] = taken.get(conversion.load, 0.0) + wanted
    return taken


def _given_w(situation: Situation, index: int, found: _Settled) -> float:
    """What a converter's source gives; a charger on a battery as at the end of charging, when it
    gives its current at its full voltage. What asks it for more than its electronics let through at
    the first moment has shut it off: with a short behind an inverter its battery would be asked for
    the power of a town, and the circuit that holds the danger had no solution."""
    source = situation.circuit.sources[index]
    if index in found.charge_a:
        return found.charge_a[index] * source.data.volts
    across = found.volts[source.plus] - found.volts[source.minus]
    net = situation.network(source.data.hertz, IN_USE)
    current = net.source_output(found.volts).get(index, 0j)
    limit = source.data.limit
    if limit is not None and abs(current) > (limit.first_a or limit.sustained_a).high:
        return 0.0
    return max(float((across * np.conj(current)).real), 0.0)


def _settled(
    net: Network, taken: dict[int, float], sunny: dict[int, Yield], shared: dict[int, float]
) -> _Settled | None:
    """Repeated solves on one factorisation until the loads that are not linear agree."""
    charge_a, charging = dict(net.held), _charging_ohm(net)
    moving = [i for i in range(len(net.circuit.loads)) if _moves(net, i, taken)]
    volts, injected, before = net.open_volts, net.source_currents(charge_a), None
    for _ in range(_ROUNDS):
        _throttle(net, volts, charge_a, charging, sunny, shared)
        extra = np.array([_beyond(net, i, volts, taken.get(i)) for i in moving], dtype=complex)
        now = np.append(extra, list(charge_a.values()))
        if before is not None and _rests(before, now):
            return _Settled(volts, injected, charge_a)
        injected, before = net.source_currents(charge_a), now
        for i, amps in zip(moving, extra, strict=True):
            load = net.circuit.loads[i]
            injected[load.a] += amps
            injected[load.b] -= amps
        volts = net.solve(injected)
    return None


def _beyond(net: Network, index: int, volts: Complex, watts: float | None) -> complex:
    """Current in ampere by which a load takes less than the impedance that stands in for it."""
    load = net.circuit.loads[index]
    across = complex(volts[load.a] - volts[load.b])
    return net.load_y.get(index, 0j) * across - _wanted(load, across, watts)


def _rests(before: Complex, now: Complex) -> bool:
    """Whether the currents of loads and chargers have settled. Potentials to earth would not do:
    those of a floating source hang on its stray capacitance alone, and rounding moves them."""
    most = max(float(np.max(np.abs(now), initial=0.0)), 1.0)
    return float(np.max(np.abs(now - before), initial=0.0)) <= _STOP * most


def _charging_ohm(net: Network) -> dict[int, float]:
    """The resistance that each charger on a battery sees, in ohm."""
    found: dict[int, float] = {}
    for i in net.held:
        source = net.circuit.sources[i]
        found[i] = max(net.seen_ohm(source.plus, source.minus).real, 1e-9)
    return found


def _throttle(
    net: Network,
    volts: Complex,
    charge_a: dict[int, float],
    charging: dict[int, float],
    sunny: dict[int, Yield],
    shared: dict[int, float],
) -> None:
    """A charger gives its rated current, what the sun yields, what others leave it of its input,
    or what lifts its terminals to its own voltage."""
    for i, ohm in charging.items():
        source = net.circuit.sources[i]
        across = float((volts[source.plus] - volts[source.minus]).real)
        more = (source.data.volts - across) / ohm
        most = sunny[i].most_a(across) if i in sunny else shared.get(i, net.held[i])
        charge_a[i] = min(max(charge_a[i] + more, 0.0), net.held[i], most)


def _moves(net: Network, index: int, taken: dict[int, float]) -> bool:
    """Whether a load is not simply its impedance."""
    load, label = net.circuit.loads[index], net.islands.label
    if not net.islands.live(load.a) or index not in net.here.drawing:
        return False
    if index in taken:
        one_island = label[load.a] == label[load.b]
        return one_island and (load.data.hertz == 0.0) == (net.hertz == 0.0)
    return index in net.load_y and load.data.model != "impedance"


def _wanted(load: Load, across: complex, watts: float | None) -> complex:
    """Current in ampere that a load takes at a voltage."""
    data = load.data
    if data.model == "impedance" and watts is None:
        return across * load_admittance(load)
    if data.model == "lamp" and abs(across) > 0.0:
        rise = (abs(across) / data.volts) ** (_LAMP_EXPONENT - 1.0)
        return complex(across * data.watts / data.volts**2 * rise)
    power = data.watts if watts is None else watts
    tangent = math.sqrt(max(1.0 / data.power_factor**2 - 1.0, 0.0))
    if abs(across) < 0.3 * data.volts or data.volts <= 0.0:
        # far below its voltage a load no longer holds its power; an impedance stands in
        return across * complex(power, -power * tangent) / max(data.volts, 1e-9) ** 2
    return (complex(power, power * tangent) / across).conjugate()


def _unsettled(net: Network) -> str:
    return say(
        "loads at {hertz} Hz ask for more than the conductors can carry", hertz=f"{net.hertz:g}"
    )


def _result(situation: Situation, solved: dict[float, _Settled], taken: dict[int, float]) -> Loaded:
    branch_a: dict[float, dict[int, complex]] = {}
    load_v: dict[int, float] = {}
    load_a: dict[int, float] = {}
    source_a: dict[int, complex] = {}
    source_w: dict[int, float] = {}
    checks: list[Check] = []
    floor = 0.0
    for hertz, found in solved.items():
        net = situation.network(hertz, IN_USE)
        branch_a[hertz] = net.branch_currents(found.volts)
        checks.append(verify(net, found.volts, found.injected))
        floor = max(floor, net.rounding_a(found.volts))
        _loads_of(net, found.volts, load_v)
        _sources_of(net, found, source_a, source_w)
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
    load_a |= _primaries(situation, source_a)
    volts = {hertz: found.volts for hertz, found in solved.items()}
    return Loaded(
        volts, branch_a, load_v, load_a, source_a, source_w, residual, taken, floor, tuple(checks)
    )


def _primaries(situation: Situation, source_a: dict[int, complex]) -> dict[int, float]:
    """What windings take for those that they drive, in ampere."""
    circuit, taken = situation.circuit, dict[int, complex]()
    for conversion in circuit.conversions:
        source = circuit.sources[conversion.source]
        if source.primary and conversion.source in source_a:
            forward = source.primary[0] == circuit.loads[conversion.load].a
            given = source_a[conversion.source] * source.data.turns * (1.0 if forward else -1.0)
            taken[conversion.load] = taken.get(conversion.load, 0j) + given
    return {load: abs(amps) for load, amps in taken.items()}


def _loads_of(net: Network, volts: Complex, load_v: dict[int, float]) -> None:
    for index, load in net.here.loads:
        if net.islands.live(load.a):
            dc_load, dc_net = load.data.hertz == 0.0, net.hertz == 0.0
            across = abs(complex(volts[load.a] - volts[load.b]))
            if dc_load == dc_net or across > load_v.get(index, 0.0):
                load_v[index] = across


def _sources_of(
    net: Network, found: _Settled, amps: dict[int, complex], watts: dict[int, float]
) -> None:
    for index, current in net.source_output(found.volts).items():
        source = net.circuit.sources[index]
        if source.data.hertz == net.hertz:
            given = complex(found.charge_a.get(index, current))
            across = found.volts[source.plus] - found.volts[source.minus]
            amps[index] = given
            watts[index] = float((across * np.conj(given)).real)
