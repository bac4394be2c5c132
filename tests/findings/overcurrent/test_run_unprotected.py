"""run-unprotected: what a source reaches without a device, and how far from it the first one is."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.kinds import OneOf
from tests.findings.banks import van
from tests.findings.told import cured, found, gaps, number, places, praise

RULE = "run-unprotected"
DC = {"circuit": "dc", "voltage": "12 V"}


def bank(place: str = "vehicle", length: str = "12 ft", **lead: str) -> Draft:
    """A battery, a cable, a board whose main breaker is the first device."""
    d = Draft(place=place)
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("panel", "QP1", main="100 A", bus="200 A", **DC)
    d.run("GB1.dc", "QP1.feed", "W1", size="2 AWG", length=length, **lead)
    return d


def fused(draft: Draft, distance: str) -> Draft:
    """The same with a fuse at the end of a lead of this length."""
    draft.cut("W1")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "W2", size="2 AWG", length=distance)
    draft.run("F1.load", "QP1.feed", "W3", size="2 AWG", length="12 ft")
    return draft


def test_a_battery_cable_whose_first_device_is_far_off_is_dangerous() -> None:
    # A surveyor's commonest finding (ABYC E-11): the positive runs to the panel unfused.
    draft = bank("boat", "14 ft")
    (finding,) = found(draft, RULE)
    assert finding.level.word == "danger"
    assert finding.subjects == ("W1",)
    assert finding.clause == "ABYC E-11"
    assert number(finding, "allowed") == pytest.approx(7 * 0.0254)
    assert number(finding, "cable without protection") == pytest.approx(14 * 0.3048)


def test_the_same_cable_behind_a_fuse_at_the_battery_is_silent() -> None:
    assert not found(fused(bank("boat"), "5 in"), RULE)


@pytest.mark.parametrize(
    ("place", "length", "laid", "hit"),
    [
        # 552.10(E)(4): 18 in; ABYC E-11: 7 in, 72 in in a sheath or enclosure all the way
        ("recreational", "18 in", "cable", False),
        ("recreational", "18.1 in", "cable", True),
        ("vehicle", "18 in", "cable", False),
        ("vehicle", "18.1 in", "cable", True),
        ("boat", "7 in", "cable", False),
        ("boat", "7.1 in", "cable", True),
        ("boat", "72 in", "conduit_pvc", False),
        ("boat", "72.1 in", "conduit_pvc", True),
    ],
)
def test_the_first_device_may_lie_as_far_off_as_the_place_allows(
    place: str, length: str, laid: str, hit: bool
) -> None:
    assert bool(found(bank(place, length, installation=laid), RULE)) is hit


@pytest.mark.parametrize(("length", "hit"), [("72 in", False), ("72.1 in", True)])
def test_a_sheath_counts_like_a_conduit(length: str, hit: bool) -> None:
    assert bool(found(bank("boat", length, sheath="yes"), RULE)) is hit


def test_the_distance_is_added_up_over_joints() -> None:
    draft = bank()
    draft.cut("W1")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.run("GB1.dc", "XJ1.a", "W2", size="2 AWG", length="10 in")
    draft.run("XJ1.b", "QP1.feed", "W3", size="2 AWG", length="8 in")
    assert not found(draft, RULE)
    draft.rate_run("W3", length="9 in")
    assert places(draft, RULE) == {("W3",)}


def test_the_way_counts_up_to_the_first_device_past_a_bare_switch() -> None:
    draft = bank()
    draft.cut("W1")
    draft.part("battery_disconnect", "QB1", rating="150 A", voltage="32 V")
    draft.part("fuse", "F6", rating="100 A", type="class_t")
    draft.run("GB1.dc", "QB1.line", "W2", poles="+", size="2 AWG", length="8 ft")
    draft.run("QB1.load", "F6.line", "W3", poles="+", size="2 AWG", length="3 ft")
    draft.run("F6.load", "QP1.feed", "W4", poles="+", size="2 AWG", length="1 ft")
    draft.run("GB1.dc", "QP1.feed", "W5", poles="-", size="2 AWG", length="9 ft")
    far = next(hit for hit in found(draft, RULE) if hit.subjects == ("W2",))
    assert far.message.startswith("W2: the first device, F6, lies 11 ft from GB1; 1.5 ft is")
    assert number(far, "cable without protection") == pytest.approx(11 * 0.3048)
    draft.rate_run("W3", length=None)
    far = next(hit for hit in found(draft, RULE) if hit.subjects == ("W2",))
    assert far.message.startswith("W2: the first device, F6, lies further than 8 ft from GB1;")


def test_a_load_straight_on_the_battery_has_no_device_at_all() -> None:
    draft = fused(bank(), "6 in")
    draft.part("lamp", "EL1", power="20 W", **DC)
    draft.run("GB1.dc", "EL1.in", "W4", size="14 AWG", length="6 in")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("W4",)
    assert "without an overcurrent device" in finding.message


def test_a_battery_feeds_a_cable_from_its_far_end_too() -> None:
    draft = fused(bank(), "6 in")
    draft.part("battery", "GB2", fault_current="3 kA")
    draft.run("GB2.dc", "QP1.feed", "W4", size="2 AWG", length="3 ft")
    # W3 is guarded from GB1 and bare from GB2
    assert places(draft, RULE) == {("W3",), ("W4",)}
    draft.cut("W4")
    draft.part("fuse", "F2", rating="100 A", type="class_t")
    draft.run("GB2.dc", "F2.line", "W5", size="2 AWG", length="6 in")
    draft.run("F2.load", "QP1.feed", "W6", size="2 AWG", length="3 ft")
    assert not found(draft, RULE)


def test_jumpers_inside_a_bank_are_part_of_it_while_they_are_short() -> None:
    draft = fused(bank(), "6 in")
    draft.part("battery", "GB2", fault_current="3 kA")
    draft.run("GB2.dc", "GB1.dc", "W4", size="2 AWG", length="14 in")
    assert not found(draft, RULE)
    draft.rate_run("W4", length="4 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("W4",)
    assert "joins two batteries" in finding.message


def test_the_link_of_two_batteries_in_series_is_a_jumper() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("battery", "GB2", fault_current="3 kA")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.part("lamp", "EL1", power="100 W", circuit="dc", voltage="24 V")
    draft.run("GB1.dc", "GB2.dc", "W1", poles="+>-", size="2 AWG", length="1 ft")
    draft.run("GB2.dc", "F1.line", "W2", poles="+>+", size="2 AWG", length="6 in")
    draft.run("F1.load", "EL1.in", "W3", poles="+>+", size="2 AWG", length="6 ft")
    draft.run("EL1.in", "GB1.dc", "W4", poles="->-", size="2 AWG", length="6 ft")
    assert not found(draft, RULE)
    draft.rate_run("W1", length="2 ft")
    assert places(draft, RULE) == {("W1",)}


@pytest.mark.parametrize(("stated", "hit"), [("18 in", False), ("2 ft", True)])
def test_a_fuse_on_the_post_with_its_cable_stated(stated: str, hit: bool) -> None:
    draft = bank()
    draft.cut("W1")
    draft.part("fuse", "F1", rating="100 A", type="mrbf", distance=stated)
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "QP1.feed", "W3", size="2 AWG", length="12 ft")
    assert places(draft, RULE) == ({("F1",)} if hit else set())


def portable(power: str, size: str = "12 AWG") -> Draft:
    draft = Draft(place="field")
    draft.part("generator", "G1", power=power, neutral="floating")
    draft.part("outlet", "X1", configuration="5-20")
    draft.run("G1.out", "X1.feed", "W1", size=size, length="50 ft")
    return draft


def test_a_generator_may_feed_what_carries_115_percent_of_its_current() -> None:
    # NFPA 70 445.13(A): 2 kVA at 120 V is 16.7 A, 115 % of it 19.2 A; 12 AWG at 60 C carries 20 A
    assert not found(portable("2 kVA"), RULE)
    # 2.1 kVA: 20.1 A
    (finding,) = found(portable("2.1 kVA"), RULE)
    assert finding.clause == "240.21(G), 445.13"
    assert "give its rating on the card" in finding.message


def test_fifty_feet_of_12_awg_behind_a_20_a_breaker_of_a_5_kva_set_is_silent() -> None:
    assert found(portable("5 kVA"), RULE)
    draft = Draft(place="field")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "X1", configuration="5-20")
    draft.seat("QF1", "G1", "1")
    draft.run("QF1.load", "X1.feed", "W1", size="12 AWG", length="50 ft")
    assert not [f for f in analyse(draft.design).findings if f.level.word == "danger"]


def test_a_breaker_in_the_neutral_protects_neither_hot() -> None:
    # NFPA 70 240.22: a generator outlet with one breaker, in the neutral
    draft = Draft(place="field")
    draft.part("generator", "G1", power="7200 VA", circuit="split", neutral="bonded")
    draft.part("breaker", "QF1", rating="30 A", circuit="split", poles="neutral")
    draft.part("panel", "QP1", circuit="split", bond="absent")
    draft.seat("QF1", "G1", "1")
    draft.run("QF1.load", "QP1.feed", "W1", size="10 AWG", length="25 ft")
    assert places(draft, RULE) == {("W1",)}
    draft.rate("QF1", poles="lines")
    assert not found(draft, RULE)


def test_the_output_of_an_inverter_is_protected_by_its_size() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", charge="30 A")
    draft.part("load", "EA1", power="500 W")
    draft.part("fuse", "F1", rating="225 A", type="class_t")
    draft.run("GB1.dc", "F1.line", "W1", size="4/0 AWG", length="1 ft")
    draft.run("F1.load", "TB1.dc", "W2", size="4/0 AWG", length="3 ft")
    draft.run("TB1.ac_out", "EA1.in", "W3", size="12 AWG", length="10 ft")
    assert not found(draft, RULE)
    draft.rate_run("W3", size="14 AWG")  # 15 A against 16.7 A
    assert places(draft, RULE) == {("W3",)}


def test_a_supply_has_its_own_breaker() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="20 A")
    draft.part("load", "EA1", power="500 W")
    draft.run("GS1.out", "EA1.in", "W1", size="12 AWG", length="10 ft")
    assert not found(draft, RULE)


def test_a_live_conductor_is_judged_whatever_its_pole_is_called() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("load", "EA1", power="500 W")
    draft.run("G1.out", "EA1.in", "W1", poles="L>N N>L PE>PE", size="12 AWG", length="10 ft")
    assert places(draft, RULE) == {("W1",)}


def test_without_a_size_it_is_not_judged_and_says_so() -> None:
    draft = portable("5 kVA")
    draft.rate_run("W1", size=None)
    assert not found(draft, RULE)
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("W1",)


def test_without_a_length_the_distance_is_not_judged_and_the_value_is_missing() -> None:
    draft = bank()
    draft.rate_run("W1", length=None)
    assert not found(draft, RULE)
    assert [g.where for g in gaps(draft, "value-missing")] == [("W1",)]
    assert not analyse(draft.design).sound


def test_a_family_without_tables_is_not_judged_and_says_so() -> None:
    draft = Draft(place="vehicle", family="INT", voltage="230 V", frequency="50 Hz")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("panel", "QP1", main="100 A", **DC)
    draft.run("GB1.dc", "QP1.feed", "W1", size="35 mm2", length="3 m")
    assert not found(draft, RULE)
    assert gaps(draft, RULE)


def test_one_unknown_neutral_does_not_hide_or_double_it() -> None:
    draft = portable("5 kVA")
    draft.rate("G1", neutral=OneOf(("bonded", "floating")))
    assert len(found(draft, RULE)) == 1


def test_the_mend_puts_a_fuse_near_the_post() -> None:
    draft = bank()
    draft.part("lamp", "EL1", power="20 W", **DC)
    draft.part("fuse", "F3", rating="10 A")
    draft.seat("F3", "QP1", "1")
    draft.run("F3.load", "EL1.in", "W5", size="14 AWG", length="6 ft")
    draft.rate("QP1", main=None)
    (finding,) = found(draft, RULE)
    after = cured(draft, finding)
    fuse = next(p for p in draft.design.parts if p.kind == "fuse" and p.id != "F3")
    assert fuse.ratings["type"] == "class_t"
    lengths = [draft.design.values(fuse).num("rating")]
    assert lengths == [175.0]  # 2 AWG: 170 A by the low-voltage table, the next rating is 175 A
    assert not [f for f in after.findings if f.rule == RULE]


@pytest.mark.parametrize(("size", "thin"), [("12 AWG", True), ("10 AWG", False)])
def test_the_cable_of_a_solar_array(size: str, thin: bool) -> None:
    """A supplier's forum (altestore.com/forums topic 1356): five modules of 3 A need 23.4 A, so
    that 12 AWG, 20 A, does not do. NFPA 70 690.8(B): 156 % of the short-circuit current."""
    d = Draft(place="building")
    d.part("solar_array", "GP1", voc="22 V", isc="3 A", strings="5")
    d.part("solar_controller", "TC1", current="30 A", pv_voltage="100 V")
    d.part("battery", "GB1")
    d.run("GP1.dc", "TC1.pv", "W1", size=size, length="40 ft")
    d.run("TC1.dc", "GB1.dc", "W2", size="6 AWG", length="1 ft")
    hits = [f for f in found(d, RULE) if f.subjects == ("W1",)]
    assert bool(hits) is thin
    if thin:
        assert hits[0].message == (
            "W1 is too thin for GP1: 18.8 A flow in bright sun and no device ends them; 23.4 A are"
            " needed before corrections."
        )
        assert hits[0].clause == "690.8(B), 690.9"


@pytest.mark.parametrize(("ambient", "thin"), [("60 degC", False), ("75 degC", True)])
def test_a_hot_roof_counts_against_what_flows_only(ambient: str, thin: bool) -> None:
    """By hand for 8 AWG of 90 C on terminals of 75 C: 50 A before corrections carry 156 % of
    24 A; of 55 A at 90 C are left 0.71 at 60 C (39.1 A) and 0.5 at 75 C (27.5 A): 30 A flow."""
    d = Draft(place="building")
    d.part("solar_array", "GP1", voc="22 V", isc="8 A", strings="3")
    d.part("solar_controller", "TC1", current="60 A", pv_voltage="100 V")
    d.part("battery", "GB1")
    roof = {"insulation": "90", "terminals": "75", "ambient": ambient}
    d.run("GP1.dc", "TC1.pv", "W1", size="8 AWG", length="40 ft", **roof)
    d.run("TC1.dc", "GB1.dc", "W2", size="2 AWG", length="1 ft")
    assert bool([f for f in found(d, RULE) if f.subjects == ("W1",)]) is thin


def engine(place: str = "boat", duty: str = "starter") -> Draft:
    """A battery, its switch and the starter of an engine, without a fuse."""
    d = Draft(place=place)
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.part("motor", "MA1", duty=duty, power="3600 W", start_current="300 A", **DC)
    lead = {"size": "1/0 AWG", "insulation": "105"}
    d.run("GB1.dc", "QB1.line", "W1", length="4 ft", **lead)
    d.run("QB1.load", "MA1.in", "W2", length="8 ft", **lead)
    return d


@pytest.mark.parametrize("place", ["boat", "vehicle", "recreational"])
def test_the_cable_of_a_starter_needs_no_fuse_and_it_is_said(place: str) -> None:
    # ABYC E-11: cranking motor conductors are exempt
    draft = engine(place)
    assert not found(draft, RULE)
    assert [p.message.split()[0] for p in praise(draft, RULE)] == ["W1", "W2"]


def test_the_cable_of_another_motor_needs_one() -> None:
    assert places(engine(duty="brief"), RULE) == {("W1",), ("W2",)}


def tapped(distance: str, **laid: str) -> Draft:
    """A board fed from the starter's post, its fuse this far from there."""
    draft = engine()
    draft.part("fuse", "F1", rating="60 A", type="anl")
    draft.part("lamp", "EL1", power="60 W", **DC)
    draft.run("MA1.in", "F1.line", "W3", size="6 AWG", length=distance, **laid)
    draft.run("F1.load", "EL1.in", "W4", size="6 AWG", length="6 ft")
    return draft


