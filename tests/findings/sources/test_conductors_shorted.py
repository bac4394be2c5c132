"""conductors-shorted: two conductors of one source joined by wire."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.test_windings import told
from tests.findings.told import found, number

RULE = "conductors-shorted"


def split_circuit(second: str = "L2>L", tabs: str = "both") -> Draft:
    """A breaker of two poles, a box, an outlet whose halves hang on one leg each."""
    d = Draft(place="field")
    d.part("supply", "GS1", circuit="split", breaker="50 A", prospective="2 kA")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="20 ft", terminals="75")
    d.part("breaker", "QF1", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF1.load", "XJ1.a", "W2", size="12 AWG", length="20 ft")
    d.part("split_outlet", "XD1", configuration="5-20", tabs=tabs)
    d.run("XJ1.b", "XD1.feed", "W3", "L1>L N PE", size="12 AWG", length="3 ft")
    d.run("XJ1.c", "XD1.feed_2", "W4", f"{second} N PE", size="12 AWG", length="3 ft")
    return d


def test_halves_on_two_legs_with_the_tabs_out_are_sound() -> None:
    assert told(split_circuit()) == set()


def plain_outlet() -> Draft:
    """The same on a plain outlet, whose tabs are in."""
    d = split_circuit()
    d.remove("XD1")
    d.part("outlet", "XD1", configuration="5-20")
    for box, run, pole in (("b", "W3", "L1"), ("c", "W4", "L2")):
        d.run(f"XJ1.{box}", "XD1.feed", run, f"{pole}>L N PE", size="12 AWG", length="3 ft")
    return d


def test_both_legs_on_an_outlet_with_its_tabs_in() -> None:
    (finding,) = found(plain_outlet(), RULE)
    assert finding.level is Level.DANGER
    assert finding.subjects == ("W3", "W4", "GS1")
    assert number(finding, "voltage across it") == 240.0  # two legs of 120 V, half a turn apart


def test_what_the_short_overloads_stands_under_it() -> None:
    (finding,) = found(plain_outlet(), RULE)
    below = {under.rule for under in finding.consequences}
    assert {"device-below-load", "source-overloaded"} <= below


def test_both_halves_on_one_leg_are_no_short() -> None:
    assert found(split_circuit("L1>L"), RULE) == []


def test_a_hot_on_the_neutral_of_its_own_circuit() -> None:
    d = Draft(place="field")
    d.part("supply", "GS1", breaker="20 A", prospective="2 kA")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", "W1", size="12 AWG", length="20 ft")
    assert found(d, RULE) == []
    d.part("junction_box", "XJ1")
    d.run("EA1.in", "XJ1.a", "W2", "L>N", size="12 AWG", length="2 ft")
    assert found(d, RULE) == []
    d.run("EA1.in", "XJ1.a", "W3", "N>N", size="12 AWG", length="2 ft")
    (finding,) = found(d, RULE)
    assert finding.subjects == ("W2", "W3", "GS1")
    assert number(finding, "voltage across it") == 120.0


def test_plus_on_minus_behind_an_open_switch_is_told_in_the_state_that_closes_it() -> None:
    d = Draft(place="field")
    d.part("battery", "GB1", fault_current="2 kA")
    d.part("fuse", "F1", rating="30 A", type="class_t")
    d.run("GB1.dc", "F1.line", "W1", poles="+", size="10 AWG", length="0.5 ft")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.run("F1.load", "QB1.line", "W2", poles="+", size="10 AWG", length="1 ft")
    d.part("busbar", "WC1", bar="minus")
    d.run("QB1.load", "WC1.1", "W3", poles="+>-", size="10 AWG", length="1 ft")
    d.run("GB1.dc", "WC1.2", "W4", poles="-", size="10 AWG", length="1 ft")
    finding = found(d, RULE)[0]
    assert finding.level is Level.DANGER
    assert "GB1" in finding.subjects


def two_wire(neutral: str, bond: str = "fitted") -> Draft:
    """A source of 240 V on two wires, a core that makes the middle, a board with its link."""
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", voltage="240 V", neutral=neutral, breaker="20 A")
    d.part("autotransformer", "TA1", form="balance", power="5 kVA")
    d.run("G1.out", "TA1.primary", "W1", "L>L1 N>L2 PE", size="10 AWG", length="4 ft")
    d.part("panel", "QP1", circuit="split", main="20 A", bond=bond, places="4")
    d.run("TA1.secondary", "QP1.feed", "W2", size="10 AWG", length="6 ft")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="600 W")
    d.run("QF1.load", "EA1.in", "W3", size="14 AWG", length="10 ft")
    return d


def test_links_at_two_conductors_of_one_source_are_a_short() -> None:
    """NFPA 70 250.26: of a system with a middle only that is grounded. The source joins what is its
    neutral, and here a leg, to its frame."""
    (hit,) = found(two_wire("bonded"), RULE)
    assert hit.level is Level.DANGER
    assert hit.subjects == ("TA1", "G1", "QP1")
    assert number(hit, "voltage across it") == 120.0
    assert "G1 and QP1 each join another conductor of TA1" in hit.message


def test_one_of_the_two_links_is_none() -> None:
    assert found(two_wire("floating"), RULE) == []
    assert found(two_wire("bonded", bond="absent"), RULE) == []


def test_a_turned_cord_between_two_links_is_the_cause_of_such_a_short() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="bonded", breaker="20 A")
    d.part("panel", "QP1", main="20 A", bond="fitted", places="4")
    d.run("G1.out", "QP1.feed", "W1", "L>N N>L PE", size="12 AWG", length="10 ft")
    (hit,) = found(d, RULE)
    assert hit.subjects == ("G1", "QP1")
    (cause,) = found(d, "polarity-reversed")
    assert hit in cause.consequences
    d.run_poles("W1", "L N PE")
    assert found(d, RULE) == []
