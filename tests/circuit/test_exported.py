"""Whole designs, expanded and exported: ngspice gives the potential of every node to 0.1 %."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import networkx as nx
import pytest

from linework.circuit.network import IN_USE, STRONGEST, WEAKEST, Assumption
from linework.design import Design, Draft
from linework.storage import load
from linework.study.loads.loaded import Loaded, loaded
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from tests.circuit.spice import Netlist, netlist
from tests.designs import situation_of

SAMPLES = Path(__file__).parents[2] / "samples"
CLOSE = 1e-3


def source_ohm(situation: Situation, assumption: Assumption, scale: float) -> dict[int, complex]:
    """As the design of the program says: weak sources have their high impedance, strong ones
    their low one; in use a set or inverter regulates (0.1 mohm stand for that), a solar array
    does not."""
    found = {}
    for i, source in situation.active:
        r, x = source.data.ohm_r, source.data.ohm_x
        if assumption.strength == "weak":
            z = complex(r.high, x.high * scale)
        elif assumption.strength == "strong":
            z = complex(r.low, x.low * scale)
        elif source.data.rated_a is not None and not source.data.group.solar:
            z = 1e-4 + 0j
        else:
            z = complex(r.usual, x.usual * scale)
        found[i] = z
    return found


def in_use(situation: Situation, hertz: float, found: Loaded) -> Netlist:
    """The drawn loads switched on; of the converters what they take is given, and nothing else."""
    circuit = situation.circuit
    volts = found.volts[hertz]
    outside, chargers = [], []
    for i, source in situation.active:
        if source.data.group.charges:
            chargers.append(i)
            if hertz == 0.0:
                outside.append((source.minus, source.plus, found.source_a[i]))
    for i, watts in found.converter_w.items():
        load = circuit.loads[i]
        # an array has two voltages at which it gives a power: the simulator may find the other
        given = hertz > 0.0 or load.data.name == "array side"
        if (load.data.hertz == 0.0) == (hertz == 0.0) and given:
            power = complex(watts, watts * (load.data.power_factor**-2 - 1.0) ** 0.5)
            taken = (power / (volts[load.a] - volts[load.b])).conjugate()
            outside.append((load.a, load.b, taken))
    ohm = source_ohm(situation, IN_USE, hertz / circuit.hertz)
    net = netlist(situation, hertz, ohm, hot=True, loads=True, outside=outside, held=chargers)
    for i, watts in found.converter_w.items():
        load = circuit.loads[i]
        if load.data.hertz == 0.0 and hertz == 0.0 and load.data.name != "array side":
            net.power(load, watts)
    return net


def assert_same(net: Netlist, volts: object) -> None:
    """Every node of every island, against one node of it."""
    simulated = net.solve()
    biggest = max(abs(v) for v in simulated.values())
    assert biggest > 0.0
    for island in nx.connected_components(net.graph):
        first = next(iter(island))
        for node in island:
            ours = complex(volts[node] - volts[first])  # type: ignore[index]
            theirs = simulated[node] - simulated[first]
            assert abs(ours - theirs) <= CLOSE * abs(theirs) + 1e-7 * biggest, (
                net.here.circuit.spots[node],
                ours,
                theirs,
            )


# designs


def trailer() -> Design:
    return load(SAMPLES / "vaccination-trailer.linework")


def hut() -> Design:
    return load(SAMPLES / "mountain-hut.linework")


def set_at_120_v() -> Draft:
    """A set of two legs, both windings side by side on one outlet, and what is dead beside it."""
    d = Draft(place="field")
    d.part(
        "generator",
        "G1",
        circuit="split",
        power="7 kVA",
        neutral="bonded",
        switch_120="in_phase",
        breaker="60 A",
    )
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "G1", "1")
    d.part("load", "EA1", power="3 kW", power_factor="0.9")
    d.run("XD1.face", "EA1.in", size="8 AWG", length="30 ft")
    d.part("panel", "QP1", circuit="split", bond="absent", places="8")
    d.run("G1.out", "QP1.feed", size="8 AWG", length="40 ft")
    for number, (place, watts) in enumerate((("1", "800 W"), ("3", "1200 W")), 2):
        d.part("breaker", f"QF{number}", rating="20 A")
        d.seat(f"QF{number}", "QP1", place)
        d.part("load", f"EA{number}", power=watts)
        d.run(f"QF{number}.load", f"EA{number}.in", size="12 AWG", length="20 ft")
    return d


def board_with_two_legs() -> Draft:
    """Split phase with a shared neutral, a ring by a second link, two rods, a motor."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", outage="no")
    d.part("panel", "QP1", circuit="split", main="60 A", bond="fitted", places="6")
    d.part("panel", "QP2", circuit="split", bond="fitted", places="6")
    d.part("electrode", "XE1")
    d.part("electrode", "XE2", resistance="60 ohm")
    d.run("GS1.out", "QP1.feed", size="6 AWG", ground_size="10 AWG", length="80 ft")
    d.run("QP1.feed", "QP2.feed", size="8 AWG", length="60 ft", installation="conduit_steel")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft")
    d.run("QP2.ground", "XE2.ground", size="6 AWG", length="5 ft")
    for number, (board, place, watts, pf) in enumerate(
        (("QP1", "1", "900 W", "1"), ("QP2", "1", "1500 W", "0.9"), ("QP2", "3", "300 W", "1")), 1
    ):
        d.part("breaker", f"QF{number}", rating="20 A", ground_fault="class_a")
        d.seat(f"QF{number}", board, place)
        d.part("load", f"EA{number}", power=watts, power_factor=pf)
        d.run(f"QF{number}.load", f"EA{number}.in", size="12 AWG", length="40 ft")
    return d


