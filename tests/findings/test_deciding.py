"""Quiet figures from memory are told where a verdict rests on them, and only there."""

from __future__ import annotations

import codecs
import re
from gettext import NullTranslations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.words import say, speech
from tests.findings.camps import camp, caravan, house


def told(draft: Draft) -> set[tuple[str, str]]:
    """Designation and rating of everything assumed."""
    return {(item.where, item.rating) for item in analyse(draft.design).assumed}


SITE = ("GS1", "Resistance to earth of the site")


def test_the_electrode_of_a_site_counts_only_beside_another() -> None:
    draft = house()
    assert SITE not in told(draft)
    draft.part("electrode", "XE1", resistance="25 ohm")
    draft.run("EA1.in", "XE1.ground", "W3", size="6 AWG", length="3 ft", installation="jumper")
    assert SITE not in told(draft)  # metal joins the two: no current hangs on the soil
    draft.run_poles("W2", "L N")
    assert SITE in told(draft)
    draft.rate("GS1", electrode="5 ohm")
    assert SITE not in told(draft)


def test_stray_capacitance_counts_where_the_neutral_floats() -> None:
    strays = {("G1", f"Stray capacitance, {pole} to frame") for pole in ("line", "neutral")}
    assert strays.isdisjoint(told(caravan()))
    assert strays <= told(caravan(neutral="floating"))


def test_the_least_voltage_counts_where_a_load_gets_little() -> None:
    least = ("EA1", "Works down to")
    draft = house()
    assert least not in told(draft)
    draft.rate_run("W2", length="250 ft")  # some 8 V of 120 are lost
    assert least in told(draft)
    draft.rate("EA1", least_voltage="100 V")
    assert least not in told(draft)


def test_how_a_motor_starts_counts_where_a_set_must_carry_it() -> None:
    start = ("MA1", "Power factor while it starts")
    for draft, counts in ((camp(), True), (house(), False)):
        draft.part("motor", "MA1", power="300 W", start_current="20 A")
        draft.run("QF1.load", "MA1.in", "W8", size="12 AWG", length="10 ft")
        assert (start in told(draft)) is counts
        draft.rate("MA1", start_power_factor="0.4")
        assert start not in told(draft)


def test_what_a_set_holds_into_a_fault_is_from_memory() -> None:
    item = next(
        item for item in analyse(camp().design).assumed if "holds into a fault" in item.rating
    )
    assert (item.where, item.source) == ("G1", "from memory")
    # 5 kVA at 120 V: 41.7 A rated, from its own terminals 0 to 2.5 times that
    assert item.value == "0 A to 104 A after 350 ms"


def test_they_stand_among_what_nobody_confirmed_and_in_the_note_of_their_part() -> None:
    draft = caravan(neutral="floating")
    analysis = analyse(draft.design)
    assert any("Stray capacitance, line to frame [1 nF]" in x for x in analysis.unconfirmed)
    notes = [f for f in analysis.findings if f.rule == "value-assumed" and "G1" in f.where]
    assert len(notes) == 1
    assert "stray capacitance" in notes[0].message


class Garbled(NullTranslations):
    """A language that shares no word with English."""

    def gettext(self, message: str) -> str:
        pieces = re.split(r"(\{.*?\})", message)
        return "".join(codecs.encode(p, "rot13") if p[:1] != "{" else p for p in pieces)


def owners(lines: tuple[str, ...]) -> list[str]:
    """Whose lines these are, which is the same in every language."""
    return sorted(line.split(": ")[0] for line in lines)


def test_in_another_language_no_figure_from_memory_is_lost(monkeypatch: pytest.MonkeyPatch) -> None:
    draft = caravan(neutral="floating")
    english = analyse(draft.design).unconfirmed
    assert any("from memory" in line for line in english)
    monkeypatch.setattr(speech, "catalogue", Garbled)
    assert say("from memory") == "sebz zrzbel"
    garbled = analyse(draft.design).unconfirmed
    assert any("sebz zrzbel" in line for line in garbled)
    assert owners(garbled) == owners(english)


def test_the_release_of_a_breaker_counts_where_a_ground_wire_hangs_on_it() -> None:
    """14 AWG copper from 75 to 150 C endures some 4.6e4 A2 s (IEC 60949): 0.6 s of 280 A, which a
    breaker of 15 A may let flow for longer (UL 489 fixes nothing beyond twice its rating)."""
    trip = ("QF1", "Its trip at once")
    draft = house()
    draft.rate("QF1", rating="15 A")
    draft.rate_run("W2", size="14 AWG", length="70 ft")
    assert trip in told(draft)
    assert not [f for f in analyse(draft.design).open_findings if f.rule == "fault-not-cleared"]
    draft.rate("QF1", magnetic="150 A")  # with it the slow edge counts, and is quick enough
    assert trip not in told(draft)
    draft.rate("QF1", magnetic=None)
    draft.rate_run("W2", size="8 AWG")
    assert trip not in told(draft)
