"""Which device protects a conductor, and what the conductor leads to."""

from __future__ import annotations

import math

import pytest

from linework.circuit import expand
from linework.design import Draft
from linework.study.answers.behind import Behind, device_before
from linework.study.situation import Situation
from linework.study.ways.protection import (
    Feed,
    beyond,
    device_at,
    faces_together,
    feeds_of_runs,
    guards,
    lasting_a,
    smallest,
)
from linework.study.wires.rated import rated_parts
from linework.wiring import Limit, Pole, Source, SourceGroup, Three
from tests.designs import situation_of
from tests.enumeration import all_states
from tests.findings.camps import house


def live(draft: Draft) -> Situation:
    """The state in which the most sources are on."""
    circuit = expand(draft.design)
    states = [Situation(circuit, state) for state in all_states(circuit).states]
    return max(states, key=lambda situation: len(situation.active))


def feed(situation: Situation, run: str, source: str = "", pole: str = "L") -> Feed:
    (found,) = [
        f
        for f in feeds_of_runs(situation)
        if f.run == run
        and situation.circuit.branches[f.branch].pole == pole
        and source in ("", f.system.owner)
    ]
    return found


def guard_of(situation: Situation, run: str, source: str = "", pole: str = "L") -> str:
    device = smallest(situation, feed(situation, run, source, pole))
    return "" if device is None else device.owner


def chain(*ratings: str) -> Draft:
    """A supply, breakers in a row, a run behind each, a load."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A")
    before = "GS1.out"
    for n, rating in enumerate(ratings):
        draft.part("breaker", f"QF{n}", rating=rating)
        draft.run(before, f"QF{n}.line", f"W{n}", size="6 AWG", length="10 ft")
        before = f"QF{n}.load"
    draft.part("load", "EA1", power="100 W")
    draft.run(before, "EA1.in", "W9", size="6 AWG", length="10 ft")
    return draft


def test_the_smallest_device_on_the_way_protects() -> None:
    situation = live(chain("60 A", "20 A", "40 A"))
    assert guard_of(situation, "W0") == "GS1"
    assert guard_of(situation, "W1") == "QF0"
    assert guard_of(situation, "W2") == "QF1"
    assert guard_of(situation, "W9") == "QF1"


def test_of_equal_devices_the_nearest_is_named() -> None:
    assert guard_of(live(chain("30 A", "30 A")), "W9") == "QF1"


def parallel(second: str | None) -> Draft:
    """Two ways to one box: through 20 A, and through another device or none."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A")
    for name in ("XJ1", "XJ2"):
        draft.part("junction_box", name)
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="100 W")
    wire = {"size": "6 AWG", "length": "10 ft"}
    draft.run("GS1.out", "XJ1.a", "W1", **wire)
    draft.run("XJ1.b", "QF1.line", "W2", **wire)
    draft.run("QF1.load", "XJ2.a", "W3", **wire)
    if second is None:
        draft.run("XJ1.c", "XJ2.b", "W4", **wire)
    else:
        draft.part("breaker", "QF2", rating=second)
        draft.run("XJ1.c", "QF2.line", "W4", **wire)
        draft.run("QF2.load", "XJ2.b", "W5", **wire)
    draft.run("XJ2.c", "EA1.in", "W9", **wire)
    return draft


def test_the_worst_of_several_ways_counts() -> None:
    assert guard_of(live(parallel("60 A")), "W9") == "QF2"
    assert guard_of(live(parallel(None)), "W9") == "GS1"


def test_where_one_way_passes_no_device_nothing_protects() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.part("fuse", "F1", rating="20 A")
    draft.part("junction_box", "XJ2", circuit="dc")
    draft.part("lamp", "EL1", power="10 W", circuit="dc", voltage="12 V")
    wire = {"size": "10 AWG", "length": "1 ft"}
    draft.run("GB1.dc", "XJ1.a", "W1", **wire)
    draft.run("XJ1.b", "F1.line", "W2", **wire)
    draft.run("F1.load", "XJ2.a", "W3", **wire)
    draft.run("XJ2.b", "EL1.in", "W4", **wire)
    assert guard_of(live(draft), "W4", pole="+") == "F1"
    draft.run("XJ1.c", "XJ2.c", "W5", **wire)
    found = feed(live(draft), "W4", pole="+")
    assert found.unguarded
    assert found.guard.rating_a == math.inf


def test_a_device_between_two_batteries_guards_from_the_far_one_only() -> None:
    draft = Draft(place="vehicle")
    for n in ("1", "2"):
        draft.part("battery", f"GB{n}")
    draft.part("fuse", "F1", rating="100 A")
    wire = {"size": "2 AWG", "length": "1 ft"}
    draft.run("GB1.dc", "F1.line", "W1", **wire)
    draft.run("F1.load", "GB2.dc", "W2", **wire)
    situation = live(draft)
    assert [guard_of(situation, "W1", g, "+") for g in ("GB1", "GB2")] == ["", "F1"]
    assert [guard_of(situation, "W2", g, "+") for g in ("GB1", "GB2")] == ["F1", ""]


def test_only_live_conductors_are_fed() -> None:
    situation = live(chain("20 A"))
    poles = {situation.circuit.branches[f.branch].pole for f in feeds_of_runs(situation)}
    assert poles == {"L"}
    draft = chain("20 A")
    draft.run_poles("W0", "L>N N>L PE>PE")
    crossed = live(draft)
    assert {crossed.circuit.branches[f.branch].pole for f in feeds_of_runs(crossed)} == {"L", "N"}


