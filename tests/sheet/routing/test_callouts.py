"""What is written at a run: its tag on its own line, its size above, its length below."""

from __future__ import annotations

from itertools import pairwise

import pytest

from linework.design import Design, Draft, Run
from linework.kinds import Answer
from linework.picture.geometry import box_around
from linework.picture.inks import Dash
from linework.picture.model import Rect
from linework.sheet.compose import compose
from linework.sheet.lettering import Tag
from linework.sheet.routing import body_end
from linework.sheet.routing.callouts import conductors_text, length_text
from tests.sheet.samples import trailer


def _run(poles: str = "", **ratings: Answer) -> tuple[Design, Run]:
    draft = Draft()
    draft.part("breaker", "QF1", at=(500, 500))
    draft.part("lamp", "EL1", at=(1500, 500))
    return draft.design, draft.run("QF1.load", "EL1.in", poles=poles, **ratings)


@pytest.mark.parametrize(
    ("ratings", "size", "length"),
    [
        ({"size": "10 AWG", "length": "25 ft"}, "10/2 G", "25 ft"),
        ({"size": "2.5 mm2", "length": "8 m"}, "2×2.5 mm² G", "8 m"),
        ({"size": "6 AWG", "ground_size": "10 AWG", "length": "25 ft"}, "6/2 G 10", "25 ft"),
        ({"size": "6 AWG", "neutral_size": "8 AWG"}, "L 6 + N 8 G", "[length not given]"),
        ({"size": "2/0 AWG", "length": "5 ft"}, "2×2/0 G", "5 ft"),
        ({"length": "25 ft"}, "2×[size not given] G", "25 ft"),
    ],
)
def test_a_run_tells_conductors_size_and_length(
    ratings: dict[str, str], size: str, length: str
) -> None:
    design, run = _run(**ratings)
    assert conductors_text(design, run) == size
    assert length_text(design.run_values(run)) == length


def test_plus_and_minus_are_told_by_their_signs() -> None:
    draft = Draft()
    draft.part("battery", "GB1")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.part("battery", "GB2")
    both = draft.run("GB1.dc", "F1.line", size="2/0 AWG", length="1 ft")
    link = draft.run("GB1.dc", "GB2.dc", poles="+>-", size="2/0 AWG", length="1 ft")
    assert conductors_text(draft.design, both) == "+ \N{MINUS SIGN} 2/0"
    assert conductors_text(draft.design, link) == "+ 2/0"


def test_a_ground_wire_has_its_size_alone() -> None:
    draft = Draft()
    draft.part("body", "XB1")
    draft.part("electrode", "XE1")
    run = draft.run("XE1.ground", "XB1.tie", size="8 AWG", length="4 ft")
    assert conductors_text(draft.design, run) == "8 AWG"


def test_a_cut_conductor_is_told_even_where_there_is_only_room_for_the_tag() -> None:
    design, _ = _run(size="12 AWG", length="9 ft", broken="PE")
    (label,) = [label for label in compose(design).placed if label.key == "W1"]
    texts = [text.text for mark in label.hung for text in mark.items if not isinstance(text, Rect)]
    assert "PE cut" in texts


def test_every_tag_lies_on_its_own_line() -> None:
    design = trailer()
    sheet = compose(design)
    stubs = {run.id for run in design.runs if body_end(design, run) is not None}
    tags = {
        label.key: mark
        for label in sheet.placed
        for mark in label.hung
        if isinstance(mark, Tag) and label.key not in stubs
    }
    assert len(tags) > 10
    for key, tag in tags.items():
        pieces = [box_around(piece) for piece in pairwise(sheet.ways[key])]
        assert any(piece.holds(tag.x, tag.y) for piece in pieces), key


def test_the_outline_tells_how_a_run_is_laid() -> None:
    sheet = compose(trailer())
    outlines = {
        label.key: next(item for item in mark.items if isinstance(item, Rect))
        for label in sheet.placed
        for mark in label.hung
        if isinstance(mark, Tag)
    }
    dashes = {key: box.pen.dash for key, box in outlines.items() if box.pen}
    assert outlines["W2"].radius > 0, "a cord"
    assert outlines["W3"].radius == 0, "a cable"
    assert {key for key, dash in dashes.items() if dash is Dash.DASHED} >= {"W14"}, "a jumper"
