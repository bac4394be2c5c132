"""Whatever the bytes, a file is opened or refused with a message: nothing else may happen."""

from __future__ import annotations

import json
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.design import Design
from linework.storage import FileFaults, StorageError, dumps, loads, loads_with_warnings
from tests.storage.designs import JSON, designs

SAMPLE = (Path(__file__).parent / "files" / "format1.linework").read_bytes()


def opened_or_refused(data: bytes) -> Design | None:
    """Open, strictly and not; what opens must be saved and opened again."""
    design: Design | None = None
    refusal: StorageError | None = None
    for strict in (True, False):
        try:
            design = loads_with_warnings(data, "a", strict=strict).design
        except StorageError as fault:
            refusal = fault
    if design is None:
        assert str(refusal)
        assert not isinstance(refusal, FileFaults) or refusal.faults
        return None
    again = loads_with_warnings(dumps(design), "a", strict=False).design
    assert again.same_as(design)
    return design


@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    opened_or_refused(data)


def test_every_cut_of_a_file_is_refused() -> None:
    whole = len(SAMPLE.rstrip())
    for length in range(0, whole, 7):
        with pytest.raises(StorageError):
            loads(SAMPLE[:length], "a")
    with pytest.raises(StorageError):
        loads(SAMPLE[: whole - 1], "a")


@given(st.data())
def test_changed_bytes(data: st.DataObject) -> None:
    content = bytearray(SAMPLE)
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(content) - 1))
        how = data.draw(st.sampled_from(["set", "cut", "put", "double"]))
        if how == "set":
            content[at] = data.draw(st.integers(0, 255))
        elif how == "cut":
            del content[at : at + data.draw(st.integers(1, 40))]
        elif how == "put":
            content[at:at] = data.draw(st.sampled_from([b"[", b"}", b'"', b",", b"1e9", b"\\u"]))
        else:
            content[at:at] = content[at : at + 60]
        if not content:
            return
    opened_or_refused(bytes(content))


def ways(value: Any, here: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found = [here] if here else []
    for key, item in inner:
        found += ways(item, (*here, key)) if isinstance(item, dict | list) else [(*here, key)]
    return found


WAYS = ways(json.loads(SAMPLE))
TEXTS = sorted({text for text in SAMPLE.decode().split('"') if len(text) < 30})


@given(st.data())
def test_changed_values(data: st.DataObject) -> None:
    """Sound JSON with values of other sorts, other names, and elements taken away."""
    raw = json.loads(SAMPLE)
    for _ in range(data.draw(st.integers(1, 4))):
        way = data.draw(st.sampled_from(WAYS))
        inner: Any = raw
        try:
            for step in way[:-1]:
                inner = inner[step]
            if data.draw(st.booleans()):
                inner[way[-1]] = data.draw(st.sampled_from(TEXTS) | JSON)
            else:
                del inner[way[-1]]
        except (LookupError, TypeError):
            continue
    opened_or_refused(json.dumps(raw).encode())


@given(designs(), st.data())
def test_cut_designs(design: Design, data: st.DataObject) -> None:
    content = dumps(design)
    at = data.draw(st.integers(0, len(content) - 2))
    with pytest.raises(StorageError):
        loads(content[:at], "a")


@pytest.mark.parametrize(
    "data",
    [
        b'{"format": 1, "settings": {}, "parts": [' + b"[" * 30_000,
        b'{"format": 1, "a": ' + b'{"a":' * 30_000 + b"1" + b"}" * 30_001,
        b'{"format": 1, "a": 1e' + b"9" * 200_000 + b"}",
        b'{"format": 1, "a": -' + b"9" * 200_000 + b"}",
        b'{"format": 1' + b', "a": NaN' * 200_000 + b"}",
        b'{"format": 1, "parts": [' + b"{}," * 29_999 + b"{}]}",
        b'{"format": 1, "settings": {"family": "' + b"N" * 10**6 + b'"}}',
    ],
    ids=["lists", "objects", "exponent", "integer", "doubled", "empty parts", "long text"],
)
def test_absurd_files_are_refused_soon(data: bytes) -> None:
    start = time.monotonic()
    with pytest.raises(StorageError):
        loads(data, "a")
    assert time.monotonic() - start < 30


def test_slips_without_end_do_not_cost_hours() -> None:
    raw = json.loads(SAMPLE)
    raw["runs"] = [
        {"id": f"r{n}", "from": [f"XP1{n}", "cord"], "to": ["QP1", f"fed{n}"], f"new{n}": 1}
        for n in range(5_000)
    ]
    start = time.monotonic()
    with pytest.raises(FileFaults) as caught:
        loads(json.dumps(raw).encode(), "a")
    assert len(caught.value.faults) == 5_000
    assert 0 < sum("did you mean" in fault.message for fault in caught.value.faults) <= 200
    assert time.monotonic() - start < 30