def floating_set() -> Draft:
    """A generator that floats, cables with leakage, a crossed outlet, a broken ground wire."""
    d = Draft(place="field")
    d.part("generator", "G1", power="4 kVA", neutral="floating", stray_line="6 nF")
    d.part("junction_box", "XJ1")
    d.part("outlet", "XD1")
    d.part("outlet", "XD2")
    d.part("load", "EA1", power="1 kW", power_factor="0.7")
    d.run("G1.out", "XJ1.a", size="12 AWG", length="100 ft")
    d.run("XJ1.b", "XD1.feed", poles="L>N N>L PE>PE", size="14 AWG", length="60 ft")
    d.run("XJ1.c", "XD2.feed", size="14 AWG", length="70 ft", broken="PE")
    d.run("XD2.onward", "EA1.in", size="14 AWG", length="20 ft")
    return d


def bank() -> Draft:
    """Direct current: two batteries side by side, a filament lamp, chassis as a parallel return."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="200 Ah")
    d.part("battery", "GB2", capacity="100 Ah", chemistry="agm")
    d.part("panel", "QP1", circuit="dc", voltage="12 V")
    d.part("fuse", "F1", rating="100 A")
    d.part("fuse", "F2", rating="20 A")
    d.part("body", "XB1")
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", type="filament", power="55 W")
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="100 W")
    d.run("GB1.dc", "F1.line", size="4 AWG", length="2 ft")
    d.run("GB2.dc", "F1.line", size="6 AWG", length="3 ft")
    d.run("F1.load", "QP1.feed", size="6 AWG", length="20 ft")
    d.seat("F2", "QP1", "1")
    d.run("F2.load", "EL1.in", size="14 AWG", length="25 ft")
    d.run("EL1.in", "EA1.in", size="16 AWG", length="10 ft")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="4 AWG", length="2 ft")
    d.run("QP1.ground", "XB1.tie", poles="->body", size="8 AWG", length="2 ft")
    return d


def inverting() -> Draft:
    """An inverter on a bank, an outlet behind a ground-fault device, a link further on."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="200 Ah")
    d.part("fuse", "F1", rating="200 A", type="class_t")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    d.part("panel", "QP1", bond="fitted")
    d.part("breaker", "QF1", rating="20 A", ground_fault="class_a")
    d.part("load", "EA1", power="1100 W", power_factor="0.8")
    d.part("body", "XB1")
    d.run("GB1.dc", "F1.line", size="2/0 AWG", length="1 ft")
    d.run("F1.load", "TB1.dc", size="2/0 AWG", length="6 ft")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="2/0 AWG", length="3 ft")
    d.run("TB1.case", "XB1.tie", size="8 AWG", length="3 ft")
    d.run("TB1.ac_out", "QP1.feed", size="12 AWG", length="30 ft")
    d.seat("QF1", "QP1", "1")
    d.run("QF1.load", "EA1.in", size="14 AWG", length="45 ft")
    return d


