"""Part schedule: every part whose kind puts ratings into schedules, with these."""

from __future__ import annotations

from reportlab.platypus import Flowable, Spacer

from linework.design import Part
from linework.design.names import natural
from linework.findings.assumptions import answer_text
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import Cell, table, text
from linework.kinds import STRIP, Kind, Values
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
    told = [_rating(content, kind, values, key) for key in kind.columns]
    return [
        text(content.full_name(part.id), "cell", link=content.link_to(part.id)),
        content.say(kind.name),
        "; ".join(filter(None, told)) or "-",
    ]


def _rating(content: Content, kind: Kind, values: Values, key: str) -> str:
    """One rating with its label; empty where it means nothing here, none is fitted, or nobody said
    more than the ordinary "no"."""
    rating = kind.declared[key]
    answer = values.answer(key)
    ordinary = rating.quiet and not values.given(key) and answer == "no"
    if not values.applies(key) or ordinary or answer in (None, "none", ""):
        return ""
    value = answer_text(rating.choices, answer, content.family)
    label = content.say(rating.label).rstrip("?")
    shown = f"{label}: {value}"
    return shown if values.given(key) or rating.quiet else f"{label}: [{value}]"


PARTS = Sheet("parts", N_("Part schedule"), N_("schedule"), part_schedule, annex=True)
