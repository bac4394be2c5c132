"""Busbars: each lead goes to the side on which the part lies to which its run goes."""

from __future__ import annotations

import pytest

from linework.design import Design, Draft
from linework.picture.model import Line
from linework.sheet.parts import draw_parts
from linework.sheet.parts.shapes import symbol_of


def _bar(mirror: bool = False) -> Design:
    """A bar between a battery at its left, and a charger, in a seat, and a lamp at its right."""
    draft = Draft()
    draft.part("busbar", "WC1", at=(1000, 500), taps="4")
    draft.part("battery", "GB1", at=(400, 500), voltage="12 V")
    draft.part("fuse", "F1")
    draft.seat("F1", "GB1", "post")
    draft.part("lamp", "EL1", at=(1600, 500), circuit="dc", voltage="12 V")
    draft.run("F1.load", "WC1.2", poles="+>+", size="6 AWG", length="1 ft")
    draft.run("WC1.3", "EL1.in", poles="+>+", size="6 AWG", length="1 ft")
    draft.run("WC1.feed", "EL1.in", poles="+>+", size="6 AWG", length="1 ft")
    if mirror:
        from dataclasses import replace

        from linework.design import changed

        part = draft.design.part("WC1")
        draft.design.apply(changed("", [(part, replace(part, mirror=True))]))
    return draft.design


@pytest.mark.parametrize("mirror", [False, True])
def test_each_lead_goes_to_the_side_of_the_other_part(mirror: bool) -> None:
    anchors = draw_parts(_bar(mirror))["WC1"].anchors
    assert anchors["2"][2] == "left"
    assert anchors["2"][0] < 1000
    assert anchors["3"][2] == anchors["feed"][2] == "right"
    assert anchors["3"][0] > 1000


def test_a_tap_without_a_run_stays_at_the_right() -> None:
    anchors = draw_parts(_bar())["WC1"].anchors
    assert anchors["1"][2] == anchors["4"][2] == "right"


def test_every_terminal_of_a_bar_has_a_lead_to_its_end() -> None:
    design = _bar()
    symbol = symbol_of(design, design.part("WC1"))
    leads = {(item.x2, item.y2) for item in symbol.group.items if isinstance(item, Line)}
    assert {(anchor.x, anchor.y) for anchor in symbol.anchors.values()} <= leads


def test_a_bar_alone_is_fed_from_the_left() -> None:
    draft = Draft()
    draft.part("busbar", "WC1", at=(1000, 500))
    anchors = draw_parts(draft.design)["WC1"].anchors
    assert {name: end[2] for name, end in anchors.items() if name != "feed"} == dict.fromkeys(
        "1234", "right"
    )
    assert anchors["feed"][2] == "left"


def test_no_two_terminals_of_a_bar_lie_at_one_height() -> None:
    anchors = draw_parts(_bar())["WC1"].anchors
    assert len({end[1] for end in anchors.values()}) == len(anchors) == 5
