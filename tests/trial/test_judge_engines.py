"""What the second judge knows of engines, selectors, transformers, isolators, sets side by side."""

from __future__ import annotations

import pytest

from tests.trial.judge.expand import net_of
from tests.trial.judge.flaws import DANGER
from tests.trial.judge.label import label, survey
from tests.trial.judge.net import Node
from tests.trial.judge.standing import Standing, standings
from tests.trial.mistakes import Maker, engines
from tests.trial.rigs import RIGS
from tests.trial.rigs.sheet import Sheet, dc


def checks(d: Sheet) -> set[str]:
    return {flaw.check for flaw in survey(d.design).flaws.values() if not flaw.near}


def standing(d: Sheet, **positions: str) -> Standing:
    """The first standing in which these parts have these positions."""
    return next(
        s
        for s in standings(d.design, net_of(d.design))
        if all(positions.get(part, at) == at for (part, _), at in s.positions.items())
    )


def two_banks(chemistry: str = "agm", lever: bool = False) -> Sheet:
    """Two batteries on a charge relay, an alternator on the first or behind a switch."""
    d = Sheet(place="vehicle")
    d.part("charge_relay", "QA1", rating="140 A")
    for n, kind, side in ((1, "agm", "line"), (2, chemistry, "load")):
        d.battery(f"GB{n}", 12, 100, kind, 3)
        d.class_t(f"F{n}", 100)
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}0", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"QA1.{side}", f"W{n}1", "2", 3, "+")
    d.lead("GB1.dc", "GB2.dc", "W30", "2", 2, "-")
    d.part("alternator", "G1", current="80 A")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.class_t("F3", 100)
    d.lead("GB1.dc", "QB1.line", "W31", "2", 0.5, "+")
    d.lead("QB1.load" if lever else "GB1.dc", "F3.line", "W32", "2", 0.5, "+")
    d.lead("F3.load", "G1.dc", "W33", "2", 3, "+")
    d.lead("GB1.dc", "G1.dc", "W34", "2", 3, "-")
    d.part("lamp", "EL1", power="20 W", **dc("12 V"))
    d.wire("QB1.load", "EL1.in", "W35", "10", 1, "+")
    d.wire("GB1.dc", "EL1.in", "W36", "10", 1, "-")
    return d


def test_a_relay_joins_two_banks_while_it_is_closed() -> None:
    d = two_banks()
    one, other = Node("GB1", "dc", "+"), Node("GB2", "dc", "+")
    apart, joined = standing(d, QA1="apart"), standing(d, QA1="joined")
    assert apart.wired[one] != apart.wired[other]
    assert joined.wired[one] == joined.wired[other]


def test_lithium_beside_lead_is_unlike() -> None:
    assert "unlike" not in checks(two_banks())
    assert {"unlike", "alternator on lithium"} <= checks(two_banks("lithium"))


def test_an_alternator_that_a_lever_parts_from_its_battery() -> None:
    assert "alternator alone" not in checks(two_banks())
    d = two_banks(lever=True)
    d.remove("QB1")
    d.lead("F3.line", "EL1.in", "W40", "2", 1, "+")
    assert "alternator alone" in checks(d)


def test_a_selector_joins_what_its_lever_says() -> None:
    d = RIGS["ketch"]()
    load, first, second = (
        Node("QB1", terminal, "+") for terminal in ("load", "battery1", "battery2")
    )
    for lever, fed in (("1", {first}), ("2", {second}), ("both", {first, second}), ("off", set())):
        labels = standing(d, QB1=lever).wired
        assert {n for n in (first, second) if labels[n] == labels[load]} == fed


def test_a_dc_charger_works_while_its_input_is_live() -> None:
    net = net_of(RIGS["rescue_van"]().design)
    (charging,) = {
        s.positions["TB1", "output"] for s in standings(RIGS["rescue_van"]().design, net)
    }
    assert charging == "charging"


def test_a_transformer_is_live_behind_while_its_primary_is() -> None:
    d = RIGS["trawler"]()
    on, off = standing(d, GS1="live", XP1="XD91"), standing(d, GS1="off")
    hots = Node("QP1", "bus", "L1"), Node("QP1", "bus", "L2")
    assert abs(on.volts(*hots) or 0.0) == pytest.approx(240.0)
    assert off.feeders(hots[0]) == []


@pytest.mark.parametrize(
    ("rig", "maker", "word", "reason"),
    [
        ("ketch", engines.isolator_bypassed, "warning", "RB1 no longer keeps shore and boat apart"),
        ("trawler", engines.isolator_bypassed, "warning", "TA1 no longer keeps shore and boat"),
        ("trawler", engines.transformer_link_removed, "danger", "meets ground nowhere"),
        ("trawler", engines.transformer_of_a_third, "warning", "50 A before TA1"),
        ("trawler", engines.management_of_a_tenth, "warning", "opens at 10 A"),
        ("lake_cabin", engines.tabs_left_in, "danger", "stand 240 V apart"),
        ("lake_cabin", engines.sets_of_two_makes, "danger", "G1 and G2 meet on one conductor"),
        ("lake_cabin", engines.plain_y_for_a_kit, "danger", "G1 and G2 meet on one conductor"),
        ("lake_cabin", engines.surge_device_low, "danger", "stands 100 V and lies on 120 V"),
        ("rescue_van", engines.dc_charger_turned, "warning", "no longer feeds TB1"),
        ("ketch", engines.battery_of_other_chemistry, "warning", "worked hard by lithium"),
    ],
)
def test_labels_of_mistakes_at_them(rig: str, maker: Maker, word: str, reason: str) -> None:
    design = RIGS[rig]().design
    made = next(iter(maker(design)))
    told = label(design, made.design, survey(design))
    assert told.word == word
    assert reason in told.reason


def test_sets_that_their_kit_joins_do_not_meet() -> None:
    assert "sources meet" not in checks(RIGS["lake_cabin"]())


def test_both_halves_of_a_split_outlet_are_fed() -> None:
    facts = survey(RIGS["lake_cabin"]().design).facts
    names = {f.name for f in facts.values() if (f.subject, f.by) == ("XD1", "TB1")}
    assert names == {"fed", "fed2"}


def test_sets_on_a_kit_are_in_step_until_their_legs_are_crossed() -> None:
    rig = RIGS["lake_cabin"]().design
    assert not [key for key in survey(rig).flaws if key[0].startswith("sources")]
    crossed = RIGS["lake_cabin"]()
    crossed.run_poles("WS2", "L1>L2 L2>L1 N PE")
    found = [flaw for flaw in survey(crossed.design).flaws.values() if "apart" in flaw.reason]
    assert {flaw.level for flaw in found} == {DANGER}
