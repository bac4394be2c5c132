"""linework check: what it prints, and what its exit status means."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any

import pytest

from linework.analysis import analyse
from linework.cli import main
from linework.design import Draft
from linework.design.edits import accept_finding
from linework.storage import save
from tests.findings.camps import camp

FINDING = {
    "id",
    "level",
    "parts",
    "states",
    "cases",
    "message",
    "evidence",
    "clause",
    "accepted",
}
OBJECT = {"findings", "sound", "not_checked", "assumed", "unconfirmed"}


def written(draft: Draft, tmp_path: Path) -> str:
    file = tmp_path / "camp.linework"
    save(draft.design, file)
    return str(file)


def doubled() -> Draft:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    return draft


def told(draft: Draft, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    def refuse(word: str) -> float:
        raise AssertionError(f"{word} is no JSON")

    main(["check", written(draft, tmp_path), "--json"])
    found: dict[str, Any] = json.loads(capsys.readouterr().out, parse_constant=refuse)
    return found


def every(findings: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [each for f in findings for each in (f, *every(f["consequences"]))]


def test_names_are_said_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    main(["check", written(draft, tmp_path)])
    out = capsys.readouterr().out
    assert "W3: hot and neutral are exchanged" in out
    assert "W3: W3:" not in out


def test_a_sound_design_is_told_as_such(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", written(camp(), tmp_path)]) == 0
    out = capsys.readouterr().out
    assert "0 danger, 0 warning, 0 not checked" in out
    assert "No danger and no warning under the values assumed, by NFPA 70 (2023)" in out


def test_the_text_names_level_place_state_number_clause_and_rule(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", written(doubled(), tmp_path)]) == 1
    lines = capsys.readouterr().out.splitlines()
    first = lines[0]
    assert first.startswith("danger: QP1: ")
    assert first.endswith("[bond-doubled]")
    assert lines[1] == "    in: G1 running"
    assert re.fullmatch(
        r"    neutral-ground links on the ring 2, current in a link, drawn loads on \d\.\d+ A",
        lines[2],
    )
    assert lines[3] == "    NFPA 70 (2023) 250.6, 250.30(A), 250.142(B)"
    # what follows from it stands under it
    assert any(line.startswith("    warning: W1: ") for line in lines)


def test_the_object_has_the_keys_agreed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    whole = told(doubled(), tmp_path, capsys)
    assert whole.keys() >= OBJECT
    findings = every(whole["findings"])
    assert {f["level"] for f in findings} == {"danger", "warning", "note"}
    for finding in findings:
        assert finding.keys() >= FINDING
        for number in finding["evidence"]:
            assert number.keys() >= {"name", "value", "unit"}
    assert whole["sound"] is False
    assert all(a.keys() == {"part", "rating", "value", "source"} for a in whole["assumed"])
    assert whole["unconfirmed"]


def test_numbers_come_in_base_units(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = told(doubled(), tmp_path, capsys)["findings"][0]
    current = next(e for e in found["evidence"] if "current" in e["name"])
    own = next(f for f in analyse(doubled().design).findings if f.rule == "bond-doubled")
    amps = next(e.value for e in own.evidence if e.quantity == "current")
    assert amps is not None
    assert math.isclose(current["value"], amps)
    assert current["unit"] == "A"


def test_an_accepted_danger_is_status_0_and_told_with_its_reason(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    draft = doubled()
    finding = next(f for f in analyse(draft.design).findings if f.rule == "bond-doubled")
    edit = accept_finding(
        draft.design,
        finding.rule,
        finding.subjects,
        finding.fingerprint,
        reason="a test bench",
        by="an electrician",
        date="2026-03-01",
    )
    draft.design.apply(edit)
    assert main(["check", written(draft, tmp_path)]) == 0
    assert "accepted: QP1: " in capsys.readouterr().out
    whole = told(draft, tmp_path, capsys)
    assert whole["findings"][0]["accepted"] == "a test bench"


def test_warnings_alone_are_status_0(tmp_path: Path) -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    assert {f.level.word for f in analyse(draft.design).open_findings} == {"warning"}
    assert main(["check", written(draft, tmp_path)]) == 0


def test_what_could_not_be_analysed_is_status_1(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    draft = camp()
    draft.rate_run("W3", length=None)
    assert analyse(draft.design).silent
    assert main(["check", written(draft, tmp_path)]) == 1
    assert "not checked: W3 length, one way is not given [value-missing]" in capsys.readouterr().out
    assert told(draft, tmp_path, capsys)["not_checked"][0]["parts"] == ["W3"]


def test_a_proven_mend_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    draft = camp()
    draft.rate_run("W3", broken="PE")
    main(["check", written(draft, tmp_path)])
    assert "mend: Join the ground wire of W3" in capsys.readouterr().out
