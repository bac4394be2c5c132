"""Families are folders behind one door; what one of them lacks is told as not checked."""

from __future__ import annotations

import ast
from inspect import getmembers, isfunction
from pathlib import Path

import pytest

import linework.codes as home
from linework.analysis import Analysis, analyse
from linework.codes import CodesError, choose, family, family_of
from linework.codes.choose import families, families_in
from linework.codes.families import Family
from linework.codes.questions import QUESTIONS
from linework.design import Draft
from linework.storage import load
from tests.codes import made_up
from tests.codes.made_up.highland import Highland

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


def test_each_folder_is_a_family() -> None:
    assert families_in(made_up).keys() == {"INT"}
    assert families_in(made_up)["INT"].make is Highland
    assert families().keys() == families_in(home).keys() == {"NA", "INT"}


def test_what_may_be_left_unanswered_is_named() -> None:
    """Each question in words, and nothing but questions; NFPA 70 answers them all."""
    bare = Family("9", "XX")
    common = {"cite", "lacking", "standards", "touch_limit_v", "disconnection_s"}
    asked = {name for name, _ in getmembers(Family, isfunction) if not name.startswith("_")}
    assert asked - common == set(QUESTIONS)
    assert len(bare.lacking()) == len(QUESTIONS)
    for edition in families()["NA"].editions:
        assert family("NA", edition).lacking() == ()


def test_an_unknown_family_has_a_name_and_no_answers() -> None:
    for key, edition in (("NA", "1899"), ("XX", "9")):
        unknown = family_of(key, edition)
        assert unknown.title == f"{key} {edition}"
        with pytest.raises(CodesError, match=f"no tables of {key} {edition} for standard ratings"):
            unknown.standard_up(15.0)
    assert family_of("NA", "2017").title == "NFPA 70 (2017)"
    assert family_of("INT", "").title == "IEC 60364"


def test_standards_are_named_by_their_families_alone() -> None:
    """No title of a standard is put together anywhere else; docstrings may name clauses."""
    program = Path(home.__file__).parents[1]
    own = {program / "codes" / "na" / "edition.py", program / "codes" / "na" / "north_america.py"}
    found = [
        (file.name, node.lineno)
        for file in sorted(program.rglob("*.py"))
        if file not in own
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.JoinedStr)
        for piece in node.values
        if isinstance(piece, ast.Constant) and "NFPA 70" in str(piece.value)
    ]
    assert found == []


@pytest.fixture
def _highland(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(choose, "families", lambda: families_in(made_up))


def hut(rating: str) -> Draft:
    d = Draft(place="field", family="INT", edition="7", voltage="230 V", frequency="50 Hz")
    d.part("generator", "G1", circuit="ac", power="5 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating=rating, interrupting="10 kA")
    d.seat("QF1", "G1", "1")
    d.part("load", "EA1", power="200 W")
    d.run("QF1.load", "EA1.in", "W1", size="12 AWG", length="10 ft")
    return d


def judged(rating: str) -> tuple[Analysis, list[tuple[str, str]]]:
    analysis = analyse(hut(rating).design)
    return analysis, [(f.rule, f.edition) for f in analysis.open_findings]


@pytest.mark.usefixtures("_highland")
def test_a_made_up_family_judges_by_its_values() -> None:
    above = ("device-above-ampacity", "Highland rules (7)")
    assert above in judged("25 A")[1]
    assert above not in judged("20 A")[1]


@pytest.mark.usefixtures("_highland")
def test_what_a_family_lacks_is_told_and_never_sound() -> None:
    analysis, _ = judged("20 A")
    told = "; ".join(gap.reason for gap in analysis.gaps if gap.rule == "not-analysed")
    assert not analysis.sound
    assert "what Highland rules (7) says is not in this version for: " in told
    assert all(topic in told for topic in Highland().lacking())
    assert {"voltage-drop-high", "not-analysed"} <= {gap.rule for gap in analysis.gaps}
    assert len(Highland().lacking()) == len(QUESTIONS) - 3


@pytest.mark.parametrize("question", sorted(QUESTIONS))
def test_no_rule_breaks_on_a_question_that_is_left_unanswered(
    monkeypatch: pytest.MonkeyPatch, question: str
) -> None:
    known = families()["NA"]

    gapped = type("Gapped", (known.make,), {question: getattr(Family, question)})
    known_ones = {"NA": choose.Known(known.editions, gapped)}
    monkeypatch.setattr(choose, "families", lambda: known_ones)
    analysis = analyse(load(SAMPLES / "beekeepers-trailer.linework"))
    told = [gap.reason for gap in analysis.gaps]
    assert any(reason.endswith(f": {QUESTIONS[question]}") for reason in told)
    assert not [reason for reason in told if "an error of its own" in reason]