@pytest.mark.parametrize(
    ("distance", "laid", "hit"),
    [
        # ABYC E-11: 7 in from where it is joined to the starter's cable, 40 in in a sheath
        ("7 in", "cable", False),
        ("7.1 in", "cable", True),
        ("40 in", "conduit_pvc", False),
        ("40.1 in", "conduit_pvc", True),
    ],
)
def test_what_is_tapped_off_it_is_measured_from_the_tap(
    distance: str, laid: str, hit: bool
) -> None:
    assert places(tapped(distance, installation=laid), RULE) == ({("W3",)} if hit else set())


def test_a_load_on_the_starters_post_without_a_fuse_is_told() -> None:
    draft = engine()
    draft.part("lamp", "EL1", power="60 W", **DC)
    draft.run("MA1.in", "EL1.in", "W3", size="14 AWG", length="6 in")
    assert places(draft, RULE) == {("W3",)}


def test_a_cable_that_can_start_the_engine_is_exempt_while_it_does_not() -> None:
    # Two banks on one starter by their switches: each state with only one of them closed
    draft = engine()
    draft.part("battery", "GB2", fault_current="3 kA")
    draft.part("battery_disconnect", "QB2", rating="300 A")
    draft.run("GB2.dc", "QB2.line", "W3", size="1/0 AWG", length="3 ft")
    draft.run("QB2.load", "QB1.load", "W4", size="1/0 AWG", length="1 ft")
    assert not found(draft, RULE)


