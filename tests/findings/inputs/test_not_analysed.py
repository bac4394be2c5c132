"""not-analysed: whatever was passed over is said, and nothing is called sound beside it."""

from __future__ import annotations

from dataclasses import replace

import pytest

import linework.analysis
from linework.analysis import analyse
from linework.circuit import expand
from linework.design import Draft, Part, changed
from linework.kinds import OneOf, Ratings
from linework.study.loads.verify import Check
from linework.study.report import state_key
from linework.study.studies import Studies
from tests.enumeration import all_states
from tests.findings.banks import van
from tests.findings.sources.test_battery_turned import string
from tests.findings.told import gaps

RULE = "not-analysed"


def portable() -> Draft:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="2 kVA", neutral="bonded")
    draft.part("outlet", "X1")
    draft.seat("X1", "G1", "1")
    return draft


def blocked(draft: Draft, words: str) -> tuple[str, ...]:
    """Where the one gap with these words is; it must block "sound"."""
    (gap,) = [g for g in gaps(draft, RULE) if words in g.reason]
    assert not analyse(draft.design).sound
    return gap.where


def test_a_design_that_was_analysed_in_full_has_none() -> None:
    assert not gaps(portable(), RULE)
    assert analyse(portable().design).sound


def test_an_unknown_kind() -> None:
    draft = portable()
    draft.design.apply(changed("open", [(None, Part("U1", "flux_converter", "U1"))]))
    assert blocked(draft, "'flux_converter' is not known") == ("U1",)


def test_an_unknown_rating() -> None:
    draft = portable()
    part = draft.design.part("G1")
    odd = replace(part, ratings=Ratings.of({**part.ratings, "colour_of_case": "red"}))
    draft.design.apply(changed("open", [(part, odd)]))
    assert blocked(draft, "'colour_of_case' is not known") == ("G1",)


def test_a_run_of_which_nothing_is_joined() -> None:
    draft = portable()
    draft.part("load", "EA1", power="100 W")
    draft.run("X1.onward", "EA1.in", "W1", size="12 AWG", length="5 ft")
    run = next(r for r in draft.design.runs)
    draft.design.apply(changed("open", [(run, replace(run, poles=()))]))
    assert blocked(draft, "not one conductor") == ("W1",)


def test_a_place_that_is_gone() -> None:
    draft = portable()
    draft.part("panel", "QP1", bond="absent", places="6")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "QP1", "5")
    part = draft.design.part("QP1")
    draft.design.apply(changed("fewer places", [(part, part.rated(places="4"))]))
    assert blocked(draft, "QP1 has no place '5'") == ("QF1",)


def test_followers_that_chase_their_own_effect() -> None:
    draft = Draft(place="vehicle")
    for n in ("1", "2"):
        draft.part("battery", f"GB{n}")
        draft.part("inverter_charger", f"TB{n}", power="1 kVA", neutral="floating")
        draft.run(f"GB{n}.dc", f"TB{n}.dc", f"W{n}", size="4/0 AWG", length="1 ft")
    draft.run("TB1.ac_out", "TB2.ac_in", "W3", size="12 AWG", length="3 ft")
    draft.run("TB2.ac_out", "TB1.ac_in", "W4", size="12 AWG", length="3 ft")
    restless = [g for g in gaps(draft, RULE) if "no position of rest" in g.reason]
    assert restless
    assert {part for gap in restless for part in gap.where} <= {"TB1", "TB2"}
    assert not analyse(draft.design).sound
    assert restless_where_shown(draft) == {gap.where for gap in restless}


def restless_where_shown(draft: Draft) -> set[tuple[str, ...]]:
    """What finds no rest, by the first answers, of one state each."""
    design = draft.design
    circuit = expand(design)
    keys = [state_key(design, circuit, state) for state in all_states(circuit).states]
    found = (gap for key in keys for gap in analyse(design, key).gaps)
    return {gap.where for gap in found if "no position of rest" in gap.reason}


def test_more_combinations_than_are_judged(monkeypatch: pytest.MonkeyPatch) -> None:
    draft = portable()
    draft.rate("G1", neutral=None)  # not known: two possibilities
    assert not [g for g in gaps(draft, RULE) if "more combinations" in g.reason]
    monkeypatch.setattr(linework.analysis, "MOST_CASES", 1)
    assert blocked(draft, "more combinations") == ()


def test_loads_that_ask_for_more_than_the_conductors_carry() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="5 kA")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", charge="30 A")
    draft.part("load", "EA1", power="2400 W")
    draft.run("GB1.dc", "TB1.dc", "W1", size="12 AWG", length="60 ft")
    draft.run("TB1.ac_out", "EA1.in", "W2", size="12 AWG", length="3 ft")
    reasons = [g.reason for g in gaps(draft, RULE)]
    assert any("was not solved" in reason for reason in reasons)
    draft.rate_run("W1", size="4/0 AWG", length="3 ft")
    assert not gaps(draft, RULE)


