"""Sockets and plugs of twelve volts: what they carry, what enters them, what lies on them."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import van
from tests.findings.camps import camp, levels
from tests.findings.told import found

MIXED = "same-outlet-two-systems"


def socket(fuse: str = "15 A", plug: str = "12V socket", outlet: str = "12V socket") -> Draft:
    """The van with a fused socket, in which a cool box is plugged."""
    d = van()
    d.part("fuse", "F9", rating=fuse, type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F9.line", "W90", size="8 AWG", length="1 ft")
    d.part("outlet", "XD9", circuit="dc", configuration=outlet, area="dry")
    d.run("F9.load", "XD9.feed", "W91", size="10 AWG", length="6 ft")
    d.part("plug_load", "EP9", circuit="dc", power="60 W", voltage="12 V", configuration=plug)
    d.seat("EP9", "XD9", "face")
    return d


@pytest.mark.parametrize(
    "rule", ["rating-exceeded", "plug-does-not-mate", "voltage-wrong", "run-unprotected"]
)
def test_a_socket_behind_its_fuse_is_silent(rule: str) -> None:
    assert found(socket(), rule) == []


def test_a_fuse_above_the_socket_is_told() -> None:
    assert levels(socket("30 A"), "rating-exceeded") == {("XD9",): Level.DANGER}


def test_a_plug_of_another_shape_does_not_enter() -> None:
    hits = found(socket(plug="12V small"), "plug-does-not-mate")
    assert [hit.level for hit in hits] == [Level.WARNING]


def test_a_socket_for_twelve_volts_on_twenty_four_is_a_danger() -> None:
    d = socket()
    d.rate("GB1", voltage="24 V")
    assert ("XD9",) in levels(d, "voltage-wrong")
    small = socket(plug="12V small", outlet="12V small")
    small.rate("GB1", voltage="24 V")
    assert ("XD9",) not in levels(small, "voltage-wrong")


def test_a_house_outlet_on_a_direct_current_circuit_is_a_danger() -> None:
    """NFPA 70 (2023) 406.4(F): plugs of another voltage or kind of current must not fit. Outlet and
    plug are one mistake."""
    draft = socket(outlet="5-15", plug="5-15")
    assert levels(draft, MIXED) == {("XD9", "EP9"): Level.DANGER}
    assert found(draft, "plug-does-not-mate") == []


def test_a_household_plug_on_what_is_made_for_twelve_volts_is_a_danger() -> None:
    draft = socket(plug="5-15")
    assert levels(draft, MIXED) == {("EP9",): Level.DANGER}


def test_a_socket_for_twelve_volts_on_the_mains_is_a_danger() -> None:
    draft = camp()
    draft.rate("XD1", configuration="12V socket")
    assert ("XD1",) in levels(draft, MIXED)


@pytest.mark.parametrize(
    ("shape", "told"),
    [("12V small", True), ("12V socket", False)],  # what is made for 12 V only is voltage-wrong
)
def test_one_shape_on_twelve_and_on_twenty_four_volts(shape: str, told: bool) -> None:
    d = socket(outlet="12V small", plug="12V small")
    d.part("battery", "GB2", voltage="24 V", capacity="60 Ah", chemistry="agm")
    d.part("fuse", "F8", rating="10 A", type="class_t", interrupting="20 kA")
    d.run("GB2.dc", "F8.line", "W92", size="10 AWG", length="1 ft")
    d.part("outlet", "XD8", circuit="dc", configuration=shape, area="dry")
    d.run("F8.load", "XD8.feed", "W93", size="10 AWG", length="6 ft")
    assert (("XD9", "XD8") in levels(d, MIXED)) is told
    assert (("XD8",) in levels(d, "voltage-wrong")) is not told


@pytest.mark.parametrize("shape", ["12V socket", "12V small"])
def test_two_sockets_of_one_voltage_are_silent(shape: str) -> None:
    d = socket(outlet=shape, plug=shape)
    d.part("outlet", "XD8", circuit="dc", configuration=shape, area="dry")
    d.run("F9.load", "XD8.feed", "W93", size="10 AWG", length="6 ft")
    assert found(d, MIXED) == []


@pytest.mark.parametrize("rule", ["rating-exceeded", "run-overloaded", "sources-meet"])
def test_a_trailer_on_its_tow_vehicle_is_silent(rule: str) -> None:
    """Both ends of the charge line are fused with what its connector carries: what comes by one end
    leaves by the other, and does not add up in the contacts."""
    d = van()
    d.part("battery", "GB9", capacity="70 Ah", chemistry="flooded", fault_current="1.5 kA")
    for name in ("F8", "F9"):
        d.part("fuse", name, rating="30 A", type="class_t", interrupting="20 kA")
    d.run("GB9.dc", "F8.line", "W80", size="10 AWG", length="1 ft")
    d.part("outlet", "XD8", circuit="dc", configuration="trailer 7-way", area="outside")
    d.run("F8.load", "XD8.feed", "W81", size="10 AWG", length="15 ft")
    d.part("plug", "XP8", circuit="dc", configuration="trailer 7-way")
    d.seat("XP8", "XD8", "face")
    d.run("XP8.cord", "F9.load", "W82", size="10 AWG", length="20 ft")
    d.run("F9.line", "QB1.load", "W83", size="8 AWG", length="1 ft")
    assert found(d, rule) == []
