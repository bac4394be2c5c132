"""The program against ngspice: worked netlists drawn as designs, and whole designs exported."""

from __future__ import annotations

import cmath
import math
from pathlib import Path

import numpy as np
import pytest

from linework.circuit.network import STRONGEST, WEAKEST, Network
from linework.codes.conductors import resistance
from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from linework.study.tester import readings
from tests.circuit.handmade import Handmade
from tests.circuit.spice import ngspice, printed
from tests.designs import situation_of

HERE = Path(__file__).parent / "ngspice"
CLOSE = 1e-3
"""What program and simulator may differ by, as a fraction."""


def figures(name: str) -> dict[str, float]:
    (file,) = HERE.glob(f"{name}-*.cir")
    found = printed(ngspice(file))
    assert found
    return found


# 01: drawn


def double_bond(size: str, ground: str, watts: str, bond: str) -> Situation:
    d = Draft(place="building")
    d.part(
        "supply",
        "GS1",
        prospective="10 kA",
        x_over_r="0.5",
        breaker="30 A",
        electrode="25 ohm",
        outage="no",
    )
    d.part("panel", "QP1", bond=bond)
    d.part("breaker", "QF1", rating="20 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power=watts)
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("GS1.out", "QP1.feed", "W1", size=size, ground_size=ground, length="50 ft")
    d.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="0 ft")
    d.run("QP1.ground", "XE1.ground", "W3", size="6 AWG", length="0 ft")
    return situation_of(d)


def amps(situation: Situation, owner: str, pole: str) -> float:
    found = loaded(situation)
    assert found.solved
    (index,) = (
        i for i, b in enumerate(situation.circuit.branches) if (b.owner, b.pole) == (owner, pole)
    )
    return found.amps(index)


@pytest.mark.parametrize(
    ("case", "size", "ground", "watts"),
    [("a", "12 AWG", "12 AWG", "1200 W"), ("b", "6 AWG", "10 AWG", "2400 W")],
)
def test_a_second_bond_shares_the_return_current(
    case: str, size: str, ground: str, watts: str
) -> None:
    spice = figures("01")
    situation = double_bond(size, ground, watts, "fitted")
    assert amps(situation, "W1", "N") == pytest.approx(spice[f"{case}_neutral"], rel=CLOSE)
    assert amps(situation, "W1", "PE") == pytest.approx(spice[f"{case}_ground"], rel=CLOSE)
    assert amps(situation, "W3", "PE") == pytest.approx(spice[f"{case}_earth"], rel=CLOSE)


def test_equal_paths_share_by_halves() -> None:
    # "Never bond the ground and neutral in a subpanel: a visual guide": half each when the paths
    # are equal; ours differ by the second link.
    situation = double_bond("12 AWG", "12 AWG", "1200 W", "fitted")
    neutral, ground = amps(situation, "W1", "N"), amps(situation, "W1", "PE")
    assert neutral / (neutral + ground) == pytest.approx(0.5, abs=0.01)


def test_without_the_second_bond_the_neutral_carries_all() -> None:
    spice = figures("01")
    situation = double_bond("12 AWG", "12 AWG", "1200 W", "absent")
    found = loaded(situation)
    terminals = situation.circuit.terminals
    bar = found.volts[60.0][terminals["QP1", "feed"]["N"]]
    ground = found.volts[60.0][terminals["GS1", "in"]["PE"]]
    assert amps(situation, "W1", "N") == pytest.approx(spice["c_neutral"], rel=CLOSE)
    assert abs(bar - ground) == pytest.approx(spice["c_bar"], rel=CLOSE)
    assert amps(situation, "W1", "PE") < 1e-4  # the leak of 15 m of cable


# 02: drawn


def fault_at_load(situation: Situation) -> Fault:
    (found,) = (f for f in faults(situation, "GS1") if (f.point.part, f.point.to) == ("EA1", "PE"))
    return found


