"""A ground wire or bonding jumper that is too thin."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from linework.kinds import Band
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import cured, found, gaps, number, places
from tests.trial.rigs import RIGS

RULE = "ground-undersized"


def feeder(device: str, size: str, ground: str, **run: str) -> Draft:
    """A strong supply, a breaker and a feeder with a ground wire of its own size."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="400 A", prospective="5 kA", outage="no")
    draft.part("panel", "QP1", bond="absent", bus="400 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="600 kcmil", length="10 ft", terminals="75")
    draft.part("breaker", "QF1", rating=device, interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("panel", "QP2", bond="absent", bus="400 A")
    draft.run(
        "QF1.load",
        "QP2.feed",
        "W2",
        size=size,
        ground_size=ground,
        length="100 ft",
        terminals="75",
        **run,
    )
    return draft


@pytest.mark.parametrize(("ground", "told"), [("12 AWG", True), ("10 AWG", False)])
def test_by_the_table_behind_60_a_10_awg_is_enough(ground: str, told: bool) -> None:
    # table 250.122: up to 60 A 10 AWG copper; a 50 A cord with 8 AWG is more than it asks
    # (www.rvtravel.com/rv-electricity-ground-size-matter)
    draft = feeder("60 A", "6 AWG", ground)
    assert (levels(draft, RULE) == {("W2",): Level.WARNING}) is told
    if told:
        assert number(found(draft, RULE)[0], "device ahead") == 60.0
        assert "10 AWG" in found(draft, RULE)[0].message


@pytest.mark.parametrize(("ground", "told"), [("3 AWG", True), ("2 AWG", False)])
def test_250_kcmil_raised_to_350_raises_4_awg_to_2_awg(ground: str, told: bool) -> None:
    # 300 A: 41 740 cmil x 350 / 250 = 58 436, next size 2 AWG (250.122(B); course notes,
    # inwindustrialtraining.com/post/code-talk-episode-32-notes)
    draft = feeder("300 A", "350 kcmil", ground)
    assert bool(found(draft, RULE)) is told
    if told:
        (hit,) = found(draft, RULE)
        assert "2 AWG at least" in hit.message
        # 350 kcmil, 310 A, is also the least that carries 300 A
        assert hit.level is Level.NOTE


@pytest.mark.parametrize(("ground", "told"), [("1 AWG", True), ("1/0 AWG", False)])
def test_a_20_a_circuit_of_1_0_needs_1_0(ground: str, told: bool) -> None:
    # one to one for 20 A (250.122(B); mepanet.com/287/proportionately-increase-equipment-
    # grounding-conductor)
    draft = feeder("20 A", "1/0 AWG", ground)
    assert bool(found(draft, RULE)) is told
    if told:
        assert "1/0 AWG at least" in found(draft, RULE)[0].message


def test_a_cord_behind_a_smaller_outlet_than_its_own_has_not_grown() -> None:
    # a listed cord of 6 AWG with 8 AWG ground, behind an adapter on 30 A: the table asks for 10 AWG
    assert found(feeder("30 A", "6 AWG", "8 AWG", installation="cord"), RULE) == []
    assert found(feeder("30 A", "6 AWG", "8 AWG"), RULE) != []


def test_what_heat_asks_for_is_no_growth() -> None:
    # 250.122(B) since 2020: conductors thickened by 310.15 alone do not grow their ground wire;
    # at 60 C 2 AWG of 75 C carries 115 x 0.58 = 67 A and may stand behind 70 A
    assert found(feeder("70 A", "2 AWG", "8 AWG", ambient="60 degC"), RULE) == []
    cool = found(feeder("70 A", "2 AWG", "8 AWG"), RULE)
    assert [hit.level for hit in cool] == [Level.WARNING]


def test_in_2017_what_heat_asks_for_is_growth() -> None:
    """250.122(B) of 2017: "before the application of any adjustment or correction factor(s)"; 6
    AWG, 65 A at 75 C, may stand behind 70 A: 66360 / 26240 x 16510 cmil = 41752, 4 AWG has 41740
    and the areas are rounded."""
    draft = feeder("70 A", "2 AWG", "8 AWG", ambient="60 degC")
    draft.design.apply(change_settings(draft.design, edition="2017"))
    (hit,) = found(draft, RULE)
    assert "4 AWG at least" in hit.message
    for edition in ("2014", "2020"):
        draft.design.apply(change_settings(draft.design, edition=edition))
        assert found(draft, RULE) == []


def test_where_the_load_may_ask_for_all_it_is_a_note() -> None:
    """240.4(B): 70 A may stand behind 6 AWG, 65 A at 75 C; a load of 70 A asks for 4 AWG, the next
    size, and then nothing has grown: 8 AWG by the table."""
    (hit,) = found(feeder("70 A", "4 AWG", "8 AWG"), RULE)
    assert hit.level is Level.NOTE
    assert "thicker than need be if its load takes less" in hit.message
    assert [hit.level for hit in found(feeder("70 A", "4 AWG", "10 AWG"), RULE)] == [Level.WARNING]
    assert [hit.level for hit in found(feeder("70 A", "3 AWG", "8 AWG"), RULE)] == [Level.WARNING]
    assert found(feeder("70 A", "6 AWG", "8 AWG"), RULE) == []


def test_the_mend_makes_it_thick_enough() -> None:
    draft = feeder("60 A", "6 AWG", "12 AWG")
    assert found(draft, RULE)[0].mend is not None
    assert cured(draft, found(draft, RULE)[0]).silent


# jumpers to the chassis


@pytest.mark.parametrize(("size", "told"), [("10 AWG", True), ("8 AWG", False)])
def test_a_vehicle_is_bonded_by_8_awg(size: str, told: bool) -> None:
    # 551.56(C)
    draft = caravan()
    draft.rate_run("W4", size=size)
    assert (levels(draft, RULE) == {("W4",): Level.WARNING}) is told
    if told:
        assert cured(draft, found(draft, RULE)[0]).silent


def test_elsewhere_no_such_size_is_asked_for() -> None:
    draft = caravan(place="field")
    draft.rate_run("W4", size="10 AWG")
    assert found(draft, RULE) == []


def test_an_aluminium_jumper_is_not_checked() -> None:
    draft = caravan()
    draft.rate_run("W4", material="aluminium")
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("W4",)]


@pytest.mark.parametrize(("size", "told"), [("6 AWG", True), ("2 AWG", False)])
def test_a_battery_joins_the_chassis_by_no_less_than_its_lead(size: str, told: bool) -> None:
    # 552.10(C)(4): 8 AWG, and not smaller than the ungrounded battery lead
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "W1", size="2 AWG", length="1 ft")
    draft.part("body", "XB1")
    draft.run("GB1.dc", "XB1.tie", "W2", poles="->body", size=size, length="2 ft")
    assert (levels(draft, RULE) == {("W2",): Level.WARNING}) is told


