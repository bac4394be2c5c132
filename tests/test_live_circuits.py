"""What follows from judging live circuits: many switches, islands, sources by themselves."""

from __future__ import annotations

import pytest

from linework.analysis import Analysis, analyse
from linework.design import Draft
from linework.design.edits import add_interlock
from linework.findings.model import Finding
from linework.study.report import FaultReport

RUN = {"size": "10 AWG", "length": "10 ft"}


def sets(count: int) -> Draft:
    """Sets whose frames and boards share one body, each with a cord that brings a second link."""
    d = Draft(place="field")
    d.part("body", "XB1")
    for n in range(1, count + 1):
        d.part("generator", f"G{n}", power="3 kVA", neutral="bonded")
        d.part("panel", f"QP{n}", bond="fitted")
        d.part("outlet", f"XD{n}")
        d.part("plug", f"XP{n}")
        d.run(f"G{n}.out", f"XD{n}.feed", **RUN)
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.run(f"XP{n}.cord", f"QP{n}.feed", **RUN)
        d.run(f"QP{n}.ground", "XB1.tie", **RUN)
    return d


def of_rule(analysis: Analysis, rule: str) -> list[Finding]:
    return [f for f in analysis.findings if f.rule == rule]


def test_forty_switches_are_judged_completely() -> None:
    analysis = analyse(sets(20).design)
    assert analysis.complete
    assert analysis.combinations == 2**40
    doubled = of_rule(analysis, "bond-doubled")
    assert {f.states for f in doubled} == {(f"G{n}=running XP{n}=XD{n}",) for n in range(1, 21)}
    assert all(f.standing is not None and f.standing.count == 2**38 for f in doubled)


def test_thirteen_interlocked_breakers_are_judged_completely() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("panel", "QP1", places="20", bond="fitted")
    d.run("GS1.out", "QP1.feed", "W0", **RUN)
    names = [f"QF{n}" for n in range(1, 14)]
    for n, name in enumerate(names, 1):
        d.part("breaker", name, rating="20 A")
        d.seat(name, "QP1", str(n))
        d.part("heater", f"EH{n}", power=f"{n}00 W")
        d.run(f"{name}.load", f"EH{n}.in", **RUN)
    d.design.apply(add_interlock(d.design, [(q, "breaker", "closed") for q in names]))
    analysis = analyse(d.design)
    assert analysis.complete
    assert analysis.combinations == 14
    fed = {load.part for r in analysis.reports for load in r.loads if load.sources}
    assert fed == {f"EH{n}" for n in range(1, 14)}


def inverter(shorted_supply: bool) -> Draft:
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah")
    d.part("inverter", "TB1", power="1500 VA", neutral="bonded")
    d.part("outlet", "XD1")
    d.run("GB1.dc", "TB1.dc", size="4/0 AWG", length="3 ft")
    d.run("TB1.ac_out", "XD1.feed", **RUN)
    if shorted_supply:
        d.part("supply", "GS1", outage="no", prospective="5 kA")
        d.part("outlet", "XD9")
        d.run("GS1.out", "XD9.feed", **RUN)
        d.run("GS1.out", "XD9.feed", poles="L>N", **RUN)
    return d


def short_of_the_inverter(d: Draft) -> FaultReport:
    report = next(r for r in analyse(d.design).reports if "TB1=on" in r.key)
    return next(f for f in report.faults if (f.part, f.to) == ("XD1", "N"))


def test_a_short_is_limited_by_the_sources_of_its_own_circuit() -> None:
    """A supply shorted elsewhere gave its own current out for that of an inverter beside it."""
    alone, beside = (short_of_the_inverter(inverter(shorted)) for shorted in (False, True))
    assert alone.by == beside.by == "source"
    assert beside.weak_a == pytest.approx(alone.weak_a)
    assert beside.strong_a == pytest.approx(alone.strong_a)
    assert beside.latest_s == pytest.approx(alone.latest_s)


def told(analysis: Analysis) -> set[tuple[str, str, tuple[str, ...], tuple[str, ...], str]]:
    return {
        (f.rule, f.level.word, f.where, f.states, f.fingerprint)
        for top in analysis.findings
        for f in (top, *top.consequences)
    }


def test_an_island_that_touches_nothing_changes_nothing_of_the_rest() -> None:
    d = sets(2)
    before = told(analyse(d.design))
    d.part("battery", "GB9", voltage="12 V", capacity="100 Ah")
    d.part("battery_disconnect", "QB9", poles="plus")
    d.part("lamp", "EL9", circuit="dc", power="20 W")
    d.run("GB9.dc", "QB9.line", "W91", **RUN)
    d.run("QB9.load", "EL9.in", "W92", **RUN)
    d.part("generator", "G9", power="2 kVA")
    d.part("outlet", "XD9")
    d.run("G9.out", "XD9.feed", "W93", **RUN)
    after = told(analyse(d.design))
    gone = {item[:4] for item in before - after}
    assert all(rule in ("value-assumed", "value-missing") for rule, *_ in gone), gone
    new = {item[:4] for item in after - before if item[0] not in ("value-assumed", "value-missing")}
    island = {"GB9", "QB9", "EL9", "G9", "XD9", "W91", "W92", "W93"}
    assert all(island & {*where} or states == ("G9=running",) for _, _, where, states in new), new


def test_more_circuits_than_are_looked_at_are_said_of_their_source(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    d = sets(2)
    d.part("panel", "QP9", places="8", bond="absent")
    d.part("generator", "G9", power="3 kVA", neutral="bonded")
    d.run("G9.out", "QP9.feed", **RUN)
    for n in range(1, 4):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP9", str(n))
        d.part("outlet", f"XF{n}")
        d.run(f"QF{n}.load", f"XF{n}.feed", **RUN)
        d.part("plug", f"XQ{n}")
        d.seat(f"XQ{n}", f"XF{n}", "face")
        d.part("inlet", f"XI{n}")
        d.run(f"XQ{n}.cord", f"XI{n}.outside", **RUN)
    assert analyse(d.design).complete
    monkeypatch.setattr("linework.circuit.search.MOST_CIRCUITS", 4)
    analysis = analyse(d.design)
    assert not analysis.complete
    assert not analysis.sound
    assert [gap.where for gap in analysis.gaps if "different circuits" in gap.reason] == [("G9",)]
    told_of = {name for f in of_rule(analysis, "bond-doubled") for name in f.where}
    assert {"QP1", "QP2"} <= told_of, "the other sources are judged all the same"
