"""What a mend must prove, each point by a mend that fails it and one that does not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.advice import Proof, Tried, flat, settled, together, with_proven_mends
from linework.advice.working import stopped, working
from linework.analysis import Memory, analyse
from linework.design import Change, Design, Draft
from linework.design.change import merged
from linework.design.edits import rate, rate_run, remove
from linework.findings.lengths import length_text
from linework.findings.mending import resize
from linework.findings.model import Finding, Mend
from linework.findings.view import View
from tests.findings.banks import van, with_inverter
from tests.findings.camps import camp, house
from tests.findings.told import found, ways

Edit = Callable[[Design], Change]
ABOVE = "device-above-ampacity"


def tried(draft: Draft, rule: str, edit: Edit) -> Tried:
    """An edit tried as the mend of the only finding of a rule."""
    (finding,) = found(draft, rule)
    return Proof(draft.design, analyse(draft.design)).tried(finding, Mend("", edit))


def thin() -> Draft:
    """A wire of 14 AWG behind a breaker of 20 A."""
    draft = house()
    draft.rate_run("W2", size="14 AWG")
    return draft


def offered(draft: Draft) -> list[tuple[str, str]]:
    """Rule and title of every mend offered."""
    analysis = with_proven_mends(draft.design, analyse(draft.design))
    return [(f.rule, f.mend.title) for f in flat(analysis.findings) if f.mend is not None]


def test_a_mend_that_cures_and_spoils_nothing_is_proven() -> None:
    assert tried(thin(), ABOVE, lambda d: rate_run(d, "W2", {"size": "12 AWG"})).proven


def test_its_finding_must_go() -> None:
    assert tried(thin(), ABOVE, lambda d: rate(d, "QF1", {"rating": "19 A"})).reason == (
        "its finding stays"
    )


def test_nothing_new_above_a_note_may_come() -> None:
    """A breaker of 15 A cures the wire and is too small for 12 kW."""
    draft = thin()
    draft.rate("EA1", power="2200 W")
    told = tried(draft, ABOVE, lambda d: rate(d, "QF1", {"rating": "15 A"}))
    assert told.reason == "it makes a new finding: Device smaller than its load"


def test_no_finding_may_become_graver() -> None:
    draft = thin()
    (finding,) = found(draft, ABOVE)
    proof = Proof(draft.design, analyse(draft.design))
    assert not proof.tried(finding, Mend("", lambda d: rate_run(d, "W2", {"size": None}))).proven


def test_every_load_is_fed_as_before() -> None:
    told = tried(thin(), ABOVE, lambda d: remove(d, ["W2"]))
    assert told.reason == "it makes a new finding: Never fed"
    draft = thin()
    before = working(draft.design, analyse(draft.design))
    draft.cut("W2")
    after = working(draft.design, analyse(draft.design))
    assert list(stopped(draft.design, before, after)) == ["EA1 is not fed by GS1 as before"]


def test_an_edit_that_cannot_be_made_says_why() -> None:
    told = tried(thin(), ABOVE, lambda d: rate(d, "QF1", {"rating": "much"}))
    assert told.change is None
    assert "much" in told.reason


def test_a_fuse_is_one_that_somebody_makes() -> None:
    draft = van()
    draft.rate("F3", rating="5 A", type="ato", interrupting=None)
    told = tried(draft, "interrupting-too-low", lambda d: rate(d, "F3", {"type": "class_t"}))
    assert told.reason == "no fuse of this type is made for 5 A"
    assert ways(draft, *found(draft, "interrupting-too-low")) == []
    draft.rate("F3", rating="10 A")
    (finding,) = found(draft, "interrupting-too-low")
    (way,) = ways(draft, finding)
    assert way.proven


def test_no_module_is_left_out_and_none_charges_less() -> None:
    draft = van()
    design, before = draft.design, working(draft.design, analyse(draft.design))
    draft.rate("GP1", series="1")
    told = list(stopped(design, before, working(design, analyse(design))))
    assert "GP1 loses modules" in told
    draft.rate("GP1", strings="2")
    assert list(stopped(design, before, working(design, analyse(design)))) == []
    draft.cut("W5")
    told = list(stopped(design, before, working(design, analyse(design))))
    assert "TC1 charges less than before" in told


# what hangs on a device works at its rating


def inverter_on(size: str) -> tuple[Draft, Finding]:
    """An inverter of 2500 W, which takes more than 200 A, behind a cable that is too thin for the
    fuse before it; what is drawn takes little."""
    draft = with_inverter(van(), power="2500 VA")
    draft.rate("F1", rating="300 A")
    draft.rate("QB1", rating="400 A")
    draft.cut("W6")  # what the sun adds is another matter
    draft.rate_run("W20", size=size, length="1 ft", terminals="75", insulation="90")
    (finding,) = [f for f in found(draft, ABOVE) if "W20" in f.subjects]
    return draft, finding


def test_a_fuse_is_not_made_smaller_than_what_the_inverter_takes() -> None:
    draft, finding = inverter_on("2 AWG")
    *smaller, thicker = ways(draft, finding)
    assert smaller
    for each in smaller:
        assert each.mend.title.startswith("Make F1 ")
        assert each.reason.endswith("would stop TB1")
    assert thicker.mend.title.startswith("Make W20 ")
    assert thicker.proven


def test_it_is_where_the_inverter_takes_less() -> None:
    draft, _ = inverter_on("2 AWG")
    draft.rate("TB1", power="900 VA")
    (finding,) = [f for f in found(draft, ABOVE) if "W20" in f.subjects]
    largest, *_ = ways(draft, finding)
    assert largest.mend.title.startswith("Make F1 ")
    assert largest.reason == ""


def compressor(start: str) -> Draft:
    """A compressor of 11.8 A and a lamp on a wire too thin for its breaker of 40 A."""
    draft = house()
    draft.rate("QF1", rating="40 A")
    draft.remove("EA1")
    draft.part("motor", "MA1", power="1200 W", power_factor="0.85", start_current=start)
    draft.part("junction_box", "XJ9")
    draft.part("lamp", "EL9", power="10 W")
    draft.run("QF1.load", "XJ9.a", "W3", size="14 AWG", length="20 ft")
    draft.run("XJ9.b", "MA1.in", "W31", size="8 AWG", length="2 ft")
    draft.run("XJ9.c", "EL9.in", "W32", size="8 AWG", length="2 ft")
    return draft


def test_a_breaker_is_not_made_so_small_that_a_motor_cannot_start() -> None:
    draft = compressor("80 A")
    (finding,) = found(draft, ABOVE)
    smaller, thicker = ways(draft, finding)
    assert (smaller.mend.title, smaller.reason) == ("Make QF1 15 A", "QF1 of 15 A would stop MA1")
    assert thicker.mend.title.startswith("Make W3 ")
    assert thicker.proven


def test_it_is_where_the_motor_starts_all_the_same() -> None:
    (finding,) = found(compressor("40 A"), ABOVE)
    assert ways(compressor("40 A"), finding)[0].proven


def test_a_winding_with_nothing_behind_asks_nothing_of_a_device_elsewhere() -> None:
    draft = compressor("40 A")
    draft.part("breaker", "QF9", rating="30 A", interrupting="10 kA")
    draft.seat("QF9", "QP1", "2")
    draft.part("transformer", "TA9", power="2400 VA", neutral="bonded", breaker="30 A")
    draft.run("QF9.load", "TA9.primary", "W90", size="10 AWG", length="4 ft")
    (finding,) = [f for f in found(draft, ABOVE) if "W3" in f.subjects]
    assert "would stop" not in ways(draft, finding)[0].reason


# which of the proven ones are offered


def test_a_consequence_offers_none_while_its_cause_stands() -> None:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    analysis = analyse(draft.design)
    below = [f for top in analysis.findings for f in flat(top.consequences)]
    told = with_proven_mends(draft.design, analysis)
    assert all(f.mend is None for top in told.findings for f in flat(top.consequences))
    assert all(f not in members for members in together(draft.design, analysis) for f in below)


def test_of_several_sizes_the_one_that_settles_everything_is_offered_once() -> None:
    """Too thin for its breaker, and far too long: the size for the length settles both."""
    draft = house()
    draft.rate_run("W2", size="14 AWG", length="300 ft")
    rules = {f.rule for f in found(draft, ABOVE) + found(draft, "voltage-drop-high")}
    assert rules == {ABOVE, "voltage-drop-high"}
    sizes = [title for _, title in offered(draft) if title.startswith("Make W2 ")]
    assert len(sizes) == 1
    (only,) = sizes
    draft.rate_run("W2", size=only.removeprefix("Make W2 "))
    assert not found(draft, ABOVE)
    assert not found(draft, "voltage-drop-high")


def test_the_fuse_that_is_there_is_moved_before_a_second_one_is_put() -> None:
    draft = van()
    draft.rate_run("W3", length="6 ft")
    told = offered(draft)
    assert ("run-unprotected", "Move F1 close to GB1") in told
    assert not [title for _, title in told if title.startswith("Put a fuse")]
    (finding,) = found(draft, "run-unprotected")
    change = next(way.change for way in ways(draft, finding) if way.proven)
    assert change is not None
    draft.design.apply(change)
    lengths = [run.ratings.get("length") for run in draft.design.runs if run.id in ("W3", "W4")]
    assert lengths == ["14 in", "5.8 ft"]  # 0.8 of 18 in; 1 ft and what was taken off


def test_settling_forgets_nothing_that_is_proven() -> None:
    draft = thin()
    proof = Proof(draft.design, analyse(draft.design), Memory())
    (members,) = together(draft.design, proof.before)
    assert [mend.title for _, mend in settled(proof, members)] == ["Make QF1 15 A"]


@pytest.mark.parametrize("family", ["NA", "INT"])
def test_lengths_are_written_as_people_write_them(family: str) -> None:
    design = Draft(place="boat", family=family).design
    texts = [length_text(design, m) for m in (0.14224, 0.36576000000000003, 3.048, 0.001)]
    written = {
        "NA": ["5 in", "14 in", "10 ft", "1 in"],
        "INT": ["0.14 m", "0.36 m", "3 m", "0.01 m"],
    }
    assert texts == written[family]


def test_a_metric_wire_is_mended_by_a_metric_size() -> None:
    draft = house()
    view = View(draft.design, ())
    draft.rate_run("W2", size="2.5 mm2")
    mend = resize(view, "W2", "10 AWG")  # 5.26 mm2
    assert mend is not None
    assert mend.title == "Make W2 6 mm2"
    assert resize(view, "W2", "2000 kcmil") is None


@pytest.mark.parametrize("answer", ["yes", None])
def test_a_gap_that_goes_makes_up_for_none_that_comes(answer: str | None) -> None:
    """Terminals of thin aluminium wires are asked for: of W2 no more, of W5 from now on."""
    draft = house()
    draft.rate_run("W1", material="aluminium", size="2/0 AWG", terminal_metal="no")
    draft.part("load", "EA2", power="100 W")
    draft.run("EA1.in", "EA2.in", "W5", size="10 AWG", length="5 ft", terminal_metal="yes")
    for run in ("W2", "W5"):
        draft.rate_run(run, material="aluminium", size="10 AWG")

    def edit(design: Design) -> Change:
        cured = [(run, {"terminal_metal": "yes"}) for run in ("W1", "W2")]
        steps = [rate_run(design, run, new) for run, new in cured]
        return merged("", *steps, rate_run(design, "W5", {"terminal_metal": answer}))

    told = tried(draft, "aluminium-terminals", edit)
    assert told.reason == ("" if answer == "yes" else "more is left unchecked")


def test_what_a_charger_fed_alone_it_may_feed_beside_the_battery_that_is_turned_back() -> None:
    draft = van()
    before = working(draft.design, analyse(draft.design))
    together_fed = [key for key in before.fed if len(key[2]) > 1]
    part, rated_v, owners = together_fed[0]
    assert before.feeds(part, rated_v, owners[:1]) >= before.fed[together_fed[0]]
    assert before.feeds(part, rated_v, (*owners, "another")) == 0.0


def test_an_array_near_the_voltage_of_the_bank_is_no_load_that_works() -> None:
    # one module of 13 V on a controller of 12 V: two in series are its mend, and 26 V are no loss
    draft = van(series="1", vmp="13 V", voc="16 V")
    fed = working(draft.design, analyse(draft.design)).fed
    assert {part for part, _, _ in fed} == {"EL1"}
