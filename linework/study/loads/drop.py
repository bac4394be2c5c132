"""Voltage lost between a source and a load, or what an outlet would lose, run by run."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from linework.circuit.incircuit import LINKS
from linework.circuit.model import FaceAt, LiveSource, Load
from linework.circuit.network import Complex
from linework.study.loads.loaded import Loaded
from linework.study.loads.potentials import open_volts
from linework.study.loads.sun import Row, rows_before
from linework.study.situation import Situation, System
from linework.study.ways.paths import Ways
from linework.wiring import Pole, is_ungrounded

_WIRES = ("run", "cord", "bond")
"""What loses voltage on the way; the cord of a cord set goes by the id of that part."""


@dataclass(frozen=True)
class Drop:
    """What is lost on the way, in volt.

    ``source_v`` at the source's terminals, ``load_v`` at the load; ``branch_v`` lost behind the
    last overcurrent device. ``runs``: volts lost in each run, or cord set by its part, out and
    back; ``branch_runs`` those behind the last device. ``known``: every conductor has its size
    and length.
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
    def feeder_runs(self) -> tuple[str, ...]:
        """The runs before the last device."""
        return tuple(run for run in self.runs if run not in self.branch_runs)

    @property
    def feeder_share(self) -> float:
        """Part of the source's voltage that is lost before the last device, contacts included."""
        return self.total_share - self.branch_share if self.feeder_runs else 0.0

    @property
    def worst_run(self) -> str:
        """The run that loses most on the whole way; "" without any."""
        return self.worst_of(tuple(self.runs))

    def worst_of(self, among: tuple[str, ...]) -> str:
        """The run that loses most among some; "" without any."""
        return max(among, key=lambda run: self.runs[run], default="")


@dataclass(frozen=True)
class _Way:
    """The way of one conductor from source to load: oriented branches, and where it starts."""

    start: int
    steps: tuple[tuple[int, int, int], ...]  # branch, node nearer the source, node further
    ohm: float

    @property
    def away(self) -> tuple[int, float]:
        """How far the load is: conductors, then their resistance."""
        return len(self.steps), self.ohm


@dataclass(frozen=True)
class _Fed:
    """The ways from one source winding out to a load and back."""

    source: LiveSource
    out: _Way
    back: _Way

    @property
    def rank(self) -> tuple[bool, int, float, float]:
        """Batteries and generators before chargers, which do not hold the voltage; then the
        nearest, then the highest voltage."""
        steps = len(self.out.steps) + len(self.back.steps)
        ohm = self.out.ohm + self.back.ohm
        return self.source.data.group.charges, steps, ohm, -self.source.data.volts


