"""Files with something in them changed: a clear refusal or an analysis, and nothing else.

How many are tried is said by LINEWORK_MUTANTS; each is made from its number alone, so that one
that fails can be made again.
"""

from __future__ import annotations

import copy
import json
import os
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from linework.analysis import analyse
from linework.design import Design
from linework.kinds import RUN_RATINGS, kind_of, kinds
from linework.storage import FileFaults, StorageError, loads_with_warnings

ROOT = Path(__file__).resolve().parents[1]
FILES = (
    ROOT / "tests" / "storage" / "files" / "format1.linework",
    ROOT / "samples" / "weather-station.linework",
    ROOT / "samples" / "beekeepers-trailer.linework",
)
NUMBER = int(os.environ.get("LINEWORK_MUTANTS", "240"))
BATCH = max(1, NUMBER // 24)

Way = tuple[Any, ...]


def ways(value: Any, here: Way = ()) -> Iterator[Way]:
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    for key, item in inner:
        yield (*here, key)
        if isinstance(item, dict | list):
            yield from ways(item, (*here, key))


ORIGINALS = [json.loads(file.read_bytes()) for file in FILES]
WAYS = [list(ways(original)) for original in ORIGINALS]
RATINGS = [*(r for kind in kinds().values() for r in kind.ratings), *RUN_RATINGS.values()]
WORDS = sorted({choice.value for rating in RATINGS for choice in rating.choices})
KEYS = sorted({rating.key for rating in RATINGS})
ODD = [
    *("", " ", "\x00", "0", "-1", "1e308", "1e-308", "nan", "inf", "½", "12", "12 V", "0 ohm"),
    *("5 kVA", "20 A", "12 AWG", "4/0 AWG", "1 km", "0 m", "99999 A", "-5 degC", "240 V", "fitted"),
    *(None, True, False, 0, -1, 1, 2**40, 0.5, [], {}, [[]], [None], {"one_of": []}, {"one_of": 1}),
]


def value(chance: random.Random) -> Any:
    """Something that may stand where another thing stood."""
    match chance.randrange(8):
        case 0:
            return chance.choice(ODD)
        case 1:
            return {"one_of": [chance.choice(WORDS) for _ in range(chance.randrange(1, 4))]}
        case 2:
            sides = ("low", "usual", "high")
            return {side: chance.choice(["1 A", "2 A", "3 V", "x", 3]) for side in sides}
        case 3 | 4:
            return chance.choice(WORDS)
        case 5:
            return chance.choice(sorted(kinds()))
        case _:
            which = chance.randrange(len(ORIGINALS))
            return at(ORIGINALS[which], chance.choice(WAYS[which]))


def at(document: Any, way: Way) -> Any:
    for step in way:
        document = document[step]
    return copy.deepcopy(document)


def mutant(number: int) -> tuple[list[str], bytes]:
    """What was changed, and the file."""
    chance = random.Random(f"mutant {number}")
    which = chance.randrange(len(ORIGINALS))
    document = copy.deepcopy(ORIGINALS[which])
    told = [FILES[which].name]
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        way = chance.choice(WAYS[which])
        try:
            told.append(changed(document, way, chance))
        except (LookupError, TypeError):  # what was here is gone
            continue
    return told, json.dumps(document).encode()


def changed(document: Any, way: Way, chance: random.Random) -> str:
    inner = document
    for step in way[:-1]:
        inner = inner[step]
    last = way[-1]
    how = chance.choice(("set", "set", "set", "drop", "rating", "rating", "twin"))
    if how == "drop":
        del inner[last]
    elif how == "rating":
        part = chance.choice(document[chance.choice(("parts", "parts", "runs"))])
        declared = kind_of(part["kind"]).declared if "kind" in part else RUN_RATINGS
        key, new = chance.choice(sorted(declared) or KEYS), value(chance)
        part["ratings"][key] = new
        return f"{part['id']} {key}={new!r}"
    elif how == "twin" and isinstance(inner, list):
        inner.append(copy.deepcopy(inner[last]))
    else:
        inner[last] = value(chance)
        return f"{way}={inner[last]!r}"
    return f"{how} {way}"


def tried(data: bytes) -> str:
    """What becomes of a file: "refused" or "analysed"."""
    strictly = opened(data, strict=True)
    design = opened(data, strict=False)
    if design is None:
        assert strictly is None
        return "refused"
    analyse(design)
    return "analysed"


def opened(data: bytes, strict: bool) -> Design | None:
    """The design, None where it is refused with a sentence."""
    told = ""
    try:
        return loads_with_warnings(data, "mutant", strict=strict).design
    except FileFaults as refusal:
        told = " ".join(fault.message for fault in refusal.faults)
    except StorageError as refusal:
        told = str(refusal)
    assert told
    return None


@pytest.mark.parametrize("first", range(0, NUMBER, BATCH))
@pytest.mark.timeout(36_000)
def test_a_mutant_is_refused_or_analysed(first: int) -> None:
    fates = set()
    for number in range(first, min(first + BATCH, NUMBER)):
        told, data = mutant(number)
        try:
            fates.add(tried(data))
        except Exception as fault:
            raise AssertionError(f"mutant {number}: {told}") from fault
    assert fates <= {"refused", "analysed"}


def test_mutants_are_of_both_sorts_and_made_again_alike() -> None:
    fates = [tried(mutant(number)[1]) for number in range(30)]
    assert set(fates) == {"refused", "analysed"}
    assert mutant(7) == mutant(7)
