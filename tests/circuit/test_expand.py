"""From single lines to every conductor."""

from __future__ import annotations

import pytest

from linework.circuit import expand
from linework.circuit.expand import LEAST_OHM
from linework.circuit.model import Branch, Circuit
from linework.design import Draft
from linework.wiring import Three

KFT_M = 304.8


def branch(circuit: Circuit, owner: str, name: str) -> Branch:
    (found,) = [b for b in circuit.branches if (b.owner, b.name) == (owner, name)]
    return found


def cable(**run: str) -> Circuit:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", "W1", **{"size": "12 AWG", "length": "1000 ft", **run})
    return expand(d.design)


def test_a_cable_is_a_branch_for_each_conductor() -> None:
    circuit = cable()
    assert [b.name for b in circuit.branches if b.owner == "W1"] == ["L", "N", "PE"]
    line = branch(circuit, "W1", "L")
    assert line.r_hot == pytest.approx(1.98)  # NFPA 70 chapter 9 table 8, stranded, 75 C
    assert line.r_cold == pytest.approx(1.98 * (1.0 - 0.00323 * 55.0))
    assert line.x == pytest.approx(0.08e-3 * KFT_M)
    assert line.known


def test_sizes_of_neutral_and_ground_wire_stand_for_themselves() -> None:
    circuit = cable(neutral_size="10 AWG", ground_size="14 AWG")
    assert branch(circuit, "W1", "L").r_hot == pytest.approx(1.98)
    assert branch(circuit, "W1", "N").r_hot == pytest.approx(1.24)
    assert branch(circuit, "W1", "PE").r_hot == pytest.approx(3.14)


@pytest.mark.parametrize(("broken", "left"), [("L", "N PE"), ("N", "L PE"), ("PE", "L N")])
def test_a_broken_conductor_is_no_branch(broken: str, left: str) -> None:
    circuit = cable(broken=broken)
    assert [b.name for b in circuit.branches if b.owner == "W1"] == left.split()


def test_a_run_of_no_length_keeps_the_circuit_solvable() -> None:
    line = branch(cable(length="0 ft"), "W1", "L")
    assert (line.r_cold, line.r_hot) == (LEAST_OHM, LEAST_OHM)


def test_what_is_not_given_only_holds_the_drawing_together() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", "W1", size="12 AWG")
    assert not branch(expand(d.design), "W1", "L").known


def test_cable_leaks_to_its_ground_wire() -> None:
    circuit = cable(length="10 m")
    leaks = [(x.farad, x.siemens) for x in circuit.leakages if x.owner == "W1"]
    assert leaks == [pytest.approx((1e-9, 1e-9))] * 2


def test_only_a_link_of_unlike_poles_is_a_bond() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("body", "XB1")
    d.part("panel", "QP1", bond="fitted")
    d.run("GB1.dc", "XB1.tie", "W1", poles="->body", size="8 AWG", length="1 ft")
    d.run("QP1.ground", "XB1.tie", "W2", size="8 AWG", length="1 ft")
    circuit = expand(d.design)
    assert [b.sort for b in circuit.branches if b.owner == "W1"] == ["bond"]
    assert [b.sort for b in circuit.branches if b.owner == "W2"] == ["run"]
    assert [b.sort for b in circuit.branches if b.owner == "QP1"] == ["bond"]


def test_a_seated_part_is_one_node_with_its_place() -> None:
    d = Draft(place="building")
    d.part("panel", "QP1", circuit="split", bond="absent", main="60 A", places="4")
    for number in ("1", "2", "3", "4"):
        d.part("breaker", f"QF{number}", rating="15 A")
        d.seat(f"QF{number}", "QP1", number)
    circuit = expand(d.design)
    bus = circuit.terminals["QP1", "bus"]
    legs = [circuit.terminals[f"QF{n}", "line"]["L"] for n in (1, 2, 3, 4)]
    assert legs == [bus["L1"], bus["L1"], bus["L2"], bus["L2"]]
    assert {circuit.terminals[f"QF{n}", "line"]["N"] for n in (1, 2, 3, 4)} == {bus["N"]}


def test_a_plug_is_joined_by_a_branch_in_each_of_its_places() -> None:
    d = Draft(place="vehicle")
    d.part("plug", "XP1")
    for name in ("XD1", "XD2"):
        d.part("outlet", name)
        d.seat("XP1", name, "face")
    circuit = expand(d.design)
    assert circuit.selectors["XP1", "plug"].positions == ("unplugged", "XD1", "XD2")
    seats = [b for b in circuit.branches if b.sort == "seat"]
    assert len(seats) == 6
    assert {next(iter(positions)) for b in seats for _, positions in b.when} == {"XD1", "XD2"}


def test_all_symbols_of_one_body_are_one_node() -> None:
    d = Draft(place="vehicle")
    d.part("body", "XB1", name="trailer")
    d.part("body", "XB2", name="trailer")
    d.part("body", "XB3", name="tow vehicle")
    terminals = expand(d.design).terminals
    nodes = [terminals[name, "tie"]["body"] for name in ("XB1", "XB2", "XB3")]
    assert nodes[0] == nodes[1] != nodes[2]


def test_a_case_settles_what_is_not_known() -> None:
    d = Draft(place="building")
    d.part("panel", "QP1")
    for bond, count in (("absent", 0), ("fitted", 1)):
        circuit = expand(d.design, {("QP1", "bond"): bond})
        assert sum(b.sort == "bond" for b in circuit.branches) == count


def test_the_part_that_carries_others_names_a_shared_node_whatever_the_ids() -> None:
    for outlet, load in (("A", "Z"), ("Z", "A")):
        d = Draft(place="building")
        d.part("outlet", outlet)
        d.part("plug_load", load, power="60 W")
        d.seat(load, outlet, "face")
        first = next(part for part, _ in expand(d.design).terminals)
        assert first == outlet


def test_bodies_are_told_by_their_names() -> None:
    for names in (("hull", "mast"), ("mast", "hull")):
        d = Draft(place="boat")
        for part, name in zip("AB", names, strict=True):
            d.part("body", part, name=name)
        circuit = expand(d.design)
        poles = [spot.pole for n in circuit.bodies for spot in circuit.spots[n] if spot.part == "@"]
        assert poles == ["body:hull", "body:mast"]


def test_a_contact_has_the_resistance_of_its_kind() -> None:
    d = Draft(place="building")
    d.part("breaker", "QF1", rating="20 A")
    contact = branch(expand(d.design), "QF1", "L")
    assert Three(contact.r_cold, contact.r_hot, contact.r_hot) == Three(10e-6, 5e-3, 5e-3)
