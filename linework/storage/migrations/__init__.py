"""Old formats brought up to the newest: pure steps on plain dicts, one module each.

A module ``to_2`` of this folder holds ``step(raw) -> raw`` from format 1 to 2.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from linework.storage.encode import FORMAT
from linework.storage.errors import StorageError
from linework.words import say

NEWEST = FORMAT

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Mapping[int, Step] = {}
"""Format number -> the step from that format to the next."""


def migrated(
    raw: dict[str, Any], name: str, steps: Mapping[int, Step] = STEPS, newest: int = NEWEST
) -> dict[str, Any]:
    """The content in the newest format. StorageError for no format, or one that is newer."""
    number = raw.get("format")
    if type(number) is not int or number < 1:
        raise StorageError(
            say("{name} is no design of this program: it names no format", name=name)
        )
    if number > newest:
        raise StorageError(
            say(
                "{name} has format {number}; this program knows up to {newest}. Open it with a"
                " newer one; it was left untouched",
                name=name,
                number=number,
                newest=newest,
            )
        )
    while number < newest:
        raw = {**steps[number](raw), "format": number + 1}
        number += 1
    return raw
