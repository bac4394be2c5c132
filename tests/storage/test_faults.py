"""Every fault of a file is told, each with where it is; nothing sound is refused."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from linework.storage import FileFaults, StorageError, load, loads, loads_with_warnings
from linework.storage.fields import MOST_ITEMS

FILES = Path(__file__).parent / "files"
SOUND: dict[str, Any] = json.loads((FILES / "format1.linework").read_bytes())
"""Parts: E1 EA1 G1 MA1 QF1 QF10 QF2 QP1 XD1 XP1; runs W1..W5, W4 with poles of its own."""


Change = Callable[[dict[str, Any]], object]


def faults_of(raw: object) -> dict[str, str]:
    with pytest.raises(FileFaults) as caught:
        loads(json.dumps(raw).encode(), "a.linework")
    found = dict(caught.value.faults)
    assert len(found) == len(caught.value.faults)
    assert all(path and message for path, message in found.items())
    return found


def changed(change: Change) -> dict[str, Any]:
    raw = copy.deepcopy(SOUND)
    change(raw)
    return raw


def put(*way: Any, value: Any) -> Change:
    def change(raw: dict[str, Any]) -> None:
        inner: Any = raw
        for step in way[:-1]:
            inner = inner[step]
        inner[way[-1]] = value

    return change


def drop(*way: Any) -> Change:
    def change(raw: dict[str, Any]) -> None:
        inner: Any = raw
        for step in way[:-1]:
            inner = inner[step]
        del inner[way[-1]]

    return change


def test_the_pattern_is_sound() -> None:
    assert loads_with_warnings(json.dumps(SOUND).encode(), "a").warnings == ()


FAULTS: list[tuple[Change, str, str]] = [
    # a wrong type
    (put("settings", value=[]), "settings", "an object is needed here, not a list"),
    (put("settings", "wet", value="no"), "settings.wet", "true or false is needed"),
    (put("parts", value={}), "parts", "a list is needed here, not an object"),
    (put("parts", 2, value="G1"), "parts[2]", "an object is needed here, not a text"),
    (put("parts", 2, "kind", value=3), "parts[2] G1 kind", "not a whole number"),
    (put("parts", 2, "designation", value=None), "parts[2].designation", "not nothing"),
    (put("parts", 2, "at", value=[1.5, 2]), "parts[2] G1 at", "two whole numbers"),
    (put("parts", 2, "at", value=[True, 2]), "parts[2] G1 at", "two whole numbers"),
    (put("parts", 2, "at", value=[10**10, 2]), "parts[2] G1 at", "two whole numbers"),
    (put("parts", 2, "turn", value=4), "parts[2] G1 turn", "from 0 to 3"),
    (put("parts", 2, "turn", value=True), "parts[2] G1 turn", "whole number is needed"),
    (put("parts", 2, "sheet", value=0), "parts[2] G1 sheet", "from 1 to"),
    (put("parts", 2, "mirror", value=1), "parts[2] G1 mirror", "true or false"),
    (put("parts", 2, "ratings", value=[]), "parts[2] G1 ratings", "an object is needed"),
    (put("parts", 2, "ratings", "power", value=5000), "parts[2] G1 ratings.power", "a text"),
    (
        put("parts", 2, "ratings", "power", value={"low": "1 kVA", "high": "2 kVA"}),
        "parts[2] G1 ratings.power",
        "low, usual and high",
    ),
    (put("runs", 0, "from", value="XP1"), "runs[0] W1 from", "a list of a part's id"),
    (put("runs", 0, "poles", value="LN"), "runs[0] W1 poles", "a list is needed"),
    (put("runs", 3, "poles", 0, value=["L"]), "runs[3] W4 poles[0]", "two poles"),
    (put("runs", 0, "route", 0, value=[1]), "runs[0] W1 route[0]", "two whole numbers"),
    (put("interlocks", 0, "excludes", 0, value=["QF2"]), "interlocks[0].excludes[0]", "moves"),
    (put("accepted", 0, "subjects", 0, value=1), "accepted[0].subjects[0]", "a text is needed"),
    # something missing
    (drop("settings"), "settings", "this is missing"),
    (drop("settings", "place"), "settings.place", "this is missing"),
    (drop("settings", "voltage"), "settings.voltage", "this is missing"),
    (drop("parts", 2, "id"), "parts[2] G1 id", "this is missing; a text is needed"),
    (drop("parts", 2, "kind"), "parts[2] G1 kind", "this is missing"),
    (drop("runs", 0, "to"), "runs[0] W1 to", "this is missing"),
    (drop("seats", 0, "place"), "seats[0].place", "this is missing"),
    (drop("accepted", 0, "reason"), "accepted[0].reason", "this is missing"),
    # a wrong unit or value
    (put("settings", "family", value="EU"), "settings.family", "'EU' is not among NA, INT"),
    (put("settings", "place", value="boot"), "settings.place", "did you mean 'boat'?"),
    (put("settings", "sheet", value="A33"), "settings.sheet", "did you mean 'A3'?"),
    (put("settings", "voltage", value="120"), "settings.voltage", "has no unit"),
    (put("settings", "voltage", value="12 kV"), "settings.voltage", "outside what is possible"),
    (put("settings", "frequency", value="60 V"), "settings.frequency", "a unit of"),
    (put("parts", 2, "ratings", "power", value="5 kV"), "parts[2] G1 ratings.power", "a unit of"),
    (put("parts", 2, "ratings", "power", value="5 VA"), "parts[2] G1 ratings.power", "5 VA"),
    (
        put("parts", 2, "ratings", "neutral", value="bondd"),
        "parts[2] G1 ratings.neutral",
        "did you mean 'bonded'?",
    ),
    (
        put("parts", 2, "ratings", "neutral", value={"one_of": ["bonded"]}),
        "parts[2] G1 ratings.neutral",
        "at least two",
    ),
    (
        put("parts", 2, "ratings", "reactance", "high", value="0.01"),
        "parts[2] G1 ratings.reactance",
        "rising order",
    ),
    (put("runs", 0, "ratings", "size", value="12"), "runs[0] W1 ratings.size", "'12'"),
    (put("accepted", 0, "reason", value="  "), "accepted[0].reason", "write the reason"),
    (put("parts", 2, "designation", value=" "), "parts[2].designation", "G1"),
    # ends that are not there
    (put("runs", 0, "from", 0, value="XP7"), "runs[0] W1 from", "did you mean 'XP1'?"),
    (put("runs", 0, "to", 1, value="fed"), "runs[0] W1 to", "did you mean 'feed'?"),
    (put("runs", 0, "to", value=["XP1", "pins"]), "runs[0] W1 to", "two different parts"),
    (put("seats", 0, "part", value="QF9"), "seats[0].part", "no part with the id 'QF9'"),
    (put("seats", 0, "in", value="G9"), "seats[0].in", "no part with the id 'G9'"),
    (put("seats", 0, "place", value="9"), "seats[0].place", "G1 has no place '9'"),
    (put("seats", 0, "part", value="MA1"), "seats[0].place", "does not sit in"),
    (put("seats", 2, "part", value="QF1"), "seats[2].place", "QF1 sits elsewhere already"),
    (put("seats", 3, "place", value="1"), "seats[3].place", "place 1 of QP1 is taken"),
    (
        put("interlocks", 0, "excludes", 0, 0, value="QF3"),
        "interlocks[0].excludes[0]",
        "no part with the id 'QF3'",
    ),
    (
        put("interlocks", 0, "excludes", 0, 1, value="braker"),
        "interlocks[0].excludes[0]",
        "did you mean 'breaker'?",
    ),
    (
        put("interlocks", 0, "excludes", 1, 2, value="shut"),
        "interlocks[0].excludes[1]",
        "no position 'shut', only closed, open",
    ),
    (drop("interlocks", 0, "excludes", 0), "interlocks[0].excludes", "at least two"),
    # names that are taken
    (put("parts", 1, "designation", value="E1"), "parts[1] E1 designation", "E1 is taken"),
    (put("runs", 1, "designation", value="W1"), "runs[1] W1 designation", "W1 is taken"),
    (put("notes", 0, "id", value="G1"), "notes[0].id", "the id 'G1' is taken"),
    (put("notes", 0, "id", value="settings"), "notes[0].id", "cannot be an id"),
    (put("notes", 0, "id", value=""), "notes[0].id", "cannot be an id"),
    # poles
    (put("runs", 3, "poles", 0, 0, value="L9"), "runs[3] W4 poles[0]", "no pole 'L9', only L"),
    (put("runs", 3, "poles", 0, 0, value="+"), "runs[3] W4 poles[0]", "cannot go to"),
    (put("runs", 3, "poles", 0, 0, value="L1"), "runs[3] W4 poles[0]", "L1 of QF10 cannot go"),
    (
        put("parts", 1, "ratings", value={"circuit": "dc"}),
        "runs[3] W4 poles[0]",
        "cannot go to",
    ),
    (
        put("parts", 3, "ratings", value={"circuit": "dc"}),
        "runs[1] W2 poles",
        "no conductor fits both",
    ),
    # absurdities
    (put("notes", 0, "text", value="x" * 1_000_001), "notes[0].text", "longer than"),
    (put("parts", 0, "id", value="x" * 1_001), "parts[0] E1 id", "longer than"),
    (put("notes", value=[None] * (MOST_ITEMS + 1)), "notes", "there are more than"),
    (put("settings", "*", value=1), "settings.*", "no field can have this name"),
]


@pytest.mark.parametrize(("change", "path", "words"), FAULTS)
def test_a_fault_is_told_with_its_place(change: Change, path: str, words: str) -> None:
    found = faults_of(changed(change))
    assert path in found, found
    assert words in found[path]


def test_deep_nesting_is_refused_where_it_stands() -> None:
    deep: Any = 1
    for _ in range(40):
        deep = [deep]
    assert (
        "more than 32 deep"
        in faults_of(changed(put("parts", 0, "new", value=deep)))["parts[0] E1 new"]
    )
    bottomless = b'{"format": 1, "x": ' + b"[" * 100_000 + b"]" * 100_000 + b"}"
    with pytest.raises(StorageError, match="nested too deeply"):
        loads(bottomless, "a")


def test_all_faults_are_told_at_once() -> None:
    raw = copy.deepcopy(SOUND)
    raw["settings"]["voltage"] = "120"
    raw["parts"][2]["ratings"]["power"] = "5 kV"
    raw["parts"][7]["ratings"]["places"] = "many"
    raw["parts"][1]["designation"] = "E1"
    raw["runs"][0]["from"] = ["XP9", "cord"]
    raw["runs"][3]["poles"][1] = ["N", "L4"]
    raw["seats"][4]["place"] = "back"
    raw["accepted"][0]["reason"] = ""
    found = faults_of(raw)
    assert set(found) == {
        "settings.voltage",
        "parts[2] G1 ratings.power",
        "parts[7] QP1 ratings.places",
        "parts[1] E1 designation",
        "runs[0] W1 from",
        "runs[3] W4 poles[1]",
        "seats[4].place",
        "accepted[0].reason",
    }


def test_a_part_not_understood_raises_no_faults_elsewhere() -> None:
    """What hangs on it may well be right."""
    assert set(faults_of(changed(put("parts", 7, "ratings", "places", value="0")))) == {
        "parts[7] QP1 ratings.places"
    }
    assert set(faults_of(changed(put("parts", 3, "ratings", "circuit", value=5)))) == {
        "parts[3] MA1 ratings.circuit"
    }


def test_the_message_names_the_file_the_faults_and_a_way_out() -> None:
    raw = changed(put("parts", 2, "ratings", "power", value="5 kV"))
    with pytest.raises(FileFaults) as caught:
        loads(json.dumps(raw).encode(), "pump.linework")
    lines = str(caught.value).split("\n")
    assert lines[0] == "pump.linework cannot be opened, it has 1 fault:"
    assert lines[1].startswith("  parts[2] G1 ratings.power: Rating: ")
    assert "pump.linework.bak" in lines[2]
    raw["notes"] = [{"id": f"n{n}", "text": 1} for n in range(30)]
    with pytest.raises(FileFaults) as caught:
        loads(json.dumps(raw).encode(), "pump.linework")
    assert "it has 31 faults:" in str(caught.value)
    assert "\n  and 11 more\n" in str(caught.value)
    assert len(caught.value.faults) == 31


def test_what_only_does_not_fit_can_be_opened_on_demand() -> None:
    raw = changed(put("parts", 3, "ratings", value={"circuit": "dc"}))
    raw["seats"][0]["place"] = "9"
    data = json.dumps(raw).encode()
    with pytest.raises(FileFaults) as caught:
        loads(data, "a")
    assert caught.value.openable
    loaded = loads_with_warnings(data, "a", strict=False)
    assert [fault.path for fault in loaded.warnings] == ["runs[1] W2 poles", "seats[0].place"]
    assert len(loaded.design.runs) == 5
    raw["runs"][0]["from"] = ["gone", "cord"]
    with pytest.raises(FileFaults) as caught:
        loads_with_warnings(json.dumps(raw).encode(), "a", strict=False)
    assert not caught.value.openable
    assert len(caught.value.faults) == 3


def test_what_hangs_on_an_unknown_kind_is_not_judged() -> None:
    raw = changed(put("parts", 7, "kind", value="bus_bar"))
    raw["parts"][7]["ratings"] = {"places": "many", "glow": 3}
    loaded = loads_with_warnings(json.dumps(raw).encode(), "a")
    assert [fault.path for fault in loaded.warnings] == [
        "parts[7] QP1 kind",
        "parts[7] QP1 ratings.glow",
    ]
    assert len(loaded.design.runs) == 5


# the text itself


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is not whole: line 1, column 1"),
        (b"\xff\xfe{", "is not UTF-8 text .byte 0."),
        (b'{"format": 1, "parts": [', "is not whole: line 1, column 25"),
        (b"[]", "is not a design of this program"),
        (b"null", "is not a design of this program"),
        (b"{}", "does not begin with its format"),
        (b'{"format": "1"}', "does not begin with its format"),
        (b'{"format": true}', "does not begin with its format"),
        (b'{"format": 0}', "does not begin with its format"),
        (b'{"format": 2, "everything": "new"}', "newer version; this one reads up to 1"),
        (b'{"format": 1' + b"0" * 5000 + b"}", "number that is too long"),
        (b" " * (32 * 2**20 + 1), "larger than 32 MB"),
    ],
)
def test_what_is_no_design_is_refused_in_a_sentence(data: bytes, words: str) -> None:
    with pytest.raises(StorageError, match=words) as caught:
        loads(data, "a.linework")
    assert "a.linework" in str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('"kind": "load"', '"kind": "load", "kind": "lamp"', "parts[1].kind", "twice"),
        ('"format": 1', '"format": 1, "format": 1', "format", "twice"),
        ('"at": [0, 0]', '"at": [NaN, 0]', "parts[1].at[0]", "NaN is no number"),
        ('"at": [0, 0]', '"at": [0, -Infinity]', "parts[1].at[1]", "-Infinity is no number"),
        ('"at": [0, 0]', '"at": [1e999, 0]', "parts[1].at[0]", "too large"),
        ('"Pump house"', '"Pump \\ud800 house"', "settings.job", "half of a character"),
    ],
)
def test_json_that_others_let_pass_is_refused(old: str, new: str, path: str, words: str) -> None:
    text = (FILES / "format1.linework").read_text(encoding="utf-8")
    with pytest.raises(FileFaults) as caught:
        loads(text.replace(old, new, 1).encode(), "a")
    assert [fault.path for fault in caught.value.faults] == [path]
    assert words in caught.value.faults[0].message


def test_whole_characters_written_as_pairs_are_no_fault() -> None:
    text = (FILES / "format1.linework").read_text(encoding="utf-8")
    paired = text.replace("Pump house", "Pump \\ud83d\\ude00 house")
    assert loads(paired.encode(), "a").settings.job == "Pump \U0001f600 house"


def test_several_oddities_are_told_in_order() -> None:
    data = b'{"format": 1, "a": NaN, "b": [{"c": 1, "c": 2}, Infinity], "d": "\\udc00"}'
    with pytest.raises(FileFaults) as caught:
        loads(data, "a")
    assert [fault.path for fault in caught.value.faults] == ["a", "b[0].c", "b[1]", "d"]


def test_a_byte_order_mark_is_no_fault() -> None:
    data = b"\xef\xbb\xbf" + (FILES / "format1.linework").read_bytes()
    assert loads(data, "a").settings.job == "Pump house"


def test_a_newer_file_is_left_untouched(tmp_path: Path) -> None:
    path = tmp_path / "a.linework"
    path.write_bytes(b'{"format": 7, "zones": []}')
    before = path.stat()
    with pytest.raises(StorageError, match="install the newer version"):
        load(path)
    assert path.read_bytes() == b'{"format": 7, "zones": []}'
    assert path.stat().st_mtime_ns == before.st_mtime_ns
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    for path, words in (
        (tmp_path / "gone.linework", "no such folder or file"),
        (tmp_path, "not a plain file"),
        (tmp_path / "no\0name", "sign that no file name can have"),
    ):
        with pytest.raises(StorageError, match=words):
            load(path)
