"""The few answers of the international family, and how it names itself."""

from __future__ import annotations

import pytest

from linework.codes import CodesError, family

RULES = family("INT", "")


def test_every_outlet_up_to_32_a_is_protected() -> None:
    for area in ("", "outside", "room"):
        assert RULES.ground_fault_protection("building", area, 230.0, 32.0).value
        assert not RULES.arc_fault_protection("building", area, 230.0, 16.0).value
    found = RULES.ground_fault_protection("building", "", 230.0, 63.0)
    assert not found.value
    assert found.clause == "IEC 60364 411.3.3, 7-721"
    assert RULES.outlet_guards()[0] == "rcd_30"
    assert not RULES.set_outlet_protection(230.0, 16.0, 5e3).value


def test_voltage_drop() -> None:
    assert (RULES.drop_advice("branch").value, RULES.drop_advice("total").value) == (3.0, 5.0)
    with pytest.raises(CodesError):  # annex G has no figure for what lies before the last device
        RULES.drop_advice("feeder")
    assert [RULES.drop_afloat(critical).value for critical in (True, False)] == [3.0, 10.0]
    assert RULES.drop_constant_afloat().value == 10.75


def test_room_before_boards() -> None:
    assert RULES.room_before_boards(aboard=False).value == "0.7 m deep, 2 m high"


def test_touch_limits_and_times_are_its_own() -> None:
    assert RULES.touch_limit_v(dc=False, wet=False).value == 50.0
    assert RULES.disconnection_s(230.0).value == 0.4


def test_what_it_lacks_it_refuses() -> None:
    with pytest.raises(CodesError, match="no tables of IEC 60364 for standard ratings of devices"):
        RULES.standard_up(16.0)
