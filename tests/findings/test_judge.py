"""What the judge makes of hits: one cause, one finding; nothing hidden, nothing swallowed."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

import pytest

from linework.analysis import analyse
from linework.circuit.arrangements import Arrangements
from linework.circuit.choices import Choices
from linework.circuit.model import SelectorAt
from linework.design import Accepted, Draft
from linework.design.edits import accept_finding
from linework.findings.judge import Verdict, judge
from linework.findings.model import Clear, Evidence, Finding, Hit, Level, NotChecked, Outcome
from linework.findings.registry import rules
from linework.findings.rule import Rule
from linework.findings.standing import Standing
from linework.findings.view import View
from tests.findings.camps import camp
from tests.findings.told import flat

CLAUSES = {"NA": "1.1", "INT": "2.2"}


def rule(
    name: str,
    *outcomes: Outcome | tuple[str, Outcome],
    causes: tuple[str, ...] = (),
    always_printed: bool = False,
    breaks: bool = False,
    hangs_on: tuple[str, ...] = (),
    timeless: bool = False,
) -> Rule:
    """A rule that says this, what stands with a case in that one only, and then breaks if it is
    to."""

    def check(view: View) -> Iterator[Outcome]:
        for said in outcomes:
            case, outcome = said if isinstance(said, tuple) else ("", said)
            if case in ("", view.title if isinstance(view, InCase) else ""):
                yield outcome
        if breaks:
            raise ZeroDivisionError("of its own")

    return Rule(
        name,
        name,
        check,
        CLAUSES,
        causes,
        hangs_on,
        always_printed=always_printed,
        timeless=timeless,
    )


def hit(
    subject: str = "G1",
    level: Level = Level.DANGER,
    state: str = "",
    number: float = 1.0,
    touches: tuple[str, ...] = (),
    message: str = "it is",
    evidence: tuple[Evidence, ...] | None = None,
    explains: tuple[str, ...] = (),
) -> Hit:
    shown = (Evidence("amount", number, "current"),) if evidence is None else evidence
    held = frozenset(touches)
    hanging = frozenset(explains)
    return Hit(level, (subject,), message, {}, shown, state=state, touches=held, explains=hanging)


LEVER = SelectorAt(("QT9", "lever"), ("S1", "S2", "S3", "S4"), "S1", "hand")
"""The states of these tests: where a lever stands."""
STANDING = Standing(
    {at: Arrangements((frozenset({(LEVER.key, at)}),), 1) for at in LEVER.positions},
    Choices([LEVER]),
)


class InCase(View):
    """What one case shows."""

    title = ""


CASES = ("X", "Y")


def judged(*chosen: Rule, draft: Draft | None = None) -> Verdict:
    """The verdict of some rules where one thing is not known: it is X or Y."""
    design = (draft or camp()).design
    in_cases = tuple(InCase(design, (), None, STANDING) for _ in CASES)
    for view, title in zip(in_cases, CASES, strict=True):
        view.title = title

    def words(numbers: Collection[int]) -> tuple[str, ...]:
        return () if len(numbers) == len(CASES) else tuple(CASES[n] for n in numbers)

    view = View(design, (), None, STANDING, in_cases=in_cases, case_words=words)
    return judge(view, chosen)


def names(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.rule for finding in findings]


# grouping


def test_hits_of_one_place_in_several_states_are_one_finding() -> None:
    verdict = judged(rule("a", hit(state="S1"), hit(state="S2"), hit("QP1", state="S1")))
    assert [(f.where, f.states) for f in verdict.findings] == [
        (("G1",), ("S1", "S2")),
        (("QP1",), ("S1",)),
    ]


def test_the_worst_numbers_of_the_states_are_shown() -> None:
    verdict = judged(rule("a", hit(state="S1", number=2.0), hit(state="S2", number=7.0)))
    assert verdict.findings[0].evidence[0].value == 7.0


def test_what_is_not_a_number_never_outweighs_one() -> None:
    verdict = judged(rule("a", hit(state="S1", number=2.0), hit(state="S2", number=math.nan)))
    assert verdict.findings[0].evidence[0].value == 2.0


def test_unlike_levels_are_two_findings() -> None:
    verdict = judged(
        rule("a", hit(state="S1", level=Level.NOTE), hit(state="S2", level=Level.WARNING))
    )
    assert [(f.level, f.states) for f in verdict.findings] == [
        (Level.WARNING, ("S2",)),
        (Level.NOTE, ("S1",)),
    ]


def test_a_finding_names_the_cases_on_which_it_hangs() -> None:
    verdict = judged(rule("a", ("Y", hit(state="S1")), ("Y", hit(state="S2"))))
    assert verdict.findings[0].cases == ("Y",)


def test_a_finding_of_every_case_hangs_on_none() -> None:
    verdict = judged(rule("a", ("X", hit(state="S1")), ("Y", hit(state="S2"))))
    assert verdict.findings[0].cases == ()
    assert judged(rule("a", ("X", hit(state="S1")), hit(state="S2"))).findings[0].cases == ()


def test_a_gap_of_any_case_is_told_and_only_what_is_sound_in_each() -> None:
    verdict = judged(
        rule(
            "a",
            ("Y", NotChecked("why", {}, ("G1",))),
            ("X", Clear(("QP1",), "sound if X")),
            Clear(("G1",), "sound"),
        )
    )
    assert [gap.reason for gap in verdict.gaps] == ["why"]
    assert [praise.message for praise in verdict.praise] == ["sound"]


def test_what_is_asked_of_the_design_as_given_is_asked_once() -> None:
    def check(view: View) -> Iterator[Outcome]:
        yield Clear((), "in a case" if isinstance(view, InCase) else "as given")
        yield hit()

    asked = Rule("a", "a", check, CLAUSES, as_given=True)
    verdict = judged(asked, rule("b", ("X", hit()), causes=("a",)))
    assert [praise.message for praise in verdict.praise] == ["as given"]
    assert verdict.findings[0].cases == ()
    assert [f.rule for f in verdict.findings[0].consequences] == ["b"]


def test_dangers_come_first_and_are_numbered() -> None:
    verdict = judged(rule("a", hit(level=Level.NOTE)), rule("b", hit(level=Level.DANGER)))
    assert [(f.rule, f.number) for f in verdict.findings] == [("b", 1), ("a", 2)]


def test_a_clause_of_its_own_stands_before_the_rules() -> None:
    own = Hit(Level.NOTE, ("G1",), "it is", clause="9.9")
    assert [f.clause for f in judged(rule("a", own), rule("b", hit())).findings] == ["1.1", "9.9"]


# consequences


def test_a_consequence_stands_under_a_cause_that_shares_a_place() -> None:
    verdict = judged(
        rule("cause", hit(touches=("EA1",))), rule("effect", hit("EA1"), causes=("cause",))
    )
    assert names(verdict.findings) == ["cause"]
    assert names(verdict.findings[0].consequences) == ["effect"]


def test_it_does_not_where_no_place_is_shared() -> None:
    verdict = judged(rule("cause", hit()), rule("effect", hit("EA1"), causes=("cause",)))
    assert sorted(names(verdict.findings)) == ["cause", "effect"]


def test_a_consequence_of_a_consequence_is_passed_on() -> None:
    verdict = judged(
        rule("a", hit()), rule("b", hit(), causes=("a",)), rule("c", hit(), causes=("b",))
    )
    assert [f.rule for f in flat(verdict.findings)] == ["a", "b", "c"]
    assert len(verdict.findings) == 1


@pytest.mark.parametrize(
    ("cause", "effect", "explained"),
    [
        ((("", ""),), (("S1", "X"),), True),
        ((("S1", ""),), (("S1", "X"),), True),
        ((("S1", "X"),), (("S1", "X"),), True),
        ((("S1", "X"),), (("S1", ""),), False),
        ((("S1", "X"),), (("S2", "X"),), False),
        ((("S1", ""),), (("", ""),), False),
        # together the cause has both states and both cases, but not in these pairs
        ((("S1", "Y"), ("S2", "X")), (("S1", "X"), ("S2", "Y")), False),
        ((("S1", ""),), (("S1", ""), ("S2", "")), False),
    ],
)
def test_the_cause_must_hold_wherever_the_consequence_does(
    cause: tuple[tuple[str, str], ...], effect: tuple[tuple[str, str], ...], explained: bool
) -> None:
    verdict = judged(
        rule("cause", *((c, hit(state=s)) for s, c in cause)),
        rule("effect", *((c, hit(state=s)) for s, c in effect), causes=("cause",)),
    )
    assert (names(verdict.findings) == ["cause"]) is explained


def test_nothing_hides_under_a_lesser_finding() -> None:
    verdict = judged(
        rule("cause", hit(level=Level.NOTE)),
        rule("effect", hit(level=Level.DANGER), causes=("cause",)),
    )
    assert names(verdict.findings) == ["effect", "cause"]


def test_what_hangs_on_a_cause_follows_from_it_however_grave_and_makes_it_as_grave() -> None:
    verdict = judged(
        rule("cause", hit("W1", level=Level.WARNING, explains=("W2",))),
        rule("effect", hit("W2", level=Level.DANGER), hit("W3"), hangs_on=("cause",)),
    )
    assert [(f.rule, f.subjects, f.level) for f in verdict.findings] == [
        ("cause", ("W1",), Level.DANGER),
        ("effect", ("W3",), Level.DANGER),
    ]
    assert names(verdict.findings[0].consequences) == ["effect"]


def test_what_only_touches_it_does_where_it_is_no_graver() -> None:
    for level, found in ((Level.WARNING, ["cause"]), (Level.DANGER, ["effect", "cause"])):
        verdict = judged(
            rule("cause", hit("W1", level=Level.WARNING, explains=("W2",))),
            rule("effect", hit("QF1", level=level, touches=("W2",)), hangs_on=("cause",)),
        )
        assert names(verdict.findings) == found


def test_nothing_hangs_on_a_note() -> None:
    verdict = judged(
        rule("cause", hit("W1", level=Level.NOTE, explains=("W2",))),
        rule("effect", hit("W2"), hangs_on=("cause",)),
    )
    assert names(verdict.findings) == ["effect", "cause"]


def test_several_causes_together_may_have_every_state_of_a_consequence() -> None:
    causes = rule("a", hit(state="S1")), rule("b", hit(state="S2"))
    effect = rule("c", hit(state="S1"), hit(state="S2"), causes=("a", "b"))
    assert names(judged(*causes, effect).findings) == ["a", "b"]
    more = rule("c", hit(state="S1"), hit(state="S2"), hit(state="S3"), causes=("a", "b"))
    assert sorted(names(judged(*causes, more).findings)) == ["a", "b", "c"]


def test_what_is_drawn_from_all_states_follows_from_a_cause_in_some() -> None:
    cause = rule("cause", hit("W1", state="S1", explains=("EA1",)))
    for timeless, found in ((True, ["cause"]), (False, ["cause", "effect"])):
        effect = rule("effect", hit("EA1"), hangs_on=("cause",), timeless=timeless)
        assert sorted(names(judged(cause, effect).findings)) == found


def test_a_rule_explains_its_own_lesser_findings_one_way_only() -> None:
    whole = rule("a", hit("GB1", explains=("EA1", "EA2")), hit("EA1"), hit("EA2"))
    assert [f.subjects for f in judged(whole).findings] == [("GB1",)]
    mutual = rule("a", hit("EA1", explains=("EA2",)), hit("EA2", explains=("EA1",)))
    assert len(judged(mutual).findings) == 2


def test_nothing_is_lost_in_a_circle() -> None:
    circle = rule(
        "a",
        hit("EA1", explains=("EA2",)),
        hit("EA2", explains=("EA3",)),
        hit("EA3", explains=("EA1",)),
    )
    assert len(list(flat(judged(circle).findings))) == 3


def test_of_equally_grave_findings_what_explains_others_comes_first() -> None:
    verdict = judged(
        rule("a", hit("EA1")), rule("b", hit("W1")), rule("c", hit("W1"), causes=("b",))
    )
    assert names(verdict.findings) == ["b", "a"]


def test_no_rule_is_its_own_cause_by_any_way() -> None:
    known = rules()

    def follow(name: str, seen: tuple[str, ...]) -> None:
        assert name not in seen, seen
        for cause in known[name].causes if name in known else ():
            follow(cause, (*seen, name))

    for name in known:
        follow(name, ())


# acceptance


def accepted(draft: Draft, finding: Finding) -> Draft:
    edit = accept_finding(
        draft.design,
        finding.rule,
        finding.subjects,
        finding.fingerprint,
        reason="measured and looked at",
        by="an electrician",
        date="2026-03-01",
    )
    draft.design.apply(edit)
    return draft


def doubled() -> Draft:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    return draft


def top(draft: Draft) -> Finding:
    return next(f for f in analyse(draft.design).findings if f.rule == "bond-doubled")


def test_an_accepted_danger_is_not_open_but_still_told() -> None:
    draft = doubled()
    assert not analyse(draft.design).silent
    accepted(draft, top(draft))
    analysis = analyse(draft.design)
    assert analysis.silent
    assert top(draft).accepted is not None
    assert analysis.stale == ()


def test_a_number_that_changes_within_two_digits_leaves_it_accepted() -> None:
    draft = doubled()
    accepted(draft, top(draft))
    draft.rate("EA1", power="601 W")
    assert top(draft).accepted is not None


def test_a_number_that_changes_more_brings_it_back() -> None:
    draft = doubled()
    accepted(draft, top(draft))
    draft.rate("EA1", power="700 W")
    analysis = analyse(draft.design)
    assert top(draft).accepted is None
    assert not analysis.silent
    assert [item.rule for item in analysis.stale] == ["bond-doubled"]


def test_another_state_brings_it_back() -> None:
    one, other = rule("a", hit(state="S1")), rule("a", hit(state="S1"), hit(state="S2"))
    draft = accepted(camp(), judged(one).findings[0])
    assert judged(one, draft=draft).findings[0].accepted is not None
    assert judged(other, draft=draft).findings[0].accepted is None


def test_another_case_or_level_brings_it_back() -> None:
    draft = accepted(camp(), judged(rule("a", ("X", hit(level=Level.WARNING)))).findings[0])
    for changed in (("", hit(level=Level.WARNING)), ("X", hit(level=Level.DANGER))):
        verdict = judged(rule("a", changed), draft=draft)
        assert verdict.findings[0].accepted is None
        assert len(verdict.stale) == 1


def test_other_words_in_the_evidence_bring_it_back() -> None:
    plug, other = (
        hit(evidence=(Evidence("plug", None, "text", name),)) for name in ("5-15", "L5-30")
    )
    draft = accepted(camp(), judged(rule("a", plug)).findings[0])
    assert judged(rule("a", plug), draft=draft).findings[0].accepted is not None
    assert judged(rule("a", other), draft=draft).findings[0].accepted is None


def test_a_new_consequence_brings_it_back() -> None:
    cause, effect = rule("cause", hit()), rule("effect", hit(), causes=("cause",))
    draft = accepted(camp(), judged(cause).findings[0])
    assert judged(cause, draft=draft).findings[0].accepted is not None
    assert judged(cause, effect, draft=draft).findings[0].accepted is None


def test_a_caution_is_never_accepted_away() -> None:
    caution = rule("a", hit(level=Level.NOTE), always_printed=True)
    draft = accepted(camp(), judged(caution).findings[0])
    verdict = judged(caution, draft=draft)
    assert verdict.findings[0].accepted is None
    assert [type(item) for item in verdict.stale] == [Accepted]


# what could not be judged


def test_a_rule_that_breaks_is_told_and_keeps_what_it_found() -> None:
    verdict = judged(rule("a", hit(), breaks=True), rule("b", hit()))
    assert names(verdict.findings) == ["a", "b"]
    assert [gap.rule for gap in verdict.gaps] == ["a"]
    assert "ZeroDivisionError" in verdict.gaps[0].reason


def test_a_rule_that_breaks_blocks_sound(monkeypatch: pytest.MonkeyPatch) -> None:
    assert analyse(camp().design).sound
    broken = {**rules(), "a": rule("a", breaks=True)}
    monkeypatch.setattr("linework.findings.judge.rules", lambda: broken)
    analysis = analyse(camp().design)
    assert analysis.silent
    assert not analysis.sound
    assert [gap.rule for gap in analysis.gaps] == ["a"]


def test_a_message_that_lacks_a_value_is_told_too() -> None:
    verdict = judged(rule("a", hit(message="{nobody} gives this")), rule("b", hit()))
    assert names(verdict.findings) == ["b"]
    assert [gap.rule for gap in verdict.gaps] == ["a"]


def test_not_checked_is_a_gap_with_its_place_once() -> None:
    gap = NotChecked("{what} is not given", {"what": "length"}, ("W1",))
    verdict = judged(rule("a", gap, gap))
    assert [(g.rule, g.reason, g.where) for g in verdict.gaps] == [
        ("a", "length is not given", ("W1",))
    ]


def test_what_is_sound_and_doubted_is_told_with_its_clause() -> None:
    verdict = judged(rule("a", Clear(("G1",), "{where} is right", {"where": "it"})))
    assert [(p.rule, p.message, p.clause) for p in verdict.praise] == [("a", "it is right", "1.1")]
    assert verdict.findings == ()


def test_a_rule_on_all_states_together_waits_for_them() -> None:
    whole = Rule("a", "a", lambda view: iter([hit()]), CLAUSES, whole=True)
    assert judge(View(camp().design, (), partial=True), [whole]).findings == ()
    assert len(judge(View(camp().design, ()), [whole]).findings) == 1


# standing


def test_which_circuits_stand_at_the_same_time() -> None:
    assert STANDING.together("S1", "S1")
    assert not STANDING.together("S1", "S2")
    assert STANDING.together("", "S2")  # what stands whatever the state
    assert STANDING.together("S3", "")
