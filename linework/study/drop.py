"""Voltage lost between a source and a load, or what an outlet would lose, run by run."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from linework.circuit.model import FaceAt, Load
from linework.circuit.network import Complex
from linework.study.loaded import Loaded
from linework.study.paths import way
from linework.study.potentials import open_volts
from linework.study.protection import device_of_branch
from linework.study.situation import Situation, System
from linework.wiring import Pole, is_ungrounded

OUTLET_SHARE = 0.8
"""Part of its circuit's rating at which an outlet without a load is judged (practice)."""


@dataclass(frozen=True)
class Drop:
    """What is lost on the way, in volt.

    ``source_v`` at the source's terminals, ``load_v`` at the load; ``branch_v`` lost behind the
    last overcurrent device. ``runs``: volts lost in each run, out and back; ``branch_runs``
    those behind the last device. ``known``: every conductor has its size and length.
    """

    source_v: float
    load_v: float
    branch_v: float
    runs: dict[str, float] = field(default_factory=dict)
    branch_runs: tuple[str, ...] = ()
    known: bool = True

    @property
    def total_share(self) -> float:
        """Part of the source's voltage that is lost."""
        return 1.0 - self.load_v / self.source_v

    @property
    def branch_share(self) -> float:
        """Part of the source's voltage that is lost behind the last device."""
        return self.branch_v / self.source_v

    @property
    def worst_run(self) -> str:
        """The run that loses most, of those behind the last device where there are any."""
        among = self.branch_runs or tuple(self.runs)
        return max(among, key=lambda run: self.runs[run], default="")


@dataclass(frozen=True)
class _Way:
    """The way of one conductor from source to load: oriented branches, and where it starts."""

    start: int
    steps: tuple[tuple[int, int, int], ...]  # branch, node nearer the source, node further


def load_drop(situation: Situation, loaded: Loaded, load: Load) -> Drop | None:
    """The drop of a load with all drawn loads on; None where no source feeds it."""
    # Turned where live and return conductor are exchanged, which another finding tells.
    a, b = (load.a, load.b) if situation.feeds(load.a) else (load.b, load.a)
    ways = _ways(situation, a, b)
    volts = _volts_of(loaded, load)
    if ways is None or volts is None:
        return None
    out, back = ways
    at_source, at_load = volts[out.start] - volts[back.start], volts[a] - volts[b]
    if not abs(at_source) > 0.0:
        return None
    branch = _branch_runs(situation, out)
    lost: dict[str, complex] = {}
    for sign, conductor in ((1.0, out), (-1.0, back)):
        for owner, near, far in _run_steps(situation, conductor):
            lost[owner] = lost.get(owner, 0j) + sign * complex(volts[near] - volts[far])
    # What a run loses is told along the voltage at the load, so that the shares add up.
    toward = at_load / abs(at_load) if abs(at_load) > 0.0 else 1.0 + 0j
    behind = abs(at_load + sum(lost[run] for run in branch)) - abs(at_load)
    return Drop(
        float(abs(at_source)),
        float(abs(at_load)),
        float(behind),
        {run: float((value / toward).real) for run, value in lost.items()},
        branch,
        _known(situation, (out, back)),
    )


def outlet_drop(situation: Situation, face: FaceAt, amps: float) -> Drop | None:
    """The drop of an outlet that gives ``amps`` to a load of power factor one, alone.

    None where no source feeds it.
    """
    ends = _face_ends(face)
    ways = None if ends is None else _ways(situation, *ends)
    if ways is None or ends is None:
        return None
    out, back = ways
    hertz = next(s.hertz for s in situation.feeds(ends[0]))
    source_v = open_volts(situation, out.start, back.start, hertz)
    branch = _branch_runs(situation, out)
    lost: dict[str, float] = {}
    for conductor in (out, back):
        for i, _, _ in conductor.steps:
            found = situation.circuit.branches[i]
            if found.sort in ("run", "bond"):
                lost[found.owner] = lost.get(found.owner, 0.0) + found.r_hot * amps
    total = sum(lost.values())
    behind = sum(lost[run] for run in branch)
    known = _known(situation, (out, back))
    return Drop(source_v, source_v - total, behind, lost, branch, known)