def test_a_solution_that_does_not_balance_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    draft = portable()
    draft.part("load", "EA1", power="3 kW")  # an overload, were the solution believed
    draft.run("X1.onward", "EA1.in", "W1", size="12 AWG", length="5 ft")
    solve = Studies.loaded.func
    wrong = Check(60.0, unbalance_a=0.5, limit_a=1e-9, power_error=0.0)
    overloaded = [f for f in analyse(draft.design).findings if f.rule == "source-overloaded"]
    assert overloaded

    def unbalanced(self: Studies) -> object:
        return replace(solve(self), checks=(wrong,))

    monkeypatch.setattr(Studies, "loaded", property(unbalanced))
    assert any("does not balance (0.5 A)" in gap.reason for gap in gaps(draft, RULE))
    assert not [f for f in analyse(draft.design).findings if f.rule == "source-overloaded"]


def test_a_family_without_tables() -> None:
    draft = Draft(place="field", family="INT", voltage="230 V", frequency="50 Hz")
    draft.part("generator", "G1", power="2 kVA", neutral="bonded")
    assert blocked(draft, "not in this version") == ()


def test_batteries_side_by_side_are_judged() -> None:
    draft = Draft(place="vehicle")
    for n in ("1", "2"):
        draft.part("battery", f"GB{n}", fault_current="3 kA")
    draft.run("GB1.dc", "GB2.dc", "W1", size="2 AWG", length="1 ft")
    assert not any("series" in gap.reason for gap in gaps(draft, "not-analysed"))


def panel_on(**supply: str | OneOf) -> Draft:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split")
    draft.part("panel", "PB1", circuit="split", bond="absent")
    draft.run("GS1.out", "PB1.feed", "W1", size="4 AWG", length="10 m")
    draft.rate("GS1", **supply)
    return draft


def test_a_hot_conductor_that_one_case_of_an_unknown_leaves_out() -> None:
    draft = panel_on(circuit=OneOf(("split", "ac")))
    assert blocked(draft, "where GS1 circuit: AC, one hot and neutral") == ("W1",)
    assert blocked(panel_on(circuit="ac"), "say which goes where") == ("W1",)
    assert not gaps(panel_on(circuit="split"), RULE)


@pytest.mark.parametrize(
    ("poles", "told"), [("->body", False), ("+>body", True)], ids=["minus", "plus"]
)
def test_a_battery_whose_plus_is_grounded(poles: str, told: bool) -> None:
    """Nothing opens a short from its minus to the metal: the fuses lie in the plus."""
    draft = van()
    draft.cut("W9")
    tie = {"size": "4/0 AWG", "length": "1 ft", "installation": "jumper"}
    draft.run("GB1.dc", "XB1.tie", "W9", poles=poles, **tie)
    told_of = [gap.where for gap in gaps(draft, "not-analysed") if "minus" in gap.reason]
    assert told_of == ([("GB1",)] if told else [])


def test_a_string_that_is_grounded_in_its_middle() -> None:
    draft = string(2)
    draft.part("body", "XB1", name="frame")
    draft.run("GB2.dc", "XB1.tie", "tie", poles="+>body", size="2 AWG", length="1 ft")
    assert [gap.where for gap in gaps(draft, "not-analysed")] == [("GB1", "GB2")]
    draft.run_poles("tie", "->body")
    assert gaps(draft, "not-analysed") == []


def fused(**ratings: str) -> Draft:
    """A battery, a fuse in its lead, a lamp."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", voltage="12 V", capacity="200 Ah")
    draft.part("fuse", "F1", **ratings)
    draft.part("lamp", "EL1", power="20 W", circuit="dc", voltage="12 V")
    draft.run("GB1.dc", "F1.line", "W1", size="6 AWG", length="2 ft")
    draft.run("F1.load", "EL1.in", "W2", size="6 AWG", length="10 ft")
    return draft


@pytest.mark.parametrize("rating", ["40 A", "60 A", "175 A", "600 A"])
def test_a_fuse_of_any_size_with_its_type_left_open_leaves_no_state_unsolved(rating: str) -> None:
    analysis = analyse(fused(rating=rating).design)
    assert [r.solved for r in analysis.reports] == [True]
    assert not gaps(fused(rating=rating), RULE)


def test_a_fuse_beyond_the_table_of_its_type_is_named_and_counted_on_for_nothing() -> None:
    # Blade type C ends at 40 A (ISO 8820-3, from memory).
    draft = fused(rating="60 A", type="ato")
    assert blocked(draft, "no time-current band") == ("F1",)
    (report,) = analyse(draft.design).reports
    assert report.solved
    lamp = next(load for load in report.loads if load.part == "EL1")
    assert lamp.volts > 11.0
    assert "F1" not in {fault.by for fault in report.faults}


def test_a_state_that_cannot_be_worked_out_is_told_with_its_cause(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fails(*_: object) -> None:
        raise ValueError("no such row")

    monkeypatch.setattr("linework.findings.survey.report", fails)
    analysis = analyse(portable().design)
    assert {(r.key, r.solved, r.cause) for r in analysis.reports} == {
        ("G1=running", False, "no such row"),
        ("G1=stopped", False, "no such row"),
    }
    assert not analysis.sound