SHORE = {
    "GS1": "live",
    "GP1": "day",
    "G1": "stopped",
    "QT1": "1",
    "XP1": "XD1",
    "XP2": "unplugged",
    "TB1": "on",
}
GENERATOR = {
    "GS1": "live",
    "GP1": "night",
    "G1": "running",
    "QT1": "2",
    "XP1": "XD1",
    "XP2": "XD3",
    "TB1": "on",
}
INVERTER = {
    "GS1": "live",
    "GP1": "day",
    "G1": "stopped",
    "QT1": "off",
    "XP1": "unplugged",
    "XP2": "unplugged",
    "TB1": "on",
}

DESIGNS = [
    pytest.param(trailer, SHORE, id="trailer on shore"),
    pytest.param(trailer, GENERATOR, id="trailer on its generator"),
    pytest.param(trailer, INVERTER, id="trailer on its inverter"),
    pytest.param(board_with_two_legs, {}, id="two legs"),
    pytest.param(floating_set, {"G1": "running"}, id="floating set"),
    pytest.param(bank, {}, id="two batteries"),
    pytest.param(hut, {"G1": "running", "QT1": "1", "TB1": "passing"}, id="hut on its set"),
    pytest.param(hut, {"G1": "stopped", "QT1": "1", "TB1": "inverting"}, id="hut, inverter"),
    pytest.param(set_at_120_v, {"G1": "running & 120V"}, id="set at 120 V"),
    pytest.param(inverting, {"TB1": "on"}, id="inverter"),
]


@pytest.mark.parametrize(("drawn", "positions"), DESIGNS)
def test_loads_on(drawn: Callable[[], Draft | Design], positions: dict[str, str]) -> None:
    situation = situation_of(drawn(), **positions)
    found = loaded(situation)
    assert found.solved
    assert found.volts
    for hertz, volts in found.volts.items():
        assert_same(in_use(situation, hertz, found), volts)


def shorted(situation: Situation, fault: Fault, assumption: Assumption) -> dict[int, complex]:
    """Potentials while a fault lasts, from the netlist with the short drawn into it."""
    hertz = fault.point.hertz
    chargers, outside = [], []
    for i, source in situation.active:
        if source.data.group.charges:
            assert source.data.limit is not None
            assert source.data.limit.first_a is not None
            most = source.data.limit.first_a.high if assumption.strength == "strong" else 0.0
            chargers.append(i)
            outside += [(source.minus, source.plus, complex(most))] if hertz == 0.0 else []
    ohm = source_ohm(situation, assumption, hertz / situation.circuit.hertz)
    net = netlist(
        situation, hertz, ohm, hot=assumption.hot, loads=False, outside=outside, held=chargers
    )
    net.impedance(fault.point.node, fault.point.to_node, 1e-9, 0.0)
    return net.solve()


def unlimited(situation: Situation, fault: Fault) -> bool:
    """Whether the sources of a fault have no limit at first, so that it is a linear circuit."""
    return all(
        s.data.limit is None or s.data.limit.first_a is None
        for _, s in situation.active
        if s.data.hertz == fault.point.hertz and not s.data.group.charges
    )


@pytest.mark.parametrize(
    ("drawn", "positions"), [case for case in DESIGNS if "inverter" not in str(case.id)]
)
def test_shorts(drawn: Callable[[], Draft | Design], positions: dict[str, str]) -> None:
    """Some shorts of each design, drawn as a wire of a nano-ohm, at both strengths."""
    situation = situation_of(drawn(), **positions)
    scale = {h: h / situation.circuit.hertz for h in situation.hertz}
    found = [f for owner in situation.owners for f in faults(situation, owner)]
    some = [f for f in found if unlimited(situation, f)][:: max(len(found) // 6, 1)]
    assert some
    for fault in some:
        for assumption, outcome in ((WEAKEST, fault.weak), (STRONGEST, fault.strong)):
            volts = shorted(situation, fault, assumption)
            flow = (volts[fault.point.node] - volts[fault.point.to_node]) / 1e-9
            assert outcome.current_a == pytest.approx(abs(flow), rel=CLOSE, abs=1e-3)
            for index, amps in outcome.branch_a.items():
                branch = situation.circuit.branches[index]
                r = branch.r_hot if assumption.hot else branch.r_cold
                z = complex(r, branch.x * scale[fault.point.hertz])
                expected = abs((volts[branch.a] - volts[branch.b]) / z)
                assert amps == pytest.approx(expected, rel=CLOSE, abs=1e-4 * outcome.current_a)
