"""One function from a design to all that is shown: cases, states told once, what is remembered."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.analysis import MOST_CASES, Analysis, Memory, analyse, cases, unknowns
from linework.bench.states import number_of
from linework.design import Design, Draft
from linework.design.edits import change_settings, move_parts, rate, rate_run, rename
from linework.storage import load
from linework.study.report import FaultReport, StateReport

RUN = {"size": "12 AWG", "length": "20 ft"}


SAMPLES = Path(__file__).parents[1] / "samples"


def floating(stray: str = "1 nF") -> Draft:
    """A floating set, an inverter beside it, an outlet on each."""
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="floating", stray_line=stray)
    d.part("outlet", "XD1", configuration="5-15")
    d.run("G1.out", "XD1.feed", "W1", **RUN)
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="1 kVA", neutral="relay", efficiency="90 %")
    d.part("load", "EA1", power="600 W")
    d.run("GB1.dc", "TB1.dc", "W2", size="2/0 AWG", length="3 ft")
    d.run("TB1.ac_out", "EA1.in", "W3", **RUN)
    return d


def running(analysis: Analysis) -> StateReport:
    return next(r for r in analysis.reports if "G1=running" in r.key)


def to_metal(report: StateReport, part: str) -> FaultReport:
    return next(f for f in report.faults if (f.part, f.to) == (part, "PE"))


def battery_a(report: StateReport) -> float:
    return max(a for (run, _), a in report.run_a.items() if run == "W2")


# memory


def test_what_was_only_moved_is_not_judged_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    d, memory = floating(), Memory()
    before = analyse(d.design, memory=memory)
    with monkeypatch.context() as patch:
        patch.setattr("linework.analysis.judge", lambda view: pytest.fail("judged again"))
        d.design.apply(move_parts(d.design, [d.design.parts[0].id], 25, 50))
        after = analyse(d.design, memory=memory)
    assert after.reports == before.reports
    assert after.findings == before.findings
    assert after.revision == d.design.revision > before.revision


def test_a_change_of_stray_capacitance_is_not_forgotten() -> None:
    d, memory = floating(), Memory()
    before = to_metal(running(analyse(d.design, memory=memory)), "XD1").weak_a
    d.design.apply(rate(d.design, "G1", {"stray_line": "100 nF", "stray_neutral": "100 nF"}))
    after = to_metal(running(analyse(d.design, memory=memory)), "XD1").weak_a
    assert after == pytest.approx(to_metal(running(analyse(d.design)), "XD1").weak_a)
    assert after > 20 * before


def test_a_change_of_efficiency_is_not_forgotten() -> None:
    d, memory = floating(), Memory()
    before = max(battery_a(r) for r in analyse(d.design, memory=memory).reports)
    d.design.apply(rate(d.design, "TB1", {"efficiency": "60 %"}))
    after = max(battery_a(r) for r in analyse(d.design, memory=memory).reports)
    assert after == pytest.approx(before * 1.5, rel=0.06)


def rules(analysis: Analysis) -> set[str]:
    return {f.rule for f in analysis.findings}


def test_another_configuration_of_an_outlet_is_not_forgotten() -> None:
    d, memory = floating(), Memory()
    before = rules(analyse(d.design, memory=memory))
    d.design.apply(rate(d.design, "XD1", {"configuration": "6-20"}))
    after = rules(analyse(d.design, memory=memory))
    assert after == rules(analyse(d.design)) != before


def test_a_state_whose_circuit_did_not_change_is_not_solved_again() -> None:
    d, memory = floating(), Memory()
    analyse(d.design, memory=memory)
    kept = {id(s) for s in memory._studies.values()}
    d.design.apply(rate(d.design, "XD1", {"area": "sink"}))
    analyse(d.design, memory=memory)
    assert {id(s) for s in memory._studies.values()} == kept


def test_a_memory_forgets_the_oldest() -> None:
    d, memory = floating(), Memory(most=1)
    one = analyse(d.design, memory=memory)
    assert len(memory._studies) == 1
    assert len(analyse(d.design, memory=memory).reports) == len(one.reports)


# cases


def test_every_unknown_is_judged_both_ways() -> None:
    d = Draft(place="building")
    d.part("generator", "G1", power="3 kVA")
    d.part("panel", "QP1")
    d.run("G1.out", "QP1.feed", **RUN)
    assert unknowns(d.design) == {
        ("G1", "neutral"): ("bonded", "floating"),
        ("QP1", "bond"): ("absent", "fitted"),
    }
    found, complete = cases(d.design)
    assert complete
    assert len(found) == 4
    named = {r.case for r in analyse(d.design).reports if "running" in r.key}
    assert named == {
        "G1 neutral: joined to the frame; QP1 neutral-ground link in the panel: absent: bars apart",
        "G1 neutral: joined to the frame; QP1 neutral-ground link in the panel: fitted",
        "G1 neutral: floating; QP1 neutral-ground link in the panel: absent: bars apart",
        "G1 neutral: floating; QP1 neutral-ground link in the panel: fitted",
    }


def test_more_unknowns_than_are_combined_are_said() -> None:
    d = Draft(place="building")
    for n in range(6):
        d.part("panel", f"QP{n}")
    found, complete = cases(d.design)
    assert not complete
    assert len(found) == 7 < MOST_CASES
    analysis = analyse(d.design)
    assert not analysis.complete
    assert not analysis.sound


# states


def two_apart(design: Draft) -> Design:
    """Two sets that share nothing: what one does adds nothing to the other."""
    for n in ("1", "2"):
        design.part("generator", f"G{n}", power="3 kVA", neutral="bonded")
        design.part("outlet", f"XD{n}")
        design.run(f"G{n}.out", f"XD{n}.feed", **RUN)
    return design.design


def test_each_circuit_is_shown_in_a_state_and_others_put_these_together() -> None:
    analysis = analyse(two_apart(Draft(place="field")))
    assert analysis.combinations == 4
    assert analysis.states() == (
        "G1=stopped G2=stopped",
        "G1=running G2=stopped",
        "G1=stopped G2=running",
    )


def test_states_with_the_same_circuits_are_electrically_the_same() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("transfer_switch", "QT1")
    d.part("load", "EA1", power="100 W")
    d.run("G1.out", "QT1.in1", **RUN)
    d.run("QT1.load", "EA1.in", **RUN)
    one, other, apart = (
        analyse(d.design, shown=f"G1=running QT1={at}").reports[0].circuits
        for at in ("2", "off", "1")
    )
    assert one == other != apart


def test_a_converter_ties_its_two_sides_together() -> None:
    """Each battery load with each AC load: the worst of both at once must be looked at."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("transfer_switch", "QT1", circuit="dc")
    d.part("load", "EA1", circuit="dc", power="500 W")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    d.part("transfer_switch", "QT2")
    d.part("load", "EA2", power="1500 W")
    d.run("GB1.dc", "TB1.dc", "W1", size="4 AWG", length="10 ft")
    d.run("TB1.dc", "QT1.in1", size="4 AWG", length="3 ft")
    d.run("QT1.load", "EA1.in", size="4 AWG", length="3 ft")
    d.run("TB1.ac_out", "QT2.in1", **RUN)
    d.run("QT2.load", "EA2.in", **RUN)
    analysis = analyse(d.design)
    most = max(analysis.reports, key=lambda r: r.run_a.get(("W1", "+"), 0.0))
    assert "QT1=1 QT2=1 TB1=on" in most.key
    single = [r.run_a["W1", "+"] for r in analysis.reports if r.key != most.key]
    assert most.run_a["W1", "+"] > max(single) + 30.0


