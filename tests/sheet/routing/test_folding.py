"""Jumpers to a body are stubs at the part, and the body lists them; poles that part are forked."""

from __future__ import annotations

from dataclasses import replace

from linework.design import Design, Draft, changed
from linework.picture.geometry import box_around
from linework.sheet.compose import compose
from linework.sheet.parts import draw_parts
from linework.sheet.routing import joints, routes
from linework.sheet.routing.folding import STUB, body_end


def _grounded() -> Design:
    draft = Draft(place="vehicle")
    draft.part("panel", "QP1", at=(1500, 700))
    draft.part("generator", "G1", at=(500, 900))
    draft.part("body", "XB1", title="trailer frame", at=(2500, 2300))
    draft.run("G1.frame", "XB1.tie", size="8 AWG", length="4 ft")
    draft.run("XB1.tie", "QP1.ground", poles="body>PE", size="6 AWG", length="3 ft")
    return draft.design


def test_a_jumper_to_a_body_is_a_stub_at_its_part() -> None:
    design = _grounded()
    drawings = draw_parts(design)
    ways = routes(design, drawings)
    for run in design.runs:
        box = box_around(ways[run.id])
        assert max(box.width, box.height) == STUB <= 35
    ends = {"W1": ways["W1"][0], "W2": ways["W2"][-1]}
    assert ends == {
        "W1": drawings["G1"].anchors["frame"][:2],
        "W2": drawings["QP1"].anchors["ground"][:2],
    }
    assert joints(design, ways) == ()


def test_the_body_lists_what_is_joined_to_it() -> None:
    words = [text.text for text in compose(_grounded()).texts]
    assert "G1: 8 AWG, 4 ft" in words
    assert "QP1: 6 AWG, 3 ft" in words
    assert words.count("W1") == words.count("W2") == 2, "at the stub and at the body"


def test_a_stub_can_be_pointed_at() -> None:
    sheet = compose(_grounded())
    assert {"W1", "W2"} <= sheet.ways.keys()
    assert all(sheet.items[key] for key in ("W1", "W2"))


def test_bends_of_the_user_are_drawn_as_they_are() -> None:
    draft = Draft()
    draft.part("generator", "G1", at=(500, 900))
    draft.part("body", "XB1", at=(2500, 2300))
    run = draft.run("G1.frame", "XB1.tie", size="8 AWG", length="4 ft")
    assert body_end(draft.design, run) == run.b
    bent = replace(run, route=((500, 2000), (2500, 2000)))
    draft.design.apply(changed("", [(run, bent)]))
    assert body_end(draft.design, bent) is None
    assert {(500, 2000), (2500, 2000)} <= set(compose(draft.design).ways["W1"])


def _string() -> Design:
    draft = Draft()
    for number in (1, 2):
        draft.part("battery", f"GB{number}", at=(500 * number, 1500))
    draft.part("fuse", "F1", at=(1500, 1000))
    draft.run("GB1.dc", "GB2.dc", poles="->+", size="2/0 AWG", length="1 ft")
    draft.run("GB2.dc", "F1.line", poles="->-", size="2/0 AWG", length="1 ft")
    draft.run("GB1.dc", "F1.line", poles="+>+", size="2/0 AWG", length="2 ft")
    return draft.design


def test_plus_and_minus_never_meet_in_one_point() -> None:
    design = _string()
    drawings = draw_parts(design)
    ways = routes(design, drawings)
    first = {"W1": ways["W1"][0], "W3": ways["W3"][0]}
    assert len(set(first.values())) == 2
    assert set(first.values()) == {drawings["GB1"].anchors[f"dc.{sign}"][:2] for sign in "+-"}
    dots = joints(design, ways)
    assert not set(first.values()) & set(dots)


def test_poles_that_go_the_same_way_are_not_forked() -> None:
    draft = Draft()
    draft.part("battery", "GB1", at=(500, 1500))
    draft.part("fuse", "F1", at=(1000, 1500))
    draft.run("GB1.dc", "F1.line", size="2/0 AWG", length="1 ft")
    assert set(draw_parts(draft.design)["GB1"].anchors) == {"dc"}


def test_one_arm_goes_straight_on_so_that_a_line_needs_no_bend() -> None:
    design = _string()
    drawings = draw_parts(design)
    (x, y, _), anchors = drawings["GB1"].anchors["dc"], drawings["GB1"].anchors
    assert anchors["dc.+"][1] == y
    assert anchors["dc.-"][1] != y
    assert anchors["dc.+"][0] == x + 25
