"""The samples: sound ones silent, sketched ones exactly their seeded findings."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.analysis import Analysis, analyse
from linework.findings.model import Level
from linework.storage import load

SAMPLES = Path(__file__).resolve().parent.parent / "samples"


@pytest.fixture(scope="module")
def sound() -> Analysis:
    return analyse(load(SAMPLES / "vaccination-trailer.linework"))


@pytest.fixture(scope="module")
def sketched() -> Analysis:
    return analyse(load(SAMPLES / "vaccination-trailer-as-sketched.linework"))


def serious(analysis: Analysis) -> set[tuple[str, tuple[str, ...]]]:
    """Dangers and warnings that stand by themselves, by id and place."""
    return {(f.rule, f.where) for f in analysis.findings if f.level > Level.NOTE}


def test_the_sound_trailer_is_sound(sound: Analysis) -> None:
    assert serious(sound) == set()
    assert sound.gaps == ()
    assert sound.sound


def test_the_notes_of_the_sound_trailer(sound: Analysis) -> None:
    notes = {(f.rule, f.where) for f in sound.findings if f.rule != "value-assumed"}
    assert notes == {
        ("engine-fumes-and-heat", ("G1",)),
        ("fault-slow", ("G1",)),
        ("fault-slow", ("TB1",)),
        ("voltage-drop-high", ("EL1", "W16")),
    }


def test_what_ends_a_fault_on_the_generator_is_told(sound: Analysis) -> None:
    note = next(f for f in sound.findings if (f.rule, f.where) == ("fault-slow", ("G1",)))
    names = {e.name for e in note.evidence}
    assert {"voltage on metal", "ends after", "least fault current"} <= names
    volts = next(e.value for e in note.evidence if e.name == "voltage on metal")
    assert volts is not None
    assert 0.0 < volts < 50.0


def test_the_sketched_trailer_has_its_seeded_mistakes(sketched: Analysis) -> None:
    assert serious(sketched) == {
        ("bond-doubled", ("QP1",)),
        ("bond-missing", ("TB1",)),
        ("chassis-unbonded", ("XB1",)),
        ("ground-open", ("W14",)),
        ("sources-meet", ("G1", "GS1")),
        ("pins-live", ("XP1",)),
        ("pins-live", ("XP2",)),
        ("plug-does-not-mate", ("XP1", "XD1")),
        ("run-unprotected", ("W13",)),
        ("device-above-ampacity", ("W15", "QF6")),
        ("interrupting-too-low", ("F1",)),
        ("voltage-wrong", ("EL1",)),
    }
    assert sketched.gaps == ()
    assert not sketched.sound


def test_one_mistake_shows_in_one_state_only(sketched: Analysis) -> None:
    missing = next(f for f in sketched.findings if f.rule == "bond-missing")
    assert len(missing.states) == 1
    assert len(sketched.states()) > 10


def test_consequences_stand_under_their_cause(sketched: Analysis) -> None:
    by_rule = {f.rule: {c.rule for c in f.consequences} for f in sketched.findings}
    assert "bond-at-wrong-place" in by_rule["bond-doubled"]
    assert "supply-backfed" in by_rule["sources-meet"]
    assert "fault-not-cleared" in by_rule["bond-missing"]
