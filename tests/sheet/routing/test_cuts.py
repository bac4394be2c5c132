"""The sign of a cut conductor shows, whatever is written at its run."""

from __future__ import annotations

from linework.design import Draft
from linework.sheet.arranging import lay_out
from linework.sheet.compose import compose
from tests.sheet.measures import measured


def test_the_sign_of_a_cut_lies_beside_the_tag_on_a_short_run() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1")
    d.part("panel", "QP1")
    d.run("GS1.out", "QP1.feed", "W1", size="10 AWG", length="37 ft", broken="PE")
    design = lay_out(d.design)
    assert measured(design, compose(design)).overlaps == []