def test_what_lies_beyond_ends_at_the_next_device() -> None:
    situation = live(chain("60 A", "20 A"))
    first = beyond(situation, feed(situation, "W0"))
    assert [situation.circuit.devices[i].owner for i in first.devices] == ["QF0"]
    assert not first.loads
    last = beyond(situation, feed(situation, "W9"))
    assert [situation.circuit.loads[i].owner for i in last.loads] == ["EA1"]
    assert not last.devices


def test_in_a_ring_nothing_lies_beyond() -> None:
    situation = live(parallel("60 A"))
    assert beyond(situation, feed(situation, "W3")).ring
    assert not beyond(situation, feed(situation, "W9")).ring


def test_the_outlets_of_one_circuit_are_found_from_any_of_its_runs() -> None:
    draft = chain("20 A")
    draft.remove("EA1")
    draft.part("outlet", "X1")
    draft.part("outlet", "X2")
    draft.run("QF0.load", "X1.feed", "W2", size="12 AWG", length="10 ft")
    draft.run("X1.onward", "X2.feed", "W3", size="12 AWG", length="10 ft")
    situation = live(draft)
    for run in ("W2", "W3"):
        faces = faces_together(situation, feed(situation, run))
        assert {situation.circuit.faces[i].owner for i in faces} == {"X1", "X2"}
    assert not faces_together(situation, feed(situation, "W0"))


def source(rated: float | None, limit: Limit | None, group: SourceGroup) -> Source:
    ohm = Three.exactly(0.1)
    ends = ("out", Pole.L), ("out", Pole.N)
    return Source("s", *ends, 120.0, 60.0, ohm, ohm, rated_a=rated, limit=limit, group=group)


@pytest.mark.parametrize(
    ("rated", "limit", "group", "amps"),
    [
        (None, None, SourceGroup.CELLS, math.inf),
        (20.0, None, SourceGroup.INVERTER, math.inf),
        # NFPA 70 445.13(A): 115 % of the nameplate current
        (20.0, Limit(Three(0.0, 10.0, 50.0), 0.35), SourceGroup.SET, 23.0),
        # goes off by itself after five seconds
        (20.0, Limit(Three(20.0, 30.0, 40.0), 0.02, 5.0), SourceGroup.INVERTER, 20.0),
        (20.0, Limit(Three(20.0, 20.0, 26.0), 0.0), SourceGroup.CHARGER, 26.0),
    ],
)
def test_what_conductors_must_carry_to_need_no_device(
    rated: float | None, limit: Limit | None, group: SourceGroup, amps: float
) -> None:
    assert lasting_a(source(rated, limit, group)) == pytest.approx(amps)


def test_the_device_at_a_node_is_that_of_its_guard() -> None:
    situation = situation_of(house())
    circuit = situation.circuit
    (system,) = situation.systems
    (load,) = (x for x in circuit.loads if x.owner == "EA1")
    device = device_at(situation, system, load.a)
    assert device is not None
    assert device.owner == "QF1"
    assert device is circuit.devices[guards(situation, system)[load.a].device or 0]
    assert device_at(situation, system, circuit.sources[system.source].plus) is None
    assert device_at(situation, system, load.b) is None  # its neutral


def test_the_devices_are_searched_once_for_a_source() -> None:
    situation = situation_of(house())
    (system,) = situation.systems
    assert guards(situation, system) is guards(situation, system)


@pytest.mark.parametrize(("thick", "thin"), [("QF1", "QF2"), ("QF2", "QF1")])
def test_of_equal_devices_side_by_side_the_better_way_counts(thick: str, thin: str) -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", outage="no")
    draft.part("load", "EA1", power="100 W")
    for breaker, size in ((thick, "6 AWG"), (thin, "12 AWG")):
        draft.part("breaker", breaker, rating="20 A")
        draft.run("GS1.out", f"{breaker}.line", f"W1{breaker}", size=size, length="10 ft")
        draft.run(f"{breaker}.load", "EA1.in", f"W2{breaker}", size=size, length="10 ft")
    situation = live(draft)
    (system,) = situation.systems
    node = situation.circuit.terminals["EA1", "in"]["L"]
    device = device_at(situation, system, node)
    assert device is not None
    assert device.owner == thick


@pytest.mark.parametrize(("near", "far"), [("GS1", "GS2"), ("GS2", "GS1")])
def test_of_equal_devices_of_two_sources_the_farthest_from_them_counts(near: str, far: str) -> None:
    draft = Draft(place="building")
    for name in (near, far):
        draft.part("supply", name, breaker="20 A", outage="no")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="100 W")
    draft.run(f"{near}.out", "EA1.in", size="12 AWG", length="10 ft")
    draft.run(f"{far}.out", "QF1.line", size="12 AWG", length="10 ft")
    draft.part("outlet", "XD1")
    draft.run("QF1.load", "XD1.feed", size="12 AWG", length="10 ft")
    draft.run("XD1.onward", "EA1.in", size="12 AWG", length="10 ft")
    situation = live(draft)
    (outlet,) = (r for r in rated_parts(situation.circuit, draft.design) if r.part == "XD1")
    behind = device_before(situation, outlet)
    assert isinstance(behind, Behind)
    assert behind.device.owner == "QF1"
