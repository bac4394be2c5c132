"""What is not known, and what fits in some of its cases only."""

from __future__ import annotations

import pytest

from linework.design import Design, Draft, Part, changed
from linework.design.cases import case_text, cases_of, misfits, unknowns
from linework.kinds import OneOf

AC_OR_SPLIT = OneOf(("split", "ac"))


def fed(**supply: str | OneOf) -> Design:
    """A panel of two hot conductors on a supply that is rated so once they are joined."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split")
    d.part("panel", "PB1", circuit="split")
    d.run("GS1.out", "PB1.feed", "W1", size="4 AWG", length="10 m")
    d.rate("GS1", **supply)
    return d.design


def test_unknowns_of_parts_and_runs() -> None:
    d = Draft()
    d.part("generator", "G1")
    d.part("load", "EA1", power="100 W")
    d.run("G1.out", "EA1.in", "W1", material=OneOf(("copper", "aluminium")))
    run = d.design.runs[0]
    assert unknowns(d.design, [*d.design.parts, run]) == {
        ("G1", "neutral"): ("bonded", "floating"),
        ("W1", "material"): ("copper", "aluminium"),
    }
    assert len(list(cases_of(d.design, [*d.design.parts, run]))) == 4
    assert list(cases_of(d.design, [d.design.part("EA1")])) == [{}]


def test_a_case_in_words() -> None:
    d = Draft()
    d.part("generator", "G1")
    d.part("load", "EA1", power="100 W")
    d.run("G1.out", "EA1.in", "W1")
    case = {("W1", "material"): "aluminium", ("G1", "neutral"): "floating"}
    words = case_text(d.design, case)
    assert words.startswith("G1 neutral")
    assert words.endswith("; W1 material: aluminium")


def test_what_fits_in_every_case_is_no_misfit() -> None:
    assert list(misfits(fed(neutral=OneOf(("bonded", "floating"))))) == []


def test_a_hot_conductor_that_one_case_leaves_out() -> None:
    ((run, case, fault),) = misfits(fed(circuit=AC_OR_SPLIT))
    assert run.id == "W1"
    assert case == {("GS1", "circuit"): "ac"}  # and nothing of what is not known of the panel
    assert "L of GS1 may go to L1 or L2 of PB1" in fault


def test_a_hot_conductor_that_every_case_leaves_out() -> None:
    ((run, case, _),) = misfits(fed(circuit="ac"))
    assert (run.id, case) == ("W1", {})


def test_a_seat_that_one_case_does_not_offer() -> None:
    d = Draft(place="building")
    d.part("panel", "PB1", circuit="ac")
    d.part("breaker", "QF1", circuit=OneOf(("ac", "ac240")))
    d.seat("QF1", "PB1", "1")
    ((seat, case, fault),) = misfits(d.design)
    assert (seat, case) == (d.design.seats[0], {("QF1", "circuit"): "ac240"})
    assert "does not have" in fault


def test_a_case_leaves_the_design_as_it_is() -> None:
    d = Draft()
    d.part("supply", "GS1", circuit=OneOf(("ac", "split")))
    read = d.design.in_case({("GS1", "circuit"): "split"})
    assert read.values(read.part("GS1")).pick("circuit") == "split"
    assert read.snapshot().values(read.part("GS1")).pick("circuit") == "split"
    assert d.design.values(d.design.part("GS1")).pick("circuit") == "ac"
    assert read.same_as(d.design)


def test_a_design_read_in_one_case_takes_no_change() -> None:
    d = Draft()
    d.part("supply", "GS1", circuit=OneOf(("ac", "split")))
    read = d.design.in_case({("GS1", "circuit"): "split"})
    with pytest.raises(TypeError, match="one case"):
        read.apply(changed("", [(None, Part("X", "load", "X"))]))
