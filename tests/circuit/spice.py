"""Another solver: writes what is in circuit as a netlist and has ngspice (BSD licence) solve it.

Takes the expanded circuit in its state, never the program's own matrix: elements, islands and
counted leaks are worked out here a second time.
"""

from __future__ import annotations

import cmath
import math
import os
import re
import shutil
import subprocess
from collections import defaultdict
from collections.abc import Iterable, Mapping
from pathlib import Path

import networkx as nx
import pytest

from linework.circuit.incircuit import InCircuit
from linework.circuit.model import Load

LEAST_LEAK_S = 1e-7
"""As the design of the program says: a leak below this holds nothing to a potential."""

Injection = tuple[int, int, complex]
"""Current in ampere that leaves the first node and enters the second, from outside."""


def ngspice(netlist: str | Path) -> str:
    """What ngspice prints in batch mode. Without ngspice the test is skipped, in CI it fails."""
    program = shutil.which("ngspice")
    if program is None:
        if "CI" in os.environ:
            pytest.fail("ngspice is not installed; .ci/run installs it (Debian: ngspice)")
        pytest.skip("ngspice is not installed (Debian: apt-get install ngspice)")
    text = netlist.read_text() if isinstance(netlist, Path) else netlist
    result = subprocess.run(
        [program, "-b"], input=text, capture_output=True, text=True, check=False, timeout=60
    )
    assert result.returncode == 0, result.stderr
    assert "rror" not in result.stderr, result.stderr
    return result.stdout


def printed(output: str) -> dict[str, float]:
    """The lines "name = value" of an output."""
    found = re.findall(r"^(\S.*?) = (-?[\d.]+e[+-]\d+)\s*$", output, re.MULTILINE)
    return {name: float(value) for name, value in found}


class Netlist:
    """What is in circuit at one frequency, element by element."""

    def __init__(self, here: InCircuit, hertz: float) -> None:
        self.here, self.hertz = here, hertz
        self.lines: list[str] = []
        self.graph = nx.Graph()

    def _name(self, letter: str) -> str:
        return f"{letter}{len(self.lines)}"

    def impedance(self, a: int, b: int, r: float, x: float) -> None:
        """A resistance in series with a reactance at this frequency, in ohm."""
        self.graph.add_edge(a, b)
        if x == 0.0 or self.hertz == 0.0:
            self.lines.append(f"{self._name('R')} n{a} n{b} {r!r}")
            return
        middle = f"m{len(self.lines)}"
        self.lines.append(f"{self._name('R')} n{a} {middle} {r!r}")
        henry = x / (2.0 * math.pi * self.hertz)
        self.lines.append(f"{self._name('L')} {middle} n{b} {henry!r}")

    def source(self, plus: int, minus: int, emf: complex, r: float, x: float) -> None:
        """An electromotive force behind an impedance."""
        self.graph.add_edge(plus, minus)
        inner = f"s{len(self.lines)}"
        magnitude, angle = abs(emf), math.degrees(cmath.phase(emf))
        value = f"dc {emf.real!r}" if self.hertz == 0.0 else f"dc 0 ac {magnitude!r} {angle!r}"
        self.lines.append(f"{self._name('V')} {inner} n{minus} {value}")
        outer = f"t{len(self.lines)}"
        self.lines.append(f"{self._name('R')} {inner} {outer} {r!r}")
        henry = x / (2.0 * math.pi * self.hertz) if self.hertz else 0.0
        self.lines.append(f"{self._name('L')} {outer} n{plus} {henry!r}")

    def load(self, load: Load) -> None:
        """The impedance of a load at its rated voltage: U^2 / conj(S), as r and x in series."""
        reactive = load.data.watts * math.tan(math.acos(load.data.power_factor))
        z = load.data.volts**2 / complex(load.data.watts, -reactive)
        self.impedance(load.a, load.b, z.real, z.imag)

    def power(self, load: Load, watts: float) -> None:
        """A load on direct current that keeps its power: not linear, left to the simulator.

        Not below a third of its rated voltage, where there would be a second solution.
        """
        a, b = load.a, load.b
        self.graph.add_edge(a, b)
        across = f"v(n{a})-v(n{b})"
        least = load.data.volts / 3.0
        self.lines.append(f"{self._name('B')} n{a} n{b} I={watts!r}/max({across},{least!r})")

    def filament(self, load: Load) -> None:
        """A lamp on direct current whose current rises with voltage to the power 0.6."""
        self.graph.add_edge(load.a, load.b)
        share = f"abs(v(n{load.a})-v(n{load.b}))/{load.data.volts!r}"
        rated = load.data.watts / load.data.volts
        self.lines.append(
            f"{self._name('B')} n{load.a} n{load.b} I={rated!r}*pow(max({share},1e-3),0.6)"
        )

    def leak(self, a: int, b: int, farad: float, siemens: float) -> None:
        """Capacitance, on direct current insulation."""
        if self.hertz == 0.0:
            self.impedance(a, b, 1.0 / siemens, 0.0)
            return
        self.graph.add_edge(a, b)
        self.lines.append(f"{self._name('C')} n{a} n{b} {farad!r}")

    def inject(self, items: Iterable[Injection]) -> None:
        """Currents from outside."""
        for a, b, amps in items:
            current = complex(amps)  # numpy's own numbers write themselves otherwise
            magnitude, angle = abs(current), math.degrees(cmath.phase(current))
            value = f"dc {current.real!r}" if self.hertz == 0.0 else f"ac {magnitude!r} {angle!r}"
            self.lines.append(f"{self._name('I')} n{a} n{b} {value}")

    def text(self) -> str:
        """The whole netlist; each island is tied to node 0 at one place."""
        ties = [
            f"Rtie{i} n{next(iter(island))} 0 1"
            for i, island in enumerate(nx.connected_components(self.graph))
        ]
        analysis = "op" if self.hertz == 0.0 else f"ac lin 1 {self.hertz!r} {self.hertz!r}"
        volts = [f"print v(n{node})" for node in sorted(self.graph)]
        options = ".options reltol=1e-9 vntol=1e-9 abstol=1e-12 itl1=1000"
        control = [
            options,
            ".control",
            "set numdgt=14",
            analysis,
            *volts,
            "quit 0",
            ".endc",
            ".end",
        ]
        return "\n".join(["* what is in circuit", *self.lines, *ties, *control, ""])

    def solve(self) -> dict[int, complex]:
        """Potential of every node that an element touches, in volt, each island from its own."""
        output = ngspice(self.text())
        found = {}
        for node, real, imag in re.findall(
            r"^v\(n(\d+)\) = (-?[\d.]+e[+-]\d+)(?:,(-?[\d.]+e[+-]\d+))?", output, re.MULTILINE
        ):
            found[int(node)] = complex(float(real), float(imag or 0.0))
        assert found.keys() == set(self.graph.nodes), output
        return found


