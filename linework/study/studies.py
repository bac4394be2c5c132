"""All studies of one situation, each done once and only when asked for."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field
from functools import cached_property

from linework.circuit.content import Contents
from linework.circuit.incircuit import Extent
from linework.circuit.model import Circuit
from linework.circuit.network import NotSolved
from linework.circuit.states import State
from linework.study.energised import Energised, energised
from linework.study.loads.demand import Demand
from linework.study.loads.loaded import Loaded, loaded
from linework.study.loads.starting import Start, starts
from linework.study.neutral.bonds import NeutralSystem, neutral_systems
from linework.study.shorts.clearing import Ending, ending
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from linework.study.tester import Reading, readings
from linework.study.ways.protection import Feed, feeds_of_runs


@dataclass
class Shorts:
    """Every short on the conductors of one source part, and what was worked out of how it ends."""

    faults: list[Fault]
    endings: dict[tuple[int, bool], Ending] = field(default_factory=dict)


class Studies:
    """The numbers of one live circuit in one case. Each property may raise NotSolved.

    ``state``: one in which it stands; ``extent``: what is in it (None: the whole state).
    ``known``: shorts by what decides them, shared by all that leave it as it is.
    """

    def __init__(
        self,
        circuit: Circuit,
        state: State,
        known: dict[Hashable, Shorts] | None = None,
        extent: Extent | None = None,
        contents: Contents | None = None,
    ) -> None:
        self.situation = Situation(circuit, state, extent, contents)
        self._known = {} if known is None else known

    @property
    def circuit(self) -> Circuit:
        """The circuit of this case."""
        return self.situation.circuit

    @property
    def state(self) -> State:
        """The operating state."""
        return self.situation.state

    @cached_property
    def energised(self) -> Energised:
        """What is live."""
        return energised(self.situation)

    @cached_property
    def neutrals(self) -> list[NeutralSystem]:
        """The live neutral systems with their bonds."""
        return neutral_systems(self.situation)

    @cached_property
    def feeds(self) -> list[Feed]:
        """Every live conductor of every run with the device that protects it."""
        return feeds_of_runs(self.situation)

    @cached_property
    def loaded(self) -> Loaded:
        """The drawn loads switched on."""
        try:
            return loaded(self.situation)
        except NotSolved as fault:
            return Loaded(solved=False, cause=str(fault))

    @cached_property
    def demand(self) -> Demand:
        """How much of each current flows long."""
        return Demand(self.situation, self.loaded)

    @cached_property
    def starts(self) -> list[Start]:
        """Every motor on alternating current, started while the other drawn loads run; none where
        these could not be worked out."""
        return starts(self.situation, self.loaded) if self.loaded.solved else []

    @cached_property
    def _shorts(self) -> list[tuple[Shorts, int]]:
        """Each short by where it is kept, source part by source part."""
        found: list[tuple[Shorts, int]] = []
        for owner in self.situation.owners:
            key = (owner, self.situation.system_content(owner))
            if key not in self._known:
                self._known[key] = Shorts(faults(self.situation, owner))
            shorts = self._known[key]
            found += [(shorts, i) for i in range(len(shorts.faults))]
        return found

    @cached_property
    def faults(self) -> list[Fault]:
        """Every short, source part by source part."""
        return [shorts.faults[i] for shorts, i in self._shorts]

    def ending(self, index: int, strong: bool = False) -> Ending:
        """What ends fault ``index``."""
        shorts, i = self._shorts[index]
        if (i, strong) not in shorts.endings:
            shorts.endings[i, strong] = ending(self.situation, shorts.faults[i], strong)
        return shorts.endings[i, strong]

    @cached_property
    def readings(self) -> list[Reading]:
        """What instruments show at the outlets."""
        return readings(self.situation)
