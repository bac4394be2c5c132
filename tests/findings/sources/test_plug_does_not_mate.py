"""A plug that does not enter the outlet drawn with it."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import unseat
from linework.findings.model import Level
from tests.findings.camps import caravan, levels
from tests.findings.told import found, gaps

RULE = "plug-does-not-mate"


def plugged(plug: str, outlet: str) -> Draft:
    draft = Draft(place="field")
    draft.part("supply", "GS1", breaker="20 A", outage="no")
    draft.part("outlet", "XD1", configuration=outlet)
    draft.seat("XD1", "GS1", "1")
    draft.part("plug", "XP1", configuration=plug)
    draft.seat("XP1", "XD1", "face")
    return draft


@pytest.mark.parametrize(
    ("plug", "outlet", "enters"),
    [
        # ANSI/NEMA WD 6: a 15 A plug enters a T-slot of 20 A, not the other way round
        ("5-15", "5-15", True),
        ("5-15", "5-20", True),
        ("5-20", "5-15", False),
        ("TT-30", "5-20", False),
        ("5-15", "TT-30", False),
        ("L5-30", "L5-30", True),
        ("L5-30", "5-20", False),
    ],
)
def test_what_enters_what(plug: str, outlet: str, enters: bool) -> None:
    expected = {} if enters else {("XP1", "XD1"): Level.WARNING}
    assert levels(plugged(plug, outlet), RULE) == expected


def test_it_says_what_the_plug_does_enter() -> None:
    assert "5-15, 5-20" in found(plugged("5-15", "TT-30"), RULE)[0].message


def test_a_plug_in_load_is_judged_too() -> None:
    draft = plugged("5-20", "5-20")
    draft.part("plug_load", "EP1", power="100 W", configuration="TT-30")
    draft.seat("EP1", "XD1", "face")
    assert levels(draft, RULE) == {("EP1", "XD1"): Level.WARNING}


def test_a_configuration_that_no_table_holds_is_not_checked() -> None:
    draft = plugged("5-20", "5-20")
    draft.rate("XP1", configuration="99-99")
    assert found(draft, RULE) == []
    assert gaps(draft, RULE)


def test_contacts_that_the_circuit_does_not_have_are_a_warning() -> None:
    draft = plugged("5-20", "5-20")
    draft.part("outlet", "XD2", configuration="14-50")
    draft.run("XD1.onward", "XD2.feed", "W1", size="12 AWG", length="9 ft")
    assert levels(draft, RULE) == {("XD2",): Level.WARNING}


def adapted(configuration: str, connector: str, plug: str) -> Draft:
    """The shore cord of a caravan on an adapter."""
    d = caravan()
    (seat,) = d.design.seats_of("XP1")
    d.design.apply(unseat(d.design, seat.id))
    d.part("adapter", "XA1", configuration=configuration, connector=connector)
    d.seat("XA1", "XD1", "face")
    d.rate("XP1", configuration=plug)
    d.seat("XP1", "XA1", "face")
    return d


def wrong(draft: Draft) -> set[tuple[str, ...]]:
    """Where more than a note is."""
    return {f.subjects for f in found(draft, RULE) if f.level > Level.NOTE}


def test_both_ends_of_an_adapter_are_looked_at() -> None:
    """ANSI/NEMA WD 6: a configuration enters its own kind."""
    assert wrong(adapted("TT-30", "L5-30", "L5-30")) == set()
    assert wrong(adapted("L5-30", "L5-30", "L5-30")) == {("XA1", "XD1")}
    assert wrong(adapted("TT-30", "L5-30", "TT-30")) == {("XP1", "XA1")}


def test_the_outlet_end_of_an_adapter_has_the_contacts_of_its_circuit() -> None:
    assert wrong(adapted("TT-30", "14-50", "14-50")) == {("XA1",), ("XP1",)}


@pytest.mark.parametrize(("inlet", "told"), [("L5-20", False), ("L5-30", True)])
def test_a_cord_of_unlike_ends_is_worth_knowing(inlet: str, told: bool) -> None:
    """Cords of one configuration are what is sold (common practice, no source)."""
    draft = plugged("L5-20", "L5-20")
    draft.part("inlet", "XI1", configuration=inlet)
    draft.run("XP1.cord", "XI1.outside", "W1", size="12 AWG", length="25 ft", installation="cord")
    notes = {("W1", "XP1", "XI1"): Level.NOTE}
    assert levels(draft, RULE) == (notes if told else {})