def netlist(
    here: InCircuit,
    hertz: float,
    source_ohm: Mapping[int, complex],
    *,
    hot: bool,
    loads: bool,
    outside: Iterable[Injection] = (),
    held: Iterable[int] = (),
) -> Netlist:
    """A circuit in a state at one frequency.

    ``source_ohm``: internal impedance of each source that is on. ``held``: sources that only
    give a current, which is among ``outside``.
    """
    net = Netlist(here, hertz)
    scale = hertz / here.circuit.hertz
    for i in sorted(here.closed):
        branch = here.circuit.branches[i]
        r = branch.r_hot if hot else branch.r_cold
        net.impedance(branch.a, branch.b, r, branch.x * scale)
    for i, source in here.active:
        if i in held:
            continue
        z = source_ohm[i]
        phase = cmath.rect(1.0, math.radians(source.data.phase_deg))
        emf = source.data.volts * phase if source.data.hertz == hertz else 0j
        net.source(source.plus, source.minus, emf, z.real, z.imag)
    for _, load in here.loads if loads else ():
        made_dc = load.data.hertz == 0.0
        if load.data.watts > 0.0 and made_dc == (hertz == 0.0):
            if load.data.model == "lamp":
                net.filament(load)
            else:
                net.load(load)
    _leaks(net, here, hertz)
    net.inject(outside)
    return net


def _leaks(net: Netlist, here: InCircuit, hertz: float) -> None:
    total: dict[tuple[int, int], list[float]] = defaultdict(lambda: [0.0, 0.0])
    for leak in here.leaks:
        pair = total[min(leak.a, leak.b), max(leak.a, leak.b)]
        pair[0] += leak.farad
        pair[1] += leak.siemens
    for (a, b), (farad, siemens) in total.items():
        if (2.0 * math.pi * hertz * farad if hertz else siemens) >= LEAST_LEAK_S:
            net.leak(a, b, farad, siemens)
