"""Where neutral meets ground, and whether the links close a ring."""

from __future__ import annotations

from linework.design import Draft
from linework.study.neutral.bonds import NeutralSystem, neutral_systems
from linework.study.situation import Situation
from tests.designs import situation_of

RUN = {"size": "10 AWG", "length": "20 ft"}
JUMPER = {"size": "8 AWG", "length": "3 ft", "installation": "jumper"}


def of(situation: Situation, owner: str) -> NeutralSystem:
    """The AC neutral of a source."""
    (found,) = [n for n in neutral_systems(situation) if n.is_ac and owner in n.owners]
    return found


def told(system: NeutralSystem) -> tuple[list[str], list[str]]:
    """Owners of its links, and of those on a ring."""
    return sorted(b.owner for b in system.bonds), sorted(b.owner for b in system.ring)


def board(bond: str, poles: str = "", neutral: str = "bonded") -> Draft:
    d = Draft(place="building")
    d.part("supply", "GS1", neutral=neutral, outage="no")
    d.part("panel", "QP1", bond=bond)
    d.run("GS1.out", "QP1.feed", poles=poles, **RUN)
    return d


def test_one_link_closes_no_ring() -> None:
    assert told(of(situation_of(board("absent")), "GS1")) == (["GS1"], [])


def test_a_second_link_closes_one_by_the_ground_wire() -> None:
    system = of(situation_of(board("fitted")), "GS1")
    assert told(system) == (["GS1", "QP1"], ["GS1", "QP1"])
    assert [b.owner for b in system.bonds if b.off_site] == ["GS1"]


def test_a_feeder_without_a_ground_wire_closes_none() -> None:
    assert told(of(situation_of(board("fitted", "L>L N>N")), "GS1")) == (["GS1", "QP1"], [])


def test_soil_closes_none() -> None:
    # The site has its electrode, and the panel gets one: rods at both ends of a three-wire feeder.
    d = board("fitted", "L>L N>N")
    d.part("electrode", "XE1", resistance="5 ohm")
    d.run("QP1.ground", "XE1.ground", **JUMPER)
    situation = situation_of(d)
    ground = situation.circuit.terminals["QP1", "ground"]["PE"]
    site = situation.circuit.terminals["GS1", "in"]["PE"]
    assert situation.conductive[ground] == situation.conductive[site]
    assert told(of(situation, "GS1")) == (["GS1", "QP1"], [])


def test_a_floating_supply_with_a_link_in_the_panel_has_one() -> None:
    assert told(of(situation_of(board("fitted", neutral="floating")), "GS1")) == (["QP1"], [])


def test_no_link_at_all() -> None:
    system = of(situation_of(board("absent", neutral="floating")), "GS1")
    assert told(system) == ([], [])
    assert system.grounds == frozenset()


def test_a_jumper_that_one_can_point_at_counts_as_a_link() -> None:
    d = board("absent")
    d.part("junction_box", "XJ1")
    d.run("QP1.feed", "XJ1.a", poles="N>N PE>PE", **RUN)
    d.part("junction_box", "XJ2")
    d.run("XJ1.b", "XJ2.a", "W9", poles="N>PE", **JUMPER)
    d.run("XJ2.b", "QP1.ground", poles="PE>PE", **JUMPER)
    assert told(of(situation_of(d), "GS1")) == (["GS1", "W9"], ["GS1", "W9"])


def through_chassis(joined: bool) -> Draft:
    """Links at set and panel without a ground wire between, both bonded to the chassis or not."""
    d = Draft(place="vehicle")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("panel", "QP1", bond="fitted")
    d.part("body", "XB1")
    d.run("G1.out", "QP1.feed", poles="L>L N>N", **RUN)
    d.run("QP1.ground", "XB1.tie", **JUMPER)
    if joined:
        d.run("G1.frame", "XB1.tie", **JUMPER)
    return d


def test_the_chassis_closes_a_ring() -> None:
    apart = of(situation_of(through_chassis(False), G1="running"), "G1")
    assert told(apart) == (["G1", "QP1"], [])
    together = of(situation_of(through_chassis(True), G1="running"), "G1")
    assert told(together) == (["G1", "QP1"], ["G1", "QP1"])


def changeover(poles: str) -> Draft:
    """Two sources, each with its link, on one switch; ground wires joined through."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("transfer_switch", "QT1", poles=poles)
    d.part("panel", "QP1", bond="absent")
    d.run("GS1.out", "QT1.in1", **RUN)
    d.run("G1.out", "QT1.in2", **RUN)
    d.run("QT1.load", "QP1.feed", **RUN)
    return d


def test_a_changeover_of_the_neutral_keeps_two_links_apart() -> None:
    situation = situation_of(changeover("all"), G1="running", QT1="2")
    assert told(of(situation, "G1")) == (["G1"], [])
    assert told(of(situation, "GS1")) == (["GS1"], [])


def test_a_neutral_joined_through_makes_one_of_two_links_one_too_many() -> None:
    for lever in ("1", "2"):
        situation = situation_of(changeover("lines"), G1="stopped", QT1=lever)
        assert told(of(situation, "GS1")) == (["G1", "GS1"], ["G1", "GS1"])


def test_a_relay_joins_the_neutral_only_while_it_inverts() -> None:
    d = Draft(place="vehicle")
    d.part("supply", "GS1", outage="yes")
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", neutral_through="switched")
    d.run("GS1.out", "TB1.ac_in", **RUN)
    d.run("GB1.dc", "TB1.dc", size="4/0 AWG", length="3 ft")
    passing = situation_of(d, GS1="live", TB1="passing")
    assert told(of(passing, "GS1")) == (["GS1"], [])
    inverting = situation_of(d, GS1="dead", TB1="inverting")
    assert told(of(inverting, "TB1")) == (["TB1"], [])


def test_a_battery_on_the_chassis_is_no_second_link_of_the_ac() -> None:
    d = through_chassis(True)
    d.rate("QP1", bond="absent")
    d.part("battery", "GB1")
    d.run("GB1.dc", "XB1.tie", "W8", poles="->body", size="2/0 AWG", length="2 ft")
    situation = situation_of(d, G1="running")
    assert told(of(situation, "G1")) == (["G1"], [])
    (dc,) = [n for n in neutral_systems(situation) if not n.is_ac]
    assert told(dc) == (["W8"], [])
