"""Findings, what was not judged, what was assumed, and what the tables are of."""

from __future__ import annotations

from linework.findings.evidence import shown
from linework.findings.model import Finding
from linework.handover.content import Content
from linework.handover.figures.model import Cell, Column, Data, joined
from linework.handover.standing_in import assumed_of

Row = tuple[Cell, ...]


def about(content: Content) -> Data:
    """Which job, which date, judged by what, and who decides."""
    say, settings, analysis = content.say, content.design.settings, content.analysis
    rows: tuple[Row, ...] = (
        (say("job"), settings.job),
        (say("site"), settings.site),
        (say("revision"), settings.revision),
        (say("date"), content.date.isoformat()),
        (say("judged by"), content.edition),
        (say("findings"), len(content.with_consequences)),
        (say("not judged"), len(analysis.gaps)),
        (say("values assumed"), len(assumed_of(content))),
        (say("caution"), say("Design aid: local codes and a licensed electrician decide.")),
    )
    return Data("about", say("About"), (Column(say("what")), Column(say("told"))), rows)


def findings(content: Content) -> Data:
    """Every finding, what follows from one below it."""
    say = content.say
    titles = (
        say("number"),
        say("follows from"),
        say("level"),
        say("accepted"),
        say("where"),
        say("title"),
        say("message"),
        say("states"),
        say("evidence"),
        say("reference"),
        say("mend"),
    )
    rows: list[Row] = []
    for finding in content.told:
        rows.append(_finding(content, finding, None))
        below = content.consequences(finding)
        rows += [_finding(content, each, finding.number) for each, _ in below]
    return Data("findings", say("Findings"), tuple(map(Column, titles)), tuple(rows))


def _finding(content: Content, finding: Finding, cause: Cell) -> Row:
    say = content.say
    return (
        finding.number if cause is None else None,
        cause,
        finding.level.told,
        "" if finding.accepted is None else finding.accepted.reason,
        joined(finding.where),
        finding.title,
        finding.message,
        joined(finding.spoken) or say("every state"),
        "; ".join(shown(one, content.family) for one in finding.evidence),
        finding.reference,
        "" if finding.mend is None else finding.mend.title,
    )


def unchecked(content: Content) -> Data:
    """What could not be judged, and why: never to be taken as sound."""
    say = content.say
    columns = tuple(map(Column, (say("where"), say("why"), say("rule"))))
    rows = tuple((joined(gap.where), gap.reason, gap.rule) for gap in content.analysis.gaps)
    return Data("unchecked", say("Not judged"), columns, rows)


def assumed(content: Content) -> Data:
    """Every value that nobody has given."""
    say = content.say
    titles = (say("part"), say("rating"), say("assumed value"), say("where it comes from"))
    rows = tuple((a.where, a.rating, a.value, a.source) for a in assumed_of(content))
    return Data("assumed", say("Assumed values"), tuple(map(Column, titles)), rows)
