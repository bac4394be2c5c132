"""What was assumed, and what rests on figures that nobody has confirmed."""

from __future__ import annotations

import re

from reportlab.platypus import Flowable, Spacer

from linework.codes.tables import forums, source_titles
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import table, text, with_room
from linework.words import N_

_CODE = re.compile(r"\bS\d+[a-z]?\b")


def assumed_pages(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the section."""
    say, analysis = content.say, content.analysis
    rows = [[a.where, a.rating, f"[{a.value}]", a.source] for a in analysis.assumed]
    heads = [say("part"), say("rating"), say("assumed value"), say("where it comes from")]
    out: list[Flowable] = [
        text(say("Assumed values"), "title", anchor="assumed"),
        text(say("The user has not given these. Give them, and the verdict may change.")),
        Spacer(1, 3),
        table(heads, list(rows), room.width),
        with_room(),
        text(say("Values that rest on unconfirmed rows"), "heading", anchor="unconfirmed"),
    ]
    if not analysis.unconfirmed:
        out.append(text(say("None.")))
    out += [text("•  " + row) for row in analysis.unconfirmed]
    return out + _sources(content)


def _sources(content: Content) -> list[Flowable]:
    """What the codes in the rows above stand for."""
    named = set(_CODE.findall(" ".join(content.analysis.unconfirmed)))
    known = {code: title for code, title in source_titles().items() if code in named}
    if not known:
        return []
    forum = content.say("said in a forum; its address stands in the program's tables")
    known |= dict.fromkeys(known.keys() & forums(), forum)
    lines = [text(f"{code}: {title}", "small") for code, title in known.items()]
    return [with_room(), text(content.say("Sources named above"), "heading"), *lines]


ASSUMED = Sheet("assumed", N_("Assumed values"), N_("list"), assumed_pages, annex=True)