class Drops:
    """The drops of one state; ways that several loads share are searched once."""

    def __init__(self, situation: Situation) -> None:
        self.situation = situation
        self._devices = situation.circuit.device_of
        self._search = Ways(situation)

    def load(self, loaded: Loaded, load: Load) -> Drop | None:
        """The drop of a load with all drawn loads on; None where no source feeds it."""
        # Turned where live and return conductor are exchanged, which another finding tells.
        a, b = (load.a, load.b) if self.situation.feeds(load.a) else (load.b, load.a)
        volts = _volts_of(loaded, load)
        return None if volts is None else self._between(volts, a, b)

    def _between(self, volts: Complex, a: int, b: int, but: str = "") -> Drop | None:
        """The drop between two nodes by the potentials there; ``but``: not from this part."""
        fed = self._fed(a, b, but)
        if fed is None:
            return None
        out, back = fed.out, fed.back
        at_source, at_load = volts[out.start] - volts[back.start], volts[a] - volts[b]
        if not abs(at_source) > 0.0:
            return None
        branch = self._branch_runs(out)
        lost: dict[str, complex] = {}
        for sign, conductor in ((1.0, out), (-1.0, back)):
            for i, near, far in self._wires(conductor):
                owner = self.situation.circuit.branches[i].owner
                lost[owner] = lost.get(owner, 0j) + sign * complex(volts[near] - volts[far])
        # What a run loses is told along the voltage at the load, so that the shares add up.
        toward = at_load / abs(at_load) if abs(at_load) > 0.0 else 1.0 + 0j
        behind = abs(at_load + sum(lost[run] for run in branch)) - abs(at_load)
        drop = Drop(
            float(abs(at_source)),
            float(abs(at_load)),
            float(behind),
            {run: float((value / toward).real) for run, value in lost.items()},
            branch,
            self._known(out, back),
        )
        if not fed.source.primary:
            return drop
        one, other = fed.source.primary
        before = self._between(volts, one, other, fed.source.owner)
        return self._through(fed, drop, before, 1.0)

    def _through(self, fed: _Fed, drop: Drop, before: Drop | None, amps: float) -> Drop:
        """A drop behind a transformer and the one before it, seen from behind; ``amps``: those
        before over those behind that ``before`` counts with."""
        if before is None:
            return drop
        turns = self._turns(fed)
        runs = dict(drop.runs)
        for run, volts in before.runs.items():
            runs[run] = runs.get(run, 0.0) + volts * turns * amps
        source_v = before.source_v * turns
        load_v = drop.load_v - (before.source_v - before.load_v) * turns * amps
        alone = not any(i in self._devices for i, _, _ in fed.out.steps)
        return Drop(
            source_v,
            drop.load_v if amps == 1.0 else load_v,
            drop.branch_v + before.branch_v * turns * amps * alone,
            runs,
            (*drop.branch_runs, *before.branch_runs) if alone else drop.branch_runs,
            drop.known and before.known,
        )

    def _turns(self, fed: _Fed) -> float:
        """Turns between the two ends of a way behind a transformer over those of its primary."""
        legs = [
            s
            for _, s in self.situation.active
            if s.owner == fed.source.owner and s.plus in (fed.out.start, fed.back.start)
        ]
        return sum(leg.data.turns for leg in legs)

    def outlet(self, face: FaceAt, amps: float) -> Drop | None:
        """The drop of an outlet that gives ``amps`` to a load of power factor one, alone.

        None where no source feeds it.
        """
        ends = _face_ends(face)
        return None if ends is None else self.carrying(*ends, amps)

    def carrying(self, a: int, b: int, amps: float) -> Drop | None:
        """The drop of ``amps`` of power factor one from ``a`` to ``b``, with nothing else on, the
        wires hot. None where no source feeds them.
        """
        branches = self.situation.circuit.branches
        return self.losing(a, b, lambda i: branches[i].r_hot * amps)

    def losing(self, a: int, b: int, volts: Callable[[int], float], but: str = "") -> Drop | None:
        """The drop from ``a`` to ``b`` where each wire (branch, by index) loses so many volts.

        None where no source feeds them, but one of the part ``but``.
        """
        fed = self._fed(a, b, but)
        if fed is None:
            return None
        out, back = fed.out, fed.back
        source_v = open_volts(self.situation, out.start, back.start, fed.source.data.hertz)
        branch = self._branch_runs(out)
        lost: dict[str, float] = {}
        for conductor in (out, back):
            for i, _, _ in self._wires(conductor):
                wire = self.situation.circuit.branches[i]
                lost[wire.owner] = lost.get(wire.owner, 0.0) + volts(i)
        total, behind = sum(lost.values()), sum(lost[run] for run in branch)
        drop = Drop(source_v, source_v - total, behind, lost, branch, self._known(out, back))
        if not fed.source.primary:
            return drop
        one, other = fed.source.primary
        before = self.losing(one, other, volts, fed.source.owner)
        return self._through(fed, drop, before, self._turns(fed))

    def _fed(self, a: int, b: int, but: str = "") -> _Fed | None:
        """From the source out to ``a``, and from where its return begins to ``b``."""
        feeding = (s for s in self.situation.feeds(a) if s.owner != but)
        ways = (self._from(system, a, b) for system in feeding)
        return min((found for found in ways if found), key=lambda fed: fed.rank, default=None)

    def _from(self, system: System, a: int, b: int) -> _Fed | None:
        source = self.situation.circuit.sources[system.source]
        out = self._way(source.plus, a)
        back = self._way(source.minus, b) or self._other_start(system, b)
        back = back or self._way(source.minus, b, bonds=True)  # a return through a chassis
        return None if out is None or back is None else _Fed(source, out, back)

    def _other_start(self, system: System, b: int) -> _Way | None:
        """From another leg of the same source, or from the other end of batteries in series."""
        sources, situation = self.situation.circuit.sources, self.situation
        starts = [sources[s.source].plus for s in situation.feeds(b) if s.owner == system.owner]
        same = [s for s in situation.returns(b) if s.hertz == system.hertz]
        starts += [sources[s.source].minus for s in same]
        ways = (self._way(start, b) for start in starts)
        return min((found for found in ways if found), key=lambda way: way.away, default=None)

    def _way(self, start: int, goal: int, bonds: bool = False) -> _Way | None:
        steps = self._search.way(start, goal, bonds)
        if steps is None:
            return None
        node, oriented, ohm = start, [], 0.0
        for i in steps:
            branch = self.situation.circuit.branches[i]
            other = branch.b if branch.a == node else branch.a
            oriented.append((i, node, other))
            node, ohm = other, ohm + branch.r_hot
        return _Way(start, tuple(oriented), ohm)

    def _wires(self, conductor: _Way) -> list[tuple[int, int, int]]:
        branches = self.situation.circuit.branches
        return [step for step in conductor.steps if branches[step[0]].sort in _WIRES]

    def _branch_runs(self, out: _Way) -> tuple[str, ...]:
        """The runs behind the last overcurrent device of a way; all where it passes none."""
        branches = self.situation.circuit.branches
        passed = [at for at, (i, _, _) in enumerate(out.steps) if i in self._devices]
        behind = [branches[i] for i, _, _ in out.steps[max(passed, default=-1) + 1 :]]
        return tuple(dict.fromkeys(b.owner for b in behind if b.sort in ("run", "cord")))

    def _known(self, *ways: _Way) -> bool:
        branches = self.situation.circuit.branches
        return all(branches[i].known for found in ways for i, _, _ in found.steps)