@pytest.mark.parametrize(("size", "told"), [("4 AWG", True), ("2 AWG", False)])
def test_the_other_lead_may_begin_at_a_fuse_on_the_post(size: str, told: bool) -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="100 A", type="mrbf")
    draft.seat("F1", "GB1", "post")
    draft.part("load", "EA1", circuit="dc", power="60 W", voltage="12 V")
    draft.run("F1.load", "EA1.in", "W1", poles="+", size="2 AWG", length="1 ft")
    draft.part("body", "XB1")
    draft.run("GB1.dc", "XB1.tie", "W2", poles="->body", size=size, length="2 ft")
    assert (levels(draft, RULE) == {("W2",): Level.WARNING}) is told


@pytest.mark.parametrize(("size", "told"), [("4 AWG", True), ("2 AWG", False)])
def test_the_other_lead_of_a_string_is_that_of_its_upper_battery(size: str, told: bool) -> None:
    draft = Draft(place="vehicle")
    for battery in ("GB1", "GB2"):
        draft.part("battery", battery, fault_current="3 kA")
    draft.run("GB1.dc", "GB2.dc", "W9", poles="->+", size="4 AWG", length="1 ft")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "W1", poles="+", size="2 AWG", length="1 ft")
    draft.part("body", "XB1")
    draft.run("GB2.dc", "XB1.tie", "W2", poles="->body", size=size, length="2 ft")
    assert (levels(draft, RULE) == {("W2",): Level.WARNING}) is told


def on_a_bar(place: str, size: str) -> Draft:
    """A battery whose minus goes to a bar, and from the bar to metal; a load on the bar."""
    d = Draft(place=place)
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("busbar", "WC1", bar="minus", rating="150 A", taps="3")
    d.run("GB1.dc", "F1.line", "W1", poles="+", size="2 AWG", length="0.5 ft")
    d.run("GB1.dc", "WC1.feed", "W2", poles="-", size="2 AWG", length="1 ft")
    d.part("body", "XB1")
    d.run("WC1.1", "XB1.tie", "W3", poles="->body", size=size, length="2 ft")
    d.part("load", "EA1", circuit="dc", power="60 W", voltage="12 V")
    d.run("F1.load", "EA1.in", "W4", poles="+", size="2 AWG", length="3 ft")
    d.run("WC1.2", "EA1.in", "W5", poles="-", size="2 AWG", length="3 ft")
    return d


