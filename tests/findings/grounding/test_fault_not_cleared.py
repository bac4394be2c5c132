"""A fault to metal that nothing ends in time."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, house, levels
from tests.findings.told import found, number, places

RULE, SLOW = "fault-not-cleared", "fault-slow"

OHM_PER_FT = 1.98e-3
"""12 AWG stranded copper at 75 C (NFPA 70 chapter 9 table 8)."""


def branch(feet: float, **run: str) -> Draft:
    """A strong supply, a 20 A breaker and a long 12 AWG circuit to a metal load."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", prospective="10 kA", outage="no")
    draft.part("panel", "QP1", bond="absent", bus="100 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="1/0 AWG", length="5 ft", terminals="75")
    draft.part("breaker", "QF1", rating="20 A", interrupting="22 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("load", "EA1", power="10 W")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length=f"{feet:g} ft", **run)
    return draft


def reach(amps: float) -> float:
    """Feet, one way, at which a dead short at 120 V still drives this current."""
    return 120.0 / amps / (2.0 * OHM_PER_FT)


@pytest.mark.parametrize(("share", "level"), [(0.96, Level.WARNING), (1.04, Level.DANGER)])
def test_below_twice_the_rating_it_counts_as_not_cleared(share: float, level: Level) -> None:
    # boundary: practice in North America, twice the rating; half of 120 V stands on metal
    draft = branch(share * reach(2 * 20.0))
    assert levels(draft, RULE if level is Level.DANGER else SLOW)[("EA1",)] is level
    assert (("EA1",) in levels(draft, RULE)) is (level is Level.DANGER)


def test_the_numbers_are_those_of_the_wire() -> None:
    hit = next(h for h in found(branch(1.04 * reach(40.0)), RULE) if h.subjects == ("EA1",))
    assert number(hit, "least fault current") == pytest.approx(40.0 / 1.04, rel=0.02)
    assert number(hit, "voltage on metal") == pytest.approx(60.0, rel=0.02)


def test_a_thicker_ground_wire_keeps_metal_below_the_touch_limit() -> None:
    # 8 AWG: 0.778 ohm per 1000 ft, so 120 * 0.778 / (0.778 + 1.98) = 34 V, below the 50 V of
    # IEC 60364-4-41 411.3.2.1
    draft = branch(1.04 * reach(40.0), ground_size="8 AWG")
    assert found(draft, RULE) == []


def test_where_it_is_wet_half_of_that_is_too_much() -> None:
    # 25 V where it is wet (IEC 60364-7): the longer circuit of the same wires
    feet = 1.1 * 120.0 / 40.0 / (OHM_PER_FT + 0.778e-3)
    assert found(branch(feet, ground_size="8 AWG"), RULE) == []
    draft = branch(feet, ground_size="8 AWG")
    draft.design.apply(change_settings(draft.design, wet=True))
    assert levels(draft, RULE)[("EA1",)] is Level.DANGER


def test_ordinary_sound_wiring_is_silent() -> None:
    # a strong supply, 100 ft of 12 AWG: 288 A and 57 V, far above five times the rating
    draft = branch(100.0)
    assert found(draft, RULE) == []
    assert found(draft, SLOW) == []


def test_a_ground_fault_device_clears_what_the_breaker_does_not() -> None:
    draft = branch(1.04 * reach(40.0))
    draft.rate("QF1", ground_fault="class_a")
    assert found(draft, RULE) == []


def test_a_small_set_that_hurts_nobody_is_no_danger() -> None:
    # 5 kVA and 50 ft of 12 AWG: some 6 to 10 V on metal; crying danger would be wrong
    draft = camp()
    draft.rate_run("W2", length="50 ft")
    assert found(draft, RULE) == []
    assert analyse(draft.design).silent


def test_without_any_way_back_metal_can_take_the_whole_voltage() -> None:
    draft = camp()
    draft.rate_run("W2", broken="PE")
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("EA1",), Level.DANGER)]
    assert number(hits[0], "voltage that metal can take") == 120.0


def test_an_earth_rod_at_the_load_clears_nothing() -> None:
    # 120 V over two electrodes of 25 ohm: 2.4 A, and the case stands at about 60 V
    draft = branch(20.0)
    draft.rate("GS1", electrode="25 ohm")
    draft.run_poles("W2", "L N")
    draft.part("electrode", "XE1", resistance="25 ohm")
    draft.run("EA1.in", "XE1.ground", "W3", poles="PE", size="6 AWG", length="3 ft")
    hit = next(h for h in found(draft, RULE) if h.subjects == ("EA1",))
    assert hit.level is Level.DANGER
    assert number(hit, "least fault current") == pytest.approx(2.4, rel=0.02)
    assert number(hit, "voltage on metal") == pytest.approx(60.0, rel=0.02)


def test_a_low_voltage_circuit_has_nothing_to_touch() -> None:
    draft = Draft(place="vehicle", voltage="12 V")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("body", "XB1")
    draft.run("GB1.dc", "XB1.tie", "W1", poles="->body", size="4 AWG", length="1 ft")
    assert found(draft, RULE) == []


def test_a_conductor_that_a_slow_fuse_lets_burn_is_a_danger() -> None:
    # 14 AWG stands 47.8 kA2s from 75 to 150 C; the fastest 100 A fuse of UL 248 lets more pass
    draft = branch(20.0)
    draft.cut("W2")
    draft.remove("QF1")
    draft.part("fuse", "F1", circuit="ac", rating="100 A", type="class_j", interrupting="20 kA")
    draft.run("QP1.feed", "F1.line", "W3", size="1/0 AWG", length="3 ft", terminals="75")
    draft.run("F1.load", "EA1.in", "W2", size="14 AWG", length="75 ft")
    hits = [h for h in found(draft, RULE) if h.subjects == ("W2",)]
    assert [hit.level for hit in hits] == [Level.DANGER]
    amps, seconds = number(hits[0], "current in it"), number(hits[0], "lasts")
    assert amps**2 * seconds > 47.8e3
    draft.rate("F1", rating="15 A")
    assert [h for h in found(draft, RULE) if h.subjects == ("W2",)] == []


