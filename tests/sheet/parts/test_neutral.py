"""How neutral and ground are joined: read from what is inside a part, drawn as two bars."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.kinds import Answer, OneOf
from linework.picture.inks import BROAD
from linework.picture.model import Line, flatten
from linework.picture.neutral import neutral_bars
from linework.sheet.compose import compose
from linework.sheet.parts import draw_part
from linework.sheet.parts.neutral import neutral_link


@pytest.mark.parametrize(
    ("kind", "ratings", "link"),
    [
        ("panel", {"bond": "fitted"}, ("strap", False)),
        ("panel", {"bond": "absent"}, ("apart", False)),
        ("panel", {"circuit": "dc", "voltage": "12 V"}, None),
        ("generator", {"neutral": "bonded"}, ("strap", False)),
        ("generator", {"neutral": "floating"}, ("apart", False)),
        ("generator", {"neutral": OneOf(("bonded", "floating"))}, ("unknown", True)),
        ("inverter_charger", {"neutral": "relay"}, ("relay", False)),
        ("supply", {"neutral": "bonded"}, ("strap", False)),
        ("battery", {}, None),
        ("lamp", {}, None),
    ],
)
def test_the_link_is_read_from_what_is_inside(
    kind: str, ratings: dict[str, Answer], link: tuple[str, bool] | None
) -> None:
    draft = Draft()
    part = draft.part(kind, "P1", **ratings)
    assert neutral_link(draft.design, part) == link


def _straps(items: object) -> int:
    return sum(isinstance(i, Line) and i.pen.width == BROAD for i in items)  # type: ignore[attr-defined]


def test_a_strap_joins_the_bars_and_nothing_does_where_they_are_apart() -> None:
    assert _straps(neutral_bars("strap", 0, 0, 60)) == 1
    assert _straps(neutral_bars("apart", 0, 0, 60)) == 0
    assert len(neutral_bars("relay", 0, 0, 60)) == len(neutral_bars("apart", 0, 0, 60)) + 3


@pytest.mark.parametrize(("bond", "straps"), [("fitted", 1), ("absent", 0)])
def test_a_board_shows_its_bars_inside(bond: str, straps: int) -> None:
    draft = Draft()
    part = draft.part("panel", "QP1", at=(1000, 1000), bond=bond)
    drawing = draw_part(draft.design, part, at_origin=False)
    assert _straps([flat.item for flat in flatten([drawing.group])]) == straps
    assert not any("absent" in span.text for row in drawing.captions for span in row)


@pytest.mark.parametrize(
    ("neutral", "words"),
    [("bonded", "link fitted"), ("floating", "no link"), (None, "[not known]")],
)
def test_a_source_has_its_mark_beside_it(neutral: str | None, words: str) -> None:
    draft = Draft()
    given = {} if neutral is None else {"neutral": neutral}
    draft.part("generator", "G1", at=(1000, 1000), power="5 kVA", **given)
    sheet = compose(draft.design)
    assert words in {text.text for text in sheet.texts}
    (label,) = [label for label in sheet.placed if label.key == "neutral-G1"]
    assert sheet.drawings["G1"].whole.grown(40).overlaps(label.boxes[0])