def stub(size: str = "2 AWG", length: str = "0.5 ft") -> Draft:
    """A charger of 40 A whose cable of 4 ft ends at a bar; a lamp's fuse on a lead of its own."""
    d = Draft(place="vehicle", voltage="12 V")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="3")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="3")
    d.run("GB1.dc", "F1.line", "W1", poles="+", size="2 AWG", length="1 ft")
    d.run("F1.load", "WC1.feed", "W2", poles="+", size="2 AWG", length="2 ft")
    d.run("GB1.dc", "WC2.feed", "W3", poles="-", size="2 AWG", length="2 ft")
    d.part("supply", "GS1", breaker="20 A")
    d.part("charger", "TB1", current="40 A")
    d.run("GS1.out", "TB1.ac_in", "W4", size="12 AWG", length="5 ft")
    d.run("TB1.dc", "WC1.1", "W5", poles="+", size=size, length="4 ft")
    d.run("TB1.dc", "WC2.1", "W6", poles="-", size=size, length="4 ft")
    d.part("fuse", "F2", rating="10 A", type="class_t")
    d.part("lamp", "EL1", power="20 W", circuit="dc", voltage="12 V")
    d.run("WC1.2", "F2.line", "W7", poles="+", size="14 AWG", length=length)
    d.run("F2.load", "EL1.in", "W8", poles="+", size="14 AWG", length="6 ft")
    d.run("WC2.2", "EL1.in", "W9", poles="-", size="14 AWG", length="6 ft")
    return d