def test_what_only_capacitance_joins_to_a_fault_is_not_its_metal() -> None:
    """A vehicle on an outlet without ground: a fault elsewhere lifts its skin through the cable's
    capacitance only, which a hand takes away."""
    d = house()
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("outlet", "XD9", configuration="5-15")
    d.run("QF9.load", "XD9.feed", "W9", poles="L N", size="14 AWG", length="40 ft")
    d.part("body", "XB1", name="trailer")
    d.run("XD9.onward", "XB1.tie", poles="PE>body", size="10 AWG", length="20 ft")
    # a fault at the outlet makes the skin live, and no other fault is told of it
    assert {f.subjects for f in found(d, RULE)} == {("XB1", "XD9")}


def near_the_board(**run: str) -> Draft:
    """A ground-fault outlet 3 ft from a board on 4 kA: its breaker lets less heat through than the
    25 ms of the outlet would (UL 489: tested with the wire of its rating; its fast edge counts)."""
    d = house(prospective="4 kA")
    d.part("breaker", "QF9", rating="20 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("outlet", "XD9", configuration="5-20", ground_fault="class_a")
    d.run("QF9.load", "XD9.feed", "W9", **({"size": "12 AWG", "length": "3 ft"} | run))
    return d


def test_the_breaker_beside_a_ground_fault_device_counts_for_heat() -> None:
    assert found(near_the_board(), RULE) == []
    burnt = found(near_the_board(ground_size="18 AWG"), RULE)
    assert [f.subjects for f in burnt if "heats" in f.message] == [("W9",)]


def array(common: str) -> Draft:
    """Five modules of 45 V on a controller, its case and their frames on the ground bar."""
    d = Draft(place="building", voltage="48 V")
    plate = {"voc": "45 V", "isc": "11 A", "vmp": "37 V", "imp": "10.5 A", "series": "5"}
    d.part("solar_array", "GP1", **plate, strings="1")
    d.part("solar_controller", "TC1", current="60 A", pv_voltage="300 V", common=common)
    d.part("battery", "GB1", voltage="48 V", fault_current="4 kA")
    d.run("GP1.dc", "TC1.pv", "W1", size="10 AWG", length="30 ft")
    d.run("TC1.dc", "GB1.dc", "W2", size="4 AWG", length="3 ft")
    d.part("electrode", "XE1", resistance="25 ohm")
    for name, end in (("W3", "TC1.case"), ("W4", "GP1.frame")):
        d.run(end, "XE1.ground", name, size="6 AWG", length="10 ft", installation="jumper")
    return d


def test_direct_current_that_floats_on_purpose_shifts_at_a_first_fault() -> None:
    """No current, and no voltage on metal that is grounded (NFPA 70 690.41; who finds the fault is
    asked by ground-open)."""
    assert levels(array("none"), RULE) == {}


def two_wires(box: str) -> Draft:
    """A board, and a box of this material at the end of two wires without ground."""
    d = house()
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("junction_box", "XJ1", metal=box)
    d.run("QF9.load", "XJ1.a", "W9", poles="L N", size="14 AWG", length="40 ft")
    return d


@pytest.mark.parametrize(("box", "told"), [("plastic", False), ("metal", True)])
def test_a_box_without_metal_has_nothing_to_touch(box: str, told: bool) -> None:
    hits = found(two_wires(box), RULE)
    assert [hit.subjects for hit in hits] == ([("XJ1",)] if told else [])


def test_what_is_touched_is_named_and_a_breaker_is_not() -> None:
    """The trailer's board on a cord without ground: its case and the skin, not its breaker."""
    d = house()
    d.part("breaker", "QF9", rating="20 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("panel", "QP2", bond="absent")
    d.run("QF9.load", "QP2.feed", "W9", size="12 AWG", length="25 ft", broken="PE")
    d.part("breaker", "QF8", rating="15 A")
    d.seat("QF8", "QP2", "1")
    d.part("body", "XB1", name="trailer")
    d.run("QP2.ground", "XB1.tie", size="8 AWG", length="2 ft", installation="jumper")
    (hit,) = found(d, RULE)
    assert hit.subjects == ("QP2", "XB1")
    assert "QF8" not in hit.message


def a_foot_from_the_board(ground: str | None = None) -> Draft:
    """A metal box a foot from a board of 8 kA, on 12 AWG behind an ordinary breaker of 20 A."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="100 A", prospective="8 kA", outage="no")
    d.part("panel", "QP1", bond="absent")
    d.run("GS1.out", "QP1.feed", "u", size="1/0 AWG", length="10 ft")
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="500 W")
    own = {} if ground is None else {"ground_size": ground}
    d.run("QF1.load", "EA1.in", "w", size="12 AWG", length="1 ft", **own)
    return d


def test_a_ground_wire_as_thick_as_its_live_conductors_is_tested_with_them() -> None:
    """UL 489 (from memory) tests a breaker with the wire of its rating, in which the same current
    flows; a thinner one is told."""
    assert found(a_foot_from_the_board(), RULE) == []
    assert places(a_foot_from_the_board("14 AWG"), RULE) == {("w",)}
