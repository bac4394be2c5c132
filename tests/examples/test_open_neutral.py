"""Published examples of a middle conductor that carries, or is lost."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.situation import Situation
from tests.circuit.test_ngspice import three_wires
from tests.designs import situation_of
from tests.examples.published import COMPANIONS, published

STRONG = "1000000 kA"
"""What stands for a source without resistance."""


def two_legs(leg: str, lamp: str, watts: tuple[str, str], **wire: str) -> Situation:
    """Two loads made for one voltage, each on a leg of a strong supply, on short thick wires."""
    d = Draft(place="building")
    d.part(
        "supply",
        "GS1",
        circuit="split",
        voltage=leg,
        prospective="1000 kA",
        breaker="1000 A",
        outage="no",
    )
    d.part("junction_box", "XJ1", circuit="split")
    d.run("GS1.out", "XJ1.a", size="4/0 AWG", length="1 ft", **wire)
    for number, power in enumerate(watts, 1):
        d.part("load", f"EA{number}", power=power, voltage=lamp)
        d.run("XJ1.b", f"EA{number}.in", poles=f"L{number}>L N PE", size="4/0 AWG", length="0 ft")
    return situation_of(d)


@published("034", "Open neutral (training slides)", "studylib.net/doc/5726865")
def test_100_w_and_200_w_on_two_legs() -> None:
    # 0.8333 and 1.6667 A, 144 and 72 ohm; once the neutral is open 1.1111 A, 160 and 80 V.
    found = loaded(two_legs("120 V", "120 V", ("100 W", "200 W")))
    assert found.load_a == pytest.approx({0: 0.8333, 1: 1.6667}, abs=1e-4)
    ohms = {i: found.load_v[i] / found.load_a[i] for i in found.load_a}
    assert ohms == pytest.approx({0: 144.0, 1: 72.0})
    lost = loaded(two_legs("120 V", "120 V", ("100 W", "200 W"), broken="N"))
    assert lost.load_a == pytest.approx({0: 1.1111, 1: 1.1111}, abs=1e-4)
    assert lost.load_v == pytest.approx({0: 160.0, 1: 80.0}, abs=0.02)


@published("036", "Principles of Power System, ch. 13, example 13.27, p. 342", COMPANIONS)
def test_what_is_sent_on_three_wires() -> None:
    # 5 and 6 ohm at 240 V each, 0.1 ohm in each wire: 245.6 and 243.2 V are sent.
    found = loaded(three_wires("", ("245.6 V", "243.2 V"), (5, 6), 0.1, STRONG))
    assert found.load_v == pytest.approx({0: 240.0, 1: 240.0}, abs=0.05)


@published("038", "Principles of Power System, ch. 13, example 13.31, p. 346", COMPANIONS)
@pytest.mark.parametrize(
    ("cut", "amps", "volts"),
    [
        ("neutral", {0: 48.06, 1: 48.06}, {0: 192.23, 1: 288.35}),
        ("plus", {1: 38.57}, {1: 231.43}),
        ("minus", {0: 58.6}, {0: 234.42}),
    ],
)
def test_each_of_three_wires_open(
    cut: str, amps: dict[int, float], volts: dict[int, float]
) -> None:
    # 4 and 6 ohm at 240 V each, 0.15 ohm in each wire: 252 and 243 V are sent.
    found = loaded(three_wires(cut, fault_current=STRONG))
    assert {i: found.load_a[i] for i in amps} == pytest.approx(amps, abs=0.01)
    assert {i: found.load_v[i] for i in volts} == pytest.approx(volts, abs=0.01)


@published("040", "Principles of Power System, ch. 14, example 14.11, p. 371", COMPANIONS)
def test_two_lamps_between_two_phases() -> None:
    # 100 and 150 W made for 230 V, in series on 400 V: 240 and 160 V. Two phases 400 V apart are
    # drawn as two legs of 200 V whose neutral is open; the lamps are taken at their impedance.
    found = loaded(two_legs("200 V", "230 V", ("100 W", "150 W"), broken="N"))
    assert found.load_v == pytest.approx({0: 240.0, 1: 160.0}, abs=0.1)