@pytest.mark.parametrize(
    ("place", "size", "told"),
    [
        ("vehicle", "4 AWG", True),  # 552.10(C)(4): not below the lead
        ("vehicle", "2 AWG", False),
        ("boat", "4 AWG", True),  # ABYC E-11: one size under it, 3 AWG
        ("boat", "3 AWG", False),
        ("field", "8 AWG", False),
    ],
)
def test_the_minus_may_be_bonded_at_a_bar(place: str, size: str, told: bool) -> None:
    draft = on_a_bar(place, size)
    assert (levels(draft, RULE) == {("W3",): Level.WARNING}) is told
    if told:
        assert "minus of GB1" in found(draft, RULE)[0].message
        cured(draft, found(draft, RULE)[0])
        assert found(draft, RULE) == []


def test_the_return_of_a_load_through_the_chassis_is_no_bond_of_the_battery() -> None:
    draft = on_a_bar("vehicle", "2 AWG")
    draft.cut("W5")
    draft.run("EA1.in", "XB1.tie", "W5", poles="->body", size="10 AWG", length="2 ft")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("plus", "case", "told"),
    [
        ("2/0 AWG", "2 AWG", True),
        ("2/0 AWG", "1/0 AWG", False),
        ("14 AWG", "18 AWG", True),
        ("14 AWG", "16 AWG", False),
    ],
)
def test_the_case_ground_of_a_part_afloat_goes_by_its_plus(
    plus: str, case: str, told: bool
) -> None:
    """ABYC E-11, as quoted by a maker's manual: one size under the plus; 16 AWG from memory."""
    d = Draft(place="boat")
    d.part("battery", "GB1", fault_current="1 kA")
    d.part("fuse", "F1", rating="15 A", type="class_t")
    d.part("inverter", "TB1", power="100 VA", neutral="bonded", outlets="1")
    d.run("GB1.dc", "F1.line", poles="+", size=plus, length="0.5 ft")
    d.run("F1.load", "TB1.dc", poles="+", size=plus, length="3 ft")
    d.run("GB1.dc", "TB1.dc", poles="-", size=plus, length="3 ft")
    d.part("body", "XB1")
    d.run("GB1.dc", "XB1.tie", poles="->body", size=plus, length="2 ft")
    d.run("TB1.case", "XB1.tie", "W9", size=case, length="2 ft", installation="jumper")
    assert (levels(d, RULE) == {("W9",): Level.WARNING}) is told


@pytest.mark.parametrize(("size", "told"), [("12 AWG", True), ("10 AWG", False)])
def test_the_strap_of_a_boats_board_is_the_ground_wire_of_what_touches_the_metal(
    size: str, told: bool
) -> None:
    # table 250.122: 10 AWG behind 30 A; that ABYC E-11 asks the same is from memory
    d = Draft(place="boat")
    d.part("supply", "GS1", breaker="30 A", prospective="1 kA")
    d.part("panel", "QP1", bond="absent", bus="60 A")
    d.run("GS1.out", "QP1.feed", "W1", size="10 AWG", length="40 ft")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="300 W")
    d.run("QF1.load", "EA1.in", "W2", size="14 AWG", length="20 ft")
    d.part("body", "XB1", name="engine")
    d.run("QP1.ground", "XB1.tie", "W3", size=size, length="4 ft", installation="jumper")
    assert (levels(d, RULE) == {("W3",): Level.WARNING}) is told
    if told:
        assert "behind GS1 of 30 A" in found(d, RULE)[0].message
        cured(d, found(d, RULE)[0])
        assert found(d, RULE) == []


@pytest.mark.parametrize(("ground", "told"), [("16 AWG", True), ("14 AWG", False)])
def test_behind_a_source_that_holds_its_current_the_table_counts_too(
    ground: str, told: bool
) -> None:
    # table 250.122: 14 AWG is its least, up to 15 A; the inverter gives 8.3 A
    d = Draft(place="field")
    d.part("battery", "GB1", voltage="24 V", fault_current="2 kA")
    d.part("fuse", "F1", rating="60 A", type="class_t")
    d.part("inverter", "TB1", power="1 kVA", dc_voltage="24 V", neutral="bonded")
    d.run("GB1.dc", "F1.line", poles="+", size="6 AWG", length="0.5 ft")
    d.run("F1.load", "TB1.dc", poles="+", size="6 AWG", length="3 ft")
    d.run("GB1.dc", "TB1.dc", poles="-", size="6 AWG", length="3 ft")
    d.part("panel", "QP1", main="15 A", bond="absent")
    d.run("TB1.ac_out", "QP1.feed", "W7", size="12 AWG", ground_size=ground, length="6 ft")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="300 W")
    d.run("QF1.load", "EA1.in", "W8", size="14 AWG", length="10 ft")
    assert (levels(d, RULE) == {("W7",): Level.WARNING}) is told
    if told:
        cured(d, found(d, RULE)[0])
        assert found(d, RULE) == []


