"""linework check: the findings in words or as one JSON object."""

from __future__ import annotations

import argparse
import json
from typing import Any

from linework.advice import with_proven_mends
from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.findings.evidence import shown
from linework.findings.model import Evidence, Finding, Level
from linework.quantity import KINDS
from linework.study.wires.ratings import rules_of
from linework.words import say


def run(design: Design, arguments: argparse.Namespace) -> int:
    """Print the findings. 1 if a danger is not accepted or something could not be analysed."""
    memory = Memory()
    analysis = with_proven_mends(design, analyse(design, memory=memory), memory)
    if arguments.json:
        print(json.dumps(as_object(design, analysis), indent=2, sort_keys=True, ensure_ascii=False))
    else:
        print("\n".join(as_lines(design, analysis)))
    return status(analysis)


def status(analysis: Analysis) -> int:
    """The exit status of an analysis."""
    danger = any(f.level is Level.DANGER for f in analysis.open_findings)
    return 1 if danger or analysis.gaps or not analysis.complete else 0


def as_object(design: Design, analysis: Analysis) -> dict[str, Any]:
    """Findings, ``sound``, ``not_checked``, ``assumed``, ``unconfirmed`` as plain data."""
    family = design.settings.family
    return {
        "findings": [_finding(f, family) for f in analysis.findings],
        "sound": analysis.sound,
        "not_checked": [
            {"id": g.rule, "reason": g.reason, "parts": list(g.where)} for g in analysis.gaps
        ],
        "assumed": [
            {"part": a.where, "rating": a.rating, "value": a.value, "source": a.source}
            for a in analysis.assumed
        ],
        "unconfirmed": list(analysis.unconfirmed),
        "sound_because": [
            {"id": p.rule, "parts": list(p.where), "message": p.message, "clause": p.clause}
            for p in analysis.praise
        ],
    }


def _finding(finding: Finding, family: str) -> dict[str, Any]:
    return {
        "id": finding.rule,
        "level": finding.level.word,
        "parts": list(finding.where),
        "states": list(finding.states),
        "cases": list(finding.cases),
        "message": finding.message,
        "evidence": [_evidence(e, family) for e in finding.evidence],
        "clause": finding.clause,
        "edition": finding.edition,
        "accepted": None if finding.accepted is None else finding.accepted.reason,
        "mend": None if finding.mend is None else finding.mend.title,
        "consequences": [_finding(c, family) for c in finding.consequences],
    }


def _evidence(evidence: Evidence, family: str) -> dict[str, Any]:
    known = evidence.quantity in KINDS
    value = evidence.value if evidence.value is None or abs(evidence.value) < 1e300 else None
    return {
        "name": say(evidence.name, family=family),
        "value": evidence.note if evidence.quantity == "text" else value,
        "unit": KINDS[evidence.quantity].unit if known else "",
        "shown": shown(evidence, family),
    }


def as_lines(design: Design, analysis: Analysis) -> list[str]:
    """The findings as a person reads them."""
    lines: list[str] = []
    for finding in analysis.findings:
        lines += _lines(finding, design)
    for gap in analysis.gaps:
        where = ", ".join(gap.where)
        lines.append(
            say(
                "not checked: {where} {reason} [{rule}]",
                where=where,
                reason=gap.reason,
                rule=gap.rule,
            )
        )
    lines += _closing(design, analysis)
    return lines


def _lines(finding: Finding, design: Design, indent: str = "") -> list[str]:
    mark = say("accepted") if finding.accepted is not None else finding.level.told
    where = f"{', '.join(finding.where)}: "
    named = finding.message.startswith(where)  # names are said once
    lines = [f"{indent}{mark}: {'' if named else where}{finding.message} [{finding.rule}]"]
    if finding.spoken:
        lines.append(f"{indent}    " + say("in: {states}", states=_few(finding.spoken)))
    if finding.cases:
        lines.append(f"{indent}    " + say("if: {cases}", cases="; or ".join(finding.cases)))
    if finding.evidence:
        numbers = ", ".join(shown(e, design.settings.family) for e in finding.evidence)
        lines.append(f"{indent}    {numbers}")
    if finding.reference:
        lines.append(f"{indent}    {finding.reference}")
    if finding.mend is not None:
        lines.append(f"{indent}    " + say("mend: {title}", title=finding.mend.title))
    for consequence in finding.consequences:
        lines += _lines(consequence, design, indent + "    ")
    return lines


def _few(states: tuple[str, ...], most: int = 3) -> str:
    """The first states in words; how many more there are."""
    shown_ones = "; ".join(states[:most])
    more = len(states) - most
    return (
        say("{states}; and {more} more", states=shown_ones, more=more) if more > 0 else shown_ones
    )


def _closing(design: Design, analysis: Analysis) -> list[str]:
    open_ones = analysis.open_findings
    dangers = sum(f.level is Level.DANGER for f in open_ones)
    lines = [
        say(
            "{dangers} danger, {warnings} warning, {gaps} not checked; {assumed} values assumed,"
            " {unconfirmed} rest on figures from memory.",
            dangers=dangers,
            warnings=len(open_ones) - dangers,
            gaps=len(analysis.gaps),
            assumed=len(analysis.assumed),
            unconfirmed=len(analysis.unconfirmed),
        )
    ]
    if analysis.sound:
        standards = rules_of(design).standards(design.settings.place)
        if analysis.noted:
            text = say(
                "No danger and no warning under the values assumed, by {rules}; what is noted"
                " above is worth reading.",
                rules=standards,
            )
        else:
            text = say("Nothing was found under the values assumed, by {rules}.", rules=standards)
        lines.append(text)
    lines.append(say("Design aid: local codes and a licensed electrician decide. Work dead."))
    return lines
