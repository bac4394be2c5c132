"""What is sound, and why: what people doubt and what stands, with the clause."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.handover.assumed_pages import in_a_row
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import table, text
from linework.words import N_


def sound_pages(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the sheet; never without edition and assumptions."""
    if not content.analysis.praise:
        return []
    found: dict[tuple[str, str], list[str]] = {}
    for praise in content.analysis.praise:
        names = ", ".join(praise.where)
        message = praise.message.removeprefix(f"{names}: ")
        found.setdefault((message, praise.clause), []).extend(praise.where)
    rows = [[_named(where, message), clause] for (message, clause), where in found.items()]
    say = content.say
    edition = say("Under the values assumed, {edition}.", edition=content.edition)
    return [
        text(say("Sound here, and why"), "title", anchor="sound"),
        text(edition),
        table([say("what, and why"), say("clause")], rows, room.width),
    ]


def _named(where: list[str], message: str) -> str:
    """A sentence that does not name first what it speaks of gets that before it."""
    names = in_a_row(where)
    return message if message.startswith(f"{names} ") else f"{names}: {message}"


SOUND = Sheet("sound", N_("Sound here, and why"), N_("list"), sound_pages, annex=True, flows=True)