def test_a_loop_fault_of_a_british_radial() -> None:
    spice = figures("02")
    d = Draft(place="building", voltage="230 V", frequency="50 Hz")
    d.part(
        "supply",
        "GS1",
        prospective=f"{230 / 0.6!r} A",
        x_over_r="0",
        breaker="32 A",
        electrode="5 ohm",
        outage="no",
    )
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", size="1.5 mm2", ground_size="1 mm2", length="10 m")
    weak = fault_at_load(situation_of(d)).weak
    assert weak.current_a == pytest.approx(spice["a_fault"], rel=CLOSE)
    assert weak.metal_v == pytest.approx(spice["a_metal"], rel=CLOSE)
    # Published: Zs 0.96 ohm, to two decimals; ours is some degrees warmer and has a breaker.
    assert 230.0 / weak.current_a == pytest.approx(0.96, abs=0.02)


def long_run(**run: str) -> Draft:
    d = Draft(place="building")
    d.part(
        "supply",
        "GS1",
        prospective=f"{120 / math.hypot(0.02, 0.02)!r} A",
        x_over_r="1",
        breaker="20 A",
        electrode="25 ohm" if run else "5 ohm",
        outage="no",
    )
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="100 ft", **run)
    return d


def test_a_loop_fault_at_the_end_of_100_ft() -> None:
    spice = figures("02")
    weak = fault_at_load(situation_of(long_run())).weak
    assert weak.current_a == pytest.approx(spice["b_fault"], rel=CLOSE)
    assert weak.metal_v == pytest.approx(spice["b_metal"], rel=CLOSE)


def test_a_fault_that_returns_through_two_rods() -> None:
    spice = figures("02")
    d = long_run(broken="PE")
    d.part("panel", "QP1")  # its lug takes the rod's wire to the load's case
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="6 AWG", length="0 ft")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="0 ft")
    weak = fault_at_load(situation_of(d, {("QP1", "bond"): "absent"})).weak
    assert weak.current_a == pytest.approx(spice["c_fault"], rel=CLOSE)
    assert weak.metal_v == pytest.approx(spice["c_metal"], rel=CLOSE)


# 04: drawn


def set_with_outlet(neutral: str, line: str, back: str, **run: str) -> Situation:
    d = Draft(place="field")
    d.part(
        "generator",
        "G1",
        power="5 kVA",
        neutral=neutral,
        stray_line=line,
        stray_neutral=back,
    )
    d.part("outlet", "XD1")
    d.run("G1.out", "XD1.feed", size="12 AWG", length="10 m", **run)
    return situation_of(d, G1="running")


@pytest.mark.parametrize(
    ("case", "neutral", "line", "back", "run"),
    [
        ("a", "floating", "4.7 nF", "4.7 nF", {}),
        ("b", "bonded", "4.7 nF", "4.7 nF", {}),
        ("c", "floating", "10 nF", "1 nF", {}),
        ("d", "bonded", "1 nF", "1 nF", {"broken": "PE"}),
    ],
)
def test_what_the_lamps_of_a_tester_take(
    case: str, neutral: str, line: str, back: str, run: dict[str, str]
) -> None:
    spice = figures("04")
    (reading,) = readings(set_with_outlet(neutral, line, back, **run))
    expected = [spice[f"{case}_{pair}"] for pair in ("ln", "lg", "ng")]
    assert reading.volts == pytest.approx(expected, rel=CLOSE, abs=1e-6)


def test_a_meter_reads_otherwise_than_the_lamps() -> None:
    spice = figures("04")
    (reading,) = readings(set_with_outlet("floating", "10 nF", "1 nF"))
    assert reading.meter_v[2] == pytest.approx(spice["e_ng"], rel=CLOSE)
    assert reading.meter_v[2] > 1.4 * reading.volts[2]


# 05: drawn


def two_legs(**run: str) -> Situation:
    d = Draft(place="building")
    d.part(
        "supply", "GS1", circuit="split", prospective="10 kA", x_over_r="0.5", breaker="30 A",
        outage="no",
    )  # fmt: skip
    d.part("panel", "QP1", circuit="split", bond="absent", places="4")
    d.run("GS1.out", "QP1.feed", "W1", size="12 AWG", length="10 ft", **run)
    for number, (place, watts) in enumerate((("1", "100 W"), ("3", "200 W")), 1):
        d.part("breaker", f"QF{number}", rating="15 A")
        d.seat(f"QF{number}", "QP1", place)
        d.part("load", f"EA{number}", power=watts)
        d.run(f"QF{number}.load", f"EA{number}.in", size="12 AWG", length="0 ft")
    return situation_of(d)