def test_a_stub_at_a_bar_is_not_counted_through_the_thick_cable_of_a_charger() -> None:
    # table 552.10(E)(4): 18 inches
    assert ("W7",) not in places(stub(), RULE)
    assert ("W7",) in places(stub(length="3 ft"), RULE)


def test_through_a_cable_that_the_charger_could_overheat_it_is_counted() -> None:
    assert ("W7",) in places(stub("14 AWG"), RULE)


@pytest.mark.parametrize(
    ("place", "size", "told"),
    [
        # table 552.10(E)(1): 16 AWG 8 A, 14 AWG 15 A; 156 % of 6 A are 9.4 A
        ("vehicle", "16 AWG", True),
        ("vehicle", "14 AWG", False),
        ("boat", "16 AWG", False),
    ],
)
def test_the_wires_of_an_array_in_a_vehicle_keep_to_its_low_voltage_table(
    place: str, size: str, told: bool
) -> None:
    draft = van(place)
    draft.rate_run("W1", size=size, length="3 ft")
    assert (("W1",) in {f.subjects for f in found(draft, RULE)}) is told


def test_what_a_fuse_at_the_first_run_protects_stands_under_that() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.run("GB1.dc", "QB1.line", "W1", poles="+", size="2 AWG", length="3 ft")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="4")
    d.run("QB1.load", "WC1.feed", "W2", size="2 AWG", length="3 ft")
    d.part("lamp", "EL1", power="20 W", **DC)
    d.run("WC1.1", "EL1.in", "W3", poles="+", size="14 AWG", length="6 ft")
    d.run("GB1.dc", "EL1.in", "W4", poles="-", size="14 AWG", length="6 ft")
    shown = {f.subjects: f for f in analyse(d.design).findings if f.rule == RULE}
    # the thin wire of the lamp needs a fuse of its own
    assert set(shown) == {("W1",), ("W3",)}
    assert [under.subjects for under in shown["W1",].consequences if under.rule == RULE] == [
        ("W2",)
    ]
