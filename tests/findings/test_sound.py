"""What is sound, and why: outlets, links and devices, in every state or not at all."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from tests.findings.camps import camp, caravan, changeover, house
from tests.findings.told import praise

OUTLETS, LINKS = "fault-not-cleared", "bond-doubled"
FITS, BREAKS = "device-above-ampacity", "interrupting-too-low"


def about(draft: Draft, rule: str) -> dict[tuple[str, ...], str]:
    """What a rule finds sound: subjects and sentence."""
    return {item.subjects: item.message for item in praise(draft, rule)}


def test_an_outlet_whose_faults_a_device_ends() -> None:
    draft = house()
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    draft.run("QF1.load", "XD1.feed", "W3", size="12 AWG", length="20 ft")
    told = about(draft, OUTLETS)
    assert set(told) == {("XD1",)}
    assert "ended by XD1 within 25 ms in every state" in told["XD1",]  # UL 943, beyond 264 mA


def test_where_no_device_operates_a_low_voltage_is_no_praise() -> None:
    """NFPA 70 250.4(A)(5) wants the device to operate: a small set cannot drive its breaker."""
    assert about(camp(), OUTLETS) == {}


def test_an_outlet_on_a_false_ground_is_not_praised_however_fast_its_breaker() -> None:
    draft = house()
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    draft.run("QF1.load", "XD1.feed", "W3", size="12 AWG", length="20 ft")
    assert ("XD1",) in about(draft, OUTLETS)
    draft.run_poles("W3", "L N N>PE")  # a jumper from the neutral to its ground contact
    assert about(draft, OUTLETS) == {}


def test_an_outlet_is_not_praised_where_one_state_is_not_sound() -> None:
    draft = changeover()
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    draft.run("QF1.load", "XD1.feed", "W5", size="12 AWG", length="5 ft")
    assert set(about(draft, OUTLETS)) == {("XD1",)}
    draft.rate_run("W2", broken="PE")  # no way back to the set
    assert about(draft, OUTLETS) == {}


def test_one_link_in_every_state() -> None:
    told = about(changeover(), LINKS)
    assert set(told) == {("G1",), ("GS1",)}
    assert "in G1" in told["G1",]
    assert "off site" in told["GS1",]
    # the neutral is not switched: on one source both links are in circuit
    assert about(changeover("lines"), LINKS) == {}


def test_no_link_is_not_one() -> None:
    assert about(camp(neutral="floating"), LINKS) == {}


def test_a_link_that_may_be_there_or_not_is_not_praised() -> None:
    draft = caravan()
    draft.rate("QP1", bond=None)  # not known: both are judged
    assert about(draft, LINKS) == {}


def test_a_device_that_its_conductors_allow() -> None:
    told = about(house(), FITS)
    assert "W2 carries 20 A as laid, and 20 A may protect it" in told["QF1",]
    draft = house()
    draft.rate_run("W2", size="14 AWG")
    assert ("QF1",) not in about(draft, FITS)


def test_a_conductor_without_a_size_speaks_for_no_device() -> None:
    draft = house()
    draft.rate_run("W2", size=None)
    assert ("QF1",) not in about(draft, FITS)
    assert about(draft, BREAKS) == {}


def test_a_device_that_breaks_what_flows() -> None:
    assert "QF1 can break 10 kA" in about(house(), BREAKS)["QF1",]
    draft = house(prospective="20 kA")
    draft.rate("QF1", interrupting="1 kA")
    assert ("QF1",) not in about(draft, BREAKS)


def test_one_state_alone_praises_nothing() -> None:
    draft = changeover()
    key = analyse(draft.design).states()[0]
    assert analyse(draft.design, shown=key).praise == ()


def test_what_nobody_doubts_is_quiet() -> None:
    quiet = {item.rule: item.quiet for item in analyse(changeover().design).praise}
    assert quiet == {LINKS: False, FITS: True, BREAKS: True}
