"""What was assumed, and what rests on figures that nobody has confirmed."""

from __future__ import annotations

from reportlab.platypus import Flowable, Spacer

from linework.handover.content import Content
from linework.handover.styles import share, table, text


def assumed_pages(content: Content, width: float) -> list[Flowable]:
    """The flowables of the section."""
    say, analysis = content.say, content.analysis
    rows = [[a.where, a.rating, f"[{a.value}]", a.source] for a in analysis.assumed]
    heads = [say("part"), say("rating"), say("assumed value"), say("where it comes from")]
    out: list[Flowable] = [
        text(say("Assumed values"), "title", anchor="assumed"),
        text(say("The user has not given these. Give them, and the verdict may change.")),
        Spacer(1, 3),
        table(heads, list(rows), share(width, [1, 3, 3, 5])),
        text(say("Values that rest on unconfirmed rows"), "heading", anchor="unconfirmed"),
    ]
    if not analysis.unconfirmed:
        out.append(text(say("None.")))
    out += [text("•  " + row) for row in analysis.unconfirmed]
    return out
