"""Writing that belongs to the sheet: notes, interlocks, the state that is shown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.picture.geometry import MODULE, Box
from linework.picture.inks import Ink
from linework.picture.model import Group
from linework.sheet.energised import Marks, SourceMark
from linework.sheet.lettering import HEAD, Block, Hung, Placed, Span, Wanted, wrapped
from linework.sheet.signs.extras import Tie
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

_NOTE_WIDTH = 700
_LEGEND_WIDTH = 900
_ROW_WIDTH = 1200


def label_group(label: Placed) -> Group:
    """A label as it is drawn."""
    return Group(tuple(item for mark in label.hung for item in mark.items), tag=label.key)


def note_block(text: str) -> Block:
    """The lines of a user's note, kept as they were written and wrapped where they are long."""
    lines = [line for part in text.splitlines() for line in wrapped(part, _NOTE_WIDTH)]
    return tuple((Span(line),) for line in lines)


def wanted_for_lock(tie: Tie, title: str) -> Wanted:
    """The title of an interlock, wanted at the middle of its line."""
    middle = tie.way[len(tie.way) // 2]
    block: Block = ((Span(title),),)
    near = Box(*middle, *middle).grown(8)
    return Wanted(tie.id, (), near, (block,), 3)


def told_elsewhere(
    design: Design, lost: Sequence[str], flags: Sequence[int], frame: Box
) -> list[Wanted]:
    """One row that names what is drawn but has no room for its name, and flags without room."""
    names = [name for key in lost if (name := _name(design, key))]
    rows: list[str] = []
    if names:
        listed = ", ".join(sorted(names, key=natural))
        rows += wrapped(say("No room here for the names of {names}.", names=listed), _ROW_WIDTH)
    if flags:
        listed = ", ".join(str(number) for number in sorted(flags))
        rows += wrapped(say("No room here for the flags of {numbers}.", numbers=listed), _ROW_WIDTH)
    block: Block = tuple((Span(row, ink=Ink.QUIET),) for row in rows)
    if not block:
        return []
    spots = (
        (Hung(block, x, y),)
        for y in range(frame.top + 2 * MODULE, frame.bottom, 2 * MODULE)
        for x in range(frame.left + MODULE, frame.right, 4 * MODULE)
    )
    return [Wanted("told-elsewhere", tuple(spots), frame, (block,), 9)]


def _name(design: Design, key: str) -> str:
    """The designation of that which a label tells of; "" of what belongs to no element."""
    element = design.get(key.removeprefix("neutral-").removeprefix("bond-"))
    return element.designation if isinstance(element, Part | Run) else ""


def legend_block(design: Design, state: StateReport, marks: Marks) -> Block:
    """The state's title and positions, the sources that are on by letter, what is not solved."""
    head = say("State shown: {title}", title=state.title)
    rows: list[tuple[Span, ...]] = [(Span(head, bold=True, height=HEAD),)]
    rows += [(Span(line, ink=Ink.QUIET),) for line in wrapped(state.spoken, _LEGEND_WIDTH)]
    live = {owner for owners in state.live.values() for owner in owners}
    for owner, mark in marks.items():
        if owner in live:
            rows.append(_source_row(design.part(owner), mark))
    if state.cause or not state.solved:
        text = say("not solved: {cause}", cause=state.cause)
        rows += [(Span(line, bold=True, ink=Ink.DANGER),) for line in wrapped(text, _LEGEND_WIDTH)]
    return tuple(rows)


def _source_row(part: Part, mark: SourceMark) -> tuple[Span, ...]:
    name = f"{part.designation} {part.title}".strip()
    return (Span(mark.letter, bold=True, ink=mark.ink), Span(say("fed by {source}", source=name)))
