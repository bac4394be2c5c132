"""The strip beside each place of a board: what sits there, and what that feeds (NFPA 70 408.4)."""

from __future__ import annotations

from linework.design import Design, Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.placards.boards import parts
from linework.handover.placards.sign import Strip
from linework.handover.rating_words import value_text as rating_words


def strips(content: Content) -> list[tuple[str, list[Strip]]]:
    """For each board its places in their order: designation and rating of what sits there, and
    what that feeds."""
    design = content.design
    found = []
    for board in parts(content):
        if not design.kind(board).board:
            continue
        seats = sorted(design.seated_in(board.id), key=lambda s: natural(s.place))
        rows: dict[str, list[str]] = {}
        for seat in seats:
            rows.setdefault(seat.part, []).append(seat.place)
        made = [_strip(content, design.part(part), places) for part, places in rows.items()]
        if made:
            found.append((f"{board.designation} {board.title}".strip(), made))
    return found


def _strip(content: Content, part: Part, places: list[str]) -> Strip:
    design = content.design
    kind, values = design.kind(part), design.values(part)
    rating = ""
    if "rating" in kind.declared:
        rating = rating_words(kind.declared["rating"], values, content.family)
    return Strip(
        ", ".join(places), f"{part.designation} {rating}".strip(), _behind(content, design, part)
    )


def _behind(content: Content, design: Design, part: Part) -> str:
    """What hangs on it, by title; a bare designation where it has none."""
    ends = []
    for run in design.runs_at(part.id):
        other = run.b.part if run.a.part == part.id else run.a.part
        ends.append(design.part(other))
    ends += [design.part(seat.part) for seat in design.seated_in(part.id)]
    names = {end.title or end.designation for end in ends if not design.kind(end).board} | {
        end.designation for end in ends if design.kind(end).board
    }
    return ", ".join(sorted(names, key=natural))
