"""The findings with their numbers on the sheet, evidence and clause; what is sound, and why."""

from __future__ import annotations

from reportlab.platypus import Flowable, KeepTogether, Spacer

from linework.findings.evidence import shown
from linework.findings.model import Finding
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import table, text, with_room
from linework.words import N_


def findings_pages(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the section."""
    say = content.say
    out: list[Flowable] = [text(say("Findings"), "title", anchor="findings")]
    if not content.analysis.findings:
        out.append(text(say("None under the values assumed, {edition}.", edition=content.edition)))
    for depth, finding in content.flat_findings:
        out.append(KeepTogether(_finding(content, finding, depth)))
    if content.analysis.stale:
        out.append(text(say("Acceptances that no longer fit and were set aside"), "heading"))
        out += [text(f"•  {item.rule}: {item.reason}") for item in content.analysis.stale]
    return out + _sound(content, room.width)


def _finding(content: Content, finding: Finding, depth: int) -> list[Flowable]:
    say, indent = content.say, "\u00a0" * (6 * depth)
    mark = say("accepted") if finding.accepted is not None else finding.level.told
    number = f"{finding.number} " if depth == 0 else "→ "
    where = ", ".join(finding.where)
    flag = f"flag-{finding.number}"
    head = f"{indent}{number}{mark.upper()}: {where}: {finding.title}"
    lines: list[Flowable] = [
        Spacer(1, 5),
        text(
            head,
            finding.level.word,
            anchor=f"finding-{finding.number}" if depth == 0 else "",
            link=flag if depth == 0 and flag in content.flags else "",
        ),
        text(indent + finding.message),
    ]
    details = [say("states {states}", states=content.states_text(finding))]
    if finding.cases:
        details.append(say("if {cases}", cases="; or ".join(finding.cases)))
    details += [shown(e, content.family) for e in finding.evidence]
    details += [finding.reference] if finding.reference else []
    lines.append(text(indent + " · ".join(details), "small"))
    if finding.mend is not None:
        lines.append(text(indent + say("Proven mend: {title}", title=finding.mend.title)))
    if finding.accepted is not None:
        item = finding.accepted
        text_of = say(
            "Accepted by {by} on {date}: {reason}", by=item.by, date=item.date, reason=item.reason
        )
        lines.append(text(indent + text_of))
    return lines


def _sound(content: Content, width: float) -> list[Flowable]:
    """What people doubt and what stands, with the clause; never without edition and assumptions."""
    if not content.analysis.praise:
        return []
    rows = [[", ".join(p.where), p.message, p.clause] for p in content.analysis.praise]
    say = content.say
    return [
        with_room(),
        text(
            say(
                "Sound here, and why (under the values assumed, {edition})", edition=content.edition
            ),
            "heading",
        ),
        table([say("where"), say("why"), say("clause")], list(rows), width),
    ]


FINDINGS = Sheet("findings", N_("Findings"), N_("list"), findings_pages)
