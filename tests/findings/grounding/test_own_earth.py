"""A house whose earth wire is its own electrode (system TT): right by IEC 60364-4-41 411.5 where a
residual-current device ends a fault (R_A times its threshold at most 50 V), never by NFPA 70
250.4(A)(5), for which the earth is no effective path."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels

RULES = ("ground-open", "bond-missing", "electrode-not-tied", "rod-as-return")
COPPER = {"size": "10 mm2"}


def house(guard: str = "rcd_30", family: str = "INT", poles: str = "L N", **wire: str) -> Draft:
    """A supply of two wires, its breaker before a board, an electrode of 50 ohm, a socket."""
    hertz = {"voltage": "230 V", "frequency": "50 Hz"} if family == "INT" else {}
    d = Draft(place="building", family=family, **hertz)
    d.part("supply", "GS1", breaker="40 A", prospective="1.5 kA", outlets="0")
    d.part("breaker", "QF9", rating="40 A", poles="all", ground_fault=guard, interrupting="6 kA")
    d.run("GS1.out", "QF9.line", "W0", poles=poles, length="20 m", **COPPER, **wire)
    d.part("panel", "QP1", bus="63 A", bond="absent")
    d.run("QF9.load", "QP1.feed", "W1", poles=poles, length="2 m", **COPPER)
    d.part("electrode", "XE1", resistance="50 ohm")
    d.run("QP1.ground", "XE1.ground", "WE1", length="5 m", installation="jumper", **COPPER)
    d.part("breaker", "QF1", rating="16 A", poles="all", interrupting="6 kA")
    d.seat("QF1", "QP1", "1")
    outlet, plug = ("CEE7-3", "CEE7-7") if family == "INT" else ("5-15", "5-15")
    d.part("outlet", "XD1", configuration=outlet)
    d.run("QF1.load", "XD1.feed", "W2", size="2.5 mm2", length="15 m")
    d.part("plug_load", "EP1", power="900 W", configuration=plug)
    d.seat("EP1", "XD1", "face")
    return d


def told(draft: Draft) -> dict[tuple[str, tuple[str, ...]], Level]:
    return {(rule, at): level for rule in RULES for at, level in levels(draft, rule).items()}


def test_behind_a_residual_current_device_it_is_silent() -> None:
    """50 ohm x 30 mA = 1.5 V."""
    assert told(house()) == {}
    assert analyse(house().design).silent


def test_without_one_the_soil_is_no_way_back_and_that_is_all() -> None:
    """By hand: 230 V / (50 + 5 ohm) = 4.2 A open no breaker of 16 A."""
    assert {rule for rule, _ in told(house("none"))} == {"rod-as-return"}


def test_an_electrode_too_poor_for_its_device_is_told() -> None:
    draft = house("rcd_100")
    draft.rate("XE1", resistance="600 ohm")  # 600 ohm x 100 mA = 60 V
    assert {rule for rule, _ in told(draft)} == {"rod-as-return"}


def test_by_the_other_family_a_ground_wire_is_missing() -> None:
    rules = {rule for rule, _ in told(house(family="NA"))}
    assert rules & {"ground-open", "bond-missing"}


def test_an_earth_wire_that_is_drawn_and_broken_is_told() -> None:
    assert ("ground-open", ("W0",)) in told(house(poles="L N PE", broken="PE"))


@pytest.mark.parametrize("mast", [True, False])
def test_an_electrode_of_what_nothing_feeds_is_to_be_tied(mast: bool) -> None:
    draft = house(poles="L N PE")
    draft.cut("WE1")
    draft.remove("XE1")
    if mast:
        draft.part("body", "XB1", name="mast")
        draft.part("electrode", "XE2", resistance="50 ohm")
        draft.run("XB1.tie", "XE2.ground", "WE2", poles="body>PE", length="2 m", **COPPER)
    assert (("electrode-not-tied", ("XE2",)) in told(draft)) is mast
