"""What was assumed, grouped into questions: what an answer settles, what comes first."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.questions import questions


def system(**breaker: str) -> Draft:
    d = Draft(place="vehicle")
    d.part("generator", "G1", power="5 kVA", neutral="bonded", bond_allowed="yes", breaker="30 A")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("G1.out", "QP1.feed", size="10 AWG", length="25 ft")
    for n in (1, 2):
        d.part("breaker", f"QF{n}", rating="20 A", **breaker)
        d.seat(f"QF{n}", "QP1", str(n))
        d.part("outlet", f"XD{n}", configuration="5-20")
        d.run(f"QF{n}.load", f"XD{n}.feed", size="12 AWG", length="10 ft")
    return d


def asked(draft: Draft):
    analysis = analyse(draft.design)
    return questions(draft.design, analysis.assumed, analysis.findings), analysis


def test_what_is_assumed_alike_is_one_question() -> None:
    found, analysis = asked(system(interrupting="10 kA"))
    by = {(q.key, q.names): q for q in found}
    material = next(q for q in found if q.key == "material")
    assert material.names == ("W1", "W2", "W3")
    assert next(q for q in found if q.key == "area").names == ("XD1", "XD2")
    given = {s for q in found for s in q.subjects}
    assert {s for each in analysis.assumed if each.key for s in each.subjects} == given
    assert len(by) == len(found)


def test_what_no_card_asks_is_no_question() -> None:
    found, analysis = asked(system(interrupting="10 kA"))
    assert any(not each.key for each in analysis.assumed)  # what the set holds into a fault
    assert all(q.key for q in found)


def test_those_come_first_where_a_danger_stands() -> None:
    draft = system(interrupting="10 kA")
    draft.part("battery", "GB1", chemistry="lithium", capacity="100 Ah")
    draft.part("fuse", "F1", rating="100 A", type="ato")
    draft.run("GB1.dc", "F1.line", poles="+", size="4 AWG", length="1 ft")
    draft.part("load", "EL1", circuit="dc", voltage="12 V", power="60 W")
    draft.run("F1.load", "EL1.in", poles="+", size="14 AWG", length="20 ft")
    draft.run("GB1.dc", "EL1.in", poles="-", size="14 AWG", length="20 ft")
    found, analysis = asked(draft)
    numbers = {f.number for f in analysis.findings if f.level > 1}
    assert found[0].numbers
    assert set(found[0].numbers) <= numbers
    weighty = [bool(q.numbers) for q in found]
    assert weighty == sorted(weighty, reverse=True)
    assert not all(weighty)
