"""One state of one case told in ids and numbers, for screen, paper and command line."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from linework.circuit.model import Circuit
from linework.circuit.network import IN_USE
from linework.circuit.states import State
from linework.design import Design
from linework.study.clearing import Ending, device_designator
from linework.study.faults import Fault
from linework.study.protection import smallest
from linework.study.studies import Studies
from linework.study.tester import Reading
from linework.wiring import Pole, is_protective


@dataclass(frozen=True)
class BondReport:
    """One live neutral: its sources (part ids), the owners of its bonds, whether they ring."""

    sources: tuple[str, ...]
    is_ac: bool
    places: tuple[str, ...]
    ring: bool


@dataclass(frozen=True)
class LoadReport:
    """One load: volts at it, amperes, and its rated voltage; zero where it is dead."""

    part: str
    volts: float
    amps: float
    rated_v: float
    sources: tuple[str, ...]


@dataclass(frozen=True)
class SourceReport:
    """One source that is on: what it gives and what it is rated for (None: not limited)."""

    part: str
    name: str
    watts: float
    amps: float
    rated_a: float | None
    hertz: float


@dataclass(frozen=True)
class FaultReport:
    """One short and how it ends; ``by`` is a part id, "source" or "". NaN: not defined."""

    part: str
    terminal: str
    pole: str
    to: str
    kind: str
    weak_a: float
    strong_a: float
    metal_v: float | None
    later_v: float | None
    by: str
    latest_s: float
    earliest_s: float


@dataclass(frozen=True)
class StateReport:
    """Everything that is shown of one state of one case.

    ``live``: (part id, terminal) -> ids of the parts whose sources feed it.
    ``run_a``: (run id, pole) -> ampere in use. ``run_drop_v``: volt lost in a run, out and
    back. ``run_device``: run id -> the part whose device of the lowest rating protects it
    ("" none). ``ground_a``: the largest current
    on a ground wire or bond in use, by run or part id. ``device_fault_a``: the most that any
    short drives through the overcurrent device of a part.
    """

    key: str
    title: str
    case: str
    free: tuple[tuple[str, str, str], ...]
    positions: dict[tuple[str, str], str]
    passing: str
    also: tuple[str, ...]
    live: dict[tuple[str, str], tuple[str, ...]]
    live_runs: dict[str, tuple[str, ...]]
    bonds: tuple[BondReport, ...]
    loads: tuple[LoadReport, ...]
    sources: tuple[SourceReport, ...]
    run_a: dict[tuple[str, str], float]
    run_drop_v: dict[str, float]
    run_device: dict[str, str]
    ground_a: dict[str, float]
    residual_ma: dict[str, float]
    device_fault_a: dict[str, float]
    faults: tuple[FaultReport, ...]
    readings: tuple[Reading, ...]
    volts: dict[str, dict[tuple[str, str, str], complex]] = field(default_factory=dict)
    """By frequency: (part, terminal, pole) -> potential, only where it is defined."""
    solved: bool = True
    cause: str = ""


def state_key(design: Design, circuit: Circuit, state: State) -> str:
    """The free choices sorted by designation: "G1=stopped QT1=shore XP1=pedestal"."""
    words = sorted(
        f"{_name(design, circuit, key)}={position_word(design, key[0], position)}"
        for key, position in state.free
    )
    if state.passing is not None:
        words.append(f"while {design.part(state.passing[0]).designation} changes over")
    return " ".join(words)


def _name(design: Design, circuit: Circuit, key: tuple[str, str]) -> str:
    """Designation of the part; with the selector where the part has several free ones."""
    part, selector = key
    name = design.part(part).designation
    several = sum(
        1 for (owner, _), s in circuit.selectors.items() if owner == part and s.moves != "follows"
    )
    return f"{name}.{selector}" if several > 1 else name


def position_word(design: Design, part_id: str, position: str) -> str:
    """A position as a person calls it; a transfer switch has names for its inputs."""
    part = design.part(part_id)
    names = {each.position: each.name for each in design.kind(part).inputs}
    named = position in names and design.values(part).text(names[position])
    return named or position


def state_title(design: Design, studies: Studies) -> str:
    """What feeds the main board ("on GS1"), else what is live at all."""
    circuit, situation = studies.circuit, studies.situation
    boards = [p for p in design.parts if design.kind(p).board]
    boards.sort(key=lambda p: (-len(design.seated_in(p.id)), p.designation))
    for board in boards:
        nodes = circuit.terminals[board.id, "feed"]
        if "N" not in nodes:
            continue
        owners = {
            s.owner for pole in nodes if pole.startswith("L") for s in situation.feeds(nodes[pole])
        }
        if owners:
            return "on " + " and ".join(sorted(source_word(design, o) for o in owners))
        return "board dead"
    owners = {s.owner for s in situation.systems}
    return (
        "on " + " and ".join(sorted(source_word(design, o) for o in owners))
        if owners
        else "all off"
    )


def source_word(design: Design, part_id: str) -> str:
    """A source as a person calls it: its title, else its designation."""
    part = design.part(part_id)
    return part.title or part.designation


def report(design: Design, studies: Studies, key: str, title: str, case: str) -> StateReport:
    """The report of one state of one case. NotSolved passes on."""
    circuit, situation, state = studies.circuit, studies.situation, studies.state
    loaded = studies.loaded
    live = {
        place: tuple(sorted({s.owner for node in nodes.values() for s in situation.feeds(node)}))
        for place, nodes in circuit.terminals.items()
    }
    return StateReport(
        key,
        title,
        case,
        tuple((part, selector, position) for (part, selector), position in state.free),
        dict(state.positions),
        state.passing[0] if state.passing else "",
        (),
        {place: owners for place, owners in live.items() if owners},
        _live_runs(studies),
        tuple(
            BondReport(n.owners, n.is_ac, tuple(b.owner for b in n.bonds), bool(n.ring))
            for n in studies.neutrals
        ),
        _loads(studies),
        _sources(studies),
        _run_amps(studies),
        _run_drops(studies),
        _run_devices(studies),
        _ground_amps(studies),
        {circuit.sensors[i].owner: 1000.0 * a for i, a in loaded.residual_a.items()},
        _device_faults(studies),
        tuple(_faults(studies)),
        tuple(studies.readings),
        _volts(studies),
        loaded.solved,
        loaded.cause,
    )


def _live_runs(studies: Studies) -> dict[str, tuple[str, ...]]:
    found: dict[str, set[str]] = {}
    for branch in studies.situation.branches:
        if branch.sort == "run":
            owners = {s.owner for s in studies.situation.feeds(branch.a)}
            if owners:
                found.setdefault(branch.owner, set()).update(owners)
    return {run: tuple(sorted(owners)) for run, owners in found.items()}


def _loads(studies: Studies) -> tuple[LoadReport, ...]:
    out = []
    fed = studies.energised.fed
    for index, load in enumerate(studies.circuit.loads):
        volts = studies.loaded.load_v.get(index, 0.0)
        amps = studies.loaded.load_a.get(index, 0.0)
        out.append(LoadReport(load.owner, volts, amps, load.data.volts, fed.get(index, ())))
    return tuple(out)


def _sources(studies: Studies) -> tuple[SourceReport, ...]:
    sources, loaded = studies.circuit.sources, studies.loaded
    return tuple(
        SourceReport(
            sources[i].owner,
            sources[i].data.name,
            loaded.source_w[i],
            abs(loaded.source_a[i]),
            sources[i].data.rated_a,
            sources[i].data.hertz,
        )
        for i in sorted(loaded.source_w)
    )


def _run_amps(studies: Studies) -> dict[tuple[str, str], float]:
    """Of several conductors of a run that begin on one pole the one that carries most."""
    found: dict[tuple[str, str], float] = {}
    for i in studies.situation.closed:
        branch = studies.circuit.branches[i]
        if branch.sort == "run":
            key = branch.owner, branch.pole
            found[key] = max(found.get(key, 0.0), studies.loaded.amps(i))
    return found


def _run_drops(studies: Studies) -> dict[str, float]:
    """Voltage lost in the live and return conductors of each run, by magnitude."""
    found: dict[str, float] = {}
    for i in studies.situation.closed:
        branch = studies.circuit.branches[i]
        if branch.sort == "run" and not is_protective(Pole(branch.pole)):
            ohm = math.hypot(branch.r_hot, branch.x)
            found[branch.owner] = found.get(branch.owner, 0.0) + studies.loaded.amps(i) * ohm
    return found


def _run_devices(studies: Studies) -> dict[str, str]:
    found: dict[str, str] = {}
    for feed in studies.feeds:
        device = smallest(studies.situation, feed)
        found.setdefault(feed.run, device.owner if device is not None else "")
    return found


def _ground_amps(studies: Studies) -> dict[str, float]:
    found: dict[str, float] = {}
    for i in studies.situation.closed:
        branch = studies.circuit.branches[i]
        if branch.sort == "bond" or branch.pole in ("PE", "body"):
            amps = studies.loaded.amps(i)
            if amps > studies.loaded.floor_a:
                found[branch.owner] = max(found.get(branch.owner, 0.0), amps)
    return found


def _device_faults(studies: Studies) -> dict[str, float]:
    found: dict[str, float] = {}
    for fault in studies.faults:
        for index, amps in fault.strong.device_a.pairs():
            owner = studies.circuit.devices[index].owner
            found[owner] = max(found.get(owner, 0.0), amps)
    return found


def _faults(studies: Studies) -> list[FaultReport]:
    out = []
    for index, fault in enumerate(studies.faults):
        end = studies.ending(index)
        out.append(_fault(studies, fault, end))
    return out


def _fault(studies: Studies, fault: Fault, end: Ending) -> FaultReport:
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
    )


def _volts(studies: Studies) -> dict[str, dict[tuple[str, str, str], complex]]:
    found: dict[str, dict[tuple[str, str, str], complex]] = {}
    for hertz, solution in studies.loaded.volts.items():
        islands = studies.situation.network(hertz, IN_USE).islands
        volts = solution.tolist()
        defined = [label in islands.defined for label in islands.label]
        found[f"{hertz:g}"] = {
            (part, terminal, pole): volts[node]
            for (part, terminal), nodes in studies.circuit.terminals.items()
            for pole, node in nodes.items()
            if defined[node]
        }
    return found