def test_two_loads_on_two_legs() -> None:
    spice = figures("05")
    found = loaded(two_legs())
    assert found.load_a == pytest.approx({0: spice["a_i1"], 1: spice["a_i2"]}, rel=CLOSE)
    assert amps(two_legs(), "W1", "N") == pytest.approx(spice["a_in"], rel=CLOSE)
    # Published: 0.8333 and 1.6667 A on a source without impedance.
    assert found.load_a == pytest.approx({0: 0.8333, 1: 1.6667}, rel=2e-3)


def test_two_loads_in_series_once_the_neutral_is_open() -> None:
    spice = figures("05")
    found = loaded(two_legs(broken="N"))
    assert found.load_v == pytest.approx({0: spice["b_v1"], 1: spice["b_v2"]}, rel=CLOSE)
    assert found.load_a == pytest.approx({0: spice["b_i"], 1: spice["b_i"]}, rel=CLOSE)
    assert found.load_v == pytest.approx({0: 160.0, 1: 80.0}, rel=2e-3)


def three_wires(
    cut: str,
    sent: tuple[str, str] = ("252 V", "243 V"),
    ohms: tuple[int, int] = (4, 6),
    wire: float = 0.15,
    fault_current: str = "1000 kA",
) -> Situation:
    """Two batteries in series, a load on each half, three wires of one resistance, one of them
    cut."""
    d = Draft(place="building")
    for number, (volts, ohm) in enumerate(zip(sent, ohms, strict=True), 1):
        d.part("battery", f"GB{number}", voltage=volts, fault_current=fault_current)
        d.part("load", f"EA{number}", circuit="dc", voltage="240 V", power=f"{240**2 / ohm} W")
    far = f"{wire / resistance('10 AWG').value!r} m"
    joints = {
        "middle": ("GB1.dc", "GB2.dc", "->+", "0 ft"),
        "load": ("EA1.in", "EA2.in", "->+", "0 ft"),
        "plus": ("GB1.dc", "EA1.in", "+", far),
        "neutral": ("GB1.dc", "EA1.in", "-", far),
        "minus": ("GB2.dc", "EA2.in", "-", far),
    }
    for name, (a, b, poles, length) in joints.items():
        if name != cut:
            d.run(a, b, name, poles=poles, size="10 AWG", length=length)
    return situation_of(d)


@pytest.mark.parametrize(
    ("cut", "amps", "volts", "published"),
    [
        ("neutral", {0: "c_i", 1: "c_i"}, {0: "c_v4", 1: "c_v6"}, (48.06, 192.23, 288.35)),
        ("plus", {1: "d_i"}, {1: "d_v6"}, (38.57, 231.43)),
        ("minus", {0: "e_i"}, {0: "e_v4"}, (58.6, 234.42)),
    ],
)
def test_a_three_wire_source_with_one_wire_open(
    cut: str, amps: dict[int, str], volts: dict[int, str], published: tuple[float, ...]
) -> None:
    spice = figures("05b")
    found = loaded(three_wires(cut))
    for load, name in amps.items():
        assert found.load_a[load] == pytest.approx(spice[name], rel=CLOSE)
    for load, name in volts.items():
        assert found.load_v[load] == pytest.approx(spice[name], rel=CLOSE)
    figures_found = [next(found.load_a[load] for load in amps), *(found.load_v[i] for i in volts)]
    assert figures_found == pytest.approx(published, rel=CLOSE)


# 03 and 06: no part draws them yet


