"""Voltage lost between a source and a load, or what an outlet would lose, run by run."""

from __future__ import annotations

from dataclasses import dataclass, field

from linework.circuit.model import FaceAt, Load
from linework.circuit.network import Complex
from linework.study.loaded import Loaded
from linework.study.paths import Ways
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


class Drops:
    """The drops of one state; ways that several loads share are searched once."""

    def __init__(self, situation: Situation) -> None:
        self.situation = situation
        self._devices = device_of_branch(situation)
        self._search = Ways(situation)

    def load(self, loaded: Loaded, load: Load) -> Drop | None:
        """The drop of a load with all drawn loads on; None where no source feeds it."""
        # Turned where live and return conductor are exchanged, which another finding tells.
        a, b = (load.a, load.b) if self.situation.feeds(load.a) else (load.b, load.a)
        ways = self._ways(a, b)
        volts = _volts_of(loaded, load)
        if ways is None or volts is None:
            return None
        out, back = ways
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
        return Drop(
            float(abs(at_source)),
            float(abs(at_load)),
            float(behind),
            {run: float((value / toward).real) for run, value in lost.items()},
            branch,
            self._known(out, back),
        )

    def outlet(self, face: FaceAt, amps: float) -> Drop | None:
        """The drop of an outlet that gives ``amps`` to a load of power factor one, alone.

        None where no source feeds it.
        """
        ends = _face_ends(face)
        ways = None if ends is None else self._ways(*ends)
        if ways is None or ends is None:
            return None
        out, back = ways
        hertz = next(s.hertz for s in self.situation.feeds(ends[0]))
        source_v = open_volts(self.situation, out.start, back.start, hertz)
        branch = self._branch_runs(out)
        lost: dict[str, float] = {}
        for conductor in (out, back):
            for i, _, _ in self._wires(conductor):
                wire = self.situation.circuit.branches[i]
                lost[wire.owner] = lost.get(wire.owner, 0.0) + wire.r_hot * amps
        total, behind = sum(lost.values()), sum(lost[run] for run in branch)
        return Drop(source_v, source_v - total, behind, lost, branch, self._known(out, back))

    def _volts_of(loaded: Loaded, load: Load) -> Complex | None:
    """The solution of the frequency that the load is made for, else of any that there is."""
    direct = load.data.hertz == 0.0
    fitting = [volts for hertz, volts in loaded.volts.items() if (hertz == 0.0) == direct]
    return next(iter(fitting), None)
