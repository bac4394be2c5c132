"""The chain from older formats, with steps that only these tests know."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from linework.storage import StorageError, documents, loads_with_warnings
from linework.storage.migrations import FORMAT, STEPS, migrate

SAMPLE = (Path(__file__).parent / "files" / "format1.linework").read_bytes()


def colours(raw: dict[str, Any]) -> dict[str, Any]:
    return {**raw, "colour": raw["color"]}


def drop_color(raw: dict[str, Any]) -> dict[str, Any]:
    raw.pop("color")  # even a step that spoils what it was given spoils nothing
    return raw


def test_steps_follow_each_other() -> None:
    old = {"format": 1, "color": "red"}
    before = copy.deepcopy(old)
    new = migrate(old, "a", {1: colours, 2: drop_color}, 3)
    assert new == {"format": 3, "colour": "red"}
    assert old == before


def test_a_chain_is_entered_where_the_file_stands() -> None:
    old = {"format": 2, "color": 1}
    assert migrate(old, "a", {1: colours, 2: drop_color}, 3) == {"format": 3}
    assert old == {"format": 2, "color": 1}
    same = {"format": 3, "x": 1}
    assert migrate(same, "a", {1: colours, 2: drop_color}, 3) is same


def test_a_file_that_a_step_cannot_take_is_refused_in_a_sentence() -> None:
    with pytest.raises(StorageError, match="of format 1 and cannot be carried over to format 2"):
        migrate({"format": 1}, "a", {1: colours}, 2)
    with pytest.raises(StorageError, match="cannot be carried over to format 3"):
        migrate({"format": 1, "color": 1}, "a", {1: colours}, 3)


def test_there_is_a_step_from_every_older_format() -> None:
    assert set(STEPS) == set(range(1, FORMAT))
    kept = {file.name for file in (Path(__file__).parent / "files").glob("format*.linework")}
    assert kept == {f"format{number}.linework" for number in range(1, FORMAT + 1)}


def test_an_older_file_opens_and_says_that_saving_renews_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As it will be when this format is old: its places were called hosts, say."""

    def step(raw: dict[str, Any]) -> dict[str, Any]:
        seats = [{**seat, "in": seat["host"]} for seat in raw["seats"]]
        for seat in seats:
            del seat["host"]
        return {**raw, "seats": seats}

    def later(raw: dict[str, Any], name: str) -> dict[str, Any]:
        return {**migrate(raw, name, {1: step}, 2), "format": 1}

    raw = json.loads(SAMPLE)
    for seat in raw["seats"]:
        seat["host"] = seat.pop("in")
    monkeypatch.setattr(documents, "migrate", later)
    monkeypatch.setattr(documents, "FORMAT", 2)
    loaded = loads_with_warnings(json.dumps(raw).encode(), "a")
    assert [fault.path for fault in loaded.warnings] == ["format"]
    assert "from format 1 to 2" in loaded.warnings[0].message
    assert len(loaded.design.seats) == 5