def test_a_ring_with_an_interconnector() -> None:
    spice = printed(ngspice(HERE / "03-parallel-paths.cir"))
    sections = [("a", "b", 0.075), ("b", "c", 0.025), ("c", "d", 0.01), ("d", "e", 0.05),
                ("e", "a", 0.1), ("b", "d", 0.05)]  # fmt: skip
    made = Handmade(0.0, [(a, b, complex(r)) for a, b, r in sections], [("a", "0", 240.0, 0.0)])
    net = Network(made.here, 0.0, STRONGEST)
    inject = net.source_currents()
    for name, taken in (("b", 10.0), ("c", 30.0), ("d", 20.0), ("e", 10.0)):
        inject[made.node[name]] -= taken
        inject[made.node["0"]] += taken
    volts = net.solve(inject)
    assert net.branch_currents(volts)[5].real == pytest.approx(spice["i(vmbd)"], rel=CLOSE)
    between = volts[made.node["b"]] - volts[made.node["d"]]
    assert between.real == pytest.approx(spice["v(b)-v(d)"], rel=CLOSE)
    assert net.branch_currents(volts)[5].real == pytest.approx(9.8, abs=0.05)


def test_a_ring_of_complex_impedances() -> None:
    spice = printed(ngspice(HERE / "03-parallel-paths.cir"))
    wires = [("a", "b", 1 + 1j), ("b", "c", 1 + 2j), ("a", "c", 1 + 3j)]
    made = Handmade(60.0, wires, [("a", "0", 11000.0, 0.0)])
    net = Network(made.here, 60.0, STRONGEST)
    inject = net.source_currents()
    for name, taken in (("b", cmath.rect(20.0, -math.acos(0.8))),
                        ("c", cmath.rect(15.0, -math.acos(0.6)))):  # fmt: skip
        inject[made.node[name]] -= taken
        inject[made.node["0"]] += taken
    found = net.branch_currents(net.solve(inject))
    for index, name in enumerate(("ab", "bc", "ac")):
        expected = complex(spice[f"real(i(vm{name}))"], spice[f"imag(i(vm{name}))"])
        assert abs(found[index] - expected) < CLOSE * abs(expected)


THREE = [("r", "0", 231.0, 0.0), ("y", "0", 231.0, -120.0), ("b", "0", 231.0, 120.0)]
STAR = [("r", "n", 5.3361 + 0j), ("y", "n", 6.670125 + 0j), ("b", "n", 10.6722 + 0j)]


def test_three_phases_with_a_neutral() -> None:
    spice = figures("06")
    made = Handmade(50.0, [*STAR, ("n", "0", 1e-6 + 0j)], THREE)
    net = Network(made.here, 50.0, WEAKEST)
    currents = [abs(a) for a in net.branch_currents(net.open_volts).values()]
    names = ["mag((v(r)-v(n))/5.3361)", "mag((v(y)-v(n))/6.670125)", "mag((v(b)-v(n))/10.6722)",
             "mag(i(vmn))"]  # fmt: skip
    assert currents == pytest.approx([spice[name] for name in names], rel=CLOSE)
    assert currents == pytest.approx([43.3, 34.6, 21.65, 18.9], abs=0.05)  # as published


def test_three_phases_whose_star_point_floats() -> None:
    spice = figures("06")
    made = Handmade(50.0, STAR, THREE)
    volts = Network(made.here, 50.0, WEAKEST).open_volts
    star = volts[made.node["n"]]
    across = [abs(volts[made.node[p]] - star) for p in "ryb"]
    names = [f"mag(v({p})-v(n4))" for p in "ryb"]
    assert across == pytest.approx([spice[name] for name in names], rel=CLOSE)
    assert abs(star) == pytest.approx(spice["mag(v(n4))"], rel=CLOSE)


def test_two_lamps_in_series_between_two_phases() -> None:
    # 400 V across lamps of 100 and 150 W made for 230 V: 240 and 160 V, as published.
    spice = figures("06")
    made = Handmade(
        50.0,
        [("l1", "m", 529 + 0j), ("m", "l2", 352.6667 + 0j), ("l2", "0", 1 + 0j)],
        [("l1", "l2", 400.0, 0.0)],
    )
    volts = Network(made.here, 50.0, WEAKEST).open_volts
    first, middle, last = (volts[made.node[n]] for n in ("l1", "m", "l2"))
    expected = [spice["mag(v(l1)-v(m))"], spice["mag(v(m)-v(l2))"]]
    assert np.abs([first - middle, middle - last]) == pytest.approx(expected, rel=CLOSE)
    assert expected == pytest.approx([240.0, 160.0])
