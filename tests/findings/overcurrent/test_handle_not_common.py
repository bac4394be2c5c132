"""Two hot conductors of one circuit on breakers that do not act together."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import cured, found, gaps, number

RULE = "handle-not-common"
WIRE = {"size": "12 AWG", "length": "10 ft"}


def shared(second: str = "3", device: str = "breaker", **rated: str) -> Draft:
    """Two single devices of a board of two legs, in places 1 and ``second``, and a box from which
    a cable with two hot conductors and one neutral goes on."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="60 A", prospective="4 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bus="100 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="10 ft")
    for name, place in (("QF1", "1"), ("QF2", second)):
        ratings = {"rating": "20 A", "interrupting": "10 kA"} | rated
        d.part(device, name, **ratings)
        d.seat(name, "QP1", place)
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF1.load", "XJ1.a", "W2", poles="L>L1 N PE", **WIRE)
    d.run("QF2.load", "XJ1.b", "W3", poles="L>L2", **WIRE)
    for name, line in (("EA1", "L1"), ("EA2", "L2")):
        d.part("load", name, power="600 W")
        d.run("XJ1.c", f"{name}.in", f"W{name}", poles=f"{line}>L N PE", **WIRE)
    return d


def test_a_shared_neutral_on_two_single_breakers_is_told_and_tied() -> None:
    """NFPA 70 (2023) 210.4(B), 240.15(B)(1): an identified handle tie is enough."""
    d = shared()
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level) == (("QF1", "QF2"), Level.WARNING)
    assert number(hit, "voltage between the two") == pytest.approx(240.0)
    cured(d, hit)
    assert levels(d, RULE) == {}


def test_one_handle_alone_is_not_tied_to_anything() -> None:
    d = shared()
    d.rate("QF1", handle="tied")
    assert levels(d, RULE) == {("QF1", "QF2"): Level.WARNING}


def test_both_on_one_leg_are_told_tied_or_not() -> None:
    """Places 1 and 5 are on the same leg: the neutral carries the sum."""
    (hit,) = found(shared("5", handle="tied"), RULE)
    assert "same leg" in hit.message


def without_box(second: str = "3", **rated: str) -> Draft:
    """Two single breakers with a load each; the second load comes back by the neutral of the
    first, and the two meet nowhere else."""
    d = shared(second, **rated)
    d.cut("W2", "W3", "WEA1", "WEA2")
    d.run("QF1.load", "EA1.in", "W2", **WIRE)
    d.run("QF2.load", "EA2.in", "W3", poles="L PE", **WIRE)
    d.run("EA1.in", "EA2.in", "W4", poles="N", **WIRE)
    return d


def test_a_shared_neutral_without_a_box_where_both_legs_meet() -> None:
    """NFPA 70 (2023) 210.4(B): all ungrounded conductors open where the circuit begins."""
    d = without_box()
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level) == (("QF1", "QF2"), Level.WARNING)
    assert "share the neutral of W2" in hit.message
    assert number(hit, "voltage between the two") == pytest.approx(240.0)
    cured(d, hit)
    assert levels(d, RULE) == {}


def test_a_neutral_that_runs_by_itself_from_one_of_two_breakers() -> None:
    d = without_box()
    d.cut("W2")
    d.run("QF1.load", "EA1.in", "W2", poles="L PE", **WIRE)
    d.run("QF1.load", "EA1.in", "W5", poles="N", **WIRE)
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level) == (("QF1", "QF2"), Level.WARNING)


def test_a_shared_neutral_on_one_leg_without_a_box() -> None:
    (hit,) = found(without_box("5", handle="tied"), RULE)
    assert "same leg" in hit.message
    assert number(hit, "voltage between the two") == 0.0


