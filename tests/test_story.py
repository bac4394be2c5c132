"""What an outlet tester shows, and why: the same lamps can mean a missing link or a cut wire."""

from __future__ import annotations

from linework.analysis import Analysis, analyse
from linework.design import Draft
from linework.findings.explain import sentence_of_tester
from linework.study.tester import Reading
from tests.findings.camps import changeover


def camp(neutral: str = "floating") -> Draft:
    """A generator that feeds an outlet through a board, every ground wire whole."""
    draft = Draft(place="field")
    draft.part(
        "generator", "G1", power="5 kVA", neutral=neutral, bond_allowed="yes", breaker="30 A"
    )
    draft.part("panel", "QP1", bond="absent")
    draft.part("breaker", "QF1", rating="20 A", ground_fault="class_a")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.part("load", "EA1", power="600 W")
    draft.seat("QF1", "QP1", "1")
    draft.run("G1.out", "QP1.feed", "W1", size="10 AWG", length="25 ft")
    draft.run("QF1.load", "XD1.feed", "W2", size="12 AWG", length="40 ft")
    draft.run("XD1.onward", "EA1.in", "W3", size="12 AWG", length="5 ft")
    return draft


def running(analysis: Analysis) -> Reading:
    report = next(r for r in analysis.reports if r.key == "G1=running")
    return next(x for x in report.readings if x.owner == "XD1")


def rules(analysis: Analysis) -> set[str]:
    return {f.rule for f in analysis.findings}


def test_a_floating_source_reads_open_ground_though_the_wire_is_whole() -> None:
    analysis = analyse(camp().design)
    reading = running(analysis)
    assert reading.lamps[0] == "lit"
    assert {*reading.lamps[1:]} <= {"dark", "dim"}
    assert reading.ground_whole is True
    assert "continuous" in sentence_of_tester(reading, "NA")
    assert "bond-missing" in rules(analysis)
    assert "ground-open" not in rules(analysis)


def test_a_cut_ground_wire_shows_the_same_lamps_and_another_reason() -> None:
    draft = camp("bonded")
    draft.rate_run("W2", broken="PE")
    analysis = analyse(draft.design)
    reading = running(analysis)
    assert reading.lamps[0] == "lit"
    assert {*reading.lamps[1:]} <= {"dark", "dim"}
    assert reading.ground_whole is False
    assert "does not reach" in sentence_of_tester(reading, "NA")
    assert "ground-open" in rules(analysis)
    assert "bond-missing" not in rules(analysis)


def test_one_link_at_the_source_reads_correct() -> None:
    analysis = analyse(camp("bonded").design)
    assert running(analysis).picture == "correct"
    assert not {"bond-missing", "bond-doubled", "ground-open"} & rules(analysis)


def test_one_link_at_the_right_place_reads_correct_in_every_state() -> None:
    draft = changeover("all")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.run("QF2.load", "XD1.feed", "W9", size="12 AWG", length="20 ft")
    analysis = analyse(draft.design)
    assert analysis.silent
    live = [x for r in analysis.reports for x in r.readings if x.picture != "dead"]
    assert {x.picture for x in live} == {"correct"}
    assert {(x.ground_whole, x.bonded) for x in live} == {(True, True)}
    # on the supply and on the set
    fed = {r.live["XD1", "feed"] for r in analysis.reports if ("XD1", "feed") in r.live}
    assert {("GS1",), ("G1",)} <= fed


def test_a_second_link_puts_load_current_on_the_ground_wire_and_trips_the_gfci() -> None:
    draft = camp("bonded")
    draft.rate("QP1", bond="fitted")
    # the ground-fault device ahead of the second link, at the generator
    draft.rate("QF1", ground_fault="none")
    draft.part("gfci", "QR1", rating="30 A")
    draft.cut("W1")
    draft.run("G1.out", "QR1.line", "W1", size="10 AWG", length="2 ft")
    draft.run("QR1.load", "QP1.feed", "W4", size="10 AWG", length="25 ft")
    analysis = analyse(draft.design)
    report = next(r for r in analysis.reports if r.key == "G1=running")
    assert report.ground_a["W4"] > 1.0
    assert report.residual_ma["QR1"] > 6.0
    doubled = next(f for f in analysis.findings if f.rule == "bond-doubled")
    assert "gfci-trips-in-use" in {c.rule for c in doubled.consequences}
