"""How far the first device is from a source, along its conductors."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.ways.leads import Lead, leads
from linework.study.ways.protection import feeds_of_runs
from tests.study.ways.test_protection import live


def told(draft: Draft, lengths: dict[str, float | None], source: str) -> dict[str, Lead]:
    situation = live(draft)
    found = leads(situation, feeds_of_runs(situation), lengths)
    return {lead.feed.run: lead for lead in found if lead.feed.system.owner == source}


def bank() -> Draft:
    """Two batteries joined by W1; from the second W2 to a box, W3 to a fuse, W4 beyond."""
    draft = Draft(place="vehicle")
    for n in ("1", "2"):
        draft.part("battery", f"GB{n}")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.part("fuse", "F1", rating="100 A")
    draft.part("lamp", "EL1", power="10 W", circuit="dc", voltage="12 V")
    for name, a, b in (
        ("W1", "GB1.dc", "GB2.dc"),
        ("W2", "GB2.dc", "XJ1.a"),
        ("W3", "XJ1.b", "F1.line"),
        ("W4", "F1.load", "EL1.in"),
        ("W5", "XJ1.c", "EL1.in"),
    ):
        draft.run(a, b, name, size="2 AWG", length="1 ft")
    draft.cut("W5")
    return draft


LENGTHS: dict[str, float | None] = {"W1": 0.4, "W2": 0.1, "W3": 0.2, "W4": 3.0, "W5": 3.0}


def test_lengths_are_added_up_from_the_nearest_post_of_the_bank() -> None:
    for battery in ("GB1", "GB2"):
        found = told(bank(), LENGTHS, battery)
        assert set(found) == {"W1", "W2", "W3"}  # W4 lies behind the fuse
        assert found["W2"].far_m == pytest.approx(0.1)
        assert found["W3"].far_m == pytest.approx(0.3)


def test_a_jumper_is_told_from_a_lead() -> None:
    found = told(bank(), LENGTHS, "GB1")
    assert [run for run, lead in found.items() if lead.jumper] == ["W1"]


def test_a_lead_ends_at_the_devices_that_it_leads_to() -> None:
    draft = bank()
    draft.run("XJ1.c", "EL1.in", "W5", size="2 AWG", length="1 ft")
    draft.cut("W4")
    found = told(draft, LENGTHS, "GB2")
    assert found["W2"].devices == found["W3"].devices != ()
    assert found["W5"].devices == ()


def test_the_nearest_device_is_told_with_its_distance() -> None:
    found = told(bank(), LENGTHS, "GB2")
    assert found["W2"].far_m == pytest.approx(0.1)
    assert found["W2"].device_m == found["W3"].device_m == pytest.approx(0.3)
    unknown = told(bank(), {**LENGTHS, "W3": None}, "GB2")
    assert unknown["W2"].devices != ()
    assert unknown["W2"].device_m is None


def test_an_unknown_length_makes_the_distance_unknown_and_nothing_else() -> None:
    found = told(bank(), {**LENGTHS, "W2": None}, "GB2")
    assert found["W2"].far_m is None
    assert found["W3"].far_m is None
    assert found["W2"].devices == found["W3"].devices != ()


def test_two_cables_side_by_side_lead_to_the_same_fuse() -> None:
    draft = bank()
    draft.run("GB2.dc", "XJ1.d", "W6", size="2 AWG", length="1 ft")
    found = told(draft, {**LENGTHS, "W6": 0.5}, "GB2")
    assert found["W2"].devices == found["W6"].devices != ()
    assert found["W6"].far_m == pytest.approx(0.5)