def converter_inputs(situation: Situation) -> list[tuple[Load, float]]:
    """The direct-current input of each inverter in circuit, with what it takes at its full rating
    and its nominal voltage, in ampere."""
    circuit = situation.circuit
    drawn = {i for i, _ in situation.loads}
    watts: dict[int, float] = {}
    for conversion in circuit.conversions:
        source, load = circuit.sources[conversion.source].data, circuit.loads[conversion.load].data
        if conversion.load in drawn and source.hertz > 0.0 and load.hertz == 0.0:
            given = source.volts * (source.rated_a or 0.0) / conversion.data.efficiency
            before = watts.get(conversion.load, 0.0)
            watts[conversion.load] = before + given + conversion.data.idle_w
    return [(circuit.loads[i], w / circuit.loads[i].data.volts) for i, w in watts.items()]


@dataclass(frozen=True)
class Sunny:
    """The input of a charge controller in the sun, with the current that its arrays drive there at
    their greatest power, in ampere, and their voltage then, in volt; the arrays behind it."""

    load: Load
    amps: float
    volts: float
    arrays: tuple[Row, ...]


def array_inputs(situation: Situation) -> list[Sunny]:
    """Each controller in the sun; of several arrays the lowest voltage counts."""
    circuit, found = situation.circuit, []
    for conversion in circuit.conversions:
        arrays = tuple(rows_before(situation, conversion))
        if arrays:
            amps = sum(row.amps for row in arrays)
            volts = min(row.volts for row in arrays)
            found.append(Sunny(circuit.loads[conversion.load], amps, volts, arrays))
    return found


def sunny_a(situation: Situation, sunny: Sunny, branch: int) -> float:
    """The current in ampere in a branch on the way: of the arrays that the controller loses when it
    opens; of all where another way leads past it."""
    label = situation.labels_without(frozenset({branch}), LINKS)
    load = sunny.load
    lost = [
        row.amps
        for row in sunny.arrays
        if label[row.plus] != label[load.a] or label[row.minus] != label[load.b]
    ]
    return sum(lost) or sunny.amps


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


def _volts_of(loaded: Loaded, load: Load) -> Complex | None:
    """The solution of the frequency that the load is made for, else of any that there is."""
    direct = load.data.hertz == 0.0
    fitting = [volts for hertz, volts in loaded.volts.items() if (hertz == 0.0) == direct]
    return next(iter(fitting), None)
