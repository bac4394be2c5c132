"""The mark of the link is not taken for that of another part."""

from __future__ import annotations

from linework.design import Draft
from linework.sheet.lettering import REACH
from linework.sheet.parts import draw_parts
from linework.sheet.signs import wanted_for_neutral
from linework.sheet.signs.neutral import NeutralMark


def test_a_mark_that_stands_far_off_names_its_part() -> None:
    draft = Draft(place="building")
    draft.part("generator", "G1", power="9 kVA", neutral="bonded")
    part = draft.design.part("G1")
    drawing = draw_parts(draft.design)["G1"]
    wanted = wanted_for_neutral(draft.design, part, drawing)
    assert wanted is not None
    far = near = 0
    for (mark,) in wanted.options[: wanted.complete]:
        assert isinstance(mark, NeutralMark)
        off = drawing.whole.grown(REACH + 6)
        if mark.box().overlaps(off):
            near += 1
            assert mark.words == "link fitted"
        else:
            far += 1
            assert mark.words == "G1: link fitted"
    assert near >= 10
    assert far >= 10