# a ground wire on its own


def apart(size: str, main: str = "100 A") -> Draft:
    """A board whose ground wire comes by itself."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", prospective="3 kA", outage="no")
    draft.part("panel", "QP1", bond="absent", bus="100 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="1 AWG", length="20 ft", terminals="75")
    draft.part("breaker", "QF1", rating=main, interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("panel", "QP2", bond="absent", bus="100 A")
    draft.run("QF1.load", "QP2.feed", "W2", "L N", size="1 AWG", length="20 ft", terminals="75")
    draft.run("QP1.ground", "QP2.ground", "W3", size=size, length="20 ft")
    return draft


@pytest.mark.parametrize(("size", "told"), [("10 AWG", True), ("8 AWG", False)])
def test_a_ground_wire_on_its_own_goes_by_the_device_too(size: str, told: bool) -> None:
    # table 250.122: up to 100 A 8 AWG copper
    draft = apart(size)
    assert (levels(draft, RULE) == {("W3",): Level.WARNING}) is told
    if told:
        assert found(draft, RULE)[0].message.count("QP2") == 1


def test_beside_another_ground_wire_it_may_be_thin() -> None:
    draft = apart("12 AWG")
    draft.run_poles("W2", "L N PE")
    assert found(draft, RULE) == []


# conductors to electrodes


def rodded(size: str, service: str = "1 AWG", place: str = "building") -> Draft:
    """A house with an electrode at its board."""
    draft = house()
    draft.design.apply(change_settings(draft.design, place=place))
    draft.rate_run("W1", size=service)
    draft.part("electrode", "XE1")
    draft.run("QP1.ground", "XE1.ground", "W9", size=size, length="6 ft", installation="jumper")
    return draft


@pytest.mark.parametrize(
    ("size", "service", "told"),
    [
        # table 250.66: 8 AWG copper up to 2 AWG, 6 AWG for 1 and 1/0 AWG; 250.66(A): to a rod
        # never more than 6 AWG
        ("10 AWG", "2 AWG", True),
        ("8 AWG", "2 AWG", False),
        ("8 AWG", "1 AWG", True),
        ("6 AWG", "1 AWG", False),
        ("6 AWG", "4/0 AWG", False),
    ],
)
def test_a_conductor_to_an_electrode(size: str, service: str, told: bool) -> None:
    draft = rodded(size, service)
    assert (("W9",) in levels(draft, RULE)) is told
    if told:
        hit = next(h for h in found(draft, RULE) if h.subjects == ("W9",))
        assert hit.level is Level.WARNING
        cured(draft, hit)
        assert found(draft, RULE) == []


def test_a_rod_in_the_field_is_an_addition() -> None:
    # 250.54: nothing is asked of it
    assert found(rodded("12 AWG", place="field"), RULE) == []


# heat


def strong(magnetic: str | None, **run: str) -> Draft:
    """A 60 A feeder with 10 AWG as ground wire, a stiff supply behind it."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="200 A", prospective=Band("10 kA", "10 kA", "10 kA"))
    draft.rate("GS1", outage="no", x_over_r="0.1")
    draft.part("panel", "QP1", bond="absent", bus="200 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="4/0 AWG", length="5 ft", terminals="75")
    draft.part("breaker", "QF1", rating="60 A", interrupting="22 kA")
    if magnetic is not None:
        draft.rate("QF1", magnetic=magnetic)
    draft.seat("QF1", "QP1", "1")
    draft.part("panel", "QP2", bond="absent", bus="60 A")
    draft.run("QF1.load", "QP2.feed", "W2", size="6 AWG", ground_size="10 AWG", terminals="75")
    draft.rate_run("W2", **({"length": "10 ft"} | run))
    return draft


def test_a_ground_wire_that_burns_before_the_breaker_opens() -> None:
    # 10 AWG, 5.26 mm2, k = 105 from 75 to 150 C: 306 kA2s (10 AWG 4300 A for one period, fuse
    # maker's data after ICEA, studylib.net/doc/13679022). At 25 ms that is 3.5 kA.
    draft = strong("600 A")
    burnt = found(draft, "fault-not-cleared")
    assert [(hit.subjects, hit.level) for hit in burnt] == [(("W2",), Level.DANGER)]
    amps, seconds = number(burnt[0], "current in it"), number(burnt[0], "lasts")
    assert amps**2 * seconds > 4300.0**2 / 60.0
    assert [(c.rule, c.where) for c in burnt[0].consequences] == [(RULE, ("W2",))]
    least = number(found(draft, RULE)[0], "needed")
    assert least == pytest.approx(amps * seconds**0.5 / 105.1, rel=0.01)


def test_a_longer_way_keeps_the_current_below_that() -> None:
    assert found(strong("600 A", length="60 ft"), RULE) == []


def test_an_ordinary_breaker_is_given_its_fast_edge() -> None:
    # its slow edge is no promise: 8 ms are, so 6.2 kA
    assert found(strong(None), RULE) == []


def test_the_mend_against_heat() -> None:
    draft = strong("600 A")
    hit = found(draft, RULE)[0]
    assert hit.mend is not None
    draft.design.apply(hit.mend.edit(draft.design))
    assert analyse(draft.design).silent


def test_ordinary_designs_are_silent() -> None:
    assert found(camp(), RULE) == []
    assert found(caravan(), RULE) == []


def fused_inverter(case: str) -> Draft:
    """A plus of 4/0 AWG behind 300 A into a case that a jumper of its own grounds."""
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="5 kA")
    d.part("fuse", "F1", rating="300 A", type="class_t", interrupting="20 kA")
    lead = {"size": "4/0 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", poles="+", length="0.5 ft", **lead)
    d.part("inverter", "TB1", power="2 kVA", neutral="bonded", outlets="1")
    d.run("F1.load", "TB1.dc", poles="+", length="3 ft", **lead)
    d.run("GB1.dc", "TB1.dc", poles="-", length="4 ft", **lead)
    d.part("body", "XB1", name="engine")
    d.run("TB1.case", "XB1.tie", "green", size=case, length="3 ft", installation="jumper")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="4/0 AWG", length="2 ft", installation="jumper")
    return d


