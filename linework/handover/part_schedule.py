"""Part schedule: every part whose kind puts ratings into schedules, with these."""

from __future__ import annotations

from reportlab.platypus import Flowable, Spacer

from linework.design import Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.rating_words import ratings_text
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import Cell, table, text
from linework.kinds import STRIP
from linework.words import N_


def part_schedule(content: Content, room: Room) -> list[Flowable]:
    """Sources first, in the order of the strip; what was assumed stands in brackets."""
    say = content.say
    rows: list[list[Cell]] = [_row(content, part) for part in _parts(content)]
    heads = [say("part"), say("kind"), say("ratings")]
    return [
        text(say("Part schedule"), "title", anchor="parts"),
        text(say("What is in [brackets] was not given and is assumed.")),
        Spacer(1, 3),
        table(heads, rows, room.width),
    ]


def _parts(content: Content) -> list[Part]:
    design = content.design
    order = {strip: place for place, strip in enumerate(STRIP)}

    def key(part: Part) -> tuple[int, str, object]:
        kind = design.kind(part)
        return order.get(kind.strip, len(order)), kind.key, natural(part.designation)

    return sorted((part for part in design.parts if design.kind(part).columns), key=key)


def _row(content: Content, part: Part) -> list[Cell]:
    kind, values = content.design.kind(part), content.design.values(part)
    return [
        text(content.full_name(part.id), "cell", link=content.link_to(part.id)),
        content.say(kind.name),
        ratings_text(kind, values, content.family) or "-",
    ]


PARTS = Sheet("parts", N_("Part schedule"), N_("schedule"), part_schedule, annex=True)