def test_only_the_shown_state_is_a_first_answer() -> None:
    design = two_apart(Draft(place="field"))
    shown = analyse(design, shown="G1=running G2=running")
    assert shown.states() == ("G1=running G2=running",)
    assert shown.partial
    assert not shown.sound


# what cannot be worked out


def test_a_table_that_does_not_go_so_far_is_a_gap() -> None:
    d = floating()
    d.design.apply(change_settings(d.design, frequency="400 Hz"))
    analysis = analyse(d.design)
    assert not analysis.sound
    assert any("400 Hz" in gap.reason for gap in analysis.gaps)


def test_a_run_of_no_length_is_analysed() -> None:
    d = floating()
    d.design.apply(rate_run(d.design, "W1", {"length": "0 ft"}))
    assert not [g for g in analyse(d.design).gaps if g.rule == "not-analysed"]


def test_names_change_nothing_but_names() -> None:
    d, memory = floating(), Memory()
    before = analyse(d.design, memory=memory)
    d.design.apply(rename(d.design, "G1", "G7"))
    after = analyse(d.design, memory=memory)
    assert [f.rule for f in before.findings] == [f.rule for f in after.findings]
    assert "G7=running" in " ".join(after.states())


def test_nothing_was_found_is_said_of_nothing_that_is_noted() -> None:
    """What is assumed and the cautions that always stand are no news; anything else is."""
    draft = Draft(place="field")
    assert not analyse(draft.design).noted
    draft.part("generator", "G1", power="2 kVA", neutral="floating")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.seat("XD1", "G1", "1")
    draft.part("plug_load", "EP1", power="300 W")
    draft.seat("EP1", "XD1", "face")
    assert "bond-missing" in {finding.rule for finding in analyse(draft.design).findings}
    assert analyse(draft.design).noted


@pytest.mark.parametrize("sample", ["vaccination-trailer", "vaccination-trailer-as-sketched"])
def test_states_have_the_same_numbers_on_the_screen_and_on_paper(sample: str) -> None:
    """The sketch has several cases, in which one state has other circuits."""
    analysis = analyse(load(SAMPLES / f"{sample}.linework"))
    numbers = analysis.numbers()
    walked = analysis.walked()
    assert [numbers[report.key] for report in walked] == [*range(1, len(walked) + 1)]
    assert [number_of(walked, report) for report in walked] == [*range(1, len(walked) + 1)]
    passing = {r.key for r in analysis.reports if r.passing}
    assert {*numbers} == {r.key for r in analysis.reports}
    assert all(numbers[key] > len(walked) for key in passing - {r.key for r in walked})