def test_a_plus_that_touches_the_case_of_its_own_part_burns_a_thin_case_ground() -> None:
    """IEC 60949: 16 AWG, 1.31 mm2 of copper, stands (143 x 1.31)2 = 35,100 ampere squared
    seconds from 30 to 150 C at the most."""
    burnt = found(fused_inverter("16 AWG"), "fault-not-cleared")
    assert [(hit.subjects, hit.level) for hit in burnt] == [(("green",), Level.DANGER)]
    amps, seconds = number(burnt[0], "current in it"), number(burnt[0], "lasts")
    assert amps**2 * seconds > 35_100.0
    assert found(fused_inverter("4 AWG"), "fault-not-cleared") == []


def two_sources(ground: str, utility: str = "50 A") -> Draft:
    """A board behind a switch on a utility of this rating or a set of 30 A, all in 6 AWG."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker=utility, outage="yes", prospective="4 kA")
    d.part("generator", "G1", power="3.6 kVA", neutral="floating", breaker="30 A")
    d.part("transfer_switch", "QT1", rating="60 A", poles="lines")
    wire = {"size": "6 AWG", "length": "10 ft"}
    d.run("GS1.out", "QT1.in1", **wire)
    d.run("G1.out", "QT1.in2", **wire)
    d.part("panel", "QP1", bus="100 A", bond="absent")
    d.run("QT1.load", "QP1.feed", "feed", ground_size=ground, **wire)
    return d


def test_where_several_sources_feed_a_run_the_largest_device_of_all_states_decides() -> None:
    """Table 250.122: 10 AWG behind 50 A; behind 30 A the same 6 AWG would have grown from 10."""
    assert found(two_sources("10 AWG"), RULE) == []
    (hit,) = found(two_sources("12 AWG"), RULE)
    assert number(hit, "device ahead") == 50.0
    # with 30 A on both its conductors have grown
    assert {h.subjects for h in found(two_sources("10 AWG", "30 A"), RULE)} == {("feed",)}


@pytest.mark.parametrize(("size", "told"), [("10 AWG", False), ("12 AWG", True)])
def test_a_coach_made_for_more_than_the_park_gives_has_grown_nothing(size: str, told: bool) -> None:
    # W1 of 6 AWG leads to a main of 50 A; table 250.122 asks 10 AWG up to 60 A
    draft = RIGS["trailer_on_a_dogbone"]()
    draft.rate_run("W1", ground_size=size)
    assert (("W1",) in places(draft, RULE)) is told
