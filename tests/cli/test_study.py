"""linework study: every number of every state as valid JSON and as text."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from linework.cli import main
from linework.cli.study import finite
from linework.design import Draft
from linework.storage import save
from tests.findings.camps import camp


def studied(
    draft: Draft, tmp_path: Path, capsys: pytest.CaptureFixture[str], *more: str
) -> tuple[int, str]:
    file = tmp_path / "camp.linework"
    save(draft.design, file)
    status = main(["study", str(file), *more])
    return status, capsys.readouterr().out


def numbers(thing: Any) -> list[float]:
    """Every number in an object read from JSON."""
    if isinstance(thing, dict):
        return [n for value in thing.values() for n in numbers(value)]
    if isinstance(thing, list):
        return [n for value in thing for n in numbers(value)]
    return [thing] if isinstance(thing, float) else []


@pytest.mark.parametrize("neutral", ["bonded", "floating"])
def test_it_is_json_without_nan_or_infinity(
    neutral: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(word: str) -> float:
        raise AssertionError(f"{word} is no JSON")

    status, out = studied(camp(neutral=neutral), tmp_path, capsys, "--json")
    assert status == 0
    whole = json.loads(out, parse_constant=refuse)
    assert whole["complete"] is True
    found = numbers(whole)
    assert len(found) > 100
    assert all(map(math.isfinite, found))


def test_what_never_happens_and_what_is_not_defined_are_words() -> None:
    assert finite(math.inf) == "never"
    assert finite(math.nan) == "not defined"
    assert finite(None) is None
    assert finite(1.5) == 1.5


def test_a_state_tells_currents_bonds_faults_and_the_tester(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, out = studied(camp(), tmp_path, capsys, "--json")
    state = next(s for s in json.loads(out)["states"] if s["key"] == "G1=running")
    assert state["bonds"] == [{"sources": ["G1"], "ac": True, "places": ["G1"], "ring": False}]
    # 600 W at 120 V, a little less by the voltage lost
    assert state["currents_a"]["W2.L"] == pytest.approx(5.0, rel=0.05)
    assert state["currents_a"]["W2.N"] == pytest.approx(state["currents_a"]["W2.L"])
    assert {f["ended_by"] for f in state["faults"]} - {"nothing"}
    tester = next(t for t in state["tester"] if t["outlet"] == "XD1")
    assert tester["picture"] == "correct"


def test_as_text_it_names_each_state(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out = studied(camp(), tmp_path, capsys)
    assert status == 0
    assert "G1 running" in out
    assert "neutral-ground links on G1: G1" in out
