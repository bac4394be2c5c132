"""What was assumed, each question once; and what rests on figures that nobody has confirmed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from reportlab.platypus import Flowable

from linework.codes.tables import forums, source_titles
from linework.design.names import natural
from linework.findings.assumptions import Assumed
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.standing_in import assumed_of
from linework.handover.styles import bullet, table, text, with_room
from linework.words import N_

_CODE = re.compile(r"\bS\d+[a-z]?\b")


def assumed_pages(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the sheet; none where nothing was assumed and all figures are confirmed."""
    say = content.say
    resting = _resting(content)
    assumed = assumed_of(content)
    if not assumed and not resting:
        return []
    out: list[Flowable] = [text(say("Assumed values"), "title", anchor="assumed")]
    if assumed:
        heads = [say("question"), say("assumed"), say("of"), say("where it comes from")]
        out += [
            text(say("Nobody has given these. Give them, and the verdict may change.")),
            table(heads, _questions(assumed), room.width),
        ]
    if resting:
        heading = say("Rests on rows of tables that nobody has confirmed")
        lines = [bullet(line) for line in resting]
        out += [with_room(), text(heading, "heading", anchor="unconfirmed")]
        out += lines
    return out + _sources(content, room, resting)


def _questions(assumed: Iterable[Assumed]) -> list[list[str]]:
    """One row for each question with the same answer from the same source."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for each in assumed:
        names = found.setdefault((each.rating, each.value, each.source), [])
        names += each.where.split(", ")
    return [
        [rating, f"[{value}]", in_a_row(names), source]
        for (rating, value, source), names in found.items()
    ]


def in_a_row(names: Iterable[str]) -> str:
    """Designations in their natural order, those that follow one another as "W3 to W6"."""
    return ", ".join(_spans(sorted(dict.fromkeys(names), key=natural)))


def _spans(names: list[str]) -> Iterator[str]:
    """Three and more of one letter without a gap become one span."""
    rest = [(name, *_split(name)) for name in names]
    while rest:
        name, letters, number = rest[0]
        length = 1
        while (
            number is not None
            and length < len(rest)
            and rest[length][1:] == (letters, number + length)
        ):
            length += 1
        if length > 2:
            yield f"{name}–{rest[length - 1][0]}"
        else:
            yield from (item[0] for item in rest[:length])
        rest = rest[length:]


def _split(name: str) -> tuple[str, int | None]:
    """ "W12" -> W, 12; the number only where the name is just that."""
    match = re.fullmatch(r"([^\W\d]+)([1-9]\d*)", name)
    return (match[1], int(match[2])) if match else (name, None)


def _resting(content: Content) -> list[str]:
    """The rows that are not among the assumed values already."""
    told = {f"{a.where}: {a.rating} [{a.value}]" for a in assumed_of(content)}
    rows = content.analysis.unconfirmed
    return [row for row in rows if not any(row.startswith(known) for known in told)]


def _sources(content: Content, room: Room, rows: list[str]) -> list[Flowable]:
    """What the codes in the rows stand for."""
    named = set(_CODE.findall(" ".join(rows)))
    known = {code: title for code, title in source_titles().items() if code in named}
    if not known:
        return []
    forum = content.say("said in a forum; its address stands in the program's tables")
    known |= dict.fromkeys(known.keys() & forums(), forum)
    lines = [text(f"{code}: {title}", "small") for code, title in known.items()]
    heading = text(content.say("Sources named above"), "heading")
    return [with_room(), heading, *lines]


ASSUMED = Sheet("assumed", N_("Assumed values"), N_("list"), assumed_pages, annex=True, flows=True)
