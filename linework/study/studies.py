"""All studies of one situation, each done once and only when asked for."""

from __future__ import annotations

from collections.abc import Hashable
from functools import cached_property

from linework.circuit.model import Circuit
from linework.circuit.network import NotSolved
from linework.circuit.states import State
from linework.study.bonds import NeutralSystem, neutral_systems
from linework.study.clearing import Ending, ending
from linework.study.energised import Energised, energised
from linework.study.faults import Fault, faults
from linework.study.loaded import Loaded, loaded
from linework.study.protection import Feed, feeds_of_runs
from linework.study.situation import Situation
from linework.study.tester import Reading, readings


class Studies:
    """The numbers of one state of one case. Each property may raise NotSolved."""

    def __init__(
        self, circuit: Circuit, state: State, known: dict[Hashable, list[Fault]] | None = None
    ) -> None:
        self.situation = Situation(circuit, state)
        self._known = {} if known is None else known
        self._endings: dict[tuple[int, bool], Ending] = {}

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
    def faults(self) -> list[Fault]:
        """Every short, source part by source part; what was worked out for an equal one is kept."""
        found: list[Fault] = []
        for owner in self.situation.owners:
            key = (owner, self.situation.system_content(owner))
            if key not in self._known:
                self._known[key] = faults(self.situation, owner)
            found += self._known[key]
        return found

    def ending(self, index: int, strong: bool = False) -> Ending:
        """What ends fault ``index``."""
        key = (index, strong)
        if key not in self._endings:
            self._endings[key] = ending(self.situation, self.faults[index], strong)
        return self._endings[key]

    @cached_property
    def readings(self) -> list[Reading]:
        """What instruments show at the outlets."""
        return readings(self.situation)
