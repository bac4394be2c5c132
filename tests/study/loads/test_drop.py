"""Voltage lost run by run, and behind the last device."""

from __future__ import annotations

import pytest

from linework.codes import resistance
from linework.design import Draft
from linework.study.loads.drop import Drop, Drops, idle_faces
from linework.study.loads.loaded import loaded
from tests.study.ways.test_protection import live

FOOT = 0.3048


def wire(size: str, feet: float) -> float:
    return resistance(size, "copper", "stranded", 75.0).value * feet * FOOT


def drop_of(draft: Draft, part: str) -> Drop:
    situation = live(draft)
    load = next(load for _, load in situation.loads if load.owner == part)
    found = Drops(situation).load(loaded(situation), load)
    assert found is not None
    return found


def tapped() -> Draft:
    """A feeder W1 with a load at its end and one behind a fuse and W2, all 10 AWG."""
    draft = Draft(place="building")
    draft.part("battery", "GB1", voltage="12 V", fault_current="5 kA")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.part("fuse", "F1", rating="30 A", type="class_t")
    draft.part("lamp", "EL1", power="60 W", circuit="dc", voltage="12 V")
    draft.part("lamp", "EL2", power="60 W", circuit="dc", voltage="12 V")
    draft.run("GB1.dc", "XJ1.a", "W1", size="10 AWG", length="10 ft")
    draft.run("XJ1.b", "EL1.in", "W3", size="10 AWG", length="0 ft")
    draft.run("XJ1.c", "F1.line", "W4", size="10 AWG", length="0 ft")
    draft.run("F1.load", "EL2.in", "W2", size="10 AWG", length="20 ft")
    return draft


FUSE_OHM = 0.07 / 30.0
"""A fuse of class T of 30 A loses 0.07 V at its rating."""


def test_a_distributor_with_two_taps() -> None:
    # Currents add up toward the source, as in every textbook's distributor: the section nearest
    # to it carries both loads. Both lamps are resistances of 2.4 ohm.
    section, far = 2 * wire("10 AWG", 10), 2 * wire("10 AWG", 20) + FUSE_OHM
    branch = 2.4 + far
    both = 2.4 * branch / (2.4 + branch)
    cells = 12.0 / 5000
    at_box = 12.0 * both / (both + section + cells)
    first, second = drop_of(tapped(), "EL1"), drop_of(tapped(), "EL2")
    assert first.load_v == pytest.approx(at_box, rel=1e-3)
    assert second.load_v == pytest.approx(at_box * 2.4 / branch, rel=1e-3)
    assert second.source_v == pytest.approx(at_box * (both + section) / both, rel=1e-3)


def test_what_is_lost_behind_the_last_device() -> None:
    found = drop_of(tapped(), "EL2")
    amps = found.load_v / 2.4
    assert found.branch_runs == ("W2",)
    assert found.branch_v == pytest.approx(2 * wire("10 AWG", 20) * amps, rel=1e-6)
    assert found.runs["W2"] == pytest.approx(found.branch_v, rel=1e-6)
    assert found.worst_of(found.branch_runs) == "W2"
    assert found.feeder_runs == ("W1", "W4")
    # W1 carries both lamps over half the length: the whole way loses most there
    assert found.runs["W1"] > found.runs["W2"]
    assert found.worst_run == "W1"
    assert found.feeder_share == pytest.approx(found.total_share - found.branch_share)
    # without a device everything counts as the branch
    assert set(drop_of(tapped(), "EL1").branch_runs) == {"W1", "W3"}


def test_the_runs_add_up_to_the_whole_but_for_the_contacts() -> None:
    found = drop_of(tapped(), "EL2")
    contact = FUSE_OHM * found.load_v / 2.4
    assert sum(found.runs.values()) + contact == pytest.approx(
        found.source_v - found.load_v, rel=1e-6
    )


def test_a_run_of_unknown_length_is_marked() -> None:
    draft = tapped()
    assert drop_of(draft, "EL2").known
    draft.rate_run("W1", length=None)
    assert not drop_of(draft, "EL2").known


def test_exchanged_conductors_do_not_hide_a_drop() -> None:
    straight = tapped()
    draft = tapped()
    draft.run_poles("W2", "+>- ->+")
    assert drop_of(draft, "EL2").load_v == pytest.approx(drop_of(straight, "EL2").load_v)


def test_an_outlet_alone() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "X1")
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "X1.feed", "W1", size="12 AWG", length="50 ft")
    situation = live(draft)
    (face,) = idle_faces(situation)
    found = Drops(situation).outlet(face, 16.0)
    assert found is not None
    assert found.source_v == pytest.approx(120.0)
    assert found.branch_v == pytest.approx(2 * wire("12 AWG", 50) * 16.0)
    draft.part("plug_load", "EP1", power="100 W")
    draft.seat("EP1", "X1", "face")
    assert not idle_faces(live(draft))


@pytest.mark.parametrize(("near", "far"), [("GB1", "GB2"), ("GB2", "GB1")])
def test_of_two_sources_the_nearer_is_asked_whatever_its_name(near: str, far: str) -> None:
    draft = Draft(place="building")
    for name, volts in ((near, "12 V"), (far, "12.6 V")):
        draft.part("battery", name, voltage=volts, fault_current="2 kA")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.part("junction_box", "XJ2", circuit="dc")
    draft.part("lamp", "EL1", power="60 W", circuit="dc", voltage="12 V")
    draft.run(f"{near}.dc", "XJ2.a", size="10 AWG", length="1 ft")
    draft.run(f"{far}.dc", "XJ1.a", size="10 AWG", length="20 ft")
    draft.run("XJ1.b", "XJ2.b", size="10 AWG", length="10 ft")
    draft.run("XJ2.c", "EL1.in", "W9", size="10 AWG", length="15 ft")
    found = drop_of(draft, "EL1")
    assert len(found.runs) == 2
    assert sum(found.runs.values()) == pytest.approx(found.source_v - found.load_v)


@pytest.mark.parametrize(("thick", "thin"), [("W1", "W2"), ("W2", "W1")])
def test_of_two_ways_as_long_the_better_is_taken_whatever_its_name(thick: str, thin: str) -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", outage="no")
    draft.part("outlet", "XD1")
    sizes = ((thick, "6 AWG"), (thin, "14 AWG"))
    for name, size in sizes:
        draft.run("GS1.out", "XD1.feed", name, size=size, length="20 ft")
    situation = live(draft)
    (face,) = idle_faces(situation)
    found = Drops(situation).outlet(face, 10.0)
    assert found is not None
    assert set(found.runs) == {thick}
