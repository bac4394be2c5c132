"""Sockets and plugs of twelve volts: what they carry, what enters them, what lies on them."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import van
from tests.findings.camps import levels
from tests.findings.told import found


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


def test_a_house_outlet_on_a_direct_current_circuit_is_told() -> None:
    hits = found(socket(outlet="5-15", plug="5-15"), "plug-does-not-mate")
    assert {hit.subjects for hit in hits} >= {("XD9",)}
