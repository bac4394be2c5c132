"""A power inlet without the sign that says which generator belongs on it."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import caravan, levels
from tests.findings.told import found

RULE = "label-missing"


def on_board(bond: str, sign: str, **generator: str) -> Draft:
    d = caravan("building", **generator)
    d.rate("QP1", bond=bond)
    d.rate("XI1", expects=sign)
    return d


@pytest.mark.parametrize(
    ("bond", "sign", "told"),
    [
        # NFPA 70 (2023) 702.7(C): the sign tells what the wiring behind the inlet is made for
        ("absent", "none", "joined to its frame"),
        ("fitted", "none", "floating"),
        ("absent", "bonded", ""),
        ("fitted", "floating", ""),
        ("absent", "floating", "joined to its frame"),
        ("fitted", "bonded", "floating"),
    ],
)
@pytest.mark.parametrize("neutral", ["bonded", "floating"])
def test_the_sign_agrees_with_the_wiring(bond: str, sign: str, told: str, neutral: str) -> None:
    hits = found(on_board(bond, sign, neutral=neutral), RULE)
    assert [(h.subjects, h.level) for h in hits] == ([(("XI1",), Level.NOTE)] if told else [])
    if told:
        assert told in hits[0].message


def test_a_bonding_plug_in_the_set_is_not_on_board() -> None:
    d = on_board("absent", "bonded", neutral="floating")
    d.part("bond_plug", "XQ1")
    d.seat("XQ1", "XD2", "face")
    assert levels(d, RULE) == {}


def test_an_inlet_that_only_a_supply_feeds_needs_none() -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="30 A")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("XP1.cord", "XI1.outside", size="10 AWG", length="25 ft", installation="cord")
    assert levels(d, RULE) == {}


def test_where_the_set_is_never_joined_nothing_is_said() -> None:
    d = caravan("building")
    d.cut("W1")
    assert levels(d, RULE) == {}