def idle_faces(situation: Situation) -> list[FaceAt]:
    """The outlets into which nothing is plugged and from which nothing leads on."""
    taken = {node for _, load in situation.loads for node in (load.a, load.b)}
    taken |= {n for b in situation.branches if b.sort == "seat" for n in (b.a, b.b)}
    return [face for face in situation.circuit.faces if not taken & set(face.nodes.values())]


def _face_ends(face: FaceAt) -> tuple[int, int] | None:
    lines = [node for pole, node in face.nodes.items() if is_ungrounded(Pole(pole))]
    returns = [node for pole, node in face.nodes.items() if pole in (Pole.N, Pole.NEG)]
    ends = [*lines[:1], *returns[:1]] if returns else lines[:2]
    return (ends[0], ends[1]) if len(ends) == 2 else None


def _ways(situation: Situation, a: int, b: int) -> tuple[_Way, _Way] | None:
    """From the source out to ``a``, and from where its return begins to ``b``."""
    sources = situation.circuit.sources
    for system in sorted(situation.feeds(a), key=lambda s: _rank(situation, s.source)):
        source = sources[system.source]
        out = _way(situation, source.plus, a)
        back = _way(situation, source.minus, b) or _other_start(situation, system, b)
        back = back or _way(situation, source.minus, b, bonds=True)  # a return through a chassis
        if out is not None and back is not None:
            return out, back
    return None


def _other_start(situation: Situation, system: System, b: int) -> _Way | None:
    """From another leg of the same source, or from the other end of batteries in series."""
    sources = situation.circuit.sources
    starts = [sources[s.source].plus for s in situation.feeds(b) if s.owner == system.owner]
    starts += [sources[s.source].minus for s in situation.returns(b) if s.hertz == system.hertz]
    return next((found for start in starts if (found := _way(situation, start, b))), None)


def _rank(situation: Situation, source: int) -> tuple[bool, int]:
    """Batteries and generators before chargers, which do not hold the voltage."""
    return situation.circuit.sources[source].data.group == "charger", source


def _way(situation: Situation, start: int, goal: int, bonds: bool = False) -> _Way | None:
    steps = way(situation, start, goal, bonds)
    if steps is None:
        return None
    node, oriented = start, []
    for i in steps:
        branch = situation.circuit.branches[i]
        other = branch.b if branch.a == node else branch.a
        oriented.append((i, node, other))
        node = other
    return _Way(start, tuple(oriented))


def _run_steps(situation: Situation, conductor: _Way) -> Iterable[tuple[str, int, int]]:
    branches = situation.circuit.branches
    return [
        (branches[i].owner, near, far)
        for i, near, far in conductor.steps
        if branches[i].sort in ("run", "bond")
    ]


def _branch_runs(situation: Situation, out: _Way) -> tuple[str, ...]:
    """The runs behind the last overcurrent device of a way; all where it passes none."""
    devices, branches = device_of_branch(situation), situation.circuit.branches
    last = max((at for at, (i, _, _) in enumerate(out.steps) if i in devices), default=-1)
    behind = [branches[i] for i, _, _ in out.steps[last + 1 :]]
    return tuple(dict.fromkeys(b.owner for b in behind if b.sort == "run"))


def _volts_of(loaded: Loaded, load: Load) -> Complex | None:
    """The solution of the frequency that the load is made for, else of any that there is."""
    direct = load.data.hertz == 0.0
    fitting = [volts for hertz, volts in loaded.volts.items() if (hertz == 0.0) == direct]
    return next(iter(fitting), None)


def _known(situation: Situation, ways: Iterable[_Way]) -> bool:
    return all(situation.circuit.branches[i].known for w in ways for i, _, _ in w.steps)
