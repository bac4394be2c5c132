"""The samples: sound ones silent, sketched ones exactly their seeded findings."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path

import pytest

from linework.analysis import Analysis, analyse
from linework.design.edits import remove
from linework.findings.model import Finding, Level
from linework.storage import load

ROOT = Path(__file__).resolve().parent.parent
SAMPLES = ROOT / "samples"


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
        ("cord-use", ("W1",)),
        ("working-space", ("QP1",)),
        ("fault-slow", ("G1",)),
        ("fault-slow", ("TB1",)),
    }


@pytest.mark.parametrize(
    ("name", "notes"),
    [
        ("beekeepers-trailer", set()),
        (
            "weather-station",
            {("fault-slow", ("TB1",)), ("surge-and-lightning", ("GP1",))},
        ),
        (
            "mountain-hut",
            {
                ("alarms", ("G1",)),
                ("working-space", ("QP1",)),
                ("arc-fault-missing", ("XD2", "XD3")),
                ("engine-fumes-and-heat", ("G1",)),
                ("fault-slow", ("G1",)),
                ("fault-slow", ("TB1",)),
            },
        ),
    ],
)
def test_a_small_sound_sample(name: str, notes: set[tuple[str, tuple[str, ...]]]) -> None:
    found = analyse(load(SAMPLES / f"{name}.linework"))
    assert serious(found) == set()
    assert found.gaps == ()
    assert found.sound
    told = {(f.rule, f.where) for f in found.findings if f.rule != "value-assumed"}
    assert told == notes


@pytest.mark.parametrize(
    ("run", "rule", "where"),
    [
        # the bank's lead, the inverter's plus, the wire to the frames
        ("W3", "load-never-fed", {("GB1",)}),
        ("W12", "load-never-fed", {("EP1",), ("TB1",)}),
        ("W33", "ground-open", {("GP1",)}),
    ],
)
def test_a_cut_run_of_the_weather_station_is_told(
    run: str, rule: str, where: set[tuple[str, ...]]
) -> None:
    design = load(SAMPLES / "weather-station.linework")
    (gone,) = (r.id for r in design.runs if r.designation == run)
    design.apply(remove(design, [gone]))
    told = {f.where for f in analyse(design).findings if f.rule == rule}
    assert told == where


def test_what_ends_a_fault_on_the_generator_is_told(sound: Analysis) -> None:
    note = next(f for f in sound.findings if (f.rule, f.where) == ("fault-slow", ("G1",)))
    names = {e.name for e in note.evidence}
    assert {"voltage on metal", "ends after", "least fault current"} <= names
    volts = next(e.value for e in note.evidence if e.name == "voltage on metal")
    assert volts is not None
    assert 0.0 < volts < 50.0


def test_the_sound_trailer_tells_what_it_takes_for_granted(sound: Analysis) -> None:
    places = {name for f in sound.findings if f.rule == "value-assumed" for name in f.where}
    assert {"G1", "GS1", "TB1"} <= places
    assert {f.level for f in sound.findings} == {Level.NOTE}


DANGER, WARNING = Level.DANGER, Level.WARNING

SEEDED = {
    # a link left in the main board
    ("bond-doubled", ("QP1",)): DANGER,
    # no wire from the frame to boards and sets; none to the refrigerator; a floating inverter
    ("chassis-unbonded", ("XB1",)): DANGER,
    ("ground-open", ("W14",)): DANGER,
    ("bond-missing", ("TB1",)): DANGER,
    # the wrong shore plug; one inlet joined past the transfer switch
    ("plug-does-not-mate", ("XP1", "XD1")): WARNING,
    ("sources-meet", ("G1", "GS1")): DANGER,
    ("pins-live", ("XP1",)): DANGER,
    ("pins-live", ("XP2",)): DANGER,
    # thin wire to the bench outlets, no fuse before the 12 V board, one that cannot break its bank
    ("device-above-ampacity", ("W15", "QF6")): DANGER,
    ("run-unprotected", ("W13",)): DANGER,
    ("interrupting-too-low", ("F1",)): DANGER,
    # a 24 V lamp
    ("voltage-wrong", ("EL1",)): DANGER,
}


def test_the_sketched_trailer_has_its_seeded_mistakes(sketched: Analysis) -> None:
    told = {(f.rule, f.where): f.level for f in sketched.findings if f.level > Level.NOTE}
    assert told == SEEDED
    assert sketched.gaps == ()
    assert not sketched.sound


def test_a_mistake_is_told_with_all_states_in_which_it_shows(sketched: Analysis) -> None:
    missing = next(f for f in sketched.findings if f.rule == "bond-missing")
    assert missing.standing is not None
    assert all("TB1=on" in words for words in missing.states)
    assert len(sketched.states()) < missing.standing.count < sketched.combinations


def test_consequences_stand_under_their_cause(sketched: Analysis) -> None:
    def below(f: Finding) -> set[tuple[str, tuple[str, ...]]]:
        return {(c.rule, c.where) for c in f.consequences if c.level > Level.NOTE}

    told = {(f.rule, f.where): below(f) for f in sketched.findings if below(f)}
    assert told == {
        ("bond-doubled", ("QP1",)): {
            ("bond-at-wrong-place", ("QP1",)),
            # on shore, on the generator, and with both
            ("ground-carries-load", ("W1", "W3", "W5")),
            ("ground-carries-load", ("W2", "W4")),
            ("ground-carries-load", ("W1", "W2", "W3", "W4", "W5")),
        },
        ("bond-missing", ("TB1",)): {("fault-not-cleared", ("TB1",))},
        ("ground-open", ("W14",)): {("fault-not-cleared", ("EA1",))},
        ("sources-meet", ("G1", "GS1")): {("supply-backfed", ("GS1", "G1"))},
        ("run-unprotected", ("W13",)): {("device-above-ampacity", ("W13", "F1"))},
    }


# the hut


@pytest.fixture(scope="module")
def sketched_hut() -> Analysis:
    return analyse(load(SAMPLES / "mountain-hut-as-sketched.linework"))


SEEDED_IN_THE_HUT = {
    # a link left in the hut board, which the inverter's maker forbids; rods joined to nothing
    ("bond-doubled", ("QP2",)): DANGER,
    ("bond-not-accepted", ("TB1",)): DANGER,
    ("electrode-not-tied", ("XE1",)): DANGER,
    # no ground wire to the hob, a thin one to the hut board
    ("ground-open", ("W7",)): DANGER,
    ("ground-undersized", ("W5",)): WARNING,
    # two circuits on one neutral, their breakers in one row of the board and so on one leg
    ("neutral-overloaded", ("W18",)): DANGER,
    ("handle-not-common", ("QF8", "QF9")): WARNING,
    # an outlet with line and neutral exchanged, at a sink
    ("polarity-reversed", ("W20",)): WARNING,
    ("gfci-missing", ("XD3",)): WARNING,
    # thin wire to the lights, which are made for 240 V
    ("device-above-ampacity", ("W8", "QF5")): DANGER,
    ("voltage-wrong", ("EL1",)): DANGER,
    # a fuse at the bank for 32 V that cannot break its current
    ("device-wrong-voltage", ("F1",)): DANGER,
    ("interrupting-too-low", ("F1",)): DANGER,
    # a pump that starts hard, on either source; a cable through bare sheet metal
    ("motor-will-not-start", ("MA1", "G1")): WARNING,
    ("motor-will-not-start", ("MA1", "TB1")): WARNING,
    ("metal-unbushed", ("W9",)): WARNING,
}


def test_the_sketched_hut_has_its_seeded_mistakes(sketched_hut: Analysis) -> None:
    told = {(f.rule, f.where): f.level for f in sketched_hut.findings if f.level > Level.NOTE}
    assert told == SEEDED_IN_THE_HUT
    assert sketched_hut.gaps == ()


def test_what_follows_from_the_mistakes_of_the_hut(sketched_hut: Analysis) -> None:
    told = {
        (f.rule, f.where): {(c.rule, c.where) for c in f.consequences}
        for f in sketched_hut.findings
        if f.consequences
    }
    assert told == {
        ("bond-doubled", ("QP2",)): {
            ("ground-carries-load", ("W1", "W3", "W5")),
            ("ground-carries-load", ("W4", "W5")),
        },
        ("electrode-not-tied", ("XE1",)): {
            ("electrode-missing", ("G1",)),
            ("electrode-missing", ("TB1",)),
        },
        ("ground-open", ("W7",)): {("fault-not-cleared", ("EH1",))},
    }


def test_the_neutral_of_the_hut_carries_an_outlet_and_a_load(sketched_hut: Analysis) -> None:
    # 20 A of the breaker of one outlet, 600 W at 120 V beside it; 12 AWG at 60 C
    hit = next(f for f in sketched_hut.findings if f.rule == "neutral-overloaded")
    numbers = {e.name: e.value for e in hit.evidence}
    assert numbers["most current in the neutral"] == pytest.approx(20.0 + 600 / 120)
    assert numbers["ampacity as installed"] == pytest.approx(20.0)


@pytest.mark.parametrize(
    ("script", "folder"),
    [("make_samples", SAMPLES), ("make_beginnings", ROOT / "resources" / "beginnings")],
)
def test_the_files_are_what_their_maker_writes(
    script: str, folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = importlib.util.spec_from_file_location(script, ROOT / "packaging" / f"{script}.py")
    assert spec is not None
    assert spec.loader is not None
    maker = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(maker)
    monkeypatch.setattr(maker, "FOLDER", tmp_path)
    maker.main()
    made = sorted(tmp_path.glob("*.linework"))
    assert [file.name for file in made] == sorted(f.name for f in folder.glob("*.linework"))
    for file in made:
        assert without_seat_ids(file) == without_seat_ids(folder / file.name)


def without_seat_ids(file: Path) -> str:
    """The text of a file; which part sits where has a random id each time it is made."""
    return re.sub(r'"id": "\w{8}", "part"', '"id": "", "part"', file.read_text(encoding="utf-8"))
