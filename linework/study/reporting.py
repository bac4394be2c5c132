"""The report of one state, put together from the studies of its live circuits."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator, Sequence
from functools import partial
from typing import TypeVar

from linework.circuit.model import Branch
from linework.circuit.network import IN_USE, NotSolved
from linework.design import Design, Run
from linework.study.answers.broken import worst_broken
from linework.study.loads.cutting_out import asked_of_batteries
from linework.study.loads.starting import falls
from linework.study.loads.starting_direct import starting_v
from linework.study.once import once
from linework.study.report import (
    BondReport,
    FaultReport,
    LoadReport,
    SourceReport,
    StartReport,
    StateReport,
    state_key,
    state_title,
)
from linework.study.shorts.clearing import Ending, device_designator
from linework.study.shorts.faults import Fault
from linework.study.situation import Situation
from linework.study.spoken import spoken_state
from linework.study.studies import Studies
from linework.study.tester import Reading
from linework.study.ways.banks import strings
from linework.study.ways.protection import smallest
from linework.wiring import Pole, is_protective

Circuits = Sequence[Studies]
_Key = TypeVar("_Key", bound=Hashable)
Flows = Sequence[tuple[Branch, float]]
"""Branches with their currents in ampere."""


def report(
    design: Design, whole: Situation, circuits: Circuits, names: tuple[str, ...], case: str
) -> StateReport:
    """The report of one state of one case, all of whose live circuits are given. NotSolved
    passes on."""
    state = whole.state
    lost = [c.loaded.cause for c in circuits if not c.loaded.solved]
    flows = [*((branch, 0.0) for branch in whole.branches), *_flows(circuits)]
    return StateReport(
        state_key(design, whole.circuit, state),
        spoken_state(design, whole.circuit, state),
        state_title(design, whole),
        case,
        tuple((part, selector, position) for (part, selector), position in state.free),
        dict(state.positions),
        state.passing[0] if state.passing else "",
        names,
        _live(whole),
        _live_runs(whole),
        _bonds(circuits),
        _loads(whole, circuits),
        tuple(s for c in circuits for s in _sources(design, c)),
        _most(
            ((b.owner, b.pole), amps)
            for b, amps in flows
            if b.sort == "run" or isinstance(design.get(b.owner), Run)
        ),
        _run_drops([(b, amps) for b, amps in flows if isinstance(design.get(b.owner), Run)]),
        _run_devices(circuits),
        _most(_ground_amps(flows, max((c.loaded.floor_a for c in circuits), default=0.0))),
        _residuals(circuits),
        _most((owner, amps) for c in circuits for owner, amps in _device_faults(c)),
        tuple(f for c in circuits for f in _faults(c)),
        _readings(circuits),
        _volts(circuits),
        not lost,
        "; ".join(lost),
        _most(pair for c in circuits for pair in _long_amps(c)),
        _all_devices(circuits),
        tuple(s for c in circuits for s in _starts(c, design)) if state.passing is None else (),
        tuple(bank for c in circuits for bank in _banks(c)),
    )


def _live(whole: Situation) -> dict[tuple[str, str], tuple[str, ...]]:
    """By part and terminal the sources that feed it; what nothing feeds is not there."""
    live = {
        place: tuple(sorted({o for node in nodes.values() for o in _feeding_owners(whole, node)}))
        for place, nodes in whole.circuit.terminals.items()
    }
    return {place: owners for place, owners in live.items() if owners}


def failed(
    design: Design, whole: Situation, names: tuple[str, ...], case: str, cause: str
) -> StateReport:
    """The report of a state that could not be worked out: which one, and why; no figure."""
    state = whole.state
    return StateReport(
        key=state_key(design, whole.circuit, state),
        spoken=spoken_state(design, whole.circuit, state),
        title=state_title(design, whole),
        case=case,
        free=tuple((part, selector, position) for (part, selector), position in state.free),
        positions=dict(state.positions),
        passing=state.passing[0] if state.passing else "",
        circuits=names,
        live={},
        live_runs={},
        bonds=(),
        loads=(),
        sources=(),
        run_a={},
        run_drop_v={},
        run_device={},
        ground_a={},
        residual_ma={},
        device_fault_a={},
        faults=(),
        readings=(),
        solved=False,
        cause=cause,
    )


def _most(pairs: Iterable[tuple[_Key, float]]) -> dict[_Key, float]:
    """The largest figure of each."""
    found: dict[_Key, float] = {}
    for key, figure in pairs:
        found[key] = max(found.get(key, 0.0), figure)
    return found


def _feeding_owners(whole: Situation, node: int) -> set[str]:
    """Whose windings feed a node; of what is sealed into a part nobody is told."""
    return {s.owner for s in whole.feeds(node) if s.source not in whole.sealed_in}


def _live_runs(whole: Situation) -> dict[str, tuple[str, ...]]:
    found: dict[str, set[str]] = {}
    for branch in whole.branches:
        if branch.sort == "run":
            owners = {s.owner for s in whole.feeds(branch.a)}
            if owners:
                found.setdefault(branch.owner, set()).update(owners)
    return {run: tuple(sorted(owners)) for run, owners in found.items()}


def _bonds(circuits: Circuits) -> tuple[BondReport, ...]:
    return tuple(
        BondReport(n.owners, n.is_ac, tuple(b.owner for b in n.bonds), bool(n.ring))
        for c in circuits
        for n in c.neutrals
    )


def _loads(whole: Situation, circuits: Circuits) -> tuple[LoadReport, ...]:
    """Each load by the circuit that feeds it."""
    out = []
    for index, load in enumerate(whole.circuit.loads):
        if any(s.source in whole.sealed_in for s in whole.feeds(load.a)):
            continue  # what converters take from cells that nobody meets
        mine = max(circuits, key=partial(_feeding, index))
        volts, amps = mine.loaded.load_v.get(index, 0.0), mine.loaded.load_a.get(index, 0.0)
        fed = mine.energised.fed.get(index, ())
        out.append(LoadReport(load.owner, volts, amps, load.data.volts, fed))
    return tuple(out)


def _feeding(load: int, studies: Studies) -> tuple[bool, float]:
    return load in studies.energised.fed, studies.loaded.load_v.get(load, 0.0)


def _sources(design: Design, studies: Studies) -> Iterator[SourceReport]:
    sources, loaded = studies.circuit.sources, studies.loaded
    turning = {part.id for part in design.parts if design.kind(part).turns}
    for i in sorted(loaded.source_w.keys() - studies.situation.sealed_in):
        data = sources[i].data
        watts, amps = loaded.source_w[i], abs(loaded.source_a[i])
        needed = studies.demand.of_source(i, turning)
        yield SourceReport(
            sources[i].owner,
            data.name,
            watts,
            amps,
            data.rated_a,
            data.hertz,
            needed,
            data.volts,
            data.group,
        )


@once
def _long_amps(studies: Studies) -> list[tuple[tuple[str, str], float]]:
    """Of each conductor of a run that is no ground wire: what flows for hours."""
    branches = studies.circuit.branches
    return [
        ((branches[i].owner, branches[i].pole), studies.demand.amps(i)[1])
        for i in sorted(studies.situation.closed)
        if branches[i].sort == "run" and not is_protective(Pole(branches[i].pole))
    ]


@once
def _starts(studies: Studies, design: Design) -> list[StartReport]:
    """Each motor on each winding that feeds it; none where a network was not solved, which
    "not-analysed" tells."""
    try:
        return [*_started(studies, design), *_started_direct(studies, design)]
    except NotSolved:
        return []


def _started(studies: Studies, design: Design) -> Iterator[StartReport]:
    circuit, loaded = studies.circuit, studies.loaded
    lamps = [i for i, x in studies.situation.loads if design.kind(design.part(x.owner)).lights]
    for start in studies.starts:
        motor = circuit.loads[start.load]
        lost = falls(studies.situation, start, (i for i in lamps if i in loaded.load_v))
        left = {i: loaded.load_v[i] * (1.0 - fall) for i, fall in lost.items()}
        lamp = min(left, key=lambda i: left[i] / circuit.loads[i].data.volts, default=None)
        for index, asked in start.asked.items():
            source = circuit.sources[index]
            yield StartReport(
                motor.owner,
                source.owner,
                source.data.name,
                start.start_a,
                asked,
                source.data.surge_a,
                loaded.load_v.get(start.load, 0.0) * (1.0 - start.dip),
                motor.data.volts,
                None if lamp is None else left[lamp],
                0.0 if lamp is None else circuit.loads[lamp].data.volts,
            )


def _started_direct(studies: Studies, design: Design) -> Iterator[StartReport]:
    """Each motor on direct current of which the starting current is known, on each battery."""
    circuit, loaded = studies.circuit, studies.loaded
    asked = [a for a in asked_of_batteries(studies.situation, loaded) if a.seconds]
    for index, motor in studies.situation.loads:
        left = starting_v(studies.situation, loaded, index)
        for each in asked if left is not None else ():
            if each.by == (motor.owner,):
                battery = circuit.sources[each.battery]
                values = design.values(design.part(battery.owner))
                keys = [k for k in ("discharge_peak", "discharge_limit") if k in values.declared]
                most = next((values.num(k) for k in keys if values.has(k)), None)
                yield StartReport(
                    motor.owner,
                    battery.owner,
                    battery.data.name,
                    motor.data.start_a or 0.0,
                    each.amps,
                    most,
                    left or 0.0,
                    motor.data.volts,
                    None,
                    0.0,
                )


def _banks(studies: Studies) -> list[tuple[tuple[str, ...], ...]]:
    """Strings between the same conductors together."""
    sources, found = studies.circuit.sources, dict[tuple[int, int], list[tuple[str, ...]]]()
    for string in strings(studies.situation):
        row = tuple(sources[i].owner for i in string.cells)
        found.setdefault((string.top, string.bottom), []).append(row)
    return [tuple(rows) for rows in found.values()]


def _flows(circuits: Circuits) -> list[tuple[Branch, float]]:
    """Each conductor, contact and link in circuit with its current in ampere: what several
    circuits send through one (a common return) is added up, frequency by frequency."""
    sums: dict[tuple[str, str], tuple[Branch, dict[float, complex]]] = {}
    for c in circuits:
        for i in sorted(c.situation.closed):
            branch = c.circuit.branches[i]
            _, total = sums.setdefault((branch.owner, branch.name), (branch, {}))
            for hertz, amps in c.loaded.branch_a.items():
                total[hertz] = total.get(hertz, 0j) + amps.get(i, 0j)
    return [(branch, math.hypot(*map(abs, total.values()))) for branch, total in sums.values()]


def _run_drops(flows: Flows) -> dict[str, float]:
    """Voltage lost in the live and return conductors of each run, by magnitude."""
    found: dict[str, float] = {}
    for branch, amps in flows:
        if branch.sort == "bond" or not is_protective(Pole(branch.pole)):
            ohm = math.hypot(branch.r_hot, branch.x)
            found[branch.owner] = found.get(branch.owner, 0.0) + amps * ohm
    return found


def _run_devices(circuits: Circuits) -> dict[str, str]:
    found: dict[str, str] = {}
    for studies in circuits:
        for feed in studies.feeds:
            device = smallest(studies.situation, feed)
            found.setdefault(feed.run, device.owner if device is not None else "")
    return found


def _all_devices(circuits: Circuits) -> dict[str, tuple[str, ...]]:
    """Two batteries at one run do not pass the same device: one protects it from each."""
    found: dict[str, set[str]] = {}
    for studies in circuits:
        for feed in studies.feeds:
            device = smallest(studies.situation, feed)
            found.setdefault(feed.run, set()).add(device.owner if device is not None else "")
    return {run: tuple(sorted(owners, reverse=True)) for run, owners in found.items()}


def _ground_amps(flows: Flows, floor_a: float) -> Iterator[tuple[str, float]]:
    for branch, amps in flows:
        if (branch.sort == "bond" or branch.pole in ("PE", "body")) and amps > floor_a:
            yield branch.owner, amps


def _residuals(circuits: Circuits) -> dict[str, float]:
    return _most(
        (c.circuit.sensors[i].owner, 1000.0 * amps)
        for c in circuits
        for i, amps in c.loaded.residual_a.items()
    )


def _device_faults(studies: Studies) -> Iterator[tuple[str, float]]:
    for fault in studies.faults:
        for index, amps in fault.strong.device_a.pairs():
            yield studies.circuit.devices[index].owner, amps
    for index, worst in worst_broken(studies).items():
        yield studies.circuit.devices[index].owner, max(broken.amps for broken in worst)


def _faults(studies: Studies) -> Iterator[FaultReport]:
    for index, fault in enumerate(studies.faults):
        metal = fault.point.kind == "metal"
        strong_v = studies.ending(index, strong=True).metal_v if metal else None
        yield _fault(studies, fault, studies.ending(index), strong_v)


def _fault(
    studies: Studies, fault: Fault, end: Ending, strong_metal_v: float | None
) -> FaultReport:
    point = fault.point
    by = "source" if end.by == "source" else device_designator(studies.circuit, end)
    return FaultReport(
        point.part,
        point.terminal,
        point.pole,
        point.to,
        point.kind,
        fault.weak.current_a,
        fault.strong.current_a,
        end.metal_v,
        end.later_v,
        by,
        end.latest_s,
        end.earliest_s,
        strong_metal_v,
    )


def _readings(circuits: Circuits) -> tuple[Reading, ...]:
    """Each outlet by the circuit that puts most voltage on it."""
    faces = zip(*(c.readings for c in circuits), strict=True)
    return tuple(max(found, key=lambda reading: max(reading.volts)) for found in faces)


def _volts(circuits: Circuits) -> dict[str, dict[tuple[str, str, str], complex]]:
    found: dict[str, dict[tuple[str, str, str], complex]] = {}
    for studies in circuits:
        for hertz, solution in studies.loaded.volts.items():
            islands = studies.situation.network(hertz, IN_USE).islands
            here = found.setdefault(f"{hertz:g}", {})
            volts = solution.tolist()
            defined = [label in islands.defined for label in islands.label]
            for (part, terminal), nodes in studies.circuit.terminals.items():
                for pole, node in nodes.items():
                    key = (part, terminal, pole)
                    if defined[node] and abs(volts[node]) >= abs(here.get(key, 0.0)):
                        here[key] = volts[node]
    return found
