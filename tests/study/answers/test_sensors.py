"""What a ground-fault device sees of the circuit."""

from __future__ import annotations

from linework.design import Draft
from linework.study.answers.sensors import guarded, guarded_faults, live, load_side_link
from linework.study.neutral.metal import ground_nodes
from linework.study.situation import Situation
from linework.study.studies import Studies
from tests.designs import situation_of


def bench(load_side: str = "") -> Draft:
    """A bonded set, a ground-fault device and behind it a load; ``load_side``: poles of a wire that
    joins neutral to ground there."""
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded", breaker="30 A")
    d.part("gfci", "QE1", rating="20 A")
    d.run("G1.out", "QE1.line", "W1", size="10 AWG", length="10 ft")
    d.part("load", "EA1", power="600 W")
    d.run("QE1.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    d.part("load", "EA2", power="600 W")
    d.run("G1.out", "EA2.in", "W3", size="10 AWG", length="10 ft")
    if load_side:
        d.run("QE1.load", "EA1.in", "again", poles=load_side, size="12 AWG", length="10 ft")
    return d


def hot(situation: Situation, owner: str) -> int:
    (load,) = (x for x in situation.circuit.loads if x.owner == owner)
    return load.a


def test_it_guards_what_hangs_on_its_source_through_it_alone() -> None:
    situation = situation_of(bench(), G1="running")
    (sensor,) = situation.circuit.sensors
    assert guarded(situation, sensor, hot(situation, "EA1"))
    assert not guarded(situation, sensor, hot(situation, "EA2"))
    (ground,) = ground_nodes(situation.circuit, "EA1")
    assert not guarded(situation, sensor, ground)


def test_it_is_live_where_a_source_of_alternating_current_feeds_it() -> None:
    situation = situation_of(bench(), G1="running")
    (sensor,) = situation.circuit.sensors
    assert live(situation, sensor)
    alone = bench()
    alone.cut("W1")
    dead = situation_of(alone, G1="running")
    assert not live(dead, dead.circuit.sensors[0])


def test_a_neutral_that_meets_ground_behind_it_is_a_link_on_the_load_side() -> None:
    for poles, linked in (("", False), ("N>PE", True)):
        situation = situation_of(bench(poles), G1="running")
        assert load_side_link(situation, situation.circuit.sensors[0]) is linked


def test_the_faults_that_it_must_end_are_those_to_metal_behind_it() -> None:
    situation = situation_of(bench(), G1="running")
    studies = Studies(situation.circuit, situation.state)
    (sensor,) = situation.circuit.sensors
    found = guarded_faults(studies, sensor)
    assert {fault.point.part for _, fault in found} == {"EA1", "QE1"}
    assert all(studies.faults[index] is fault for index, fault in found)
