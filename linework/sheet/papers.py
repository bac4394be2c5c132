"""A design on another paper than it was drawn on: set anew at full size, never made smaller.

As it was drawn where it fits so, moved into the middle; else the paper stands upright, or all is
arranged anew on as many sheets of it as that takes. Only where a board or a part alone is larger
than the paper, it stays on its own, and whoever prints it has to make it smaller.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linework.design import Design, Note, changed
from linework.design.change import Pair
from linework.picture.geometry import MODULE, Box, joined_boxes
from linework.sheet.arranging import arranged_on_sheets, holds_each, needs_arranging
from linework.sheet.compose import Composition, compose, compose_all
from linework.sheet.fitting import on_paper, shifted
from linework.sheet.frame import UPRIGHT, Frame, frame_of
from linework.sheet.laid import INSET, Options
from linework.sheet.lettering import Hung
from linework.sheet.parts import draw_parts, seat_of, sheet_numbers
from linework.sheet.signs import note_block

_FEW = 3
"""So many sheets are worth no trial of the paper the other way."""
_FOOT = frozenset(("symbols", "told-elsewhere", "legend"))
"""What stands at the foot of any sheet, wherever there is room."""
_FREE = 20
"""Round a note that finds a new place."""
_ABOVE = 3
"""Of what is free over and under a drawing this part lies over it."""


def set_for(design: Design, paper: str) -> Design:
    """The design with every part inside the frame of sheets of a paper, which its settings name.

    "A4 upright" in them where the short side lies level. PaperError for an unknown paper.
    """
    frame, drawn = frame_of(paper), frame_of(design.settings.sheet)
    if frame.name == drawn.name:
        return on_paper(design)
    shapes = [frame.name] if frame.name.endswith(UPRIGHT) else [frame.name, frame.name + UPRIGHT]
    if not _was_never_drawn(design):
        design = on_paper(design)
        for shape in shapes:
            moved = _as_drawn(design, frame_of(shape))
            if moved is not None:
                return moved
    return _arranged(design, shapes) or on_paper(design)


def _was_never_drawn(design: Design) -> bool:
    roots = [part for part in design.parts if seat_of(design, part) is None]
    return needs_arranging(design) and all(part.x == part.y == 0 for part in roots)


def _of_paper(design: Design, frame: Frame) -> Design:
    copy = design.snapshot()
    settings = copy.settings
    copy.apply(changed("", [(settings, replace(settings, sheet=frame.name))]))
    return copy


# as it was drawn


def _as_drawn(design: Design, frame: Frame) -> Design | None:
    """Each sheet moved as a whole; None where the paper is too small for that."""
    before = compose_all(design)
    copy = _of_paper(design, frame)
    for number, sheet in zip(sheet_numbers(design), before, strict=True):
        step = _step(sheet, frame)
        if step is None:
            return None
        copy.apply(changed("", list(shifted(copy, number, *step))))
    after = compose_all(copy)
    return copy if _says_no_less(after, before) else None


def _step(sheet: Composition, frame: Frame) -> tuple[int, int] | None:
    """By how much a sheet is moved to lie in the middle of another frame; None if it is larger."""
    keys = (key for key in sheet.items if key not in _FOOT)
    whole = joined_boxes(box for key in keys for box in sheet.items[key])
    if whole is None:
        return 0, 0
    area = frame.area.grown(-INSET)
    room = Box(area.left, area.top, area.right, frame.block.top - INSET)
    wide, high = room.width - whole.width, room.height - whole.height
    if wide < 0 or area.height < whole.height:
        return None
    left = room.left + wide // 2
    top = room.top + max(high, 0) // _ABOVE
    return _on_grid(left - whole.left), _on_grid(top - whole.top)


def _on_grid(value: int) -> int:
    return value // MODULE * MODULE


def _says_no_less(after: Sequence[Composition], before: Sequence[Composition]) -> bool:
    """Whether all lies on the paper, clear of the title block, and is written as it was."""
    return all(
        _holds_all(new) and not set(new.lost) - set(old.lost) and _shortened(new) <= _shortened(old)
        for new, old in zip(after, before, strict=True)
    )


def _holds_all(sheet: Composition) -> bool:
    """Whether all lies inside the frame and clear of the title block."""
    block = sheet.frame.block
    boxes = (box for found in sheet.items.values() for box in found)
    return not sheet.outside and not any(box.overlaps(block) for box in boxes)


def _shortened(sheet: Composition) -> int:
    return sum(not label.whole for label in sheet.placed)


# arranged anew


def _arranged(design: Design, shapes: Sequence[str]) -> Design | None:
    """With the least writing that finds no room, then on the fewest sheets, the long side level
    where that is all the same; None where something is larger than the paper."""
    found: list[tuple[int, int, Design]] = []
    for copy in (_of_paper(design, frame_of(shape)) for shape in shapes):
        if not holds_each(copy):
            continue
        made = _laid_out(copy)
        sheets = compose_all(made)
        if all(map(_holds_all, sheets)):
            lost = sum(len(sheet.lost) for sheet in sheets)
            found.append((lost, len(sheets), made))
            if not lost and len(sheets) <= _FEW:
                break
    return min(found, key=lambda one: one[:2])[2] if found else None


def _laid_out(design: Design) -> Design:
    """Every part at a new place; notes and bends that were made for the old ones go with them."""
    copy = design.snapshot()
    spots = arranged_on_sheets(copy)
    pairs: list[Pair] = [
        (part, replace(part, x=at.x, y=at.y, sheet=at.sheet, turn=0, mirror=at.mirror))
        for part in copy.parts
        if (at := spots.get(part.id)) is not None
    ]
    pairs += [(run, replace(run, route=())) for run in copy.runs if run.route]
    copy.apply(changed("", pairs))
    for note in sorted(copy.notes, key=lambda note: (note.sheet, note.y, note.x)):
        copy.apply(changed("", [(note, _moved_note(note, design, copy))]))
    return copy


def _moved_note(note: Note, drawn: Design, copy: Design) -> Note:
    """A note beside what it stood nearest to, where nothing lies; else on a sheet of its own."""
    old = [d for d in draw_parts(drawn, at_origin=False).values() if d.sheet == note.sheet]
    if not old or not note.text.strip():
        return note
    near = min(old, key=lambda d: (_off(d.whole, note), d.id)).id
    new = draw_parts(copy, at_origin=False)[near]
    others = changed("", [(note, replace(note, text=""))])
    bare = copy.snapshot()
    bare.apply(others)
    sheet = compose(bare, options=Options(sheet=new.sheet))
    taken = [box.grown(_FREE) for boxes in sheet.items.values() for box in boxes]
    taken.append(sheet.frame.block)
    box = Hung(note_block(note.text), 0, 0).box()
    spots = (
        (x, y)
        for y in range(sheet.frame.area.top, sheet.frame.area.bottom, 2 * MODULE)
        for x in range(sheet.frame.area.left, sheet.frame.area.right, 2 * MODULE)
    )
    free = [
        at
        for at in spots
        if sheet.frame.area.grown(-INSET).contains(box.moved(*at))
        and not any(box.moved(*at).overlaps(other) for other in taken)
    ]
    if not free:
        return replace(note, sheet=max(sheet_numbers(copy)) + 1)
    x, y = min(free, key=lambda at: (abs(at[0] - new.x) + abs(at[1] - new.y), at))
    return replace(note, x=x, y=y, sheet=new.sheet)


def _off(box: Box, note: Note) -> int:
    """How far a note lies from a box."""
    dx = max(box.left - note.x, note.x - box.right, 0)
    return dx + max(box.top - note.y, note.y - box.bottom, 0)
