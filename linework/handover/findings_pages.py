"""The findings with their numbers on the sheet, evidence and clause; what was not checked."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.platypus import Flowable

from linework.findings.evidence import shown
from linework.findings.model import Finding
from linework.findings.registry import rules
from linework.handover.assumed_pages import in_a_row
from linework.handover.content import Content
from linework.handover.one_line import flags, place_of_flag
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import Cell, bullet, table, text
from linework.words import N_

_STATES = 5
"""So many states are named; of more, how many there are."""


_LEVELS = N_(
    "Danger, warning and note are this program's own levels: danger can hurt or burn, warning does"
    " not comply or will not work, note is worth knowing; on placards they have meanings of their"
    " own."
)


def findings_pages(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the sheet. Values assumed stand on a sheet of their own."""
    say = content.say
    out: list[Flowable] = [text(say("Findings"), "title", anchor="findings")]
    rows = [row for finding in content.told for row in _rows(content, finding)]
    if rows:
        heads = [say("no."), say("level"), say("where"), say("what, when, why and what to do")]
        out += [text(say(_LEVELS), "small"), table(heads, rows, room.width)]
    else:
        out.append(text(say("None under the values assumed, {edition}.", edition=content.edition)))
    if content.analysis.stale:
        out.append(text(say("Acceptances that no longer fit and were set aside"), "heading"))
        out += [bullet(item.reason) for item in content.analysis.stale]
    return out + _not_checked(content)


def _rows(content: Content, finding: Finding) -> Iterator[list[Cell]]:
    """One finding, and each that follows from it."""
    name, flag = f"finding-{finding.number}", f"flag-{finding.number}"
    link = flag if flag in flags(content) else ""
    mark, where, *rest = _told(content, finding)
    place = [text(told, "small")] if (told := place_of_flag(content, flag)) else []
    number = text(str(finding.number), "strong", name, link)
    yield [number, mark, [where, *place], *rest]
    for below, depth in content.consequences(finding):
        yield ["→" * depth, *_told(content, below)]


def _told(content: Content, finding: Finding) -> list[Cell]:
    say = content.say
    mark = say("accepted") if finding.accepted is not None else finding.level.told
    return [
        text(mark, finding.level.word),
        text(in_a_row(finding.where), "strong"),
        [text(finding.title, "strong"), text(finding.message, "cell"), *_more(content, finding)],
    ]


def _more(content: Content, finding: Finding) -> Iterator[Flowable]:
    """When it holds, its figures and clause, what cures it, who accepted it."""
    say = content.say
    details = [_states(content, finding)]
    if finding.cases:
        details.append(say("if {cases}", cases="; or ".join(finding.cases)))
    details += [shown(each, content.family) for each in finding.evidence]
    details.append(finding.reference)
    yield text(" · ".join(filter(None, details)), "small")
    if finding.mend is not None:
        yield text(say("Proven mend: {title}", title=finding.mend.title), "cell")
    if finding.accepted is not None:
        item = finding.accepted
        words = say(
            "Accepted by {by} on {date}: {reason}", by=item.by, date=item.date, reason=item.reason
        )
        yield text(words, "cell")


def _states(content: Content, finding: Finding) -> str:
    """When it holds: nothing where always."""
    spoken = finding.spoken
    if finding.standing is None or not spoken:
        return ""
    if len(spoken) > _STATES:
        count = content.states_count(finding)
        return content.say("in {count} of the states of the annex", count=count)
    return "; ".join(spoken)


def _not_checked(content: Content) -> list[Flowable]:
    gaps = content.analysis.gaps
    if not gaps:
        return []
    titles = {rule.id: content.say(rule.title) for rule in rules().values()}
    lines = [
        bullet(
            (f"{in_a_row(gap.where)}: " if gap.where else "")
            + gap.reason
            + (f" ({titles[gap.rule]})" if gap.rule in titles else "")
        )
        for gap in gaps
    ]
    return [text(content.say("Not checked"), "heading", anchor="gaps"), *lines]


FINDINGS = Sheet("findings", N_("Findings"), N_("list"), findings_pages, flows=True)
