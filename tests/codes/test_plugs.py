"""Plugs and outlets: every pair of the mating table, every trap."""

from __future__ import annotations

import pytest

from linework.codes import (
    CodesError,
    Fit,
    configuration,
    configurations,
    mates,
    outlets_for,
    plugs_for,
)
from linework.codes.plugs import plain_name
from linework.codes.tables import rows
from linework.wiring import Pole

AMERICAN = [row["config"] for row in rows("na/plug_configurations")]
# Beyond a plug in its own outlet, ANSI/NEMA WD 6 lets only these in: two blades into grounded
# outlets of 15 and 20 A, and 15 A plugs into the T-slots of 20 A outlets.
CROSS = {("1-15", "5-15"), ("1-15", "5-20"), ("5-15", "5-20"), ("6-15", "6-20")}


@pytest.mark.parametrize("plug", AMERICAN)
def test_the_whole_american_matrix(plug):
    for outlet in AMERICAN:
        expected = plug == outlet or (plug, outlet) in CROSS
        assert mates(f"{plug}P", f"{outlet}R").fits is expected, (plug, outlet)
    assert set(outlets_for(plug)) == {plug} | {b for a, b in CROSS if a == plug}
    assert set(plugs_for(plug)) == {plug} | {a for a, b in CROSS if b == plug}


@pytest.mark.parametrize(
    "row", rows("na/plug_traps"), ids=lambda r: r["plug"] + " " + r["receptacle"]
)
def test_traps_do_not_fit_and_say_why(row):
    found = mates(row["plug"], row["receptacle"])
    assert not found.fits
    assert found.fit is (Fit.FORCED if row["can_be_forced"] == "yes" else Fit.TRAP)
    assert found.note


def test_the_forced_marine_plug_is_marked():
    assert mates("L5-30P", "SS2-50R").forced
    assert not mates("TT-30P", "10-30R").forced


@pytest.mark.parametrize(
    ("plug", "outlet", "fit"),
    [
        ("5-15P", "5-15R", Fit.SAME),
        ("5-15P", "5-20R", Fit.CROSS),
        ("TT-30P", "14-30R", Fit.VOLTAGE),
        ("5-15P", "L5-15R", Fit.LOCKING),
        ("L14-20P", "L14-30R", Fit.CURRENT),
        ("L6-30P", "L14-30R", Fit.CONTACTS),
        ("10-50P", "14-50R", Fit.CONTACTS),
        ("14-50P", "CS50R", Fit.LOCKING),
        ("TT-30P", "5-30R", Fit.SHAPE),
        ("5-15P", "CEE7-3", Fit.VOLTAGE),
        ("6-15P", "CEE7-3", Fit.CONTACTS),
    ],
)
def test_reasons(plug, outlet, fit):
    assert mates(plug, outlet).fit is fit


def test_a_two_blade_plug_leaves_the_ground_unused():
    assert mates("1-15P", "5-15R").ground_lost
    assert not mates("5-15P", "5-20R").ground_lost
    assert not configuration("1-15").polarized


@pytest.mark.parametrize(
    ("plug", "outlet", "fits"),
    [
        # IEC 60309-2 and CEE 7: keyed to their own; 7/7 enters both hole patterns, 7/4 only one.
        ("CEE16-3-6h", "CEE16-3-6h", True),
        ("CEE16-3-6h", "CEE32-3-6h", False),
        ("CEE16-3-6h", "CEE16-3-4h", False),
        ("CEE7-7", "CEE7-3", True),
        ("CEE7-7", "CEE7-5", True),
        ("CEE7-4", "CEE7-5", False),
        ("CEE7-16", "BS1363", False),
        ("C14", "C13", True),
        ("C14", "C15", True),
        ("C16", "C13", False),
        ("C18", "C13", True),
        ("CEE16-2-ELV24", "CEE16-2-ELV48", True),
        # low voltage in vehicles: each only its own
        ("12V socket", "12V socket", True),
        ("12V socket", "12V small", False),
        ("trailer 7-way", "trailer 13-way", False),
        ("12V socket", "5-15", False),
    ],
)
def test_other_standards(plug, outlet, fits):
    assert mates(plug, outlet).fits is fits


def test_every_other_plug_enters_some_outlet():
    for row in rows("common/other_configurations"):
        if row["gender"] == "plug":
            assert outlets_for(row["config"])


def test_configurations_say_what_they_carry():
    """ANSI/NEMA WD 6 naming."""
    shore = configuration("TT-30")
    assert (shore.volts, shore.amps, shore.grounding) == (125, 30, True)
    assert configuration("L6-30").contacts == (Pole.L1, Pole.L2, Pole.PE)
    old = configuration("10-30R")
    assert not old.grounding
    assert configuration("14-50").volts == 250
    assert configuration("CEE16-5-6h").volts == 415
    assert not configuration("CEE7-4").polarized


def test_low_voltage_contacts_carry_direct_current():
    for name in ("12V socket", "12V small", "trailer 7-way", "trailer 13-way"):
        assert configuration(name).contacts == (Pole.POS, Pole.NEG)
        assert not configuration(name).confirmed
    # SAE J2863 holds from 0 to 20 V
    assert configuration("trailer 7-way").volts == 20.0


def test_names_with_and_without_gender():
    assert configuration("5-15P") == configuration("5-15R") == configuration("5-15")
    assert plain_name("CEE7-7") == "CEE7-7"
    assert len(configurations()) == len(set(configurations())) > 45


def test_confidence_is_kept():
    assert mates("5-15P", "5-20R").confirmed
    assert not mates("6-15P", "6-20R").confirmed
    assert not mates("L14-20P", "L14-30R").confirmed
    assert configuration("5-15").confirmed
    assert not configuration("14-60").confirmed


@pytest.mark.parametrize("name", ["5-16", "", "P"])
def test_unknown_configurations_are_errors(name):
    with pytest.raises(CodesError, match="5-15"):
        configuration(name)
