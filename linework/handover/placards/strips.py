"""The strip beside each place of a board: what sits there, and what that feeds (NFPA 70 408.4)."""

from __future__ import annotations

from linework.design import Part
from linework.design.names import natural
from linework.handover.circuits import Branch, branches
from linework.handover.content import Content
from linework.handover.placards.boards import parts
from linework.handover.placards.sign import Strip
from linework.handover.rating_words import value_text as rating_words


def strips(content: Content) -> list[tuple[str, list[Strip]]]:
    """For each board its places in their order: designation and rating of what sits there, and
    what that feeds, as in its schedule."""
    design = content.design
    found = []
    for board in parts(content):
        rows = branches(content, board.id) if design.kind(board).board else []
        made = [_strip(content, row.device, row) for row in rows if row.device is not None]
        if made:
            found.append((f"{board.designation} {board.title}".strip(), made))
    return found


def _strip(content: Content, part: Part, row: Branch) -> Strip:
    design = content.design
    kind, values = design.kind(part), design.values(part)
    rating = ""
    if "rating" in kind.declared:
        rating = rating_words(kind.declared["rating"], values, content.family)
    name = f"{part.designation} {rating}".strip()
    return Strip(", ".join(row.places), name, _behind(content, row))


def _behind(content: Content, row: Branch) -> str:
    """What its circuit ends at, by title; a board, and what has no title, by designation."""
    named = {
        end.designation if content.design.kind(end).board else end.title or end.designation
        for end in row.fed
    }
    return ", ".join(sorted(named, key=natural))
