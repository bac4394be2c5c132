"""The legend says what signs mean, and only those that are used on the sheet."""

from __future__ import annotations

from linework.design import Draft
from linework.sheet.compose import Composition, compose
from linework.sheet.laid import Options
from tests.sheet.samples import trailer


def _told(sheet: Composition) -> set[str]:
    return {
        item.text
        for label in sheet.placed
        if label.key == "symbols"
        for text in sheet.texts
        for item in (text,)
        if label.boxes[0].holds(text.x, text.y)
    }


def test_only_what_is_used_is_explained() -> None:
    draft = Draft()
    draft.part("battery", "GB1", at=(800, 800))
    draft.part("fuse", "F1", at=(1500, 800))
    draft.run("GB1.dc", "F1.line", size="2 AWG", length="1 ft")
    told = _told(compose(draft.design))
    assert {"cable or single wires", "plus and minus, 10 each"} <= told
    assert not {"flexible cord", "jumper between grounds", "joined by a relay"} & told


def test_the_trailer_explains_cords_and_jumpers() -> None:
    told = _told(compose(trailer()))
    assert {"flexible cord", "jumper between grounds", "joined to the frame"} <= told


def test_a_sheet_without_signs_or_frame_has_no_legend() -> None:
    draft = Draft()
    draft.part("lamp", "EL1", at=(800, 800))
    assert _told(compose(draft.design)) == set()
    assert _told(compose(trailer(), options=Options(frame=False))) == set()
