# Power outage wiki: connecting the inverter to the panel,
# https://wiki.jmehan.com/pages/diffpagesbyversion.action?pageId=80871431
"""An inverter plugged into a wall outlet to feed the house, a load on the way."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.cases.drawn import branch, inverter, service
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", "on the way", configuration="5-15")
    d.part("outlet", "XD2", "injected here", configuration="5-15")
    d.run("QF1.load", "XD1.feed", "b", size="14 AWG", length="30 ft")
    d.run("XD1.onward", "XD2.feed", "c", size="14 AWG", length="10 ft")
    d.part("plug_load", "EP1", power="1440 W", configuration="5-15")
    d.seat("EP1", "XD1", "face")
    branch(d, "QP1", "2", "11", "1800 W")
    inverter(d, "3.5 kVA", "floating")
    d.part("plug", "XP1", configuration="5-15")
    d.run("TB1.ac_out", "XP1.cord", "x", size="12 AWG", length="10 ft", installation="cord")
    d.seat("XP1", "XD2", "face")
    return d


def test_pins_interlock_and_the_overloaded_wire_are_found() -> None:
    judged = Judged(drawn())
    judged.finds("LIVE_PINS", "danger", at="XP1")
    # the program names the two sources that nothing keeps apart
    judged.finds("NO_INTERLOCK", "danger", at="GS1 TB1")
    judged.lacks("OCPD_OVER_CONDUCTOR", at="b")
    assert judged.said("OCPD_OVER_CONDUCTOR", at="c") or judged.said("OCPD_MISSING", at="c")


def test_the_current_that_no_breaker_sees() -> None:
    report = Judged(drawn()).report("GS1=dead", "TB1=on", "XP1=XD2")
    # 27 A less what the lower voltage at the loads takes away
    assert report.run_a["c", "L"] == pytest.approx(27.0, abs=1.5)
