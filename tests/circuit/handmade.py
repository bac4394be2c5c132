"""Circuits put together by hand, for what no kind of part can draw yet (rings, three phases)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linework.circuit.incircuit import InCircuit
from linework.circuit.model import Branch, Circuit, LiveSource, Load, Spot
from linework.circuit.states import State
from linework.wiring import Source, Three

Wire = tuple[str, str, complex]
Emf = tuple[str, str, float, float]
"""Plus, minus, volts, degrees."""


class Handmade:
    """Named nodes joined by impedances and ideal sources; the node "0" is earth."""

    def __init__(self, hertz: float, wires: Sequence[Wire], emfs: Sequence[Emf]) -> None:
        names = dict.fromkeys(n for item in (*wires, *emfs) for n in item[:2])
        self.node = {name: i for i, name in enumerate(names)}
        spots = tuple(
            (Spot("@", "", "earth") if name == "0" else Spot("P", "t", name),) for name in names
        )
        self.here = InCircuit(
            Circuit(
                node_of={spot: i for i, (spot,) in enumerate(spots)},
                spots=spots,
                branches=tuple(self._branch(i, *wire) for i, wire in enumerate(wires)),
                sources=tuple(self._source(hertz, i, *emf) for i, emf in enumerate(emfs)),
                loads=(),
                leakages=(),
                devices=(),
                sensors=(),
                metals=(),
                pins=(),
                faces=(),
                conversions=(),
                selectors={},
                terminals={},
                hertz=hertz or 60.0,
            ),
            State((), {}),
        )

    def with_loads(self, loads: tuple[Load, ...]) -> Circuit:
        """The circuit with loads."""
        return replace(self.here.circuit, loads=loads)

    def _branch(self, index: int, a: str, b: str, z: complex) -> Branch:
        r, x = z.real, z.imag
        return Branch("W", str(index), self.node[a], self.node[b], r, r, x, "run")

    def _source(
        self, hertz: float, index: int, plus: str, minus: str, volts: float, deg: float
    ) -> LiveSource:
        none, least = Three.exactly(0.0), Three.exactly(1e-7)
        data = Source(
            str(index), ("t", plus), ("t", minus), volts, hertz, least, none, phase_deg=deg
        )
        return LiveSource("P", data, self.node[plus], self.node[minus], ())
