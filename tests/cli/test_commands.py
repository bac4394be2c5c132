"""check, study and export as a user calls them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pypdf
import pytest

from linework.cli import main

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
SOUND = str(SAMPLES / "vaccination-trailer.linework")
SKETCHED = str(SAMPLES / "vaccination-trailer-as-sketched.linework")


def test_a_sound_design_is_status_0(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", SOUND]) == 0
    assert "licensed electrician" in capsys.readouterr().out


def test_an_open_danger_is_status_1_and_json_tells_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", SKETCHED, "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert {"findings", "sound", "not_checked", "assumed", "unconfirmed"} <= told.keys()
    first = told["findings"][0]
    keys = {"id", "level", "parts", "states", "cases", "message", "evidence", "clause", "accepted"}
    assert keys <= first.keys()
    assert {"name", "value", "unit"} <= first["evidence"][0].keys()
    assert told["sound"] is False


@pytest.mark.parametrize("content", [b"", b"{", b"\xff\xfe", b"[]", b'{"format": 99}', b"null"])
def test_a_file_that_cannot_be_read_is_status_2(
    content: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "broken.linework"
    file.write_bytes(content)
    assert main(["check", str(file)]) == 2
    told = capsys.readouterr().err
    assert "broken.linework" in told
    assert "Traceback" not in told


def test_a_missing_file_is_status_2(tmp_path: Path) -> None:
    assert main(["study", str(tmp_path / "none.linework")]) == 2


def test_study_prints_valid_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["study", SOUND, "--json"]) == 0

    def refuse(word: str) -> float:
        raise AssertionError(word)

    told = json.loads(capsys.readouterr().out, parse_constant=refuse)
    state = next(s for s in told["states"] if s["title"] == "on shore")
    assert {"potentials_v", "currents_a", "faults", "tester", "bonds"} <= state.keys()
    assert any(f["ended_by"] != "nothing" for f in state["faults"])


def test_export_writes_a_labelled_set(tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    assert main(["export", SOUND, "-o", str(out), "--date", "2026-03-01"]) == 0
    reader = pypdf.PdfReader(io.BytesIO(out.read_bytes()))
    text = "\n".join(page.extract_text() for page in reader.pages)
    for designation in ("GS1", "G1", "QT1", "QP1", "TB1", "XB1", "W13"):
        assert designation in text
    assert len(reader.outline) >= 7
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in reader.pages
        for font in page["/Resources"]["/Font"].get_object().values()
    }
    assert fonts
    assert all("+" in name for name in fonts)  # a subset tag: the font is embedded


def test_the_same_design_and_date_give_the_same_bytes(tmp_path: Path) -> None:
    one, other = tmp_path / "one.pdf", tmp_path / "other.pdf"
    for out in (one, other):
        main(["export", SOUND, "-o", str(out), "--date", "2026-03-01"])
    assert one.read_bytes() == other.read_bytes()
