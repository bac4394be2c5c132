"""What holds of every design, whatever is drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from linework.analysis import Analysis, Memory, analyse, cases
from linework.circuit.model import Load
from linework.circuit.network import (
    IN_USE,
    STRONGEST,
    WEAKEST,
    Assumption,
    Complex,
    Network,
    load_admittance,
    source_ohm,
)
from linework.design import Design, Draft
from linework.findings.model import Finding
from linework.kinds import RUN_RATINGS, kinds
from linework.study.loads.loaded import Loaded, loaded
from linework.study.report import StateReport
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from tests.circuit.edited import answers, edit
from tests.designs import drafts, renamed, situations

SLOW = settings(
    max_examples=settings().max_examples // 2,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
"""Each example is a design that is analysed several times over."""


def some_situations(design: Design, most: int = 6) -> Iterator[Situation]:
    """States of the first two cases, spread over all."""
    for settled in cases(design)[0][:2]:
        found = list(situations(design, settled))
        yield from found[:: max(len(found) // most, 1)]


# Kirchhoff


def elements(net: Network) -> Iterator[tuple[int, int, complex]]:
    """Every element in circuit, once more from the circuit itself: node, node, siemens."""
    here, circuit, scale = net.here, net.circuit, net.hertz / net.circuit.hertz
    hot = net.assumption.hot
    for i in here.closed:
        b = circuit.branches[i]
        yield b.a, b.b, 1.0 / complex(b.r_hot if hot else b.r_cold, b.x * scale)
    for i, s in here.active:
        if i not in net.held:
            yield s.plus, s.minus, 1.0 / source_ohm(s, net.assumption.strength, scale)
    for _, x in here.loads if net.assumption.loads else ():
        if x.data.watts > 0.0 and (x.data.hertz == 0.0) == (net.hertz == 0.0):
            yield x.a, x.b, load_admittance(x)
    total: dict[frozenset[int], complex] = {}
    for leak in here.leaks:
        pair = frozenset((leak.a, leak.b))
        y = complex(0.0, 2.0 * math.pi * net.hertz * leak.farad) if net.hertz else leak.siemens
        total[pair] = total.get(pair, 0j) + y
    yield from ((*pair, y) for pair, y in total.items() if abs(y) >= 1e-7)  # type: ignore[misc]


def kirchhoff(net: Network, volts: Complex, injected: Complex) -> tuple[float, float]:
    """The largest current that does not add up at a node, and its limit.

    The limit: 1e-9 of the largest branch current plus 1e-14 times the largest conductance times
    the largest voltage.
    """
    left, largest_y = np.array(injected), 0.0
    for a, b, y in elements(net):
        if net.islands.live(a):
            flow = (volts[a] - volts[b]) * y
            left[a] -= flow
            left[b] += flow
            largest_y = max(largest_y, abs(y))
    largest_a = max((abs(a) for a in net.branch_currents(volts).values()), default=0.0)
    pinned = set(net.islands.reference.values())
    inner = [n for n in range(net.size) if net.islands.live(n) and n not in pinned]
    worst = max((abs(left[n]) for n in inner), default=0.0)
    return worst, 1e-9 * largest_a + 1e-14 * largest_y * float(np.max(np.abs(volts), initial=0.0))


@SLOW
@given(drafts())
def test_currents_add_up_at_every_node(draft: Draft) -> None:
    for situation in some_situations(draft.design):
        for hertz in situation.hertz:
            for assumption in (WEAKEST, STRONGEST, IN_USE):
                net = situation.network(hertz, assumption)
                worst, limit = kirchhoff(net, net.open_volts, net.source_currents())
                assert worst <= limit
        found = loaded(situation)
        assert found.solved or found.cause
        assert all(check.sound for check in found.checks)


@SLOW
@given(drafts())
def test_currents_add_up_with_the_loads_that_are_not_linear(draft: Draft) -> None:
    for situation in some_situations(draft.design):
        found = loaded(situation)
        for hertz, volts in found.volts.items():
            net = situation.network(hertz, IN_USE)
            worst, limit = kirchhoff(net, volts, injections(net, found, volts))
            assert worst <= limit + 1e-8 * max(map(abs, found.source_a.values()), default=0.0)


def injections(net: Network, found: Loaded, volts: Complex) -> Complex:
    """What sources drive, what converters take over their power, and by how much loads of constant
    power differ from their admittance."""
    out = net.source_currents({i: found.source_a[i].real for i in net.held if i in found.source_a})
    for i, watts in found.converter_w.items():
        load = net.circuit.loads[i]
        label = net.islands.label
        here = (load.data.hertz == 0.0) == (net.hertz == 0.0) and net.islands.live(load.a)
        if here and label[load.a] == label[load.b]:
            taken = power_current(load, complex(volts[load.a] - volts[load.b]), watts)
            out[load.a] -= taken
            out[load.b] += taken
    for _, load in net.here.loads:
        here = (load.data.hertz == 0.0) == (net.hertz == 0.0) and net.islands.live(load.a)
        if here and load.data.model == "power" and load.data.watts > 0.0:
            across = complex(volts[load.a] - volts[load.b])
            taken = power_current(load, across, load.data.watts) - across * load_admittance(load)
            out[load.a] -= taken
            out[load.b] += taken
    return out


def power_current(load: Load, across: complex, watts: float) -> complex:
    """The current that gives a load its power; far below its voltage an impedance stands in."""
    tangent = math.sqrt(1.0 / load.data.power_factor**2 - 1.0)
    if abs(across) < 0.3 * load.data.volts:
        return across * complex(watts, -watts * tangent) / load.data.volts**2
    return (complex(watts, watts * tangent) / across).conjugate()


# shorts


def directly(situation: Situation, fault: Fault, assumption: Assumption) -> tuple[float, float]:
    """The current of a short, from a network in which it is a wire of 0.1 microohm, and what is
    rounding beside such a wire."""
    p, q = fault.point.node, fault.point.to_node
    net = Network(situation, fault.point.hertz, assumption, ((p, q, 1e7 + 0j),))
    volts = net.open_volts
    arriving = net.source_currents()[p]
    for a, b, y in elements(net):
        if p in (a, b):
            other = b if a == p else a
            arriving += (volts[other] - volts[p]) * y
    return abs(arriving), net.rounding_a(volts)


def linear(situation: Situation, fault: Fault) -> bool:
    """Whether no source of this frequency is bounded at first (chargers on a battery give a
    current, which is linear too)."""
    hertz = fault.point.hertz
    held = situation.network(hertz, WEAKEST).held
    return all(
        s.data.limit is None or s.data.limit.first_a is None or i in held
        for i, s in situation.active
        if s.data.hertz == hertz
    )


@SLOW
@given(drafts(), st.randoms(use_true_random=False))
def test_every_short_is_what_a_direct_solution_gives(draft: Draft, rng: object) -> None:
    for situation in some_situations(draft.design, 3):
        for owner in situation.owners:
            found = [f for f in faults(situation, owner) if linear(situation, f)]
            rng.shuffle(found)  # type: ignore[attr-defined]
            for fault in found[:100]:
                for assumption, outcome in ((WEAKEST, fault.weak), (STRONGEST, fault.strong)):
                    expected, floor = directly(situation, fault, assumption)
                    assert outcome.current_a == pytest.approx(expected, rel=3e-4, abs=floor)


# the same design, told otherwise

Told = dict[object, list[float]]


def same(one: Told, other: Told, floor: float) -> None:
    """The same things, their numbers equal to 1e-9 or below what rounding makes of nothing."""
    assert one.keys() == other.keys()
    for key, numbers in one.items():
        assert numbers == pytest.approx(other[key], rel=1e-9, abs=floor, nan_ok=True), key


def findings_of(analysis: Analysis) -> Told:
    """The findings by rule, level and subjects, with their evidence."""
    found: Told = {}
    for finding in every(analysis.findings):
        key = (finding.rule, finding.level, finding.subjects, finding.states, finding.cases)
        numbers = [e.value for e in finding.evidence if e.value is not None]
        found.setdefault(key, []).extend(numbers)
    return found


def every(findings: Sequence[Finding]) -> Iterator[Finding]:
    """All findings with the consequences under them."""
    for finding in findings:
        yield finding
        yield from every(finding.consequences)


def worst_of(analysis: Analysis) -> dict[str, int]:
    """The highest level that each rule found. (Which of two equal mistakes a rule names first is
    its own affair.)"""
    found: dict[str, int] = {}
    for finding in every(analysis.findings):
        found[finding.rule] = max(finding.level, found.get(finding.rule, 0))
    return found


def numbers_of(situation: Situation, names: Mapping[str, str]) -> Told:
    """Every load, source and short of a state, by what it is called in the first design."""
    found: Told = {}
    result = loaded(situation)
    circuit = situation.circuit
    for i, volts in result.load_v.items():
        load = circuit.loads[i]
        found["load", names[load.owner], load.data.name] = [volts, result.load_a[i]]
    for i, amps in result.source_a.items():
        source = circuit.sources[i]
        found["source", names[source.owner], source.data.name] = [amps.real, amps.imag]
    for i, amps in result.residual_a.items():
        found["residual", names[circuit.sensors[i].owner]] = [amps]
    for owner in situation.owners:
        for fault in faults(situation, owner):
            point = fault.point
            key = ("short", names[point.part], point.terminal, point.pole, point.to, point.hertz)
            found.setdefault(key, []).extend((fault.weak.current_a, fault.strong.current_a))
    return found


@SLOW
@given(drafts(), st.randoms(use_true_random=False))
def test_ids_names_and_order_decide_nothing(draft: Draft, rng: object) -> None:
    design = draft.design
    ids = [e for e in design.elements if e != "settings"]
    labels = [f"x{i}" for i in range(len(ids))]
    rng.shuffle(labels)  # type: ignore[attr-defined]
    names = dict(zip(ids, labels, strict=True))
    back = {new: old for old, new in names.items()}
    places = list(range(len(ids)))
    rng.shuffle(places)  # type: ignore[attr-defined]
    other = renamed(design, names, dict(zip(ids, places, strict=True)).__getitem__)
    one, two = analyse(design), analyse(other)
    assert one.combinations == two.combinations
    assert one.sound == two.sound
    assert len(one.gaps) == len(two.gaps)
    assert worst_of(one) == worst_of(two)
    settled = cases(design)[0][0]
    moved = {(names[part], key): word for (part, key), word in settled.items()}
    same_names = {i: i for i in ids}
    for first, second in paired(design, other, names, (settled, moved)):
        same(numbers_of(first, same_names), numbers_of(second, back), floor_of(first))


def floor_of(situation: Situation) -> float:
    """What the program itself calls rounding, in ampere."""
    nets = [situation.network(h, a) for h in situation.hertz for a in (IN_USE, WEAKEST, STRONGEST)]
    return max((net.rounding_a(net.open_volts) for net in nets), default=0.0)


def paired(
    one: Design,
    other: Design,
    names: Mapping[str, str],
    settled: tuple[Mapping[tuple[str, str], str], Mapping[tuple[str, str], str]],
) -> Iterator[tuple[Situation, Situation]]:
    """The states of both designs that are the same."""

    def called(position: str) -> str:
        host, _, place = position.partition(" ")
        new = names[host].upper() if host in names else host
        return f"{new} {place}" if place else new

    found = {frozenset(s.state.positions.items()): s for s in situations(other, settled[1])}
    for first in islice(situations(one, settled[0]), 4):
        key = frozenset(
            ((names[part], name), called(position) if name == "plug" else position)
            for (part, name), position in first.state.positions.items()
        )
        yield first, found[key]


# memory


def test_any_rating_of_any_kind_has_several_answers() -> None:
    """What the next test draws from grows with the registry."""
    declared = [*RUN_RATINGS.values(), *(r for kind in kinds().values() for r in kind.ratings)]
    assert all(len(set(answers(rating))) >= 2 for rating in declared)
    for rating in declared:
        for given_answer in answers(rating):
            if given_answer is not None:
                rating.check(given_answer)


@settings(SLOW, max_examples=10)
@given(drafts(most=5), st.data())
def test_what_is_remembered_is_what_would_be_worked_out(draft: Draft, data: st.DataObject) -> None:
    memory = Memory()
    analyse(draft.design, memory=memory)
    for _ in range(3):
        edit(draft.design, data.draw)
        kept, fresh = analyse(draft.design, memory=memory), analyse(draft.design)
        assert kept.gaps == fresh.gaps
        same(findings_of(kept), findings_of(fresh), LEAKED_A)
        assert [(r.key, r.case, r.circuits) for r in kept.reports] == [
            (r.key, r.case, r.circuits) for r in fresh.reports
        ]
        for one, two in zip(kept.reports, fresh.reports, strict=True):
            same(report_numbers(one), report_numbers(two), 1e-6)
            same(short_numbers(one), short_numbers(two), LEAKED_A)


LEAKED_A = 5e-3
"""A short is worked out once for all states that leave its source's conductors as they are; what
leaks meanwhile through the stray capacitance of other sources (40 nF: 2 mA) is in it or not."""


def report_numbers(report: StateReport) -> Told:
    return {
        "loads": [x for load in report.loads for x in (load.volts, load.amps)],
        "sources": [s.watts for s in report.sources],
        "runs": [a for _, a in sorted(report.run_a.items())],
        "residual": [a for _, a in sorted(report.residual_ma.items())],
        "meters": [v for x in report.readings for v in x.meter_v],
    }


def short_numbers(report: StateReport) -> Told:
    return {
        "weak": [f.weak_a for f in report.faults],
        "strong": [f.strong_a for f in report.faults],
        "ends": [f.latest_s for f in report.faults if f.weak_a > 10.0 * LEAKED_A],
    }
