"""The sign of a cut conductor shows, on its own run alone, whatever is written there."""

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


def test_a_sign_has_its_place_before_anything_is_written() -> None:
    """Else on a short run the tag takes all there is."""
    d = Draft(place="building")
    d.part("supply", "GS1", at=(400, 1400))
    for name, y in (("EA1", 1400), ("EA2", 1800)):
        d.part("load", name, at=(750, y), power="1 kW")
    d.run("GS1.out", "EA1.in", "W1", size="10 AWG", length="9 ft", broken="N")
    d.run("GS1.out", "EA2.in", "W2", size="10 AWG", length="9 ft")
    found = measured(d.design, compose(d.design))
    assert (found.overlaps, found.erased) == ([], [])


def test_a_stub_turns_aside_where_another_run_goes_straight_on() -> None:
    d = Draft(place="vehicle")
    d.part("generator", "G1", at=(500, 500))
    d.part("body", "XB1", at=(500, 2300))
    d.part("body", "XB2", at=(900, 2300))
    d.part("electrode", "XE1", at=(1500, 1500))
    for name, other in (("W1", "XB1.tie"), ("W2", "XB2.tie")):
        d.run("G1.frame", other, name, size="8 AWG", length="4 ft", broken="PE")
    d.run("G1.frame", "XE1.ground", "W3", size="8 AWG", length="40 ft")
    sheet = compose(d.design)
    one, other = sheet.ways["W1"], sheet.ways["W2"]
    assert one[-1] != other[-1]
    assert all(way[-1][0] != way[0][0] for way in (one, other)), "to a side"
    found = measured(d.design, sheet)
    assert (found.overlaps, found.erased, found.touching) == ([], [], [])
