"""Where plus and minus of one terminal go different ways, each has an arm that leads there."""

from __future__ import annotations

from linework.design import Draft
from linework.sheet.arranging import lay_out
from linework.sheet.compose import compose
from linework.sheet.parts import draw_parts
from tests.sheet.measures import measured


def _fused(minus_too: str = "") -> Draft:
    """A battery with a fuse on its post; minus goes to a bar, or to the body."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V")
    d.part("fuse", "F1", rating="60 A", type="mrbf")
    d.seat("F1", "GB1", "post")
    d.part("busbar", "WC1", bar="plus", taps="2")
    d.part("busbar", "WC2", bar="minus", taps="2")
    d.part("body", "XB1")
    d.run("F1.load", "WC1.feed", "W1", size="6 AWG", poles="+")
    if minus_too != "body":
        d.run("GB1.dc", "WC2.feed", "W2", size="6 AWG", poles="-")
    if minus_too:
        d.run("GB1.dc", "XB1.tie", "W3", size="6 AWG", poles="->body", installation="jumper")
    return d


def test_minus_goes_beside_a_fuse_on_the_post_and_never_through_it() -> None:
    for minus_too in ("", "body", "both"):
        design = lay_out(_fused(minus_too).design)
        drawings = draw_parts(design, at_origin=False)
        post, arm = (drawings["GB1"].anchors[name] for name in ("dc", "dc.-"))
        assert arm[1] > drawings["F1"].box.bottom > post[1]
        assert measured(design, compose(design)).through == []


def test_batteries_in_a_row_are_joined_by_straight_lines_down() -> None:
    d = Draft(place="building")
    for number in (1, 2, 3):
        d.part("battery", f"GB{number}", voltage="12 V")
    d.part("busbar", "WC1", bar="plus", taps="2")
    d.part("busbar", "WC2", bar="minus", taps="2")
    d.run("GB1.dc", "WC1.feed", "W1", poles="+", size="6 AWG")
    d.run("GB1.dc", "GB2.dc", "W2", poles="->+", size="6 AWG")
    d.run("GB2.dc", "GB3.dc", "W3", poles="->+", size="6 AWG")
    d.run("GB3.dc", "WC2.feed", "W4", poles="-", size="6 AWG")
    design = lay_out(d.design)
    sides = {
        key: {name: end[2] for name, end in drawing.anchors.items() if name.startswith("dc.")}
        for key, drawing in draw_parts(design, at_origin=False).items()
    }
    assert sides["GB1"] == {"dc.+": "right", "dc.-": "down"}
    assert sides["GB2"] == {"dc.+": "up", "dc.-": "down"}
    assert sides["GB3"] == {"dc.+": "up", "dc.-": "right"}
    ways = compose(design).ways
    assert [len(ways[run]) for run in ("W2", "W3")] == [2, 2]