def test_a_two_pole_breaker_opens_both() -> None:
    d = without_box()
    d.cut("W2", "W3")
    d.part("breaker", "QF3", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF3", "QP1", "2")
    d.run("QF3.load", "EA1.in", "W2", poles="L1>L N PE", **WIRE)
    d.run("QF3.load", "EA2.in", "W3", poles="L2>L PE", **WIRE)
    assert levels(d, RULE) == {}


def test_circuits_with_a_neutral_each_are_their_own() -> None:
    d = shared()
    d.cut("W3", "WEA2")
    d.run("QF2.load", "EA2.in", "W3", **WIRE)
    assert levels(d, RULE) == {}


@pytest.mark.parametrize("kind", ["two_pole", "singles"])
def test_a_load_between_two_legs(kind: str) -> None:
    d = shared()
    d.cut("W2", "W3", "WEA1", "WEA2")
    d.part("heater", "EH1", circuit="ac240", power="3 kW")
    if kind == "two_pole":
        d.part("breaker", "QF3", circuit="ac240", rating="20 A", interrupting="10 kA")
        d.seat("QF3", "QP1", "2")
        d.run("QF3.load", "EH1.in", "W4", **WIRE)
    else:
        d.run("QF1.load", "EH1.in", "W4", poles="L>L1 PE", **WIRE)
        d.run("QF2.load", "EH1.in", "W5", poles="L>L2", **WIRE)
    told = {("QF1", "QF2"): Level.WARNING} if kind == "singles" else {}
    assert levels(d, RULE) == told


def test_one_hot_conductor_on_both_legs_has_one_device() -> None:
    d = shared()
    d.cut("W3")
    d.run_poles("W2", "L>L1 L>L2 N PE")
    assert levels(d, RULE) == {}


def test_fuses_are_not_checked() -> None:
    d = shared(device="fuse", circuit="ac", type="class_t", interrupting="20 kA")
    assert levels(d, RULE) == {}
    assert [gap.where for gap in gaps(d, RULE)] == [("QF1", "QF2")]


def strap(tabs: str, second: str = "3", **rated: str) -> Draft:
    """The board with an outlet whose halves hang on two breakers, by cables of their own."""
    d = shared(second, **rated)
    d.cut("W2", "W3", "WEA1", "WEA2")
    d.part("split_outlet", "XD1", tabs=tabs)
    d.run("QF1.load", "XD1.feed", "W2", **WIRE)
    poles = "L" if tabs == "hot" else "L N PE"
    d.run("QF2.load", "XD1.feed_2", "W3", poles=poles, **WIRE)
    return d


@pytest.mark.parametrize(("tabs", "second"), [("both", "3"), ("both", "5"), ("hot", "3")])
def test_two_circuits_on_one_strap_need_a_common_disconnect(tabs: str, second: str) -> None:
    """NFPA 70 (2023) 210.7, whatever their legs and neutrals."""
    d = strap(tabs, second)
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level, hit.clause) == (
        ("QF1", "QF2"),
        Level.WARNING,
        "210.7, 240.15(B)",
    )
    assert "halves of XD1" in hit.message
    d.rate("QF1", handle="tied")
    d.rate("QF2", handle="tied")
    assert levels(d, RULE) == {}


def test_a_shared_neutral_on_one_leg_is_told_tied_or_not_on_a_strap_too() -> None:
    (hit,) = found(strap("hot", "5", handle="tied"), RULE)
    assert "same leg" in hit.message


def test_both_halves_on_one_breaker_are_silent() -> None:
    d = strap("both")
    d.cut("W3")
    d.run("QF1.load", "XD1.feed_2", "W3", **WIRE)
    assert levels(d, RULE) == {}


def test_breakers_across_the_board_are_told_and_no_tie_is_offered() -> None:
    """Place 4 is on the other leg and in the other column."""
    (hit,) = found(shared("4"), RULE)
    assert hit.subjects == ("QF1", "QF2")
    assert hit.mend is None


@pytest.mark.parametrize("handle", ["own", "tied"])
def test_two_sources_with_a_leg_each_in_one_cable(handle: str) -> None:
    """Two sets, a leg of the board each: one breaker off leaves the other half of the box live."""
    d = shared(handle=handle)
    d.remove("GS1")
    for n in (1, 2):
        d.part("generator", f"G{n}", power="2 kVA", neutral="floating")
        poles = f"L>L{n} N PE"
        d.run(f"G{n}.out", "QP1.feed", f"W9{n}", poles=poles, size="10 AWG", length="20 ft")
    d.rate("QP1", bond="fitted")
    told = {("QF1", "QF2"): Level.WARNING} if handle == "own" else {}
    assert levels(d, RULE) == told
