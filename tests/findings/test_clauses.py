"""What is cited belongs to the place, and to what it is cited of.

The table is the scope that the articles give themselves (NFPA 70 90.2, 110.26, 240 part V to VII,
551.1, 552.1, 690.1, 690.12, 690.31(D), 690.56; 702.7(A), (B); 706.15(B); 33 CFR 183.401; ABYC:
boats), from memory, apart from the program's own.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from itertools import product
from pathlib import Path

import pytest

from linework.analysis import analyse
from linework.codes import family_of
from linework.codes.citing import Where, cited
from linework.design import Design, Draft
from linework.findings.registry import rules
from linework.findings.rule import Rule
from linework.storage import load
from tests.cases.table import cases
from tests.findings.told import flat
from tests.trial.rigs import RIGS

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
PLACES = ("recreational", "vehicle", "boat", "building", "field")
ON_WHEELS, STANDING = {"recreational", "vehicle"}, {"building", "field"}


def articles(clause: str) -> list[str]:
    """The articles and other standards that a line names: "240.83(C)" and "551.45(B)"."""
    return [each for each in re.split(r", (?=[^(])", clause) if each]


ALLOWED: tuple[tuple[str, Callable[[Where], bool]], ...] = (
    (r"ABYC|33 CFR", lambda where: where.place == "boat"),
    (r"NFPA 1192", lambda where: where.place == "recreational"),
    (r"NFPA 72", lambda where: where.place == "building"),
    (r"55[0-2]\b", lambda where: where.place in ON_WHEELS),
    (r"110\.26|22?5\b|230\b", lambda where: where.place in STANDING),
    (r"690\.(12|31\(D\)|56)", lambda where: where.solar and where.place == "building"),
    (r"702\.7\([AB]\)", lambda where: where.place in STANDING),
    (r"706\.15\(B\)", lambda where: where.place == "building"),
    (r"690\b", lambda where: where.solar and where.place != "boat"),
    (r"240\.8\d", lambda where: where.device == "breaker" and where.place != "boat"),
    (r"240\.(5[0-4]|6[01])\b", lambda where: where.device == "fuse" and where.place != "boat"),
    (r"\d|chapter 9|Table", lambda where: where.place != "boat"),
)
"""Where clauses that begin so may be cited; the first that fits counts, the rest anywhere."""


def belongs(clause: str, where: Where) -> bool:
    """By the scope of the article."""
    rules_for = (allowed for begins, allowed in ALLOWED if re.match(begins, clause))
    return next(rules_for, lambda _: True)(where)


@pytest.mark.parametrize("rule", rules().values(), ids=lambda rule: rule.id)
def test_of_its_clauses_a_rule_cites_those_of_the_place(rule: Rule) -> None:
    for place, solar, device in product(PLACES, (False, True), ("breaker", "fuse", "")):
        where = Where(place, solar, device)
        line = cited("NA", rule.id, rule.clauses["NA"], where)
        wrong = [each for each in articles(line) if not belongs(each, where)]
        assert not wrong, (where, line)
        assert line or not rule.clauses["NA"]


def test_the_same_rule_cites_what_its_place_has() -> None:
    breaker = rules()["interrupting-too-low"].clauses["NA"]
    assert cited("NA", "interrupting-too-low", breaker, Where("building", device="breaker")) == (
        "110.9, 240.83(C)"
    )
    assert cited("NA", "interrupting-too-low", breaker, Where("building", device="fuse")) == (
        "110.9, 240.60(B)"
    )
    assert cited("NA", "interrupting-too-low", breaker, Where("boat", device="fuse")) == "ABYC E-11"
    room = rules()["working-space"].clauses["NA"]
    found = {place: cited("NA", "working-space", room, Where(place)) for place in PLACES}
    assert found == {
        "recreational": "551.45(B)",
        "vehicle": "551.45(B)",
        "boat": "practice",
        "building": "110.26(A)",
        "field": "110.26(A)",
    }


def test_a_number_is_no_beginning_of_a_longer_one() -> None:
    assert cited("NA", "x", "240.6(A), 240.60(B)", Where("building")) == "240.6(A)"


def test_what_belongs_to_the_clause_before_stays_with_it() -> None:
    assert cited("NA", "x", "400.12(4), (5)", Where("building")) == "400.12(4), (5)"


DRAWN: dict[str, Callable[[], Design]] = {
    **{path.stem: partial(load, path) for path in sorted(SAMPLES.glob("*.linework"))},
    **{name: lambda draw=draw: draw().design for name, draw in RIGS.items()},
    **{number: lambda case=case: case.draw().design for number, case in cases().items()},
}
"""Samples, sound rigs and situations."""


@pytest.mark.parametrize("name", DRAWN)
def test_no_finding_cites_a_clause_out_of_its_place(name: str) -> None:
    design = DRAWN[name]()
    if design.settings.family != "NA":
        return
    kinds = {part.id: design.kind(part) for part in design.parts}
    solar = any(kind.source.solar for kind in kinds.values())
    analysis = analyse(design)
    findings = flat(analysis.findings)
    for said in (*findings, *analysis.praise):
        parts = [kinds[s] for s in said.subjects if s in kinds]
        device = "fuse" if any(k.melts for k in parts) else "breaker" if parts else ""
        where = Where(design.settings.place, solar, device)
        wrong = [each for each in articles(said.clause) if not belongs(each, where)]
        assert not wrong, (where, said.rule, said.clause)
    for finding in findings:
        assert design.settings.place != "boat" or "NFPA 70" not in finding.reference, finding.rule
        assert finding.rule != "value-assumed" or not finding.reference


def test_a_boat_is_not_judged_by_nfpa_70() -> None:
    design = Draft(place="boat").design
    assert family_of("NA", "2023").standards(design.settings.place) == "ABYC E-11, 33 CFR 183"
    assert family_of("NA", "2023").standards("vehicle") == "NFPA 70 (2023)"
