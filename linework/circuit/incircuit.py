"""What of a circuit is in circuit in one state, worked out once for everybody who asks."""

from __future__ import annotations

from functools import cached_property

from linework.circuit.model import Branch, Circuit, Leakage, LiveSource, Load
from linework.circuit.states import State
from linework.circuit.unions import joined


class InCircuit:
    """A circuit in one operating state. Indices are those of the circuit's tuples."""

    def __init__(self, circuit: Circuit, state: State) -> None:
        self.circuit, self.state = circuit, state

    @cached_property
    def closed(self) -> frozenset[int]:
        """Indices of the branches in circuit."""
        holds = self.state.holds
        return frozenset(i for i, b in enumerate(self.circuit.branches) if holds(b.when))

    @cached_property
    def branches(self) -> list[Branch]:
        """The branches in circuit."""
        return [self.circuit.branches[i] for i in sorted(self.closed)]

    @cached_property
    def active(self) -> list[tuple[int, LiveSource]]:
        """The sources that are on."""
        holds = self.state.holds
        return [(i, s) for i, s in enumerate(self.circuit.sources) if holds(s.when)]

    @cached_property
    def loads(self) -> list[tuple[int, Load]]:
        """The loads in circuit."""
        holds = self.state.holds
        return [(i, x) for i, x in enumerate(self.circuit.loads) if holds(x.when)]

    @cached_property
    def leaks(self) -> list[Leakage]:
        """The leakage paths in circuit."""
        holds = self.state.holds
        return [leak for leak in self.circuit.leakages if leak.a != leak.b and holds(leak.when)]

    @cached_property
    def conductive(self) -> list[int]:
        """For each node the label of what conductors, contacts and bonds join it to."""
        return joined(len(self.circuit.spots), ((b.a, b.b) for b in self.branches))
